#pragma once
/// The clock of the shop: when a coat goes on, if it may only be put on while the shop is open.

#include <optional>
#include <string>
#include <vector>

#include "foretone/schedule/system.hpp"
#include "foretone/schedule/timeline.hpp"

namespace foretone::job {

/// When the shop is open, in minutes after midnight.
struct ShopHours {
    int open_min = 0, close_min = 24 * 60;
    bool weekends = true;

    bool always() const { return open_min == 0 && close_min == 24 * 60 && weekends; }
};

/// A coat is begun at the latest so long before the shop closes (common practice).
inline constexpr int last_start_min = 30;

/// Reads "8-17", "8:30-17:00" or "8am-5pm". Throws InputError hours-syntax.
ShopHours read_hours(const std::string& text);

/// A point in time `hours` after `start`. Metric: "2026-03-02 08:00"; US: "Mon 3/2/2026 8:00 AM"; if `start` is empty
/// "day 3, +04:30". `start` is written in either way. Throws InputError start-syntax.
std::string moment(const std::string& start, double hours, schedule::UnitSystem system = schedule::UnitSystem::metric);

/// Minutes since 1970 of a start as written, none if it is empty. Throws InputError start-syntax.
std::optional<long> minute_of(const std::string& start);

/// Moves each coat to the first time at which the shop is open and the coat below has waited as long as it did; coats
/// dry while it is closed. Without a start the first coat goes on as the shop opens on day 1, and no day is a Sunday.
/// Adds to `notes` where a window shuts over it.
void keep_hours(schedule::Timeline& timeline, const std::string& start, const ShopHours& hours,
                std::vector<std::string>& notes);

}  // namespace foretone::job
