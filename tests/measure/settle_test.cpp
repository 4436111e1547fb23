// Percent or fraction, ranges and order of wavelengths, Lab and XYZ with their light: each bound from both sides.

#include "../../src/measure/raw.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "measure/refusals.hpp"
#include "measure/texts.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

// What is noted beside the step of 20 nm that the samples here have (told by instruments_test).
std::string notes_but_20nm(std::vector<measure::Note> notes) {
    std::erase_if(notes, [](const auto& n) { return n.id == "spectrum-20nm"; });
    return note_lines(notes);
}

const measure::HowToSay say_so{"say the light", "say the scale"};

// One sample of wavelengths `step` apart, all of this value but the one at `odd_nm`.
measure::RawReading flat_sample(double value, double odd_nm = 0, double odd = 0, double first = 400, double last = 700,
                                double step = 20) {
    measure::RawReading r;
    r.reading.name = "board";
    r.conditions.geometry = optics::Geometry::g45_0;
    std::size_t column = 1;
    for (double nm = first; nm <= last + 1e-9; nm += step) {
        const bool here = std::abs(nm - odd_nm) < 1e-9;
        r.samples.push_back({nm, here ? odd : value, here ? std::size_t{9} : std::size_t{3}, ++column, false});
    }
    return r;
}

struct MeanMatched {
    std::vector<measure::Reading> readings;
    std::vector<measure::Note> notes;
    std::string refused;
    double first() const { return readings.front().reflectance->value.front(); }
};

MeanMatched settled_of(std::vector<measure::RawReading> readings, std::optional<bool> said = {},
                       const measure::Options& options = {}) {
    MeanMatched out;
    measure::Notes notes;
    measure::RawTable table{std::move(readings), said, said ? std::size_t{2} : 0, 1};
    out.refused = refused_as([&] { measure::settle(std::move(table), options, say_so, notes, out.readings); });
    out.notes = notes.list();
    return out;
}

std::string outcome_of(const measure::RawReading& r, std::optional<bool> said = {}) {
    const auto s = settled_of({r}, said);
    return s.refused == "read" ? notes_but_20nm(s.notes) : s.refused;
}

measure::RawReading lab_of_sample(const color::Lab& lab) {
    measure::RawReading r;
    r.reading.name = "board";
    r.reading.line = 4;
    r.reading.lab = lab;
    r.conditions.light = "D65", r.conditions.observer = "2deg";
    return r;
}

measure::RawReading xyz_of_sample(const color::Xyz& xyz) {
    auto r = lab_of_sample({});
    r.reading.lab.reset();
    r.reading.xyz = xyz;
    return r;
}

}  // namespace

TEST_CASE("values decide the scale only where they leave no doubt: above 2 percent, up to 1 fractions") {
    CHECK(outcome_of(flat_sample(0.3)) == "3:2 scale-by-values");
    CHECK(settled_of({flat_sample(0.3)}).first() == 0.3);
    CHECK(outcome_of(flat_sample(0.3, 500, 1)) == "9:7 scale-by-values");
    CHECK(outcome_of(flat_sample(0.3, 500, 1.001)) == "9:7 scale-ambiguous '1.001'");
    CHECK(outcome_of(flat_sample(0.3, 500, 2)) == "9:7 scale-ambiguous '2'");
    CHECK(outcome_of(flat_sample(0.3, 500, 2.001)) == "9:7 scale-by-values");
    CHECK_THAT(settled_of({flat_sample(30)}).first(), Near(0.3, identity));
    CHECK(refusal_text([] {
              measure::Notes notes;
              std::vector<measure::Reading> out;
              measure::RawTable table{{flat_sample(0.3, 500, 1.5)}, {}, 0, 0};
              measure::settle(std::move(table), {}, say_so, notes, out);
          }) ==
          "the largest reflectance is 1.5: the file does not say whether it is percent or a fraction, and it could be "
          "either; say the scale");
}

TEST_CASE("what the file says of its scale holds unless the values cannot be that") {
    CHECK(outcome_of(flat_sample(1.01, 500, 1.02), false) == "3:2 reflectance-clipped");
    CHECK(outcome_of(flat_sample(1.5), true).empty());  // as black as 1.5 percent
    CHECK_THAT(settled_of({flat_sample(1.5)}, true).first(), Near(0.015, identity));
    CHECK(outcome_of(flat_sample(0.3, 500, 1), true) == "9:7 scale-contradicts '1'");
    CHECK(outcome_of(flat_sample(0.3, 500, 2.001), false) == "9:7 scale-contradicts '2.001'");
    const auto words = settled_of({flat_sample(30)}, false);
    CHECK(words.refused == "3:2 scale-contradicts '30'");
}

TEST_CASE("what the user states of the scale goes before the file and before the values") {
    measure::Options percent, fraction;
    percent.percent = true, fraction.percent = false;
    CHECK_THAT(settled_of({flat_sample(0.9)}, {}, percent).first(), Near(0.009, identity));
    const auto overruled = settled_of({flat_sample(0.9)}, false, percent);
    CHECK_THAT(overruled.first(), Near(0.009, identity));
    CHECK(notes_but_20nm(overruled.notes) == "2:1 scale-overruled");
    CHECK(notes_but_20nm(settled_of({flat_sample(0.9)}, true, percent).notes).empty());
    CHECK(settled_of({flat_sample(3)}, {}, fraction).refused == "3:2 reflectance-range '3'");
}

TEST_CASE("one table keeps to one scale") {
    CHECK(settled_of({flat_sample(30), flat_sample(0.4)}).refused == "3:2 scale-mixed '0.4'");
    CHECK(settled_of({flat_sample(30), flat_sample(2.5)}).refused == "read");
    auto signs = flat_sample(30);
    for (auto& s : signs.samples) s.percent_sign = true;
    CHECK(outcome_of(signs).empty());
    signs.samples[4].percent_sign = false;
    CHECK(outcome_of(signs) == "3:6 scale-mixed '30'");
}

TEST_CASE("fractions a little outside 0 to 1 are noise and clipped, further out they are refused") {
    for (const bool percent : {false, true}) {
        const double whole = percent ? 100 : 1;
        const auto with = [&](double v) { return outcome_of(flat_sample(0.5 * whole, 600, v * whole), percent); };
        CHECK(with(-0.005) == "9:12 reflectance-clipped");
        CHECK(with(1.02) == "9:12 reflectance-clipped");
        CHECK(with(0).empty());
        CHECK(with(1).empty());
        CHECK(with(-0.0051).find("reflectance-range") != std::string::npos);
        CHECK(with(1.0201).find("reflectance-range") != std::string::npos);
        const auto low = settled_of({flat_sample(0.5 * whole, 600, -0.004 * whole)}, percent);
        CHECK(low.readings[0].reflectance->value[10] == 0);
        const auto high = settled_of({flat_sample(0.5 * whole, 600, 1.01 * whole)}, percent);
        CHECK(high.readings[0].reflectance->value[10] == 1);
    }
}

TEST_CASE("wavelengths cover 400 to 700 at 20 nm or finer, once each, in rising order") {
    CHECK(outcome_of(flat_sample(0.5), false).empty());
    CHECK(outcome_of(flat_sample(0.5, 0, 0, 401, 701), false) == "3:2 spectrum-range-nm '401'");
    CHECK(outcome_of(flat_sample(0.5, 0, 0, 400, 680), false) == "3:2 spectrum-range-nm '400'");
    CHECK(outcome_of(flat_sample(0.5, 0, 0, 360, 740, 10), false).empty());
    CHECK(outcome_of(flat_sample(0.5, 0, 0, 400, 715, 21), false) == "3:3 spectrum-coarse '421'");
    auto outside = flat_sample(0.5);  // a wide step is coarse only within what is needed
    outside.samples.push_back({780, 0.5, 3, 30, false});
    outside.samples.insert(outside.samples.begin(), {350, 0.5, 3, 1, false});
    CHECK(outcome_of(outside, false).empty());
    auto twice = flat_sample(0.5);
    twice.samples[3].nm = twice.samples[2].nm;
    CHECK(outcome_of(twice, false) == "3:5 wavelength-twice '440'");
    auto falling = flat_sample(0.5, 400, 0.25);
    std::reverse(falling.samples.begin(), falling.samples.end());
    const auto sorted = settled_of({falling}, false);
    CHECK(notes_but_20nm(sorted.notes) == "3:17 wavelengths-sorted");
    CHECK(sorted.readings[0].reflectance->wavelength_nm.front() == 400);
    CHECK(sorted.first() == 0.25);
}

TEST_CASE("samples in any order settle to the same curve") {
    std::mt19937_64 random(21);
    for (int i = 0; i < 50; ++i) {
        auto r = flat_sample(0.5, 0, 0, 380, 720, 10);
        for (auto& s : r.samples) s.value = 0.1 + 0.001 * (s.nm - 380);
        std::shuffle(r.samples.begin(), r.samples.end(), random);
        const auto s = settled_of({r}, false);
        REQUIRE(s.refused == "read");
        double worst = 0;
        const auto& curve = *s.readings[0].reflectance;
        for (std::size_t k = 0; k < curve.value.size(); ++k)
            worst = worst_of({worst, std::abs(curve.wavelength_nm[k] - (380 + 10.0 * static_cast<double>(k))),
                              std::abs(curve.value[k] - (0.1 + 0.001 * (curve.wavelength_nm[k] - 380)))});
        CHECK(worst < closed_form);
    }
}

TEST_CASE("Lab is within what can be, to the bound") {
    CHECK(settled_of({lab_of_sample({0, -150, 150})}).refused == "read");
    CHECK(settled_of({lab_of_sample({100, 150, -150})}).refused == "read");
    CHECK(settled_of({lab_of_sample({100.1, 0, 0})}).refused == "4:1 lab-range '100.1'");
    CHECK(settled_of({lab_of_sample({-0.1, 0, 0})}).refused == "4:1 lab-range '-0.1'");
    CHECK(settled_of({lab_of_sample({50, 150.1, 0})}).refused == "4:1 lab-range '50'");
    CHECK(settled_of({lab_of_sample({50, 0, -150.1})}).refused == "4:1 lab-range '50'");
}

TEST_CASE("XYZ on the scale of 1 is brought to that of 100, and is within what can be") {
    const auto one = settled_of({xyz_of_sample({0.5, 1.2, 0.3}), xyz_of_sample({0.1, 0.2, 0.1})});
    CHECK(notes_but_20nm(one.notes) == "4:1 xyz-scale\n0:0 geometry-unstated");
    CHECK_THAT(one.readings[0].xyz->y, Near(120, closed_form));
    CHECK_THAT(one.readings[1].xyz->x, Near(10, closed_form));
    const auto hundred = settled_of({xyz_of_sample({50, 1.21, 30})});
    CHECK(hundred.readings[0].xyz->y == 1.21);
    CHECK(settled_of({xyz_of_sample({130, 100, 130})}).refused == "read");
    CHECK(settled_of({xyz_of_sample({130.1, 100, 100})}).refused == "4:1 xyz-range '130.1'");
    CHECK(settled_of({xyz_of_sample({50, 60, -0.1})}).refused == "4:1 xyz-range '-0.1'");
    // A color with both keeps its Lab as it was read.
    measure::Options white;
    white.white = [](const std::string&, const std::string&) {
        return std::optional(color::Xyz{95.047, 100, 108.883});
    };
    auto both = xyz_of_sample({95.047, 100, 108.883});
    CHECK_THAT(settled_of({both}, {}, white).readings[0].lab->l, Near(100, closed_form));
    both.reading.lab = color::Lab{12, 1, 1};
    CHECK(settled_of({both}, {}, white).readings[0].lab->l == 12);
}

TEST_CASE("a color without its light is refused alone, and left out beside a reflectance") {
    for (const bool lab : {true, false}) {
        auto r = lab ? lab_of_sample({50, 1, 1}) : xyz_of_sample({20, 30, 10});
        r.conditions.observer.clear();
        CHECK(settled_of({r}).refused == std::string("4:1 light-missing '") + (lab ? "Lab'" : "XYZ'"));
        r.samples = flat_sample(0.5).samples;
        const auto beside = settled_of({r}, false);
        CHECK(notes_but_20nm(beside.notes) == "4:1 lab-light-unknown\n0:0 geometry-unstated");
        CHECK_FALSE((beside.readings[0].lab || beside.readings[0].xyz));
        CHECK(beside.readings[0].reflectance);
    }
}

TEST_CASE("a gap of more than 15 nm within 400 to 700 nm is noted as 20 nm readings are, from its first nanometre on") {
    const auto noted = [](double before, double after) {
        std::string text = "# scale: fraction\nnm;R\n" + base::shortest(before) + ";0.3\n";
        for (double nm = after; nm <= 711; nm += 10) text += base::shortest(nm) + ";0.3\n";
        const auto r = measure::read_csv(text);
        return std::any_of(r.notes.begin(), r.notes.end(), [](const auto& n) { return n.id == "spectrum-20nm"; });
    };
    CHECK_FALSE(noted(380, 400));  // below 400 nm hardly anything is seen
    CHECK(noted(381, 401));
    CHECK(noted(384, 400.5));
    CHECK_FALSE(noted(391, 401));
}
