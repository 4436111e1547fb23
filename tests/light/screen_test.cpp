#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "foretone/color/srgb.hpp"
#include "foretone/light/screen.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::light;

TEST_CASE("a screen's codes are those of the exact fit, one code apart at most, inside the gamut and out") {
    std::mt19937_64 random(3);
    const auto unit = [&] { return static_cast<double>(random() >> 11) * 0x1p-53; };
    int worst = 0;
    std::uint64_t outside = 0, ours = 0;
    std::string where;
    for (const std::string id : {"D65", "A", "LED-4000"}) {
        const auto white = color::make_weights(test::light(id), test::observer("2deg")).white;
        const Screen screen(white);
        for (int i = 0; i < 40000; ++i) {
            // Lightness 1 to 99, chroma to 110: half of it no screen can show.
            const color::Lab lab{1 + 98 * unit(), -30 + 110 * unit(), -20 + 120 * unit()};
            const auto xyz = color::from_lab(lab, white);
            if (xyz.x < 0 || xyz.z < 0) continue;
            const auto exact = color::to_display(xyz, white);
            Tally tally;
            const Code code =
                screen.code(static_cast<float>(xyz.x), static_cast<float>(xyz.y), static_cast<float>(xyz.z), tally);
            outside += exact.in_gamut ? 0U : 1U;
            ours += tally.reduced;
            for (std::size_t c = 0; c < 3; ++c) {
                const int off = std::abs(int{code[c]} - int{exact.code[c]});
                if (off > worst)
                    where = id + " L* " + std::to_string(lab.l) + " a* " + std::to_string(lab.a) + " b* " +
                            std::to_string(lab.b);
                worst = std::max(worst, off);
            }
        }
    }
    INFO(where);
    CHECK(worst <= 1);
    CHECK(outside > 10000);
    CHECK(ours <= outside);
    CHECK(static_cast<double>(ours) >
          0.999 * static_cast<double>(outside));  // what is out by single precision's rounding passes
}

TEST_CASE("white is white, what is lighter is white and counted, nothing is black") {
    const auto white = color::make_weights(test::light("A"), test::observer("2deg")).white;
    const Screen screen(white);
    Tally tally;
    const auto at = [&](double times) {
        return screen.code(static_cast<float>(white.x * times), static_cast<float>(white.y * times),
                           static_cast<float>(white.z * times), tally);
    };
    CHECK(at(1) == Code{255, 255, 255});
    CHECK(tally.white == 0);
    CHECK(at(1.5) == Code{255, 255, 255});
    CHECK(tally.white == 1);
    CHECK(at(0) == Code{0, 0, 0});
    CHECK(tally.reduced == 0);
}
