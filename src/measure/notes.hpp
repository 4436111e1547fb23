#pragma once
/// Collects what is told once: the first place of each kind, and how many more there were.

#include <vector>

#include "foretone/measure/reading.hpp"

namespace foretone::measure {

class Notes {
public:
    void add(const std::string& id, std::size_t line, std::size_t column, const std::string& text) {
        for (auto& [note, more] : list_)
            if (note.id == id) {
                ++more;
                return;
            }
        list_.push_back({{id, line, column, text}, 0});
    }

    /// In the order in which they came up.
    std::vector<Note> list() const {
        std::vector<Note> out;
        for (const auto& [note, more] : list_) {
            out.push_back(note);
            if (more > 0) out.back().text += " (and " + std::to_string(more) + " more of the kind)";
        }
        return out;
    }

private:
    struct Counted {
        Note note;
        std::size_t more;
    };
    std::vector<Counted> list_;
};

}  // namespace foretone::measure
