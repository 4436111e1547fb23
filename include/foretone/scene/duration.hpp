#pragma once
/// Times as a finisher says them: "1 month", "18 months", "5 years".

#include <optional>
#include <string>
#include <string_view>

namespace foretone::scene {

/// A time after the finish was done.
struct Duration {
    std::string text;  ///< as it was said
    double days = 0;
};

inline constexpr double most_years = 100;

/// A number (0 to 100 years) and one of day, week, month, year, in any number. A month is a twelfth of 365.25 days, so
/// that twelve of them are a year. Nothing for any other text.
std::optional<Duration> duration_from(std::string_view text);

/// What `duration_from` takes, for messages.
std::string duration_words();

}  // namespace foretone::scene
