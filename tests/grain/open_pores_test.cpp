/// Open pores on a board's face: their share, and the pigment that a wiped stain leaves in them.

#include <catch2/catch.hpp>

#include "appearance/finishes.hpp"
#include "foretone/appearance/mean_matched.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/grain/grain.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using grain::Cut;

namespace {

double mean_of(const std::vector<float>& map) {
    double sum = 0;
    for (const float v : map) sum += static_cast<double>(v);
    return sum / static_cast<double>(map.size());
}

schedule::Finish wiped_oxide() {
    auto stain = step_of(
        {{"red-iron-oxide", schedule::Amount::percent_weight, 10}, {"oil-varnish-blend", schedule::Amount::rest, 0}}, 1,
        material::Method::wipe);
    stain.wet_g_per_m2 = 70;
    return {"stain", {stain, coat_step("oil-varnish", 2)}};
}

}  // namespace

TEST_CASE("the pores drawn cover the share of the face that the figures say") {
    int seen = 0;
    for (const auto& id : library().ids(material::Kind::wood)) {
        const auto& wood = wood_of(id);
        if (!wood.grain) continue;
        const double due = material::open_pore_share(*wood.grain);
        const auto maps = grain::grain(wood, Cut::flat, 700, 700, 0.15, 3);
        const double drawn = mean_of(maps.pore);
        INFO(id << ": drawn " << drawn << ", due " << due);
        CHECK(drawn > 0.7 * due - 0.002);  // neighbours overlap, rays have none, rings differ
        CHECK(drawn < 1.3 * due + 0.002);
        for (const float v : maps.pore) seen += v >= 0 && v <= 1 ? 0 : 1;
    }
    CHECK(seen == 0);
}

// Common practice: a pigment wiped on oak fills its pores, which then read darker than the flats between them; on
// maple, whose pores are fine, it lies more evenly.
TEST_CASE("under a wiped pigment the pores of an oak board read darker than its flats") {
    const auto solver = appearance::two_flux_solver();
    const auto weights = color::make_weights(light("D65"), observer("2deg"));
    for (const std::string id : {"red-oak", "white-oak", "ash"}) {
        const auto& wood = wood_of(id);
        const auto maps = grain::grain(wood, Cut::flat, 400, 300, 0.1, 7);
        const auto spots = appearance::centred(wood, maps.shade);
        const auto board = appearance::boards(whole_library(), id, wiped_oxide()).back();
        const auto settled = appearance::mean_matched_spectra(board, wood, spots, optics::Geometry::g45_0, solver,
                                                              maps.shade, maps.uptake, maps.pore);
        const auto mean = settled.spectra.mean(maps.shade, maps.uptake, maps.pore).total();
        const auto lab = [&](const spectral::Spectrum& s) {
            return color::to_lab(color::xyz(s, weights), weights.white);
        };
        CHECK(color::delta_e_00(lab(mean), lab(settled.due)) < 0.3);
        const appearance::ToneTable tones(settled.spectra, weights);
        double in = 0, beside = 0;
        int pores = 0, flats = 0;
        for (std::size_t i = 0; i < maps.shade.size(); ++i) {
            const double y = tones.reading(maps.shade[i], maps.uptake[i], maps.pore[i]).y;
            if (maps.pore[i] > 0.8F) in += y, ++pores;
            if (maps.pore[i] < 0.01F) beside += y, ++flats;
        }
        REQUIRE(pores > 500);
        REQUIRE(flats > 500);
        INFO(id << ": Y " << in / pores << " in pores, " << beside / flats << " beside them");
        CHECK(in / pores < 0.6 * beside / flats);
    }
}
