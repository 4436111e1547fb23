// Dates are days since 1970 of the proleptic Gregorian calendar (std::chrono); the clock is the shop's own, without
// zones or summer time.

#include "foretone/job/clock.hpp"

#include <array>
#include <chrono>
#include <cmath>

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::job {
namespace {
namespace ch = std::chrono;

constexpr int day_min = 24 * 60;
constexpr std::array<const char*, 7> day_words = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};

// Reads digits from `text` at `at`, at most `most` of them; nothing if there is none.
std::optional<int> whole_at(std::string_view text, std::size_t& at, std::size_t most) {
    int v = 0;
    const std::size_t from = at;
    while (at < text.size() && at < from + most && text[at] >= '0' && text[at] <= '9') v = v * 10 + (text[at++] - '0');
    return at == from ? std::nullopt : std::optional(v);
}

bool take_char(std::string_view text, std::size_t& at, char due) {
    if (at >= text.size() || text[at] != due) return false;
    ++at;
    return true;
}

void skip_blanks(std::string_view text, std::size_t& at) {
    while (at < text.size() && text[at] == ' ') ++at;
}

// "8", "8:30", "8am", "8:30 PM" in minutes after midnight.
std::optional<int> clock_at(std::string_view text, std::size_t& at, bool needs_half) {
    const auto hour = whole_at(text, at, 2);
    if (!hour) return std::nullopt;
    int minute = 0;
    if (take_char(text, at, ':')) {
        const auto m = whole_at(text, at, 2);
        if (!m || *m > 59) return std::nullopt;
        minute = *m;
    }
    std::size_t after = at;
    skip_blanks(text, after);
    const auto half = base::lower(text.substr(after, 2));
    if (half == "am" || half == "pm") {
        at = after + 2;
        if (*hour < 1 || *hour > 12) return std::nullopt;
        return (*hour % 12 + (half == "pm" ? 12 : 0)) * 60 + minute;
    }
    if (needs_half || *hour > 24 || *hour * 60 + minute > day_min) return std::nullopt;
    return *hour * 60 + minute;
}

std::optional<long> from_date(int year, int month, int day, std::optional<int> clock) {
    const ch::year_month_day date{ch::year(year), ch::month(static_cast<unsigned>(month)),
                                  ch::day(static_cast<unsigned>(day))};
    if (!date.ok() || !clock || *clock >= day_min) return std::nullopt;
    return static_cast<long>(ch::sys_days(date).time_since_epoch().count()) * day_min + *clock;
}

// "2026-03-02 08:00", with a T or a blank.
std::optional<long> written_by_year(std::string_view t) {
    std::size_t at = 0;
    const auto y = whole_at(t, at, 4);
    if (!y || at != 4 || !take_char(t, at, '-')) return std::nullopt;
    const auto m = whole_at(t, at, 2);
    if (!m || at != 7 || !take_char(t, at, '-')) return std::nullopt;
    const auto d = whole_at(t, at, 2);
    if (!d || at != 10 || (!take_char(t, at, ' ') && !take_char(t, at, 'T'))) return std::nullopt;
    if (t.size() != 16 || t[13] != ':') return std::nullopt;
    const auto clock = clock_at(t, at, false);
    return at == t.size() ? from_date(*y, *m, *d, clock) : std::nullopt;
}

// "3/2/2026 8:00 AM", with or without the day of the week: month first, as AM or PM tell.
std::optional<long> written_by_month(std::string_view t) {
    std::size_t at = 0;
    for (const std::string_view word : day_words)
        if (t.starts_with(word)) at = word.size();
    skip_blanks(t, at);
    const auto m = whole_at(t, at, 2);
    if (!m || !take_char(t, at, '/')) return std::nullopt;
    const auto d = whole_at(t, at, 2);
    if (!d || !take_char(t, at, '/')) return std::nullopt;
    const auto y = whole_at(t, at, 4);
    skip_blanks(t, at);
    if (!y || *y < 1900) return std::nullopt;
    const auto clock = clock_at(t, at, true);
    return at == t.size() ? from_date(*y, *m, *d, clock) : std::nullopt;
}

long floor_day(long minutes) { return minutes >= 0 ? minutes / day_min : -((-minutes + day_min - 1) / day_min); }

// 1970-01-01 was a Thursday.
int weekday(long day) { return static_cast<int>(((day + 4) % 7 + 7) % 7); }

long next_open(long minute, const ShopHours& hours, bool dated) {
    for (int tries = 0; tries < 20; ++tries) {
        const long day = floor_day(minute);
        const long clock = minute - day * day_min;
        const bool off = dated && !hours.weekends && (weekday(day) == 0 || weekday(day) == 6);
        if (!off && clock < hours.open_min) return day * day_min + hours.open_min;
        const int last = hours.close_min == day_min ? day_min : hours.close_min - last_start_min;
        if (!off && clock <= last) return minute;
        minute = (day + 1) * day_min;
    }
    return minute;
}

}  // namespace

std::optional<long> minute_of(const std::string& start) {
    if (start.empty()) return std::nullopt;
    if (const auto v = written_by_year(start)) return v;
    if (const auto v = written_by_month(start)) return v;
    throw scene::InputError("start-syntax", {"--start"},
                            "'" + start.substr(0, 40) + "' is no time: write 2026-03-02 08:00 or 3/2/2026 8:00 AM");
}

std::string moment(const std::string& start, double hours, schedule::UnitSystem system) {
    const auto minutes = static_cast<long>(std::lround(hours * 60));
    const auto from = minute_of(start);
    if (!from) {
        const long rest = minutes % day_min;
        return fmt::format("day {}, +{:02}:{:02}", minutes / day_min + 1, rest / 60, rest % 60);
    }
    const long at = *from + minutes, day = floor_day(at);
    const int clock = static_cast<int>(at - day * day_min);
    const ch::year_month_day ymd{ch::sys_days(ch::days(day))};
    const auto y = static_cast<int>(ymd.year());
    const auto m = static_cast<unsigned>(ymd.month()), d = static_cast<unsigned>(ymd.day());
    if (system == schedule::UnitSystem::us)
        return fmt::format("{} {}/{}/{} {}:{:02} {}", day_words[static_cast<std::size_t>(weekday(day))], m, d, y,
                           (clock / 60 + 11) % 12 + 1, clock % 60, clock < day_min / 2 ? "AM" : "PM");
    return fmt::format("{}-{:02}-{:02} {:02}:{:02}", y, m, d, clock / 60, clock % 60);
}

ShopHours read_hours(const std::string& text) {
    std::size_t at = 0;
    const std::string_view t = base::trimmed(text);
    const auto open = clock_at(t, at, false);
    skip_blanks(t, at);
    const bool dash = take_char(t, at, '-');
    skip_blanks(t, at);
    const auto close = dash ? clock_at(t, at, false) : std::nullopt;
    if (!open || !close || at != t.size() || *close < *open + 2 * last_start_min)
        throw scene::InputError(
            "hours-syntax", {"--hours"},
            "'" + text.substr(0, 40) + "' is no span of a day: write 8-17, 8:30-17:00 or 8am-5pm, an hour at least");
    ShopHours out;
    out.open_min = *open;
    out.close_min = *close;
    return out;
}

void keep_hours(schedule::Timeline& timeline, const std::string& start, const ShopHours& hours,
                std::vector<std::string>& notes) {
    if (hours.always() || timeline.coats.empty()) return;
    const auto from = minute_of(start);
    const long zero = from.value_or(hours.open_min);
    const double dry = timeline.elapsed_h - timeline.coats.back().at_h;
    double was = timeline.coats.front().at_h, now = was;
    for (std::size_t i = 0; i < timeline.coats.size(); ++i) {
        auto& coat = timeline.coats[i];
        const double gap = coat.at_h - was;
        was = coat.at_h;
        const double due = i == 0 ? coat.at_h : now + gap;
        const auto due_min = static_cast<long>(std::ceil(due * 60 - 1e-6));
        const long open = next_open(zero + due_min, hours, from.has_value());
        const double before = now;
        now = open == zero + due_min ? due : static_cast<double>(open - zero) / 60;
        coat.at_h = now;
        if (i == 0) continue;
        const auto& under = timeline.coats[i - 1];
        if (under.latest_h && now - before > *under.latest_h && gap <= *under.latest_h)
            notes.push_back(
                fmt::format("step {}, coat {}: the shop is closed while the window of the coat below shuts ({} "
                            "h): scuff it with 320 until dull all over first",
                            coat.step + 1, coat.coat, base::at_most(*under.latest_h, 0)));
    }
    timeline.elapsed_h = now + dry;
    if (!hours.weekends && !from)
        notes.emplace_back("weekends are counted as days: only a --start tells when they are");
}

}  // namespace foretone::job
