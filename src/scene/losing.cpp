#include "losing.hpp"

#include <array>
#include <fstream>
#include <string_view>
#include <utility>

#include <fmt/core.h>

#include "foretone/base/utf8.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {
namespace {
using namespace std::string_view_literals;

constexpr std::size_t looked_at = 65536;  // bytes; every format says in them who wrote it

// How a file of each kind begins, and what in its beginning says that this program wrote it.
constexpr std::array<std::pair<std::string_view, std::string_view>, 11> marks = {{
    {"\x89PNG\r\n", "Software\0foretone"sv},
    {"{", "\"name\": \"foretone\""},
    {"{", "\"generator\": \"foretone "},
    {"<!DOCTYPE html>", "name=\"generator\" content=\"foretone\""},
    {"<?xml", "from foretone "},
    {"%PDF-", "\n% foretone\n"},
    {"\x76\x2f\x31\x01", "foretone "},
    {"CGATS", "ORIGINATOR \"foretone "},
    {"<!-- written by foretone ", ""},
    {"# written by foretone ", ""},
    {"BEGIN:VCALENDAR", "PRODID:-//foretone//"},
}};

std::string beginning_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::string begin(looked_at, '\0');
    in.read(begin.data(), static_cast<std::streamsize>(begin.size()));
    begin.resize(static_cast<std::size_t>(in.gcount()));
    return begin;
}

// The first words of a text, as far as they can be shown: "format = 1".
std::string first_words(std::string_view begin) {
    std::string out;
    for (std::size_t at = 0, shown = 0; at < begin.size() && shown < 40; ++shown) {
        const std::size_t from = at;
        const char32_t point = base::next_code_point(begin, at);
        if (point == '\n' || point == '\r') break;
        if (base::is_control(point) || point == 0xFFFD) return "";
        out += begin.substr(from, at - from);
    }
    return out;
}

std::string described(const Destination& target, const std::string& begin) {
    std::string out = fmt::format("{} bytes", target.there->st_size);
    if (const auto words = first_words(begin); !words.empty()) out += ", beginning \"" + words + "\"";
    return out;
}

}  // namespace

bool made_here(std::string_view begin) {
    if (begin.empty()) return true;
    begin = begin.substr(0, looked_at);
    for (const auto& [start, mark] : marks)
        if (begin.starts_with(start) && begin.find(mark) != std::string_view::npos) return true;
    return false;
}

void require_no_loss(const std::filesystem::path& path, const Destination& target, const WriteRules& rules) {
    if (rules.replace || !target.there || target.stream()) return;
    const auto begin = beginning_of(target.path);
    for (const auto& input : rules.inputs)
        if (target.same_as(destination_of(input)))
            throw InputError("out-is-input", {path.string()},
                             "this run reads this file (" + described(target, begin) +
                                 "), and writing its result here would lose it; choose another name, or say --replace");
    if (!made_here(begin))
        throw InputError("out-not-ours", {path.string()},
                         "a file that foretone has not written stands there (" + described(target, begin) +
                             ") and would be lost; choose another name, move it away, or say --replace");
}

}  // namespace foretone::scene
