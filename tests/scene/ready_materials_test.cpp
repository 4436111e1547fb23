// The library as a shop sees it: enough to write down the commonest coloring work, each with what it is made of.

#include <catch2/catch.hpp>

#include "foretone/material/figures.hpp"
#include "foretone/scene/library_check.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

TEST_CASE("the library holds at least 110 materials, 16 ready stains among them") {
    std::size_t all = 0;
    for (const auto& row : material::kinds()) {
        INFO(row.word);
        CHECK(library().ids(row.kind).size() > 0);
        all += library().ids(row.kind).size();
    }
    CHECK(all >= 110);
    CHECK(library().ids(material::Kind::stain).size() >= 16);
}

TEST_CASE("kinds that behave as films and oils are entries of those kinds") {
    for (const char* id : {"wipe-on-varnish", "conversion-lacquer", "precatalyzed-lacquer", "vinyl-sealer",
                           "thin-wash-coat", "uv-clear", "casein"}) {
        INFO(id);
        REQUIRE(library().find(id) != nullptr);
        CHECK(library().find(id)->kind == material::Kind::film);
    }
    CHECK(library().find("hard-wax-oil")->kind == material::Kind::oil);
}

TEST_CASE("dyes say what dissolves them: water, alcohol, lacquer thinner or oil") {
    std::map<std::string, int> dissolve;
    for (const auto& id : library().ids(material::Kind::dye)) {
        const auto m = library().material(id);
        for (const auto& c : std::get<material::Dye>(m.data).carriers) ++dissolve[c];
    }
    for (const char* liquid : {"water", "alcohol", "lacquer-thinner", "mineral-spirits"}) {
        INFO(liquid);
        CHECK(dissolve[liquid] >= 3);
    }
    // No spectrum per weight was found of these: they say so, and rest on memory.
    for (const char* id : {"brown-solvent-dye", "black-solvent-dye"}) {
        const auto m = library().material(id);
        CHECK(m.note.find("from memory") != std::string::npos);
        CHECK(material::weakest(m) == material::Mark::memory);
        CHECK(std::get<material::Dye>(m.data).molar_absorptivity.sd >= 0.4);
    }
}

TEST_CASE("what can hurt is said by every treatment that can") {
    const auto says = [](const char* id, const char* caution) {
        const auto m = library().material(id);
        INFO(id << " " << caution);
        CHECK(std::count(m.order.cautions.begin(), m.order.cautions.end(), caution) == 1);
    };
    says("two-part-bleach", "peroxide");
    says("two-part-bleach", "lye");
    says("chlorine-bleach", "chlorine");
    says("oxalic-acid", "acid-dust");
    says("ammonia-fuming", "ammonia");
    says("lye-wash", "lye");
    says("lime-wash", "lye");
    says("burnt-surface", "fire");
    CHECK(material::caution_text("colorant").find("dichromates") != std::string::npos);
}
