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

std::string heading(const Told& told) {
    std::string out;
    for (const auto& name : told.names) out += (out.empty() ? "\\fB" : ", \\fB") + roff(name) + "\\fR";
    const std::string value = told.choices.empty() ? told.value : base::joined(told.choices, "|");
    if (!value.empty()) out += (out.empty() ? "\\fI" : " \\fI") + roff(value) + "\\fR";
    return out;
}

std::string synopsis(const std::string& words, const CLI::App& verb) {
    std::string out = "\\fBforetone" + (words.empty() ? "" : " " + roff(words)) + "\\fR";
    if (!verbs_of(verb).empty()) out += " \\fIVERB\\fR";
    for (const auto& told : options_of(verb)) {
        if (!told.names.empty() && !told.required) continue;
        out += " " + (told.required ? heading(told) : "[" + heading(told) + "]");
    }
    return out + " [\\fIOPTIONS\\fR]\n";
}

std::string options_text(const CLI::App& verb) {
    std::string out;
    for (const auto& told : options_of(verb)) out += ".TP\n" + heading(told) + "\n" + roff(told.says) + ".\n";
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
