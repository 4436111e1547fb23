// RFC 5545: lines end in CR LF and are folded before 75 octets (3.1), texts escape \ ; , and line ends (3.3.11), a time
// without Z and zone is the clock of whoever reads it (3.3.5). UID and DTSTAMP come from the plan, so that the same
// plan is the same file.

#include "foretone/report/plan_calendar.hpp"

#include <chrono>

#include <fmt/core.h>

#include "foretone/base/checksum.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/scene/version.hpp"

namespace foretone::report {
namespace {

std::string escaped_text(std::string_view text) {
    std::string out = base::replaced(base::one_line(text), "\\", "\\\\");
    out = base::replaced(base::replaced(out, ";", "\\;"), ",", "\\,");
    return out;
}

// Cut into lines of at most 74 octets, never within a character; each further line begins with a blank.
std::string folded(std::string_view line) {
    constexpr std::size_t most = 73;
    std::string out;
    while (line.size() > most) {
        std::size_t cut = most;
        while (cut > 1 && (static_cast<unsigned char>(line[cut]) & 0xC0) == 0x80) --cut;
        out.append(line.substr(0, cut)).append("\r\n ");
        line.remove_prefix(cut);
    }
    return out.append(line).append("\r\n");
}

std::string stamp(long minute) {
    namespace ch = std::chrono;
    const auto at = ch::sys_time<ch::minutes>(ch::minutes(minute));
    const auto day = ch::floor<ch::days>(at);
    const ch::year_month_day ymd(day);
    const auto clock = static_cast<int>((at - day).count());
    return fmt::format("{:04}{:02}{:02}T{:02}{:02}00", static_cast<int>(ymd.year()), static_cast<unsigned>(ymd.month()),
                       static_cast<unsigned>(ymd.day()), clock / 60, clock % 60);
}

}  // namespace

std::string plan_calendar(const job::Plan& p) {
    const auto start = job::minute_of(p.request.start);
    if (!start) return "";
    const auto plan_id = base::fnv1a(p.title + "\n" + p.finish + "\n" + p.request.start);
    std::string out = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n" +
                      folded("PRODID:-//foretone//foretone " + std::string(scene::version) + "//EN") +
                      "CALSCALE:GREGORIAN\r\n";
    const auto event = [&](std::size_t number, double at_h, int minutes, const std::string& summary,
                           const std::string& more) {
        const long from = *start + static_cast<long>(at_h * 60 + 0.5);
        out += "BEGIN:VEVENT\r\n" + folded(fmt::format("UID:{:016x}-{}@foretone", plan_id, number)) +
               "DTSTAMP:" + stamp(*start) + "Z\r\nDTSTART:" + stamp(from) + "\r\nDTEND:" + stamp(from + minutes) +
               "\r\n" + folded("SUMMARY:" + escaped_text(summary));
        if (!more.empty()) out += folded("DESCRIPTION:" + escaped_text(more));
        out += "END:VEVENT\r\n";
    };
    for (std::size_t i = 0; i < p.timeline.coats.size(); ++i) {
        const auto& c = p.timeline.coats[i];
        const auto& step = p.steps.at(static_cast<std::size_t>(c.step));
        std::string more = c.before.empty() ? "" : "First: " + c.before + ". ";
        if (c.wipe_min > 0) more += "Wipe off after " + base::at_most(c.wipe_min, 0) + " min. ";
        more += "Next coat after " + base::at_most(c.earliest_h, 1) + " h";
        if (c.latest_h) more += ", before " + base::at_most(*c.latest_h, 0) + " h or scuffed";
        event(i, c.at_h, job::last_start_min, p.title + ": " + step.action + ", coat " + std::to_string(c.coat),
              more + ".");
    }
    event(p.timeline.coats.size(), p.timeline.elapsed_h, 15, p.title + ": last coat dry", "");
    return out + "END:VCALENDAR\r\n";
}

}  // namespace foretone::report
