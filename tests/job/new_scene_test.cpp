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

TEST_CASE("every word that is wrong is told in one run, a color called by a wood with the dyes there are") {
    const auto text = refused_new("ash", "walnut-dye, tong, tung x2");
    CHECK(text.find("it goes with --wood. The ready dyes go by their tones: ") != std::string::npos);
    CHECK(text.find("umber-dye") != std::string::npos);
    CHECK(text.find("there is no material 'tong'") != std::string::npos);
}

TEST_CASE("a ready dye is thinned as its file advises, one coat is laid where none is said, lights go by their names") {
    job::NewScene s;
    s.lights = {"daylight", "warm lamp", "LED-4000"};
    s.finishes = {job::read_steps("umber dye, orange shellac", library())};
    const auto read = scene::read_scene_text(job::new_scene_text(s, library()), "new.toml", ".", library());
    CHECK(read.look.lights == std::vector<std::string>{"D65", "A", "LED-4000"});
    const auto& steps = read.finishes.at(0).steps;
    REQUIRE(steps.at(0).mix.size() == 2);
    CHECK(steps[0].mix[1].use == "water");
    CHECK(steps[0].mix[1].value == 9 * steps[0].mix[0].value);
    CHECK(steps.at(1).coats == 1);
    CHECK(library().material("umber-dye").note.find("about 1:9") != std::string::npos);
    s.lights = {"banana"};
    CHECK_THROWS_WITH(job::new_scene_text(s, library()), Catch::Contains("write daylight, lamp"));
}

TEST_CASE("a ready dye that goes on neat is told of, a thinned one is not") {
    const auto warned = [](const std::string& mix) {
        const auto s = scene::read_scene_text(
            "format = 1\n[look]\nlights = [\"D65\"]\n[wood]\nuse = \"hard-maple\"\n"
            "[[finish]]\nname = \"a\"\n[[finish.step]]\n" +
                mix + "\nwet_g_per_m2 = 70\n",
            "s.toml", ".", library());
        const auto p = job::preview(s, library(), appearance::two_flux_solver());
        const auto& w = p.finishes.at(0).warnings;
        return std::any_of(w.begin(), w.end(), [](const auto& one) { return one.id == "dye-neat"; });
    };
    CHECK(warned("use = \"honey-dye\""));
    CHECK(warned("mix = [ { use = \"honey-dye\", parts = 1 }, { use = \"russet-dye\", parts = 1 } ]"));
    CHECK_FALSE(warned("mix = [ { use = \"honey-dye\", parts = 1 }, { use = \"water\", parts = 9 } ]"));
}
