#include "xml.hpp"

namespace foretone::format {
namespace {

bool control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }

}  // namespace

std::string xml_text(std::string_view text) {
    std::string out;
    for (const char c : text) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            case '\'':
                out += "&apos;";
                break;
            default:
                out += control(c) ? ' ' : c;
        }
    }
    return out;
}

std::string xml_comment(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '-' && !out.empty() && out.back() == '-') out += ' ';
        out += control(c) && c != '\n' ? ' ' : c;
    }
    if (!out.empty() && out.back() == '-') out += ' ';
    return out;
}

std::string xml_name(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'), digit = c >= '0' && c <= '9';
        if (digit && out.empty()) out += '_';
        out += letter || digit ? c : '_';
    }
    return out.empty() ? "material" : out;
}

}  // namespace foretone::format
