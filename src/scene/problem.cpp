#include "foretone/scene/problem.hpp"

#include <algorithm>
#include <numeric>

#include "foretone/base/text.hpp"

namespace foretone::scene {
namespace {

std::string joined(const std::vector<Problem>& problems) {
    std::string text;
    for (const auto& p : problems) {
        if (!text.empty()) text += '\n';
        text += p.place.text() + ": " + p.text + " [" + p.id + "]";
    }
    return text;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i - 1] != b[j - 1]);
            diagonal = row[j];
            row[j] = std::min({replaced, row[j] + 1, row[j - 1] + 1});
        }
    }
    return row.back();
}

// Is a word of the text, of three letters and more, a letter or two from what was read?
bool near_a_word(const std::string& read, std::string_view text) {
    std::string word;
    for (std::size_t i = 0; i <= text.size() && i < 400; ++i) {
        const char c = i < text.size() ? text[i] : ' ';
        if ((c >= 'a' && c <= 'z') || c == '_') {
            word += c;
            continue;
        }
        // Of short words two letters are nearly all: one is allowed.
        const std::size_t allowed = std::min(read.size(), word.size()) < 5 ? 1 : 2;
        if (word.size() > 2 && edit_distance(read.substr(0, 64), word) <= allowed) return true;
        word.clear();
    }
    return false;
}

}  // namespace

std::string Place::text() const {
    if (line == 0) return file;
    return file + ":" + std::to_string(line) + ":" + std::to_string(column);
}

InputError::InputError(std::vector<Problem> found) : std::runtime_error(joined(found)), problems(std::move(found)) {}

InputError::InputError(std::string id, Place place, std::string text)
    : InputError(std::vector<Problem>{{std::move(id), std::move(place), std::move(text)}}) {}

// A table that lacks a key, and holds one that is nearly it, has one fault.
bool Problems::follows(const Problem& problem) const {
    if (!problem.id.ends_with("-missing") && !problem.id.ends_with("-empty")) return false;
    return std::any_of(misspelt_.begin(), misspelt_.end(), [&](const Misspelt& m) {
        if (m.table.file != problem.place.file) return false;
        const bool whole_file = m.table.line <= 1 && problem.id == "finish-empty";
        return whole_file || (m.table.line == problem.place.line && near_a_word(m.read, problem.text));
    });
}

std::vector<Problem> Problems::causes() const {
    std::vector<Problem> out;
    std::vector<std::vector<std::string>> also;
    for (const auto& p : list_) {
        if (follows(p)) continue;
        const auto same = std::find_if(out.begin(), out.end(), [&](const Problem& o) {
            return o.id == p.id && o.text == p.text && o.place.file == p.place.file;
        });
        if (same == out.end()) {
            out.push_back(p);
            also.emplace_back();
        } else if (p.place.line != same->place.line) {
            also[static_cast<std::size_t>(same - out.begin())].push_back(std::to_string(p.place.line));
        }
    }
    for (std::size_t i = 0; i < out.size(); ++i) {
        if (also[i].empty()) continue;
        if (also[i].size() > 6) also[i] = {also[i][0], also[i][1], std::to_string(also[i].size() - 2) + " more places"};
        out[i].text +=
            (also[i].size() > 1 ? " (also in lines " : " (also in line ") + base::joined(also[i], ", ", " and ") + ")";
    }
    return out;
}

void Problems::raise() const {
    if (!list_.empty()) throw InputError(causes());
}

std::vector<std::string> nearest(std::string_view read, const std::vector<std::string>& choices, std::size_t most) {
    std::vector<std::pair<std::size_t, std::string>> scored;
    const std::string head = base::replaced(std::string(read.substr(0, 64)), " ", "-");  // a runaway name by its start
    const std::size_t farthest = 1 + std::max<std::size_t>(2, head.size() / 2);
    for (const auto& c : choices) {
        const bool within = !head.empty() && (c.find(head) != std::string::npos || head.find(c) != std::string::npos);
        const std::size_t longer = std::max(head.size(), c.size()) - std::min(head.size(), c.size());
        if (!within && 1 + longer > farthest) continue;  // no distance is less than what the lengths differ by
        scored.emplace_back(head == c ? 0 : within ? 1 : 1 + edit_distance(head, c), c);
    }
    std::stable_sort(scored.begin(), scored.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::string> out;
    for (const auto& [score, c] : scored)
        if (out.size() < most && score <= farthest && std::find(out.begin(), out.end(), c) == out.end())
            out.push_back(c);
    return out;
}

std::string either(const std::vector<std::string>& words) { return base::joined(words, ", ", " or "); }

std::string suggestion(std::string_view read, const std::vector<std::string>& choices) {
    const auto near = nearest(read, choices);
    if (choices.size() <= 8 || (near.empty() && choices.size() <= 16)) return " Valid: " + either(choices) + ".";
    return near.empty() ? "" : " Did you mean " + either(near) + "?";
}

}  // namespace foretone::scene
