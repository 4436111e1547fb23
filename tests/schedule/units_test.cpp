#include <catch2/catch.hpp>

#include "foretone/schedule/units.hpp"
#include "support/tolerance.hpp"

using namespace foretone::schedule;
using namespace foretone::test;

TEST_CASE("trade units by their exact definitions") {
    // International inch, foot, avoirdupois ounce and US gallon: NIST SP 811, appendix B.
    CHECK_THAT(um_from_mil(3), Near(76.2, identity));
    CHECK_THAT(g_per_l_from_oz_per_qt(1), Near(29.957, 1e-3));  // 28.349523125 / 0.946352946
    CHECK_THAT(l_per_us_gal, Near(4 * l_per_us_qt, identity));
    // One US gallon spread 1 mil deep covers 231 in³ / 0.001 in = 231000 in² = 1604.17 ft².
    CHECK_THAT(wet_um_from_coverage(m2_per_l_from_ft2_per_gal(231000.0 / 144)), Near(25.4, closed_form));
    CHECK_THAT(wet_um_from_coverage(m2_per_l_from_ft2_per_gal(500)), Near(81.49, 5e-3));
}
