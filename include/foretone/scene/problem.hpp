#pragma once
/// Everything said about a file at fault: where, what was read, what would be right.

#include <cstddef>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace foretone::scene {

/// A place in a file; line and column count from 1, 0 if there is none.
struct Place {
    std::string file;
    std::size_t line = 0, column = 0;

    std::string text() const;  ///< "file:line:column", as far as known
};

/// One thing wrong (or, as a warning, one thing worth knowing). `id` never changes its meaning.
struct Problem {
    std::string id;
    Place place;
    std::string text;
};

/// The input is at fault; `what()` is all problems, one a line.
struct InputError : std::runtime_error {
    explicit InputError(std::vector<Problem> found);
    InputError(std::string id, Place place, std::string text);
    std::vector<Problem> problems;
};

/// Collects problems, so that a file's faults are told together.
class Problems {
public:
    void add(std::string id, Place place, std::string text) {
        list_.push_back({std::move(id), std::move(place), std::move(text)});
    }
    bool empty() const { return list_.empty(); }
    const std::vector<Problem>& list() const { return list_; }
    /// The table that begins at `table` holds the unknown key `read`: what it lacks may be what that was meant to be.
    void misspelt(const Place& table, std::string read) { misspelt_.push_back({table, std::move(read)}); }
    /// Throws InputError with what was collected, one message a cause (see `causes`); returns if nothing was.
    void raise() const;

private:
    struct Misspelt {
        Place table;
        std::string read;
    };
    /// Without what only follows from a misspelt key, and the same message once, with the other places in it.
    std::vector<Problem> causes() const;
    bool follows(const Problem& problem) const;

    std::vector<Problem> list_;
    std::vector<Misspelt> misspelt_;
};

/// The (at most `most`) choices nearest to `read`, nearest first: by edit distance, containing words before others.
std::vector<std::string> nearest(std::string_view read, const std::vector<std::string>& choices, std::size_t most = 3);

/// " Did you mean a, b or c?" for a misspelt choice, or the whole list if it is short.
std::string suggestion(std::string_view read, const std::vector<std::string>& choices);

/// "a, b or c"
std::string either(const std::vector<std::string>& words);

}  // namespace foretone::scene
