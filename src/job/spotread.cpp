// Prompts are known by how they end, as version 2.3.1 prints them:
//
//   ... or any other key to take a reading:        it waits for a spot
//   ... and then hit any key to continue,
//    or hit Esc or Q to abort:                     it waits for its tile; where, stands before
//   Spot read failed due to misread (...)
//   Hit Esc or Q to give up, any other key to retry:
//   Spectrum from 380.000 to 730.000 nm in 36 steps, the values, Result is XYZ: ...
//
// Whichever stands first in what was heard comes first; what stands before it goes with it.

#include "foretone/job/spotread.hpp"

#include <algorithm>
#include <array>

#include "foretone/base/text.hpp"

namespace foretone::job {
namespace {

constexpr std::size_t most_kept = 65536;  // bytes that were not understood

struct Ending {
    Heard::Kind kind;
    std::string_view words;  // in lower case
};
constexpr std::array<Ending, 5> endings = {{{Heard::Kind::ready, "to take a reading:"},
                                            {Heard::Kind::tile, "or hit esc or q to abort:"},
                                            {Heard::Kind::misread, "any other key to retry:"},
                                            {Heard::Kind::misread, "or esc or q to abort:"},
                                            {Heard::Kind::waits, "any other key to use reading:"}}};

// Of several lines those that say something, joined to one.
std::string one_line(std::string_view text) {
    std::string out;
    for (const auto& line : base::split(base::replaced(std::string(text), "\r", "\n"), '\n')) {
        const auto words = base::trimmed(line);
        if (!words.empty()) out += (out.empty() ? "" : " ") + std::string(words);
    }
    return out;
}

// The last paragraph, before the words of the prompt itself, which are spotread's keys and not ours.
std::string before_keys(std::string_view text) {
    auto whole = base::replaced(std::string(text), "\r", "");
    while (!whole.empty() && whole.front() == '\n') whole.erase(0, 1);
    const auto paragraph = whole.rfind("\n\n");
    auto line = one_line(paragraph == std::string::npos ? whole : whole.substr(paragraph));
    const auto low = base::lower(line);
    for (const std::string_view keys : {"and then hit any key", "hit any key", "hit esc or q"})
        if (const auto at = low.find(keys); at != std::string::npos) line.resize(std::min(line.size(), at));
    while (!line.empty() && (line.back() == ' ' || line.back() == ',')) line.pop_back();
    return line;
}

// The result's line and the spectrum before it.
std::string reading_in(std::string_view text) {
    const auto low = base::lower(text);
    const auto spectrum = low.rfind("spectrum from "), result = low.rfind("result is ");
    const auto from = spectrum != std::string::npos && spectrum < result ? spectrum : result;
    std::string out;
    for (const auto& line : base::split(base::replaced(std::string(text.substr(from)), "\r", ""), '\n'))
        if (!base::trimmed(line).empty()) out += std::string(base::trimmed(line)) + "\n";
    return out;
}

}  // namespace

std::optional<Heard> SpotreadEar::next() {
    const auto low = base::lower(text_);
    std::size_t first = std::string::npos, end = 0;
    Heard out{Heard::Kind::waits, ""};
    for (const auto& e : endings)
        if (const auto at = low.find(e.words); at < first) {
            first = at;
            end = at + e.words.size();
            out.kind = e.kind;
        }
    const auto result = low.find("result is ");
    const auto line_end = result == std::string::npos ? result : low.find('\n', result);
    if (line_end != std::string::npos && result < first) {
        out = {Heard::Kind::reading, reading_in(std::string_view(text_).substr(0, line_end))};
        text_.erase(0, line_end + 1);
        return out;
    }
    if (first == std::string::npos) return std::nullopt;
    out.text = before_keys(std::string_view(text_).substr(0, end));
    text_.erase(0, end);
    return out;
}

std::vector<Heard> SpotreadEar::hear(std::string_view piece) {
    text_ += piece;
    std::vector<Heard> out;
    while (auto heard = next()) out.push_back(std::move(*heard));
    if (text_.size() > most_kept) text_.erase(0, text_.size() - most_kept);
    return out;
}

std::optional<Heard> SpotreadEar::silence() {
    const auto words = one_line(text_);
    if (words.empty() || (words.back() != ':' && words.back() != '?')) return std::nullopt;
    text_.clear();
    return Heard{Heard::Kind::waits, words};
}

std::string SpotreadEar::last_words() const {
    const auto words = one_line(text_);
    return words.size() > 300 ? words.substr(words.size() - 300) : words;
}

}  // namespace foretone::job
