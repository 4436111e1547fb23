/// A first scene, as `new` writes it.
#include <catch2/catch.hpp>

#include "foretone/job/new_scene.hpp"
#include "foretone/job/preview.hpp"
#include "foretone/scene/written_units.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string refused_new(const std::string& wood, const std::string& coats) {
    try {
        job::NewScene s;
        s.wood = wood;
        s.finishes = {job::read_steps(coats, library())};
        job::new_scene_text(s, library());
    } catch (const scene::InputError& e) {
        return e.what();
    }
    return "";
}

}  // namespace

TEST_CASE("every wood and everything that is put on makes a first scene that is read again") {
    int scenes = 0;
    for (const auto units : {schedule::UnitSystem::metric, schedule::UnitSystem::us})
        for (const auto& id : library().ids()) {
            const auto* entry = library().find(id);
            if (!entry || !entry->kind || *entry->kind == material::Kind::liquid) continue;
            INFO(id);
            job::NewScene s;
            s.units = units;
            if (*entry->kind == material::Kind::wood) s.wood = id;
            s.finishes = {job::read_steps(*entry->kind == material::Kind::wood ? "tung" : id + " x3", library())};
            const auto text = job::new_scene_text(s, library());
            const auto read = scene::read_scene_text(text, "new.toml", ".", library());
            CHECK(read.wood == s.wood);
            CHECK(scene::units_of(read) == units);
            REQUIRE(read.finishes.size() == 1);
            CHECK(read.finishes[0].steps.size() == 1);
            CHECK(read.finishes[0].steps[0].coats == (*entry->kind == material::Kind::wood ? 1 : 3));
            ++scenes;
        }
    CHECK(scenes > 80);
}

TEST_CASE("targets are told apart by how they are written") {
    const auto target = [](const std::string& said) {
        job::NewScene s;
        s.finishes = {{{"tung", 1}}};
        s.target = said;
        return job::new_scene_text(s, library());
    };
    CHECK(target("#b5651d").find("srgb = \"#b5651d\"") != std::string::npos);
    CHECK(target("60, 20, 45").find("lab = [60, 20, 45]\nlight = \"D65\"") != std::string::npos);
    CHECK(target("[60, 20, 45]").find("lab = [60, 20, 45]\n") != std::string::npos);
    CHECK(target("leg.csv").find("reflectance = \"leg.csv\"") != std::string::npos);
    CHECK(target("tung").find("finish = \"tung\"") != std::string::npos);
    CHECK(target("").find("[target]") == std::string::npos);
    scene::read_scene_text(target("60, 20, 45"), "new.toml", ".", library());
}

TEST_CASE("what no scene can hold is refused with the nearest that it can") {
    CHECK(refused_new("chery", "tung").find("cherry") != std::string::npos);
    CHECK(refused_new("tung", "tung").find("not a wood") != std::string::npos);
    CHECK(refused_new("ash", "tong").find("tung") != std::string::npos);
    CHECK(refused_new("ash", "danish oil x2").find("oil-varnish-blend") != std::string::npos);
    CHECK(refused_new("oak", "tung").find("white-oak or red-oak") != std::string::npos);
    CHECK(refused_new("ash", "ash").find("it goes with --wood") != std::string::npos);
    CHECK(refused_new("ash", "tung,,").find("steps-syntax") != std::string::npos);
    CHECK(refused_new("ash", "tung x2, orange-shellac").empty());
}
