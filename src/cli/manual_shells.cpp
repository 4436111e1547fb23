// Completions. bash: the words before the cursor pick the verb, the verb its options, an option its choices; where
// there is nothing to offer, files are. zsh: a function a verb, which names its options to _arguments.

#include "foretone/base/text.hpp"
#include "manual.hpp"

namespace foretone::cli {
namespace {

using base::joined;
using base::replaced;

std::string quoted(const std::string& text) { return "'" + replaced(text, "'", "'\\''") + "'"; }

// What may follow `verb`: its own verbs, then the names of its options.
std::string words_after(const CLI::App& verb) {
    std::vector<std::string> words;
    for (const auto* v : verbs_of(verb)) words.push_back(v->get_name());
    for (const auto& option_words : options_of(verb))
        words.insert(words.end(), option_words.names.begin(), option_words.names.end());
    return joined(words, " ");
}

std::string bash_choices(const std::string& words, const CLI::App& verb) {
    std::string out;
    for (const auto& option_words : options_of(verb))
        for (const auto& name : option_words.names)
            if (!option_words.value.empty())
                out += "        " + quoted(words + " " + name) +
                       ") words=" + quoted(joined(option_words.choices, " ")) + " ;;\n";
    return out;
}

// In zsh's specifications brackets and colons mean something.
std::string zsh_text(const std::string& text) {
    return replaced(replaced(replaced(replaced(text, "\\", "\\\\"), "[", "\\["), "]", "\\]"), ":", "\\:");
}

std::string zsh_value(const OptionWords& option_words) {
    const std::string offers = option_words.choices.empty() ? "_files" : "(" + joined(option_words.choices, " ") + ")";
    return ":" + zsh_text(option_words.value) + ":" + offers;
}

std::string zsh_options(const CLI::App& verb) {
    std::string out;
    for (const auto& option_words : options_of(verb)) {
        if (option_words.names.empty()) out += " \\\n        " + quoted(zsh_value(option_words));
        for (const auto& name : option_words.names)
            out += " \\\n        " + quoted(name + "[" + zsh_text(option_words.says) + "]" +
                                            (option_words.value.empty() ? "" : zsh_value(option_words)));
    }
    return out;
}

std::string zsh_name(const std::string& words) {
    return "_foretone" + (words.empty() ? "" : "_" + replaced(replaced(words, " ", "_"), "-", "_"));
}

std::string zsh_verbs(const std::string& words, const CLI::App& app) {
    std::string list, calls;
    for (const auto* verb : verbs_of(app)) {
        const std::string name = verb->get_name();
        list += " \\\n                " + quoted(zsh_text(name) + ":" + verb->get_description());
        calls += "                " + name + ") " + zsh_name((words.empty() ? "" : words + " ") + name) + " ;;\n";
    }
    return "    local state\n    _arguments -C '1: :->verb' '*:: :->rest'" + zsh_options(app) +
           "\n    case $state in\n        verb)\n            local -a verbs=(" + list +
           ")\n            _describe verb verbs ;;\n        rest)\n            case $words[1] in\n" + calls +
           "            esac ;;\n    esac\n";
}

}  // namespace

std::string bash_completion(const CLI::App& app) {
    std::string known, choices, after;
    for (const auto& [words, verb] : all_verbs(app)) {
        if (!words.empty()) known += (known.empty() ? "" : " | ") + quoted(words);
        choices += bash_choices(words, *verb);
        after += "        " + quoted(words) + ") words=" + quoted(words_after(*verb)) + " ;;\n";
    }
    return "# Completion of foretone for bash.\n_foretone() {\n"
           "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} verb= words= longer i\n"
           "    for ((i = 1; i < COMP_CWORD; ++i)); do\n        longer=\"${verb:+$verb }${COMP_WORDS[i]}\"\n"
           "        case \"$longer\" in " +
           known +
           ") verb=$longer ;; esac\n    done\n"
           "    case \"$verb $before\" in\n" +
           choices + "        *)\n    case \"$verb\" in\n" + after +
           "    esac ;;\n    esac\n    COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n}\n"
           "complete -o bashdefault -o default -F _foretone foretone\n";
}

std::string zsh_completion(const CLI::App& app) {
    std::string out = "#compdef foretone\n# Completion of foretone for zsh.\n";
    for (const auto& [words, verb] : all_verbs(app)) {
        out += zsh_name(words) + "() {\n";
        out += verbs_of(*verb).empty() ? "    _arguments" + zsh_options(*verb) + "\n" : zsh_verbs(words, *verb);
        out += "}\n";
    }
    return out + "_foretone \"$@\"\n";
}

}  // namespace foretone::cli
