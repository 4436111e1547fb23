#include "foretone/scene/duration.hpp"

#include <cmath>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/material/exposure.hpp"

namespace foretone::scene {

std::optional<Duration> duration_from(std::string_view text) {
    const auto space = text.find(' ');
    if (space == std::string_view::npos) return std::nullopt;
    const auto number = base::number_in(text.substr(0, space));
    std::string unit = base::lower(std::string(text.substr(space + 1)));
    if (unit.size() > 1 && unit.back() == 's') unit.pop_back();
    const double days = unit == "day"     ? 1
                        : unit == "week"  ? 7
                        : unit == "month" ? material::days_a_year / 12
                        : unit == "year"  ? material::days_a_year
                                          : 0;
    if (!number || !(days > 0) || !(*number >= 0)) return std::nullopt;
    const double all = *number * days;
    if (!(all <= most_years * material::days_a_year)) return std::nullopt;
    return Duration{std::string(text), all};
}

std::string duration_words() {
    return "a number and day, week, month or year, such as \"1 month\", \"18 months\" or \"5 years\", at most 100 "
           "years";
}

}  // namespace foretone::scene
