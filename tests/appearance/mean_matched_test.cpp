// A board of uneven spots, settled on the reading of its mean wood.

#include "foretone/appearance/mean_matched.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "appearance/finishes.hpp"
#include "foretone/appearance/lattice.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/optics/kubelka_munk.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

constexpr auto g45 = optics::Geometry::g45_0;

// Spots whose shades spread by `shade` and whose uptakes by `uptake` (of a logarithm), dark ones drinking less.
struct UnevenMaps {
    std::vector<float> shade, uptake, pore;
    UnevenMaps(double shade_sd, double uptake_sd, std::size_t count = 900) {
        std::mt19937_64 random(5);
        const auto normal = [&] { return normal_quantile((static_cast<double>(random() >> 11) + 0.5) * 0x1p-53); };
        double sum = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const double s = normal(), u = normal();
            shade.push_back(static_cast<float>(shade_sd * s));
            uptake.push_back(static_cast<float>(std::exp(uptake_sd * (0.8 * u - 0.6 * s))));
            pore.push_back(i % 5 == 0 ? 0.4F : 0.0F);
            sum += static_cast<double>(uptake.back());
        }
        for (float& u : uptake) u = static_cast<float>(static_cast<double>(u) * static_cast<double>(count) / sum);
    }
};

struct Settled {
    MeanMatched moved;
    spectral::Spectrum due;
    double before = 0, after = 0;  // ΔE00 of the maps' mean from what is due
};

Settled settle(const std::string& wood, const schedule::Finish& finish, const UnevenMaps& maps, bool pores = false) {
    const auto solver = two_flux_solver();
    const auto board = boards(whole_library(), wood, finish).back();
    const auto& mean_wood = wood_of(wood);
    const auto spots = centred(mean_wood, maps.shade);
    const auto range = ToneRange::covering(maps.shade, maps.uptake);
    const ToneSpectra spectra(board, spots, g45, solver, range);
    const std::span<const float> pore = pores ? std::span<const float>(maps.pore) : std::span<const float>();
    Settled out;
    out.due = render(board, mean_wood, g45, solver).total();
    out.moved = mean_matched(spots, board, spectra, out.due, maps.shade, maps.uptake, pore);
    const ToneSpectra again(out.moved.board, out.moved.spots, g45, solver, range);
    const auto w = color::make_weights(light("D65"), observer("2deg"));
    const auto lab = [&](const spectral::Spectrum& r) { return color::to_lab(color::xyz(r, w), w.white); };
    out.before = color::delta_e_00(lab(out.moved.uneven), lab(out.due));
    out.after = color::delta_e_00(lab(again.mean(maps.shade, maps.uptake, pore).total()), lab(out.due));
    return out;
}

double shift_at(const Settled& s, const std::string& wood, const UnevenMaps& maps, std::size_t i) {
    const auto before = material::body_reflectance(centred(wood_of(wood), maps.shade)),
               after = material::body_reflectance(s.moved.spots);
    return std::log(optics::k_over_s(after[i]) / optics::k_over_s(before[i]));
}

const schedule::Finish dyed_raven{"raven", {dye_step("raven-dye", 3), coat_step("oil-varnish", 2)}};
const schedule::Finish varnished_twice{"clear", {coat_step("oil-varnish", 2)}};

}  // namespace

TEST_CASE("an uneven board settles on the reading of its mean wood, whatever it is finished with") {
    const UnevenMaps maps(0.45, 0.4);
    for (const std::string wood : {"pine", "hard-maple", "walnut"})
        for (const auto& finish : finishes()) {
            const auto s = settle(wood, finish, maps);
            INFO(wood << ", " << finish.name << ": " << s.before << " before, " << s.after << " after");
            CHECK(s.after < 0.1);
            CHECK(s.after <= s.before + 0.01);
        }
}

TEST_CASE("where dye decides the color the uptake moves first, up to its bounds; without dye it never does") {
    const UnevenMaps maps(0.35, 0.5);
    const auto dyed_board = settle("pine", dyed_raven, maps), clear_board = settle("pine", varnished_twice, maps);
    CHECK(dyed_board.before > 0.15);  // Jensen: uneven spots are paler on the mean
    CHECK(dyed_board.moved.uneven[35] > dyed_board.due[35]);
    CHECK(dyed_board.moved.uptake_factor > 1.01);
    CHECK(dyed_board.moved.uptake_factor < std::exp(0.5) + 1e-9);
    CHECK(clear_board.moved.uptake_factor == 1);
    CHECK(settle("pine", {"bare", {}}, maps).moved.uptake_factor == 1);
    // What the uptake does at 555 nm needs nothing more of the wood there.
    CHECK(std::abs(shift_at(dyed_board, "pine", maps, 35)) < 0.02);
    CHECK(dyed_board.after < 0.1);
}

TEST_CASE("an even board is settled as it is: nothing is moved") {
    UnevenMaps flat(0, 0, 40);
    for (const auto* finish : {&dyed_raven, &varnished_twice}) {
        const auto s = settle("hard-maple", *finish, flat);
        CHECK(s.before < 2e-3);  // within what the table of tones interpolates
        CHECK(s.moved.uptake_factor == Approx(1).margin(2e-3));
        CHECK(s.after < 0.1);
        if (finish == &dyed_raven) continue;  // where dye hides the wood, how dark that is tells nothing
        for (const std::size_t i : {5u, 35u, 70u}) CHECK(std::abs(shift_at(s, "hard-maple", flat, i)) < 6e-3);
    }
}

TEST_CASE("what is due further off than e^0.4 is met as far as that, darker or paler") {
    const UnevenMaps maps(0.2, 0, 200);
    const auto solver = two_flux_solver();
    const auto board = boards(whole_library(), "hard-maple", varnished_twice).back();
    const auto spots = centred(wood_of("hard-maple"), maps.shade);
    const ToneSpectra spectra(board, spots, g45, solver, ToneRange::covering(maps.shade, maps.uptake));
    const auto body = material::body_reflectance(spots);
    for (const auto& [due, shift] : {std::pair{0.0, 0.4}, std::pair{0.99, -0.4}}) {
        const auto m = mean_matched(spots, board, spectra, spectral::Spectrum::constant(due), maps.shade, maps.uptake);
        const auto after = material::body_reflectance(m.spots);
        for (const std::size_t i : {0u, 35u, 80u})
            CHECK(std::log(optics::k_over_s(after[i]) / optics::k_over_s(body[i])) == Approx(shift).epsilon(1e-6));
    }
    // Within: the reading of the spots at one shift is met at that shift, to a hundredth, which is about 0.1 in L*: the
    // means are straight lines between shifts 0.2 apart.
    for (const double c : {-0.31, -0.1, 0.0, 0.15, 0.33}) {
        auto shade = maps.shade;
        for (float& s : shade) s += static_cast<float>(c);
        const auto due = spectra.mean(shade, maps.uptake).total();
        const auto m = mean_matched(spots, board, spectra, due, maps.shade, maps.uptake);
        const auto after = material::body_reflectance(m.spots);
        for (const std::size_t i : {0u, 35u, 80u})
            CHECK(std::log(optics::k_over_s(after[i]) / optics::k_over_s(body[i])) == Approx(c).margin(0.01));
    }
}

TEST_CASE("pores are told apart where they are told, and settled with the flats") {
    const UnevenMaps maps(0.3, 0.2);
    auto stain = step_of({{"umber-stain", schedule::Amount::parts, 1}}, 1, material::Method::wipe);
    const schedule::Finish stained_oak{"stain", {stain, coat_step("oil-varnish", 2)}};
    const auto with = settle("white-oak", stained_oak, maps, true),
               without = settle("white-oak", stained_oak, maps, false);
    const auto board = boards(whole_library(), "white-oak", stained_oak).back();
    REQUIRE(ToneSpectra(board, wood_of("white-oak"), g45, two_flux_solver()).tells_pores());
    CHECK(with.after < 0.1);
    CHECK(without.after < 0.1);
}

TEST_CASE("the spectra of a settled board are those of its settled spots") {
    const UnevenMaps maps(0.4, 0.4);
    const auto solver = two_flux_solver();
    const auto board = boards(whole_library(), "pine", dyed_raven).back();
    const auto spots = centred(wood_of("pine"), maps.shade);
    const auto all = mean_matched_spectra(board, wood_of("pine"), spots, g45, solver, maps.shade, maps.uptake);
    const auto s = settle("pine", dyed_raven, maps);
    CHECK(all.due == s.due);
    CHECK(all.uneven == s.moved.uneven);
    const auto mean = all.spectra.mean(maps.shade, maps.uptake).total();
    double worst = 0;
    for (std::size_t i = 4; i < 65; ++i) worst = worst_of(worst, std::abs(mean[i] - all.due[i]));
    CHECK(worst < 2e-3);
}

TEST_CASE("of many spots every n-th is looked at, and the answer is the same within what is seen") {
    const UnevenMaps few(0.4, 0.3, 1500);
    UnevenMaps many = few;
    for (int n = 0; n < 44; ++n) {  // 66,000 spots: the same ones again and again
        many.shade.insert(many.shade.end(), few.shade.begin(), few.shade.begin() + 1500);
        many.uptake.insert(many.uptake.end(), few.uptake.begin(), few.uptake.begin() + 1500);
    }
    const auto a = settle("pine", dyed_raven, few), b = settle("pine", dyed_raven, many);
    CHECK(b.after < 0.1);
    CHECK(b.moved.uptake_factor == Approx(a.moved.uptake_factor).epsilon(0.02));
}

TEST_CASE("a board of one spot is settled on that spot") {
    UnevenMaps maps(0, 0, 1);
    maps.shade = {0.3F};
    maps.uptake = {1.0F};
    CHECK(settle("hard-maple", varnished_twice, maps).after < 0.1);
}
