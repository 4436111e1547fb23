// Stains, glazes, toners, fillers and treatments on boards: directions that every finisher knows, over all of them.

#include <catch2/catch.hpp>
#include <cmath>

#include "appearance/finishes.hpp"
#include "foretone/appearance/tones.hpp"
#include "foretone/color/lab.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

const color::Weights& day_of_colors() {
    static const color::Weights w = color::make_weights(test::light("D65"), test::observer("2deg"));
    return w;
}

schedule::Step ready(const std::string& id) {
    schedule::Step s;
    s.mix = {{id, schedule::Amount::parts, 1}};
    return s;
}

Board put_on(const std::string& wood, const std::vector<schedule::Step>& steps) {
    Board board;
    for (const auto& s : steps)
        board = after_coats(board, schedule::deposit(s, whole_library()), s.coats, wood_of(wood));
    return board;
}

spectral::Spectrum read_off(const Board& board, const std::string& wood) {
    static const auto solver = two_flux_solver();
    return render(board, wood_of(wood), optics::Geometry::g45_0, solver).total();
}

color::Lab shown(const Board& board, const std::string& wood) {
    return color::to_lab(color::xyz(read_off(board, wood), day_of_colors()), day_of_colors().white);
}

color::Lab finish_of(const std::string& wood, const std::vector<schedule::Step>& steps) {
    return shown(put_on(wood, steps), wood);
}

schedule::Step with_remainder(const std::string& id, double remainder) {
    auto s = ready(id);
    s.remainder = remainder;
    return s;
}

const schedule::Step sealed_well() { return coat_step("waterborne-acrylic", 4); }

}  // namespace

TEST_CASE("every ready color and treatment changes maple, oak and walnut, and reads as a reflectance") {
    for (const auto& [id, m] : whole_library()) {
        const auto* t = std::get_if<material::Treatment>(&m.data);
        if (!t && !std::holds_alternative<material::Colored>(m.data)) continue;
        for (const std::string wood : {"hard-maple", "white-oak", "walnut"}) {
            const Board board = put_on(wood, {ready(id)});
            double low = 1, high = 0;
            for (const double v : read_off(board, wood)) low = least_of(low, v), high = worst_of(high, v);
            const double moved = color::delta_e_00(shown(board, wood), finish_of(wood, {}));
            INFO(id << " on " << wood << " moves it by " << moved << ", reflectance " << low << " to " << high);
            CHECK((low > 0 && high < 1));
            if (!t || (t->needs == material::Needs::nothing && !t->gives_tannin_percent)) CHECK(moved > 0.7);
            if (t && t->needs == material::Needs::tannin && wood == "white-oak") CHECK(moved > 4);
        }
    }
}

TEST_CASE("a stain wiped to nothing is no stain") {
    // On flats sealed level, wiped off clean: next to nothing of it is left. (Pores keep some: that is what a glaze
    // is.)
    const auto flats = [](const std::vector<schedule::Step>& steps) {
        return shown(at_spot(put_on("hard-maple", steps), 1, 0), "hard-maple");
    };
    for (const char* id : {"walnut-stain", "black-stain", "white-stain", "deep-red-stain"}) {
        const auto clear = flats({sealed_well()});
        const double left = color::delta_e_00(flats({sealed_well(), with_remainder(id, 0)}), clear);
        const double stays = color::delta_e_00(flats({sealed_well(), with_remainder(id, 0.3)}), clear);
        INFO(id << " leaves " << left << ", with three tenths left " << stays);
        CHECK(left < 1);
        CHECK(stays > left + 1);
    }
    // And less and less of it laid on bare wood is less and less of a stain, down to none.
    const auto d = schedule::deposit(ready("walnut-stain"), whole_library());
    const auto bare = finish_of("hard-maple", {});
    double before = 1e9, whole = 0;
    for (const double share : {1.0, 0.5, 0.25, 0.1, 0.02}) {
        const auto board = after_drying({}, schedule::thicker(d, share), wood_of("hard-maple"));
        const double moved = color::delta_e_00(shown(board, "hard-maple"), bare);
        INFO(share << " of a coat moves it by " << moved);
        CHECK(moved <= before);
        if (whole == 0) whole = moved;
        before = moved;
    }
    CHECK(before < 0.4 * whole);  // a fiftieth of a coat, all of it held by the scratches
}

TEST_CASE("the more of a glaze is left, the more of a glaze it is") {
    for (const char* id : {"umber-glaze", "sienna-glaze", "brown-black-glaze", "red-glaze", "white-glaze"})
        for (const std::string wood : {"hard-maple", "white-oak", "walnut"}) {
            const auto clear = finish_of(wood, {sealed_well()});
            double before = -1, on_before = -1;
            for (const double left : {0.0, 0.05, 0.15, 0.3, 0.6, 1.0}) {
                const Board board = put_on(wood, {sealed_well(), with_remainder(id, left)});
                const double on = board.account.pigment.on;
                INFO(id << " on " << wood << ", " << left << " left: " << on << " g/m2 from " << on_before);
                CHECK(on > on_before);
                on_before = on;
                // A glaze of walnut's own color has nowhere to go on walnut once it covers.
                if (wood == "walnut" || left > 0.6) continue;
                const auto lab = shown(board, wood);
                const double moved = std::hypot(lab.l - clear.l, lab.a - clear.a, lab.b - clear.b);
                CHECK(moved > before);
                before = moved;
            }
        }
}

TEST_CASE("each pass of a toner darkens by less than the pass before") {
    for (const std::string wood : {"hard-maple", "white-oak"}) {
        double before = finish_of(wood, {sealed_well()}).l, step_before = 1e9;
        for (const double passes : {1.0, 2.0, 3.0, 4.0}) {
            auto toner = ready("brown-toner");
            toner.passes = passes;
            const double l = finish_of(wood, {sealed_well(), toner}).l;
            INFO(wood << " " << passes << " passes: L* " << l);
            CHECK(l < before);
            CHECK(before - l < step_before + 1e-9);
            step_before = before - l;
            before = l;
        }
    }
}

TEST_CASE("common practice: fillers and liming wax change the pores of oak, and hardly its flats") {
    const auto pores_of = [](const Board& b) { return shown(at_spot(b, 1, 1), "white-oak"); };
    const auto flats_of = [](const Board& b) { return shown(at_spot(b, 1, 0), "white-oak"); };
    const Board clear = put_on("white-oak", {coat_step("super-blonde-shellac", 1)});
    for (const auto& [id, sign] : {std::pair{"liming-wax", 1}, {"white-filler", 1}, {"black-filler", -1}}) {
        const Board board = put_on("white-oak", {coat_step("super-blonde-shellac", 1), ready(id)});
        INFO(id << ": pores L* " << pores_of(clear).l << " to " << pores_of(board).l << ", flats " << flats_of(clear).l
                << " to " << flats_of(board).l);
        CHECK(sign * (pores_of(board).l - pores_of(clear).l) > 8);
        CHECK(std::abs(flats_of(board).l - flats_of(clear).l) < 0.6 * std::abs(pores_of(board).l - pores_of(clear).l));
        CHECK(board.pores_filled > 0.5);
        CHECK(board.level_um(wood_of("white-oak")) < clear.level_um(wood_of("white-oak")) - 0.3);
    }
    // Pores that a film has closed take no filler.
    CHECK(put_on("white-oak", {coat_step("oil-varnish", 30), ready("black-filler")}).pores_filled < 0.2);
}

TEST_CASE("common practice: a colored filler is taken off across the grain and leaves bare flats nearly clean") {
    for (const std::string wood : {"hard-maple", "white-oak", "walnut"})
        for (const std::string id : {"black-filler", "walnut-filler", "natural-filler", "white-filler"}) {
            const auto flat = [&](std::vector<schedule::Step> steps) {
                steps.push_back(sealed_well());
                return shown(at_spot(put_on(wood, steps), 1, 0), wood);
            };
            const auto clean = flat({}), filled = flat({ready(id)});
            INFO(id << " on " << wood << ": L* " << clean.l << " to " << filled.l);
            CHECK(color::delta_e_00(clean, filled) < 5);
        }
}

TEST_CASE("iron on maple is far weaker than on oak, and maple fed with tannin takes it") {
    const auto by_iron = [](const std::string& wood, std::vector<schedule::Step> first) {
        const auto before = finish_of(wood, first);
        first.push_back(ready("iron-solution"));
        return before.l - finish_of(wood, first).l;
    };
    const double oak = by_iron("white-oak", {}), maple = by_iron("hard-maple", {}),
                 fed = by_iron("hard-maple", {ready("tannin-coat")});
    INFO("L* falls by " << oak << " on oak, " << maple << " on maple, " << fed << " on maple with tannin");
    CHECK(oak > 2 * maple);
    CHECK(fed > 1.5 * maple);
    CHECK(oak > 15);
    const auto grey = finish_of("white-oak", {ready("iron-solution")}), bare = finish_of("white-oak", {});
    CHECK(std::hypot(grey.a, grey.b) < 0.7 * std::hypot(bare.a, bare.b));
}

TEST_CASE("common practice: what treatments do to the color of wood") {
    for (const std::string wood : {"walnut", "white-oak", "cherry"}) {
        const auto bare = finish_of(wood, {}), once = finish_of(wood, {ready("two-part-bleach")});
        auto twice_step = ready("two-part-bleach");
        twice_step.coats = 2;
        const auto twice = finish_of(wood, {twice_step});
        INFO(wood << ": " << bare.l << ", bleached " << once.l << ", twice " << twice.l);
        CHECK(once.l > bare.l + 5);
        CHECK(twice.l > once.l);
        CHECK(twice.l - once.l < once.l - bare.l);
    }
    const auto oak = finish_of("white-oak", {}), fumed = finish_of("white-oak", {ready("ammonia-fuming")});
    CHECK(fumed.l < oak.l - 10);
    CHECK(color::delta_e_00(finish_of("hard-maple", {ready("ammonia-fuming")}), finish_of("hard-maple", {})) <
          0.4 * color::delta_e_00(fumed, oak));
    CHECK(finish_of("cherry", {ready("lye-wash")}).l < finish_of("cherry", {}).l - 4);
    CHECK(finish_of("pine", {ready("burnt-surface")}).l < 40);
}

TEST_CASE("chlorine takes dye and leaves the wood, oxalic acid takes iron and leaves dye") {
    const auto bare = finish_of("hard-maple", {}), dyed = finish_of("hard-maple", {dye_step("umber-dye", 9)});
    const auto bleached = finish_of("hard-maple", {dye_step("umber-dye", 9), ready("chlorine-bleach")});
    CHECK(color::delta_e_00(bleached, bare) < 0.5 * color::delta_e_00(dyed, bare));
    CHECK(color::delta_e_00(finish_of("walnut", {ready("chlorine-bleach")}), finish_of("walnut", {})) < 1.5);
    const auto oak = finish_of("white-oak", {}), iron = finish_of("white-oak", {ready("iron-solution")});
    const auto taken = finish_of("white-oak", {ready("iron-solution"), ready("oxalic-acid")});
    CHECK(color::delta_e_00(taken, oak) < 0.5 * color::delta_e_00(iron, oak));
    const auto kept = finish_of("hard-maple", {dye_step("umber-dye", 9), ready("oxalic-acid")});
    CHECK(color::delta_e_00(kept, dyed) < 2);
}

TEST_CASE("a trace of a treatment is a trace of a change, and films keep treatments out") {
    for (const char* id : {"two-part-bleach", "iron-solution", "ammonia-fuming", "lye-wash", "burnt-surface"}) {
        const Board sealed = put_on("white-oak", {coat_step("oil-varnish", 6)});
        const Board treated = put_on("white-oak", {coat_step("oil-varnish", 6), ready(id)});
        INFO(id);
        CHECK(color::delta_e_00(shown(treated, "white-oak"), shown(sealed, "white-oak")) < 1);
        auto all = whole_library();
        auto& t = std::get<material::Treatment>(all.at(id).data);
        if (t.adds_absorbance)
            for (double& v : t.adds_absorbance->values) v *= 1e-6;
        if (t.takes_wood) t.takes_wood->value *= 1e-6;
        const auto trace = after_drying({}, schedule::deposit(ready(id), all), wood_of("white-oak"));
        CHECK(color::delta_e_00(shown(trace, "white-oak"), finish_of("white-oak", {})) < 1e-3);
    }
}
