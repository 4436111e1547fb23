/// The shop's clock: dates in both manners, opening hours, weekends.
#include <catch2/catch.hpp>

#include "foretone/job/clock.hpp"
#include "foretone/scene/problem.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::job;
using namespace foretone::test;
using schedule::UnitSystem;

namespace {

schedule::Timeline coats_at(const std::vector<double>& hours, double dry_after, std::optional<double> latest = {}) {
    schedule::Timeline t;
    for (std::size_t i = 0; i < hours.size(); ++i)
        t.coats.push_back({0, static_cast<int>(i) + 1, hours[i], "", 0, 2, latest});
    t.elapsed_h = hours.back() + dry_after;
    return t;
}

}  // namespace

// 2 March 2026 is a Monday (ISO 8601 calendar).
TEST_CASE("a US date has twelve hours and its day, and reads back as itself") {
    CHECK(moment("2026-03-02 08:00", 0, UnitSystem::us) == "Mon 3/2/2026 8:00 AM");
    CHECK(moment("2026-03-02 08:00", 4.5, UnitSystem::us) == "Mon 3/2/2026 12:30 PM");
    CHECK(moment("2026-03-02 08:00", 16, UnitSystem::us) == "Tue 3/3/2026 12:00 AM");
    CHECK(moment("3/2/2026 8:00 AM", 0) == "2026-03-02 08:00");
    CHECK(moment("12/31/2026 11:30 pm", 1) == "2027-01-01 00:30");
    for (double h = 0; h < 24 * 400; h += 17.3) {
        const auto us = moment("2027-11-05 06:00", h, UnitSystem::us), metric = moment("2027-11-05 06:00", h);
        CHECK(moment(us, 0, UnitSystem::us) == us);
        CHECK(moment(us, 0) == metric);
    }
    for (const char* bad : {"3/2/2026 8:00", "13/2/2026 8:00 AM", "2/30/2026 8:00 AM", "3/2/26 8:00 AM",
                            "3/2/2026 13:00 PM", "3/2/2026"}) {
        INFO(bad);
        CHECK_THROWS_AS(moment(bad, 0), scene::InputError);
    }
}

TEST_CASE("opening hours are read in both manners and refused where they are none") {
    for (const char* good : {"8-17", "8:00-17:00", "8am-5pm", "8 AM - 5 PM", " 08-17 "}) {
        INFO(good);
        const auto h = read_hours(good);
        CHECK(h.open_min == 8 * 60);
        CHECK(h.close_min == 17 * 60);
    }
    CHECK(read_hours("0-24").always());
    for (const char* bad : {"17-8", "8", "8-", "8-8:30", "8-25", "all day", "8-17-20", ""}) {
        INFO(bad);
        CHECK_THROWS_AS(read_hours(bad), scene::InputError);
    }
}

// Worked out by hand: open 8 to 17, last start 16:30.
TEST_CASE("coats wait for the shop to open, and dry while it is closed") {
    auto hours = read_hours("8-17");
    std::vector<std::string> notes;
    auto t = coats_at({0, 2, 12, 14}, 6);  // from Monday 8:00
    keep_hours(t, "2026-03-02 08:00", hours, notes);
    CHECK(t.coats[0].at_h == 0);
    CHECK(t.coats[1].at_h == 2);
    CHECK_THAT(t.coats[2].at_h, Near(24, closed_form));  // due at 20:00, so Tuesday 8:00
    CHECK_THAT(t.coats[3].at_h, Near(26, closed_form));
    CHECK_THAT(t.elapsed_h, Near(32, closed_form));
    CHECK(notes.empty());
    auto late = coats_at({0}, 2);
    keep_hours(late, "2026-03-02 16:45", hours, notes);  // after the last start
    CHECK_THAT(late.coats[0].at_h, Near(15.25, closed_form));
    hours.weekends = false;
    auto friday = coats_at({0, 12}, 2);
    keep_hours(friday, "2026-03-06 08:00", hours, notes);  // due Friday 20:00, so Monday 8:00
    CHECK_THAT(friday.coats[1].at_h, Near(72, closed_form));
}

TEST_CASE("a window that shuts overnight is said") {
    std::vector<std::string> notes;
    auto t = coats_at({0, 10}, 2, 12);
    keep_hours(t, "2026-03-02 08:00", read_hours("8-17"), notes);
    REQUIRE(notes.size() == 1);
    CHECK(notes[0].find("step 1, coat 2: the shop is closed while the window") == 0);
}

TEST_CASE("without a start the first coat goes on as the shop opens, and weekends are not known") {
    auto hours = read_hours("8-17");
    hours.weekends = false;
    std::vector<std::string> notes;
    auto t = coats_at({0, 10}, 2);
    keep_hours(t, "", hours, notes);
    CHECK_THAT(t.coats[1].at_h, Near(24, closed_form));
    REQUIRE(notes.size() == 1);
    CHECK(notes[0].find("--start") != std::string::npos);
}
