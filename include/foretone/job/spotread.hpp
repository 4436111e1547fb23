#pragma once
/// What the program spotread says while a person reads boards with it, cut into what matters.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace foretone::job {

struct Heard {
    enum class Kind {
        ready,    ///< it waits for the next spot
        tile,     ///< it waits for its white tile (or another place it names in `text`)
        reading,  ///< `text` is a result as printed, with its spectrum
        misread,  ///< a spot was not read; it waits for a key to try again. `text` says why
        waits     ///< it waits for something else: `text` is what it asks
    };
    Kind kind;
    std::string text;
};

/// Takes the output of spotread 2.3 as it comes, in pieces of any size.
class SpotreadEar {
public:
    std::vector<Heard> hear(std::string_view piece);
    /// Nothing was said for a while: what was not understood may be a question.
    std::optional<Heard> silence();
    /// What was said last and not understood, one line.
    std::string last_words() const;

private:
    std::optional<Heard> next();
    std::string text_;
};

}  // namespace foretone::job
