#include "manual.hpp"

#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/base/text.hpp"

namespace foretone::cli {
namespace {

// "CUT:{flat,quarter,rift}" has a value and its choices.
void take_type(const std::string& type, OptionWords& option_words) {
    const auto brace = type.find('{');
    option_words.value = type.substr(0, std::min(brace, type.find(':')));
    if (brace == std::string::npos) return;
    option_words.choices = base::split(std::string_view(type).substr(brace + 1, type.find('}') - brace - 1), ',');
}

OptionWords words_of_option(const CLI::Option& option) {
    OptionWords option_words;
    for (const auto& name : option.get_snames()) option_words.names.push_back("-" + name);
    for (const auto& name : option.get_lnames()) option_words.names.push_back("--" + name);
    if (option.get_items_expected_max() > 0) take_type(option.get_type_name(), option_words);
    if (option.get_positional()) option_words.value = option.get_name(true);
    option_words.says = option.get_description();
    option_words.required = option.get_required();
    return option_words;
}

void collect(const CLI::App& app, const std::string& words, std::vector<std::pair<std::string, const CLI::App*>>& out) {
    out.emplace_back(words, &app);
    for (const auto* verb : verbs_of(app)) collect(*verb, (words.empty() ? "" : words + " ") + verb->get_name(), out);
}

}  // namespace

std::vector<OptionWords> options_of(const CLI::App& verb) {
    std::vector<OptionWords> arguments, options;
    for (const auto* option : verb.get_options())
        (option->get_positional() ? arguments : options).push_back(words_of_option(*option));
    arguments.insert(arguments.end(), options.begin(), options.end());
    return arguments;
}

std::vector<const CLI::App*> verbs_of(const CLI::App& app) {
    return app.get_subcommands([](const CLI::App* verb) { return !verb->get_group().empty(); });
}

std::vector<std::pair<std::string, const CLI::App*>> all_verbs(const CLI::App& app) {
    std::vector<std::pair<std::string, const CLI::App*>> out;
    collect(app, "", out);
    return out;
}

void add_manual(CLI::App& app, Verb& chosen) {
    auto form = std::make_shared<std::string>();
    auto* verb = app.add_subcommand("manual", "The manual page, or a shell's completion, on standard output");
    verb->group("");
    verb->add_option("FORM", *form, "man, bash or zsh")->required()->check(CLI::IsMember({"man", "bash", "zsh"}));
    verb->callback([form, &app, &chosen] {
        chosen = [form, &app] {
            std::cout << (*form == "man"    ? manual_page(app)
                          : *form == "bash" ? bash_completion(app)
                                            : zsh_completion(app));
            return 0;
        };
    });
}

}  // namespace foretone::cli
