#include "foretone/scene/names.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>

#include <fmt/core.h>

#include "foretone/base/checksum.hpp"
#include "foretone/base/utf8.hpp"
#include "foretone/scene/scene.hpp"

namespace foretone::scene {
namespace {

constexpr std::size_t longest_word = 60;  // bytes; two words and a kind stay under the 255 of a file name

struct CodeRange {
    char32_t first, last;
};

// Beyond ASCII everything is taken for a letter, but for these: punctuation, blanks, signs, pictures, private use.
constexpr CodeRange no_letters[] = {
    {0x80, 0xA9},     {0xAB, 0xB1},     {0xB4, 0xB4},     {0xB6, 0xB8},     {0xBB, 0xBF},       {0xD7, 0xD7},
    {0xF7, 0xF7},     {0x1680, 0x1680}, {0x2000, 0x206F}, {0x20A0, 0x20CF}, {0x2190, 0x2BFF},   {0x2E00, 0x2E7F},
    {0x3000, 0x3004}, {0x3008, 0x3020}, {0x30FB, 0x30FB}, {0xD800, 0xF8FF}, {0xFE00, 0xFE4F},   {0xFEFF, 0xFF0F},
    {0xFF1A, 0xFF20}, {0xFF3B, 0xFF40}, {0xFF5B, 0xFF65}, {0xFFE0, 0xFFFF}, {0x1F000, 0x1FAFF}, {0xE0000, 0x10FFFF}};

bool is_letter(char32_t p) {
    if (p < 0x80) return (p >= 'a' && p <= 'z') || (p >= 'A' && p <= 'Z') || (p >= '0' && p <= '9');
    return std::none_of(std::begin(no_letters), std::end(no_letters),
                        [p](const CodeRange& r) { return p >= r.first && p <= r.last; });
}

// FNV-1a, stirred so that the first digits hold all of it: the same on every machine, and one name in 65,000 has the
// four digits of another.
std::string checksum(std::string_view name, int digits) {
    std::uint64_t sum = base::fnv1a(name);
    sum = (sum ^ (sum >> 32)) * 0x9E3779B97F4A7C15ull;
    sum ^= sum >> 29;
    return fmt::format("{:016x}", sum).substr(0, static_cast<std::size_t>(digits));
}

// The words of different names: by checksums of `digits` where names share one.
std::map<std::string, std::string> words_with(const std::set<std::string>& names, const std::set<std::string>& taken,
                                              int digits) {
    std::map<std::string, int> sharing;
    for (const auto& word : taken) sharing[word] += 1;
    for (const auto& name : names) sharing[file_word(name)] += 1;
    std::map<std::string, std::string> out;
    for (const auto& name : names) {
        std::string word = file_word(name);
        const bool its_own = word == name && !taken.count(word);
        if (sharing[word] > 1 && !its_own) word += "-" + checksum(name, digits);
        out[name] = std::move(word);
    }
    return out;
}

bool apart(const std::map<std::string, std::string>& words, const std::set<std::string>& taken) {
    std::set<std::string> seen = taken;
    return std::all_of(words.begin(), words.end(), [&](const auto& pair) { return seen.insert(pair.second).second; });
}

}  // namespace

std::string file_word(std::string_view name) {
    std::string out;
    for (std::size_t at = 0; at < name.size() && out.size() < longest_word;) {
        const std::size_t begin = at;
        const char32_t point = base::next_code_point(name, at);
        if (is_letter(point)) {
            if (out.size() + at - begin > longest_word) break;
            out += point < 0x80 ? std::string(1, static_cast<char>(point >= 'A' && point <= 'Z' ? point + 32 : point))
                                : std::string(name.substr(begin, at - begin));
        } else if (!out.empty() && out.back() != '-') {
            out += '-';
        }
    }
    while (!out.empty() && out.back() == '-') out.pop_back();
    return out.empty() ? "finish" : out;
}

std::string file_stem(const std::filesystem::path& file) {
    const auto stem = file.stem().string();
    const bool plain = !stem.empty() && stem.size() <= 2 * longest_word && stem[0] != '.' && stem[0] != '-' &&
                       !base::has_control(stem);
    return plain ? stem : file_word(stem) + "-" + checksum(stem, 4);
}

std::map<std::string, std::string> finish_words(const Scene& scene) {
    // What stands behind a scene's name where it is not a finish's.
    std::vector<std::string> taken = {"bare",  "match",      "coats",    "fields",       "palette",
                                      "photo", "photo-bare", "sheet-a4", "sheet-letter", "overview"};
    // What may stand behind a finish's word: "dye pair" is not to be named as the pair of "dye".
    std::vector<std::string> kinds = {"pair", "window", "lamp", "flat", "tilt", "card", "openpbr-base"};
    for (const auto& light : file_words(scene.look.lights)) kinds.push_back(light);
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    auto words = file_words(names, taken);
    for (const auto& word : std::set<std::string>(words.begin(), words.end()))
        for (const auto& kind : kinds) taken.push_back(word + "-" + kind);
    words = file_words(names, taken);
    std::map<std::string, std::string> out = {{"bare", "bare"}};
    for (std::size_t i = 0; i < names.size(); ++i) out.emplace(names[i], words[i]);
    return out;
}

std::vector<std::string> file_words(const std::vector<std::string>& names, const std::vector<std::string>& taken) {
    const std::set<std::string> different(names.begin(), names.end()), gone(taken.begin(), taken.end());
    int digits = 4;
    auto words = words_with(different, gone, digits);
    while (!apart(words, gone) && digits < 16) words = words_with(different, gone, digits += 4);
    std::set<std::string> used = gone;
    std::vector<std::string> out;
    for (const auto& name : names) {
        std::string word = words.at(name);
        for (int n = 2; !used.insert(word).second; ++n) word = words.at(name) + "-" + std::to_string(n);
        out.push_back(std::move(word));
    }
    return out;
}

}  // namespace foretone::scene
