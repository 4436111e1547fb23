// Facts of the trade as directions, over all woods and dyes, before any size is asked.

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "appearance/finishes.hpp"
#include "foretone/appearance/uneven.hpp"
#include "foretone/appearance/tones.hpp"
#include "foretone/color/lab.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using material::Method;
using optics::Geometry;

namespace {

const color::Weights& daylight() {
    static const color::Weights w = color::make_weights(light("D65"), observer("2deg"));
    return w;
}

std::vector<std::string> ids_of(const std::string& kind) {
    std::vector<std::string> out;
    for (const auto& [id, m] : whole_shelf())
        if (m.kind == kind) out.push_back(id);
    return out;
}

// Every dye and every ready stock, at a usual strength, put on by `method`.
std::vector<schedule::Step> dyes(Method method) {
    std::vector<schedule::Step> out;
    for (const auto& id : ids_of("dye")) {
        const auto& carriers = std::get<material::Dye>(whole_shelf().at(id).data).carriers;
        out.push_back(
            step_of({{id, schedule::Amount::g_per_l, 5}, {carriers.front(), schedule::Amount::parts, 1}}, 1, method));
    }
    for (const auto& id : ids_of("stock"))
        out.push_back(step_of({{id, schedule::Amount::parts, 1}, {"water", schedule::Amount::parts, 9}}, 1, method));
    for (auto& s : out) s.wet_g_per_m2 = 70;
    return out;
}

schedule::Step wash(double cut_lb, Method method) {
    auto s = step_of({{"super-blonde-shellac", schedule::Amount::parts, 1}}, 1, method);
    s.cut_lb = cut_lb;
    return s;
}

struct Seen {
    color::Lab lab;
    double uneven = 0;
};

Seen seen(const std::string& wood, const std::vector<schedule::Step>& steps) {
    static const auto solver = two_flux_solver();
    Board board;
    if (const char* t = std::getenv("LAW"))
        std::sscanf(t, "%lf,%lf,%lf,%lf,%lf", &board.law.closing, &board.law.plug_most, &board.law.plug_half,
                    &board.law.spotted, &board.law.brushed_left);
    const auto& w = wood_of(wood);
    for (const auto& s : steps) board = after_coats(board, schedule::deposit(s, whole_shelf()), s.coats, w);
    const auto total = render(board, w, Geometry::g45_0, solver).total();
    return {color::to_lab(color::xyz(total, daylight()), daylight().white),
            uneven_de00(tenths(board, w, Geometry::g45_0, solver), daylight())};
}

}  // namespace

TEST_CASE("explore", "[.explore]") {
    const auto top = coat_step("waterborne-acrylic", 2);
    for (const auto wm : {Method::wipe, Method::brush, Method::spray})
        for (const auto dm : {Method::wipe, Method::brush, Method::spray}) {
            int bad_l = 0, bad_u = 0, n = 0;
            for (const auto& wood : ids_of("wood"))
                for (const auto& dye : dyes(dm)) {
                    double l = 0, u = 1e9;
                    std::string text = wood + " " + dye.mix[0].use;
                    bool bad = false;
                    for (const double cut : {0.0, 0.25, 0.5, 1.0, 2.0}) {
                        std::vector<schedule::Step> steps;
                        if (cut > 0) steps.push_back(wash(cut, wm));
                        steps.push_back(dye);
                        steps.push_back(top);
                        const auto s = seen(wood, steps);
                        char b[60];
                        std::snprintf(b, 60, "  %.2f/%.2f", s.lab.l, s.uneven);
                        text += b;
                        ++n;
                        if (s.lab.l <= l) ++bad_l, bad = true;
                        if (s.uneven >= u) ++bad_u, bad = true;
                        l = s.lab.l;
                        u = s.uneven;
                    }
                    if (bad || dye.mix[0].use == "acid-red-1" || dye.mix[0].use == "umber-dye")
                        std::printf("%d%d %s%s\n", int(wm), int(dm), bad ? "BAD " : "", text.c_str());
                }
            std::printf("wash %d dye %d: %d bad L, %d bad uneven of %d\n", int(wm), int(dm), bad_l, bad_u, n);
        }
}

TEST_CASE("explore2", "[.explore2]") {
    for (const std::string wood : {"hard-maple", "mahogany"})
        for (const auto m : {Method::wipe, Method::brush}) {
            for (const double cut : {0.0, 0.0001, 0.01, 0.05, 0.1, 0.25, 0.5, 1.0, 2.0}) {
                std::vector<schedule::Step> steps;
                if (cut > 0) steps.push_back(wash(std::max(cut, 0.0001), m));
                steps.push_back(dyes(Method::wipe)[std::getenv("DYE") ? std::atoi(std::getenv("DYE")) : 9]);
                steps.push_back(coat_step("waterborne-acrylic", 2));
                auto s = seen(wood, steps);
                std::printf(" %.4f:%.3f/%.3f", cut, s.lab.l, s.uneven);
            }
            std::puts("");
        }
}
