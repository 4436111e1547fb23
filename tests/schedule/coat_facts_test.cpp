// What the order rules know of a coat: the liquids in it while wet, and those that dissolve it again.

#include "../../src/schedule/coat_facts.hpp"

#include <catch2/catch.hpp>

#include "support/whole_library.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

using Liquids = std::set<std::string>;

CoatFacts facts_of(std::vector<Part> mix) {
    Step s;
    s.mix = std::move(mix);
    return coat_facts(s, whole_library());
}

CoatFacts facts_of(const std::string& id) { return facts_of({{id, Amount::parts, 1}}); }

}  // namespace

TEST_CASE("a ready dye alone is wet with its own liquid, which lifts it again; what it is thinned with is in it too") {
    const auto stock = std::get<material::Stock>(whole_library().at("honey-dye").data);
    const auto alone = facts_of("honey-dye");
    CHECK(alone.carriers == Liquids{stock.carrier});
    CHECK(alone.lifted_by.count(stock.carrier) == 1);
    CHECK(alone.colored);
    CHECK(alone.binder == nullptr);
    const auto thinned = facts_of({{"honey-dye", Amount::parts, 1}, {"water", Amount::parts, 9}});
    CHECK(thinned.carriers == Liquids{stock.carrier, "water"});
    const auto spirit = std::get<material::Stock>(whole_library().at("amber-spirit-dye").data);
    CHECK(facts_of("amber-spirit-dye").carriers == Liquids{spirit.carrier});
}

TEST_CASE("films, stains and treatments are wet with the liquid that their files name") {
    for (const char* id : {"orange-shellac", "oil-varnish", "waterborne-acrylic", "nitrocellulose-lacquer"}) {
        const auto& binder = std::get<material::Binder>(whole_library().at(id).data);
        INFO(id);
        const auto f = facts_of(id);
        CHECK(f.carriers == Liquids{binder.carrier});
        CHECK_FALSE(f.colored);
        REQUIRE(f.binder);
        CHECK(f.binder->id == id);
        CHECK(f.name == whole_library().at(id).name);
    }
    for (const char* id : {"walnut-stain", "umber-glaze"}) {
        const auto f = facts_of(id);
        CHECK(f.colored);
        CHECK(f.carriers.count(std::get<material::Colored>(whole_library().at(id).data).carrier) == 1);
        REQUIRE(f.ready);
        CHECK(f.ready->id == id);
    }
    const auto& iron = std::get<material::Treatment>(whole_library().at("iron-solution").data);
    CHECK(facts_of("iron-solution").carriers == (iron.carrier.empty() ? Liquids{} : Liquids{iron.carrier}));
}

TEST_CASE("a powder in a film colors it; the film says what lifts it") {
    const auto f = facts_of({{"solvent-red-24", Amount::percent_weight, 0.1}, {"oil-varnish", Amount::rest, 0}});
    CHECK(f.colored);
    CHECK(f.lifted_by == facts_of("oil-varnish").lifted_by);
    CHECK(f.binder->id == "oil-varnish");
    const auto plain = facts_of("water");
    CHECK_FALSE(plain.colored);
    CHECK(plain.carriers == Liquids{"water"});
    CHECK(plain.name == whole_library().at("water").name);
}
