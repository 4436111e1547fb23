/// A face drawn in pieces is the face drawn at once, and so are its extremes and its contrast.

#include <catch2/catch.hpp>

#include <algorithm>

#include "foretone/appearance/spots.hpp"
#include "foretone/appearance/tones.hpp"
#include "foretone/grain/face.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using grain::Cut;

namespace {

material::Wood pored_wood() {
    material::Wood w;
    w.reflectance.values = spectral::Spectrum::constant(0.4);
    w.surface_k1.value = 0.04;
    w.surface_k2.value = 0.25;
    w.scattering_per_mm.value = 15;
    w.n.value = 1.5, w.porosity.value = 0.6, w.level_um.value = 20, w.absorbency.value = 1;
    material::Grain g = material::plain_grain();
    g.pores = material::Pores::ring;
    g.pore_um.value = 250, g.pore_per_mm2.value = 7, g.pore_zone.value = 0.3, g.pore_mm.value = 9;
    g.small_pore_um.value = 60, g.small_pore_per_mm2.value = 20;
    g.ray_um.value = 250, g.ray_mm.value = 20, g.ray_per_mm.value = 0.5, g.ray_shade.value = -0.4;
    g.curl_deg.value = 4, g.blotch.value = 0.1;
    w.grain = g;
    return w;
}

// Pieces of 7 rows.
class Sevens : public appearance::Spots {
public:
    explicit Sevens(const grain::Face& face) : face_(face) {}
    void each(const Take& take) const override {
        grain::Maps rows;
        for (int y = 0; y < face_.height(); y += 7) {
            face_.draw(rows, y, std::min(face_.height(), y + 7));
            take(rows.shade, rows.uptake, rows.pore);
        }
    }

private:
    const grain::Face& face_;
};

}  // namespace

TEST_CASE("a face drawn in pieces is the face drawn at once, whatever the pieces and the threads") {
    for (const Cut cut : {Cut::flat, Cut::quarter, Cut::rift}) {
        const auto whole = grain::grain(pored_wood(), cut, 240, 90, 0.2, 5, 1);
        const grain::Face face(pored_wood(), cut, 240, 90, 0.2, 5, 2);
        grain::Maps rows;
        std::size_t wrong = 0;
        for (const auto& [first, end] : {std::pair{0, 90}, {0, 1}, {13, 14}, {20, 71}, {64, 90}, {89, 90}}) {
            face.draw(rows, first, end, 3);
            REQUIRE(rows.height == end - first);
            for (const auto map : {&grain::Maps::shade, &grain::Maps::uptake, &grain::Maps::rise, &grain::Maps::turn,
                                   &grain::Maps::pore})
                wrong += !std::equal((rows.*map).begin(), (rows.*map).end(), (whole.*map).begin() + 240 * first);
        }
        CAPTURE(int(cut));
        CHECK(wrong == 0);
        CHECK(face.range().shade_low == *std::min_element(whole.shade.begin(), whole.shade.end()));
        CHECK(face.range().shade_high == *std::max_element(whole.shade.begin(), whole.shade.end()));
        CHECK(face.range().uptake_high == *std::max_element(whole.uptake.begin(), whole.uptake.end()));
        CHECK(face.range().count == whole.shade.size());
    }
}

TEST_CASE("what is worked out of a board's pieces is what the whole board gives") {
    const auto wood = pored_wood();
    const grain::Face face(wood, Cut::flat, 200, 60, 0.3, 2);
    const auto whole = grain::grain(wood, Cut::flat, 200, 60, 0.3, 2);
    const Sevens pieces(face);
    appearance::ShadeShares shares(face.range().shade_low, face.range().shade_high);
    pieces.each([&](auto shade, auto, auto) { shares.add(shade); });
    const auto spots = appearance::centred(wood, shares);
    CHECK(spots.reflectance.values == appearance::centred(wood, whole.shade).reflectance.values);
    const appearance::Board bare{};
    const auto solver = appearance::two_flux_solver();
    const auto g = optics::Geometry::g45_0;
    const auto a = appearance::mean_matched_spectra(bare, wood, spots, g, solver, pieces, face.range());
    const auto b =
        appearance::mean_matched_spectra(bare, wood, spots, g, solver, whole.shade, whole.uptake, whole.pore);
    CHECK(a.due == b.due);
    CHECK(a.uneven == b.uneven);
    CHECK(a.spectra.at(0.3, 1).total() == b.spectra.at(0.3, 1).total());
    appearance::ToneMean mean(a.spectra);
    pieces.each([&](auto shade, auto uptake, auto pore) { mean.add(shade, uptake, pore); });
    CHECK(mean.mean().total() == a.spectra.mean(whole.shade, whole.uptake, whole.pore).total());
    CHECK_THROWS_AS(mean.add(whole.shade, std::vector<float>(3), {}), std::invalid_argument);
    CHECK_THROWS_AS(appearance::centred(wood, appearance::ShadeShares(0, 1)), std::invalid_argument);
    CHECK_THROWS_AS(appearance::ShadeShares(-9, 1), std::invalid_argument);
}
