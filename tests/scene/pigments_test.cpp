// The library's pigments as opaque films and as 10 % tints (by weight, in titanium white), against the table they come
// with: pigment_masstones.csv, CIELAB under D65, 10 degrees.
//   computed, tint: Kubelka–Munk K = 2a, S = 0.75 s' of the coefficients, Ri of an opaque film, seen through its
//   surface
//     as R = 0.405 Ri/(1 − 0.596 Ri) + 0.007 (an outer surface that is not read, a little haze)
//   published: opaque films of one published line of acrylic paints; illuminant and geometry are not stated there,
//     D65/10 degrees and 45/0 assumed
//   check: what a small difference is worth. A row that says fitted is no evidence: its file was fitted to that color.

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/color/lab.hpp"
#include "foretone/color/xyz.hpp"
#include "support/demo.hpp"
#include "support/standards.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const material::Pigment& pigment_of(const std::string& id) {
    static std::map<std::string, material::Material> held;
    const auto it = held.try_emplace(id, library().material(id)).first;
    return std::get<material::Pigment>(it->second.data);
}

// An opaque film of so much of one pigment by weight, the rest titanium white, as the table's head says.
color::Lab opaque(const std::string& id, double share) {
    const auto &p = pigment_of(id), &white = pigment_of("titanium-white");
    static const auto w = color::make_weights(test::light("D65"), test::observer("10deg"));
    spectral::Spectrum r{};
    for (std::size_t i = 0; i < r.size(); ++i) {
        const double a = share * p.absorption_m2_per_g.values[i] + (1 - share) * white.absorption_m2_per_g.values[i];
        const double s = share * p.scattering_m2_per_g.values[i] + (1 - share) * white.scattering_m2_per_g.values[i];
        const double q = 2 * a / (0.75 * s), inside = 1 / (1 + q + std::sqrt(q * (q + 2)));
        r[i] = 0.405 * inside / (1 - 0.596 * inside) + 0.007;
    }
    return color::to_lab(color::xyz(r, w), w.white);
}

color::Lab lab_of_row(const Row& row, const std::string& prefix) {
    return {row.number(prefix + "_L"), row.number(prefix + "_a"), row.number(prefix + "_b")};
}

}  // namespace

TEST_CASE("opaque films and 10 % tints of every pigment are those of the table") {
    // Coefficients at 10 nm carried to 5 nm: the table's one decimal, and a little of a steep edge.
    const auto rows = table("pigment_masstones.csv");
    CHECK(rows.size() == library().ids(material::Kind::pigment).size());
    for (const auto& row : rows) {
        const auto id = row.text("pigment");
        const auto mass = opaque(id, 1), tint = opaque(id, 0.1);
        INFO(id << " " << mass.l << " " << mass.a << " " << mass.b << "; tint " << tint.l << " " << tint.a << " "
                << tint.b);
        CHECK(color::delta_e_00(mass, lab_of_row(row, "computed")) < 0.3);
        CHECK(color::delta_e_00(tint, lab_of_row(row, "tint")) < 0.3);
    }
}

TEST_CASE("opaque films are as far from the published ones as the table says, and red is red") {
    for (const auto& row : table("pigment_masstones.csv")) {
        if (!row.has("published_L")) continue;
        const auto id = row.text("pigment");
        const double off = color::delta_e_00(opaque(id, 1), lab_of_row(row, "published"));
        INFO(id << " is off by " << off << ": " << row.text("check"));
        CHECK(off == Approx(row.number("published_dE00")).margin(0.3));
    }
    // The red oxide of one published line of paints: C* 43.9. Constants of one powder alone give 19 to 27.
    const auto red = opaque("red-iron-oxide", 1);
    CHECK(std::hypot(red.a, red.b) > 40);
}

TEST_CASE("common practice: what pigments look like") {
    const auto hue = [](const color::Lab& c) { return std::atan2(c.b, c.a) * 180 / 3.14159265358979; };
    const auto red = opaque("red-iron-oxide", 0.5), yellow = opaque("yellow-iron-oxide", 0.5);
    CHECK(hue(red) < 60);
    CHECK(hue(yellow) > 70);
    CHECK(hue(opaque("burnt-sienna", 1)) < hue(opaque("raw-sienna", 1)));  // burning reddens
    CHECK(opaque("burnt-umber", 1).l < opaque("burnt-sienna", 1).l);
    for (const char* black : {"carbon-black", "lamp-black", "bone-black", "black-iron-oxide"}) {
        INFO(black);
        CHECK(opaque(black, 1).l < 20);
    }
    CHECK(opaque("carbon-black", 0.1).l < opaque("bone-black", 0.1).l - 20);  // bone black is weak
    CHECK(opaque("venetian-red", 0.1).l > opaque("red-iron-oxide", 0.1).l);
    // Fine oxides scatter less for what they absorb.
    for (const auto& [fine, coarse] : {std::pair{"transparent-red-iron-oxide", "red-iron-oxide"},
                                       {"transparent-yellow-iron-oxide", "yellow-iron-oxide"}}) {
        INFO(fine);
        CHECK(pigment_of(fine).scattering_m2_per_g.values[54] <
              0.5 * pigment_of(coarse).scattering_m2_per_g.values[54]);
    }
}

TEST_CASE("pigments are named by their color index, and earths say that their strength is unchecked") {
    for (const auto& id : library().ids(material::Kind::pigment)) {
        const auto m = library().material(id);
        INFO(m.name);
        CHECK((m.name.find("(P") != std::string::npos || m.name.find("(N") != std::string::npos));
    }
    for (const char* earth : {"yellow-ochre", "raw-sienna", "burnt-sienna", "raw-umber", "burnt-umber"}) {
        INFO(earth);
        CHECK(library().material(earth).note.find("not checked") != std::string::npos);
        CHECK(pigment_of(earth).absorption_m2_per_g.sd >= 0.35);
    }
}
