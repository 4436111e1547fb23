/// One board under two lights: words, numbers and the swatch tell one story.

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/color/words.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

job::Preview under_lights(const std::string& wood) {
    return worked("format = 1\n[look]\nlights = [\"D65\", \"LED-4000\", \"A\"]\n[wood]\nuse = \"" + wood +
                  "\"\n[[finish]]\nname = \"film\"\n[[finish.step]]\nuse = \"waterborne-acrylic\"\ncoats = 2\n");
}

// What an eye in a room sees of the swatch on an sRGB screen.
color::Appearance of_swatch(const job::SeenColor& c) {
    return color::appearance(color::srgb_to_xyz(c.screen.rgb), color::in_a_room(color::srgb_white));
}

}  // namespace

TEST_CASE("what is said across lights is what the swatches show: same lightness, chroma and hue, same words") {
    for (const auto* wood : {"walnut", "cherry", "hard-maple", "teak"}) {
        const auto p = under_lights(wood);
        const auto& colors = p.finishes[0].stages.back().colors;
        REQUIRE(colors.size() == 3);
        REQUIRE(p.across.size() == 2);
        for (std::size_t l = 0; l < colors.size(); ++l) {
            REQUIRE(colors[l].screen.in_gamut);
            const auto shown = of_swatch(colors[l]);
            INFO(wood << " under " << colors[l].light);
            CHECK_THAT(shown.lightness, Near(colors[l].seen.lightness, 1e-3));  // sRGB's matrix has four digits
            CHECK_THAT(shown.chroma, Near(colors[l].seen.chroma, 0.02));
            CHECK_THAT(std::remainder(shown.hue_deg - colors[l].seen.hue_deg, 360), Near(0, 0.05));
        }
        for (std::size_t l = 1; l < colors.size(); ++l) {
            INFO(wood << " to " << colors[l].light << ": " << p.across[l - 1].words);
            CHECK(p.across[l - 1].words == color::describe(of_swatch(colors[0]), of_swatch(colors[l])));
        }
    }
}

TEST_CASE("walnut under LED-4000: a* rises, as its white is another, and the board looks less red, as its swatch") {
    const auto p = under_lights("walnut");
    const auto& colors = p.finishes[0].stages.back().colors;
    const auto &day = colors[0], &led = colors[1];
    const auto red = [](const color::Appearance& a) { return a.chroma * std::cos(a.hue_deg * M_PI / 180); };
    INFO("a* " << day.lab.a << " -> " << led.lab.a << "; seen red " << red(day.seen) << " -> " << red(led.seen)
               << "; swatch " << red(of_swatch(day)) << " -> " << red(of_swatch(led)) << "; " << p.across[0].words);
    const double seen = red(led.seen) - red(day.seen), shown = red(of_swatch(led)) - red(of_swatch(day));
    CHECK(led.lab.a > day.lab.a);
    CHECK(seen < 0);
    CHECK_THAT(shown, Near(seen, 0.02));
    CHECK(p.across[0].words.find("less red") != std::string::npos);
}
