#include "usage.hpp"

#include <algorithm>

#include "foretone/scene/problem.hpp"

namespace foretone::cli {
namespace {

std::vector<std::string> verb_names(const CLI::App& app) {
    std::vector<std::string> out;
    for (const auto* verb : app.get_subcommands([](const CLI::App*) { return true; }))
        if (!verb->get_group().empty()) out.push_back(verb->get_name());
    return out;
}

// "--light", "--help": the options that are written with two dashes.
std::vector<std::string> option_names(const CLI::App& app) {
    std::vector<std::string> out;
    for (const auto* option : app.get_options([](const CLI::Option*) { return true; }))
        for (const auto& name : option->get_lnames()) out.push_back("--" + name);
    return out;
}

bool is_among(const std::vector<std::string>& words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// The verb that the arguments come to, and its full name: "mix cut".
struct NamedVerb {
    const CLI::App* app;
    std::string name;
    std::size_t words = 0;  ///< arguments that name it
};

NamedVerb verb_named(const CLI::App& app, const std::vector<std::string>& arguments) {
    NamedVerb at{&app, "", 0};
    while (at.words < arguments.size() && is_among(verb_names(*at.app), arguments[at.words])) {
        at.app = at.app->get_subcommand(arguments[at.words]);
        at.name += (at.name.empty() ? "" : " ") + arguments[at.words++];
    }
    return at;
}

std::string nearest_of(const std::string& read, const std::vector<std::string>& choices) {
    const auto near = scene::nearest(read, choices, 2);
    return near.empty() ? "" : " Did you mean " + scene::either(near) + "?";
}

std::string at_equals(const std::string& argument) { return argument.substr(0, argument.find('=')); }

}  // namespace

std::string usage_words(const CLI::App& app, const CLI::ParseError& error, const std::vector<std::string>& arguments) {
    const auto verb = verb_named(app, arguments);
    const std::string help =
        "\n'foretone " + (verb.name.empty() ? "" : verb.name + " ") + "--help' lists what there is";
    const auto below = verb_names(*verb.app);
    const bool none_given = verb.words >= arguments.size();
    if (verb.name.empty() && none_given)
        return "say what to do, as 'foretone preview SCENE'; 'foretone new' writes a first scene" + help;
    if (verb.words < arguments.size() && !below.empty() && arguments[verb.words].front() != '-')
        return (verb.name.empty() ? "there is no verb '" : verb.name + " has no '") +
               arguments[verb.words].substr(0, 40) + "'." + nearest_of(arguments[verb.words], below) + help;
    auto options = option_names(*verb.app);
    if (verb.app->get_parent() && verb.app->get_fallthrough())
        for (auto& o : option_names(*verb.app->get_parent())) options.push_back(std::move(o));
    for (std::size_t i = verb.words; i < arguments.size(); ++i) {
        const auto name = at_equals(arguments[i]);
        if (name.size() > 2 && name.starts_with("--") && !is_among(options, name))
            return (verb.name.empty() ? "foretone" : verb.name) + " has no option " + name.substr(0, 40) + "." +
                   nearest_of(name, options) + help;
    }
    std::string text = error.what();
    if (text.starts_with("The following argument"))
        text = (verb.name.empty() ? "foretone" : verb.name) + " does not know what to do with" +
               text.substr(text.find(':') + 1);
    else if (!verb.name.empty() && !text.starts_with(verb.name))
        text = verb.name + ": " + text;
    return text + help;
}

}  // namespace foretone::cli
