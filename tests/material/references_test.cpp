#include "foretone/material/references.hpp"

#include <catch2/catch.hpp>

using namespace foretone::material;

namespace {

Materials materials() {
    Materials s;
    s["water"] = {"water", Kind::liquid, "water", "", Liquid{}, {}};
    s["alcohol"] = {"alcohol", Kind::liquid, "alcohol", "", Liquid{}, {}};
    Dye dye;
    dye.carriers = {"water", "alcohol"};
    s["red"] = {"red", Kind::dye, "red", "", dye, {}};
    s["ready"] = {"ready", Kind::stock, "ready", "", Stock{{{"red", 10}, {"missing", 5}}, "water", {}}, {}};
    Binder film;
    film.carrier = "alcohol";
    s["shellac"] = {"shellac", Kind::film, "shellac", "", film, {}};
    return s;
}

}  // namespace

TEST_CASE("what a material is made of is told apart from what it only names") {
    const auto s = materials();
    CHECK(parts(s.at("red")).empty());
    REQUIRE(references(s.at("red")).size() == 2);
    CHECK(references(s.at("red"))[0].due == Kind::liquid);
    CHECK(parts(s.at("ready")) == std::vector<std::string>{"water", "red", "missing"});
    CHECK(references(s.at("ready"))[1].due == Kind::dye);
    CHECK(parts(s.at("shellac")) == std::vector<std::string>{"alcohol"});
    CHECK(references(s.at("water")).empty());
}

TEST_CASE("a facts-only reference: what redissolves a film is named, and is no part of it") {
    auto film = materials().at("shellac");
    film.order.redissolved_by = Words{{"alcohol", "lacquer-thinner"}, Sure::practice, "test"};
    CHECK(parts(film) == std::vector<std::string>{"alcohol"});
    CHECK(references(film).size() == 3);
}

TEST_CASE("a material comes with its parts to any depth, once, and what is not there is left out") {
    const auto s = materials();
    std::set<std::string> ids;
    add_with_parts(s, "ready", ids);
    CHECK(ids == std::set<std::string>{"ready", "red", "water"});
    add_with_parts(s, "missing", ids);
    add_with_parts(s, "", ids);
    CHECK(ids.size() == 3);
    const auto taken = with_parts(s, {"shellac", "nothing"});
    CHECK(taken.size() == 2);
    CHECK(taken.count("alcohol") == 1);
}

TEST_CASE("materials that name each other in a ring are gathered once") {
    Materials s;
    s["a"] = {"a", Kind::stock, "a", "", Stock{{{"b", 1}}, "", {}}, {}};
    s["b"] = {"b", Kind::stock, "b", "", Stock{{{"a", 1}}, "", {}}, {}};
    std::set<std::string> ids;
    add_with_parts(s, "a", ids);
    CHECK(ids.size() == 2);
}
