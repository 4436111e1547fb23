/// Published changes by light, and what the common law of wood makes of them.

#include "foretone/job/ageing_verdict.hpp"

#include <catch2/catch.hpp>

#include "foretone/material/ageing.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const job::AgeingVerdict& verdict() {
    static const auto v = job::check_ageing(library());
    return v;
}

}  // namespace

TEST_CASE("each published change lies in the range it is predicted from other papers, or nearly all do") {
    const auto& v = verdict();
    REQUIRE(v.rows.size() == job::published_ages().size());
    CHECK(v.inside >= 0.8 * static_cast<double>(v.rows.size()));
    for (const auto& p : v.rows) {
        INFO(p.row.species << ", " << p.row.source << ": " << p.due_de_ab << " predicted " << p.de_ab);
        CHECK(p.low <= p.de_ab);
        CHECK(p.de_ab <= p.high);
        CHECK(p.signs_met);
    }
}

TEST_CASE("birch after four and beech after three years by a window are met without their own papers") {
    for (const auto& p : verdict().rows)
        if (p.row.window && p.row.l.has_value() + p.row.de_ab.has_value() > 0) {
            INFO(p.row.species << ": " << p.due_de_ab << " predicted " << p.de_ab << " " << p.low << "-" << p.high);
            CHECK(p.inside);
        }
}

TEST_CASE("steamed woods turn paler where unsteamed ones darken, and change less, without their own papers") {
    // Dudiak & Dzurenda (birch), Dudiak et al. 2022 (beech), Dudiak 2022 (maple): abstracts.
    int steamed = 0;
    const job::PredictedAge* native = nullptr;
    for (const auto& p : verdict().rows) {
        if (p.row.colored_by != "steamed") {
            native = &p;
            continue;
        }
        ++steamed;
        REQUIRE(native);
        REQUIRE(native->row.paper == p.row.paper);
        INFO(p.row.species << ", " << p.row.source);
        CHECK(p.change.l > 0);
        CHECK(native->change.l < 0);
        CHECK(p.de_ab < native->de_ab);
        CHECK(p.inside);
    }
    CHECK(steamed == 5);
}

TEST_CASE("the classes of pale, steamed and dark woods hold what the fit gives") {
    const auto& pale = material::wood_classes().front();
    const auto bleached = [](const char* word) {
        material::Wood wood;
        wood.ages_as = word;
        return &material::ageing_of(wood).bleached;
    };
    const material::Figure* held[] = {&pale.brown,     &pale.yellow,        &pale.fast_wh,     &pale.bleached,
                                      &pale.bleach_wh, bleached("steamed"), bleached("walnut")};
    const auto& figures = verdict().figures;
    REQUIRE(figures.size() == std::size(held));
    for (std::size_t i = 0; i < figures.size(); ++i) {
        INFO(figures[i].what << ": " << figures[i].after << " ± " << figures[i].after_sd);
        CHECK_THAT(held[i]->value, Near(figures[i].after, 0.03 * figures[i].after));
    }
}
