/// A plan as a calendar's file (RFC 5545).
#include <catch2/catch.hpp>

#include <sstream>

#include "foretone/report/plan_calendar.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string calendar_of(const std::string& start, const std::string& title = "") {
    auto s = scene::read_scene(std::string(FORETONE_SCENES) + "/wash-coat-pine.toml", library());
    if (!title.empty()) s.title = title;
    job::PlanRequest r;
    r.area_m2 = 2.5;
    r.start = start;
    return report::plan_calendar(job::plan(s, r));
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
    return n;
}

}  // namespace

TEST_CASE("a plan with a start is a calendar of its coats, by the rules of the format") {
    const auto text = calendar_of("2026-03-02 08:00");
    CHECK(text.find("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:") == 0);
    CHECK(count_of(text, "BEGIN:VEVENT\r\n") == 5);  // four coats, and dry
    CHECK(count_of(text, "END:VEVENT\r\n") == 5);
    CHECK(count_of(text, "DTSTAMP:20260302T080000Z\r\n") == 5);
    CHECK(text.find("DTSTART:20260302T080000\r\nDTEND:20260302T083000\r\n") != std::string::npos);
    CHECK(text.substr(text.size() - 15) == "END:VCALENDAR\r\n");
    CHECK(count_of(text, "\n") == count_of(text, "\r\n"));
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 75);  // with its CR: RFC 5545, 3.1
    CHECK(calendar_of("2026-03-02 08:00") == text);
    CHECK(calendar_of("3/2/2026 8:00 AM").find("DTSTART:20260302T080000") != std::string::npos);
    CHECK(calendar_of("").empty());
}

TEST_CASE("texts are escaped and folded between characters") {
    const auto text = calendar_of("2026-03-02 08:00", "Table; \\oak, größer als je zuvor, für die Küche im Süden");
    CHECK(text.find("Table\\; \\\\oak\\, gr") != std::string::npos);
    std::string whole = text;
    for (auto at = whole.find("\r\n "); at != std::string::npos; at = whole.find("\r\n ")) whole.erase(at, 3);
    CHECK(whole.find("größer als je zuvor\\, für die Küche im Süden") != std::string::npos);
}
