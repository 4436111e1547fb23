#include <catch2/catch.hpp>
#include <set>

#include "foretone/schedule/measure.hpp"
#include "foretone/schedule/step.hpp"
#include "support/tolerance.hpp"

using namespace foretone::schedule;
using namespace foretone::test;

namespace {

std::string fault_of(std::string_view text, Dimension dimension) {
    try {
        read_amount(text, dimension);
    } catch (const Fault& f) {
        return f.id;
    }
    return "";
}

}  // namespace

TEST_CASE("an amount is a number and a unit, with or without a blank") {
    CHECK_THAT(read_amount("2.5m2", Dimension::area).stored(), Near(2.5, identity));
    CHECK_THAT(read_amount(" 27 ft2 ", Dimension::area).stored(), Near(2.50838208, identity));  // 27 · 0.09290304
    CHECK_THAT(read_amount("1qt", Dimension::volume).stored(), Near(946.352946, closed_form));
    CHECK_THAT(read_amount("32floz", Dimension::volume).stored(), Near(946.352946, closed_form));
    CHECK_THAT(read_amount("1lb", Dimension::mass).stored(), Near(453.59237, closed_form));
    CHECK_THAT(read_amount("68F", Dimension::temperature).stored(), Near(20, closed_form));
    CHECK_THAT(read_amount("-40F", Dimension::temperature).stored(), Near(-40, closed_form));
    CHECK_THAT(read_amount("1.5d", Dimension::time).stored(), Near(36, identity));
    CHECK_THAT(read_amount("20drops", Dimension::volume).stored(), Near(1, identity));
}

TEST_CASE("what is no amount is refused, each fault by its id") {
    CHECK(fault_of("", Dimension::area) == "amount-syntax");
    CHECK(fault_of("two m2", Dimension::area) == "amount-syntax");
    CHECK(fault_of("2.5", Dimension::area) == "unit-missing");
    CHECK(fault_of("2.5acre", Dimension::area) == "unit-unknown");
    CHECK(fault_of("2.5mL", Dimension::area) == "unit-unknown");
    CHECK(fault_of("-2.5m2", Dimension::area) == "amount-range");
    CHECK(fault_of("infm2", Dimension::area) == "amount-range");
    CHECK(fault_of("nanm2", Dimension::area) == "amount-range");
    CHECK(fault_of("1e999m2", Dimension::area) == "amount-syntax");
    CHECK(fault_of("2,5m2", Dimension::area) == "amount-comma");
}

TEST_CASE("an unknown unit's message lists the units that would do") {
    CHECK_THROWS_WITH(read_amount("3acre", Dimension::area),
                      Catch::Contains("m2, cm2, ft2, in2") && Catch::Contains("mix --units"));
    CHECK_THROWS_WITH(amount_in("120%", Dimension::share, 0, 100), Catch::Contains("from 0 % to 100 %"));
}

TEST_CASE("unit names are unique within a dimension and each is read") {
    std::set<std::pair<std::string_view, Dimension>> seen;
    for (const auto& u : units()) {
        INFO(u.name);
        CHECK(seen.insert({u.name, u.dimension}).second);
        CHECK_FALSE(u.meaning.empty());
        CHECK(read_amount("1" + std::string(u.name), u.dimension).unit == &u);
    }
}

TEST_CASE("a unit of another dimension is named as what it is, whichever that is") {
    for (const auto& u : units()) {
        const auto other = u.dimension == Dimension::area ? Dimension::volume : Dimension::area;
        bool both = false;  // a name may be a unit of two dimensions
        for (const auto& v : units()) both = both || (v.name == u.name && v.dimension == other);
        if (both) continue;
        INFO(u.name);
        // The first dimension that knows the name, in the order of the words.
        std::string_view first;
        for (std::size_t d = 0; d < dimension_words.size() && first.empty(); ++d)
            for (const auto& v : units())
                if (v.name == u.name && v.dimension == static_cast<Dimension>(d)) first = dimension_words[d];
        CHECK_THROWS_WITH(read_amount("3 " + std::string(u.name), other),
                          Catch::Contains("a unit of " + std::string(first)));
    }
}
