// The manual page, in the macros of man(7).

#include "foretone/base/text.hpp"
#include "foretone/scene/version.hpp"
#include "manual.hpp"

namespace foretone::cli {
namespace {

// Text as roff sets it: a backslash is spelled, a hyphen stays one that can be searched for, and no line begins a
// request.
std::string roff(const std::string& text) {
    std::string out = base::replaced(base::replaced(text, "\\", "\\e"), "-", "\\-");
    if (!out.empty() && (out[0] == '.' || out[0] == '\'')) out.insert(0, "\\&");
    return base::replaced(out, "\n", " ");
}

std::string heading(const OptionWords& option_words) {
    std::string out;
    for (const auto& name : option_words.names) out += (out.empty() ? "\\fB" : ", \\fB") + roff(name) + "\\fR";
    const std::string value =
        option_words.choices.empty() ? option_words.value : base::joined(option_words.choices, "|");
    if (!value.empty()) out += (out.empty() ? "\\fI" : " \\fI") + roff(value) + "\\fR";
    return out;
}

std::string synopsis(const std::string& words, const CLI::App& verb) {
    std::string out = "\\fBforetone" + (words.empty() ? "" : " " + roff(words)) + "\\fR";
    if (!verbs_of(verb).empty()) out += " \\fIVERB\\fR";
    for (const auto& option_words : options_of(verb)) {
        if (!option_words.names.empty() && !option_words.required) continue;
        out += " " + (option_words.required ? heading(option_words) : "[" + heading(option_words) + "]");
    }
    return out + " [\\fIOPTIONS\\fR]\n";
}

std::string options_text(const CLI::App& verb) {
    std::string out;
    for (const auto& option_words : options_of(verb))
        out += ".TP\n" + heading(option_words) + "\n" + roff(option_words.says) + ".\n";
    return out;
}

}  // namespace

std::string manual_page(const CLI::App& app) {
    std::string out = std::string(".TH FORETONE 1 \"\" \"foretone ") + scene::version + "\" \"User Commands\"\n";
    out += ".SH NAME\nforetone \\- how finished wood will look, before anything touches the wood\n";
    out += ".SH SYNOPSIS\n" + synopsis("", app) + ".SH OPTIONS\n" + options_text(app) + ".SH VERBS\n";
    for (const auto& [words, verb] : all_verbs(app)) {
        if (words.empty()) continue;
        out += ".SS " + roff(words) + "\n" + synopsis(words, *verb) + ".PP\n" + roff(verb->get_description()) + ".\n";
        out += options_text(*verb);
    }
    out += ".SH EXIT STATUS\n.TP\n0\nDone.\n.TP\n1\nThe input is at fault; the message on standard error says where.\n";
    return out + ".TP\n2\nWrong usage.\n";
}

}  // namespace foretone::cli
