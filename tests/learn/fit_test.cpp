#include <catch2/catch.hpp>

#include "foretone/material/optics_of.hpp"
#include "foretone/learn/fit.hpp"
#include "learn/hidden.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using learn::BoardReading;
using learn::FitQuestion;

namespace {

/// Readings without noise of the states of boards A (dyed) and B (undyed), made on `materials`, asked with the library.
FitQuestion clean(const material::Materials& materials, const std::string& wood, bool spectra) {
    FitQuestion q;
    q.materials = whole_library();
    q.boards = {{"A", wood, dyed(3)}, {"B", wood, undyed(2)}};
    q.noise = {0, 0.05, 0.0};
    const auto solver = appearance::two_flux_solver();
    for (const auto& [board, step, coat] :
         std::vector<std::array<int, 3>>{{0, 0, 0}, {0, 1, 1}, {0, 2, 1}, {0, 2, 2}, {0, 2, 3}, {1, 1, 1}, {1, 1, 2}}) {
        BoardReading r;
        r.name = "reading " + std::to_string(q.readings.size() + 1);
        r.board = static_cast<std::size_t>(board);
        r.step = step, r.coat = coat;
        r.weights = d65_10deg();
        r.spread_de = 0.05;
        auto finish = q.boards[r.board].finish;
        finish.steps.resize(static_cast<std::size_t>(step));
        if (step > 0) finish.steps.back().coats = coat;
        const auto shown = search::finished({materials, wood, q.geometry, solver}, finish);
        if (spectra)
            r.reflectance = shown;
        else
            r.lab = lab_of(shown);
        q.readings.push_back(r);
    }
    return q;
}

std::string refusal(const FitQuestion& q) {
    try {
        const learn::Fit fit(q);
        return "none";
    } catch (const learn::NoFit& e) {
        CHECK(std::string(e.what()).size() > 40);
        return e.id;
    }
}

}  // namespace

TEST_CASE("a fit of the library's own predictions gives the library's figures back to 1 %") {
    for (const bool spectra : {false, true})
        for (const std::string wood : {"hard-maple", "walnut"}) {
            const learn::Fit fit(clean(whole_library(), wood, spectra));
            double worst = 0;
            std::string at;
            for (const auto& f : fit.result().figures)
                if (const double off = std::abs(f.value / f.library - 1); worse(off, worst))
                    worst = off, at = f.material + " " + f.figure;
            INFO(wood << (spectra ? ", spectra: " : ", Lab: ") << at << " is off by " << worst);
            CHECK(worst <= 0.01);
            CHECK(fit.result().rms_de00 < 0.01);
            CHECK(*fit.result().left_out_rms_de00 < 0.1);
        }
}

TEST_CASE("readings without noise show a weak dye, an amber film and a dark board that hid behind the library") {
    material::Materials hidden = whole_library();
    std::get<material::Stock>(hidden.at("honey-dye").data).strength.value = 0.7;
    std::get<material::Binder>(hidden.at("orange-shellac").data).gardner->value = 16.5;
    auto& wood = std::get<material::Wood>(hidden.at("hard-maple").data);
    for (double& v : wood.reflectance.values) v *= 0.94;
    wood.surface_k2.value = 0.33;
    const double alpha = material::absorption_per_mm(std::get<material::Binder>(hidden.at("orange-shellac").data))[14];
    for (const bool spectra : {false, true}) {
        const learn::Fit fit(clean(hidden, "hard-maple", spectra));
        const auto& result = fit.result();
        CHECK(result.rms_de00 < 0.1);
        for (const auto& f : result.figures) {
            INFO((spectra ? "spectra: " : "Lab: ")
                 << f.material << " " << f.figure << " " << f.value << ", 95 % " << f.low() << " to " << f.high());
            if (f.figure == "strength") CHECK((f.low() <= 0.7 && f.high() >= 0.7));
            if (f.figure == "absorption at 450 nm") CHECK((f.low() <= alpha && f.high() >= alpha));
            if (f.figure == "surface_k2") CHECK(f.value == Approx(0.33).margin(0.02));
            if (f.figure == "bare L*") CHECK(f.value == Approx(lab_of(wood.reflectance.values).l).margin(0.3));
        }
        for (const char* id : {"hard-maple", "honey-dye", "orange-shellac"})
            CHECK(std::count(result.changed.begin(), result.changed.end(), id) == 1);
    }
}

TEST_CASE("what no reading tells keeps the library's figure and mark, and a film its color number") {
    auto q = clean(whole_library(), "hard-maple", false);
    q.readings.erase(q.readings.begin() + 2, q.readings.end());  // bare and dyed: no film was read
    for (auto& r : q.readings) r.lab->l -= 0.5, r.spread_de = 0.3;
    const learn::Fit fit(q);
    const auto& shellac = std::get<material::Binder>(fit.result().materials.at("orange-shellac").data);
    REQUIRE(shellac.gardner);
    CHECK_FALSE(shellac.absorption_per_mm);
    CHECK(shellac.gardner->value == 15.0);
    CHECK(shellac.gardner->from.mark == material::Mark::memory);
    for (const auto& f : fit.result().figures)
        if (f.material == "orange-shellac") {
            CHECK_FALSE(f.resolved);
            CHECK(f.value == Approx(f.library).epsilon(identity));
        }
    CHECK(std::get<material::Wood>(fit.result().materials.at("hard-maple").data).reflectance.from.mark ==
          material::Mark::fitted);
    bool said = false;
    for (const auto& n : fit.result().notes)
        said = said || n.find("orange-shellac: the readings hardly narrow absorption at 450 nm") == 0;
    CHECK(said);
}

TEST_CASE("readings that make no fit are refused, each for its reason") {
    const auto good = clean(whole_library(), "hard-maple", false);
    CHECK(refusal(good) == "none");
    SECTION("too few") {
        auto q = good;
        q.readings.resize(1);
        CHECK(refusal(q) == "fit-too-few");
    }
    SECTION("two readings of one state that contradict each other") {
        auto q = good;
        q.readings.push_back(q.readings[2]);
        q.readings.back().lab->l -= 6;
        CHECK(refusal(q) == "fit-contradiction");
    }
    SECTION("a reading of another board among them") {
        auto q = good;
        *q.readings[3].lab = {30, 5, 5};
        const auto why = refusal(q);
        CHECK((why == "fit-residual" || why == "fit-far"));
    }
    SECTION("two readings whose noise is wider than all the library does not know") {
        auto q = good;
        q.readings.resize(2);
        q.noise.place_de = 60;
        for (auto& r : q.readings) r.spread_de = 60;
        CHECK(refusal(q) == "fit-tells-nothing");
    }
}

TEST_CASE("a reading that cannot be is an invalid argument") {
    const auto good = clean(whole_library(), "hard-maple", false);
    auto no_board = good, no_coat = good, no_color = good, no_spread = good;
    no_board.readings[0].board = 9;
    no_coat.readings[3].coat = 4;
    no_color.readings[0].lab.reset();
    no_spread.readings[0].spread_de = 0;
    for (const auto* q : {&no_board, &no_coat, &no_color, &no_spread})
        CHECK_THROWS_AS(learn::Fit(*q), std::invalid_argument);
}

TEST_CASE("one reading out is predicted by the others, and a wrong one stands out by it") {
    auto q = clean(whole_library(), "hard-maple", false);
    q.noise = {0, 0.7, 0.15};
    for (auto& r : q.readings) r.spread_de = 0.3;
    q.readings[3].lab->b += 4;
    const learn::Fit fit(q);
    double most = 0;
    std::string name;
    for (const auto& r : fit.result().readings)
        if (worse(*r.left_out_de00, most)) most = *r.left_out_de00, name = r.name;
    CHECK(name == "reading 4");
}

TEST_CASE("an interval ends where its figure can go no further, and is said to be cut there") {
    learn::FittedFigure share{"x", "stay", "", 0.8, 0.1, 0.855, 0.106};
    CHECK(share.high() == Approx(0.855 + 1.96 * 0.106));
    CHECK_FALSE(share.cut());
    share.lowest = 0, share.highest = 1;
    CHECK(share.low() == Approx(0.855 - 1.96 * 0.106));
    CHECK(share.high() == 1);
    CHECK(share.cut());
    // A bare board and one coated state: little is told, and much of what the spreads allow cannot be.
    FitQuestion q;
    q.materials = whole_library();
    auto top = step_of({{"waterborne-acrylic", schedule::Amount::parts, 1}}, 2);
    q.boards = {{"A", "hard-maple", {"clear", {top}}}};
    q.geometry = optics::Geometry::g45_0;
    q.leave_one_out = false;
    q.readings = {{"bare", 0, 0, 0, {}, color::Lab{82, 4, 18}, 400, 700, d65_10deg(), 0.3},
                  {"clear", 0, 1, 2, {}, color::Lab{74, 7, 24}, 400, 700, d65_10deg(), 0.3}};
    const learn::Fit fit(q);
    int cut = 0;
    for (const auto& f : fit.result().figures) {
        INFO(f.material << " " << f.figure << ": " << f.low() << " to " << f.high());
        cut += f.cut();
        auto m = whole_library().at(f.material);
        for (const auto& at : material::figures(m))
            if (at.figure && at.key == f.figure) CHECK((f.low() >= at.low && f.high() <= at.high));
        CHECK(f.low() <= f.value);
        CHECK(f.high() >= f.value);
    }
    CHECK(cut >= 2);
}

TEST_CASE("readings that are all too far off are refused by their sum, before any one of them is by itself") {
    // A pattern of ± in L* or b* from reading to reading, which no material makes; noise of about 3, so that the
    // printed tenths tell how many times the noise is left. One reading alone is refused at 4 times its noise.
    auto q = clean(whole_library(), "hard-maple", false);
    q.leave_one_out = false;
    q.noise.place_de = 3;
    for (auto& r : q.readings) r.spread_de = 3;
    double least = 1e9;
    for (const auto axis : {&color::Lab::l, &color::Lab::b}) {
        bool refused = false;  // larger ones leave more
        for (double size = 6; size < 36 && !refused; size += 1.2) {
            auto off = q;
            for (std::size_t i = 0; i < off.readings.size(); ++i)
                off.readings[i].lab.value().*axis += i % 2 == 0 ? size : -size;
            try {
                const learn::Fit fit(off);
            } catch (const learn::NoFit& e) {
                const std::string text = e.what();
                const auto leaves = text.find("leaves dE00 "), allows = text.find("allows ");
                if (e.id != "fit-residual" || leaves == std::string::npos) continue;
                refused = true;
                least = std::min(least, std::stod(text.substr(leaves + 12)) / std::stod(text.substr(allows + 7)));
            }
        }
    }
    INFO("refused from " << least << " times the noise of the worst reading on");
    CHECK(least < 3.8);
    CHECK(least > 2.5);  // the root mean square of all is refused at 2.5
}

TEST_CASE("what would have to lie more than four and a half of its own standard deviations off is refused") {
    double least_refused = 1e9;
    for (double strength = 2; strength < 12; strength *= 1.12) {
        auto hidden = whole_library();
        std::get<material::Stock>(hidden.at("honey-dye").data).strength.value = strength;
        auto q = clean(hidden, "hard-maple", false);
        q.leave_one_out = false;
        try {
            const learn::Fit fit(q);
            for (const auto& f : fit.result().figures)
                if (f.figure == "strength") CHECK(f.value < 1e3);
        } catch (const learn::NoFit& e) {
            if (e.id != "fit-far") continue;
            const std::string text = e.what();
            const auto at = text.find("would have to lie ");
            REQUIRE(at != std::string::npos);
            least_refused = std::min(least_refused, std::stod(text.substr(at + 18)));
        }
    }
    INFO("least refused " << least_refused);
    CHECK(least_refused >= 4.5);
    CHECK(least_refused < 5.5);  // steps of 12 % in strength are half a standard deviation or less
}
