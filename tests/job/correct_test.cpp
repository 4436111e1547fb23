#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "foretone/job/correct.hpp"
#include "foretone/report/json.hpp"
#include "support/demo.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string look = "[look]\nlights = [\"D65\"]\nobserver = \"10deg\"\ngeometry = \"d/8-included\"\n";
const std::string read_finish =
    "[[finish]]\nname = \"dyed\"\n[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 12 }, { use = \"water\", "
    "parts = 36 } "
    "]\nwet_g_per_m2 = 65\n"
    "[[finish.step]]\nuse = \"orange-shellac\"\ncut_lb = 1.5\nmethod = \"spray\"\n[[finish.step]]\nuse = "
    "\"waterborne-acrylic\"\ncoats = 2\n";

scene::Scene a_scene(const Folder& f, const std::string& more = "") {
    return scene::read_scene(
        f.write("s.toml", "format = 1\n" + look + "[wood]\nuse = \"hard-maple\"\n" + read_finish + more), library());
}

color::Lab finished(const scene::Scene& s) {
    return job::preview(s, library(), appearance::two_flux_solver()).finishes[0].stages.back().colors[0].lab;
}

std::filesystem::path reading(const Folder& f, const color::Lab& lab, const std::string& name = "board") {
    return f.write("r.txt", "light: D65\nobserver: 10deg\ngeometry: d/8-included\n" + name + "\t" +
                                std::to_string(lab.l) + "\t" + std::to_string(lab.a) + "\t" + std::to_string(lab.b) +
                                "\n");
}

job::CorrectQuestion ask(const std::filesystem::path& measured) { return {measured, "", "", ""}; }

std::string fault(const scene::Scene& s, const job::CorrectQuestion& q) {
    try {
        job::correct(s, library(), q);
        return "none";
    } catch (const scene::InputError& e) {
        return e.problems.front().id;
    }
}

/// The scene, and as its target its own finish with a dye 2.6 times as strong.
scene::Scene wanting_stronger_dye(const Folder& f) {
    auto wanted = a_scene(f);
    std::get<material::Stock>(wanted.materials.at("honey-dye").data).strength.value = 2.6;
    const auto lab = finished(wanted);
    return a_scene(f, "[target]\nlab = [" + std::to_string(lab.l) + ", " + std::to_string(lab.a) + ", " +
                          std::to_string(lab.b) + "]\nlight = \"D65\"\nobserver = \"10deg\"\n");
}

}  // namespace

TEST_CASE("a board within the noise is left alone") {
    const Folder f("correct-noise");
    const auto s = a_scene(f);
    auto lab = finished(s);
    lab.l += 0.4;
    const auto c = job::correct(s, library(), ask(reading(f, lab)));
    CHECK(c.done);
    CHECK(c.prediction_holds);
    CHECK(c.target_is_prediction);
    CHECK(c.proposals.empty());
    CHECK(c.noise.board_de00 > 0.5);
    CHECK(c.noise.board_de00 < 2);
    CHECK(c.noise.bound_de00 > 1.9 * std::hypot(c.noise.reading_de00, c.noise.board_de00));
}

TEST_CASE("a board inside the noise that may be seen to be off is left alone, and what would mend it is told") {
    const Folder f("correct-seen");
    const auto s = a_scene(f);
    auto lab = finished(s);
    lab.l += 2.2;
    const auto c = job::correct(s, library(), ask(reading(f, lab)));
    REQUIRE(c.lights.front().to_target > std::hypot(c.noise.reading_de00, c.noise.board_de00));
    CHECK(c.done);
    REQUIRE_FALSE(c.proposals.empty());
    CHECK(c.proposals.front().change.worst_de00 < c.lights.front().to_target);
}

TEST_CASE(
    "a dye that came out too strong is diluted, two other ways stand beside, and a dark board is told the truth") {
    const Folder f("correct-strong");
    const auto s = a_scene(f);
    auto strong = s;
    std::get<material::Stock>(strong.materials.at("honey-dye").data).strength.value =
        2.6;  // further off than boards of one make
    const auto dark = finished(strong);
    const auto c = job::correct(s, library(), ask(reading(f, dark)));
    REQUIRE_FALSE(c.done);
    REQUIRE_FALSE(c.proposals.empty());
    const auto& best = c.proposals.front();
    CHECK(best.change.kind == search::Change::Kind::strength);
    CHECK(best.change.amount == Approx(1 / 2.6).margin(0.08));
    CHECK(best.text.find("step 1: dilute the dye to ") == 0);
    CHECK(best.spread_de00 > 0.2);
    CHECK(best.spread_de00 < 4);
    CHECK_THAT(std::hypot(best.spread_materials_de00, best.spread_boards_de00), Near(best.spread_de00, closed_form));
    // What the reading taught is in it: the same finish is less sure before any board is read.
    auto changed = s;
    changed.finishes[0] = best.change.finish;
    const auto unread = job::preview(changed, library(), appearance::two_flux_solver());
    CHECK(best.spread_materials_de00 < 0.9 * unread.finishes[0].stages.back().colors[0].region.materials_de00);
    // The change, laid with the hidden dye, lands.
    strong.finishes[0] = best.change.finish;
    CHECK(color::delta_e_00(finished(strong), finished(s)) < 1);
    CHECK(c.proposals.size() >= 2);
    bool lifts = false, cannot = false;
    for (const auto& a : c.advice) {
        lifts = lifts || a.find("what can lift it: sanding back") == 0;
        cannot = cannot || a.find("no coat lifts it") != std::string::npos;
    }
    CHECK(lifts);
    CHECK(cannot);
    const auto j = nlohmann::json::parse(report::correct_json(s, c));
    CHECK(j.at("proposals").at(0).at("kind") == "strength");
    CHECK(j.at("done") == false);
    CHECK(j.at("lights").at(0).at("to_target_dE00").get<double>() == Approx(c.lights[0].to_target));
}

TEST_CASE("a bare reading of the board tells the wood from the finish") {
    const Folder f("correct-bare");
    const auto s = a_scene(f);
    auto darker = s;
    for (double& v : std::get<material::Wood>(darker.materials.at("hard-maple").data).reflectance.values) v *= 0.85;
    const auto bare =
        job::preview(darker, library(), appearance::two_flux_solver()).finishes[0].stages.front().colors[0].lab;
    const auto done = finished(darker);
    const auto line = [](const std::string& name, const color::Lab& c) {
        return name + "\t" + std::to_string(c.l) + "\t" + std::to_string(c.a) + "\t" + std::to_string(c.b) + "\n";
    };
    const auto path = f.write(
        "r.txt", "light: D65\nobserver: 10deg\ngeometry: d/8-included\n" + line("before", bare) + line("after", done));
    CHECK(fault(s, ask(path)) == "readings-several");
    job::CorrectQuestion q = ask(path);
    q.sample = "after";
    q.bare = "before";
    const auto c = job::correct(s, library(), q);
    const auto wood =
        std::find_if(c.learned.begin(), c.learned.end(), [](const auto& l) { return l.figure == "bare L*"; });
    REQUIRE(wood != c.learned.end());
    CHECK(wood->value == Approx(bare.l).margin(0.5));
    const auto dye =
        std::find_if(c.learned.begin(), c.learned.end(), [](const auto& l) { return l.figure == "strength"; });
    if (dye != c.learned.end()) CHECK((dye->low() < 1 && dye->high() > 1));
}

TEST_CASE("a Lab target is judged under its own light, a reading under another is refused") {
    const Folder f("correct-target");
    const auto s = a_scene(f, "[target]\nlab = [56, 17, 40]\nlight = \"D65\"\nobserver = \"10deg\"\n");
    const auto c = job::correct(s, library(), ask(reading(f, finished(s))));
    CHECK_FALSE(c.target_is_prediction);
    CHECK(c.prediction_holds);
    CHECK(c.lights.size() == 1);
    CHECK_FALSE(c.done);
    const auto other = f.write("a.txt", "light: A\nobserver: 10deg\ngeometry: d/8-included\nboard\t60\t10\t30\n");
    CHECK(fault(s, ask(other)) == "light-differs");
}

TEST_CASE("what cannot be compared is refused with its reason") {
    const Folder f("correct-faults");
    const auto s = a_scene(f);
    auto q = ask(reading(f, {60, 10, 30}));
    q.finish = "dyde";
    CHECK(fault(s, q) == "finish-unknown");
    q.finish.clear();
    q.sample = "bord";
    CHECK(fault(s, q) == "sample-unknown");
    q = ask(f / "none.txt");
    CHECK(fault(s, q) == "file-missing");
    q = ask(reading(f, {20, -60, 60}));
    CHECK(fault(s, q).substr(0, 4) == "fit-");
}

TEST_CASE("a reading of another geometry is refused with what to set, one of none is taken as the look's and told") {
    const Folder f("correct-geometry");
    const auto s = a_scene(f);
    const auto lab = finished(s);
    const std::string color =
        "board\t" + std::to_string(lab.l) + "\t" + std::to_string(lab.a) + "\t" + std::to_string(lab.b) + "\n";
    const auto other = f.write("o.txt", "light: D65\nobserver: 10deg\ngeometry: 45/0\n" + color);
    CHECK_THROWS_WITH(job::correct(s, library(), ask(other)), Catch::Contains("set [look] geometry"));
    const auto told = [&](const std::filesystem::path& file) {
        const auto c = job::correct(s, library(), ask(file));
        return std::any_of(c.warnings.begin(), c.warnings.end(),
                           [](const auto& w) { return w.id == "geometry-assumed"; });
    };
    CHECK(told(f.write("n.txt", "light: D65\nobserver: 10deg\n" + color)));
    CHECK_FALSE(told(reading(f, lab)));
}

TEST_CASE("where several finishes could be meant, the one taken is told with the others' names") {
    const Folder f("correct-which");
    const auto one = a_scene(f);
    const auto file = reading(f, finished(one));
    const auto told = [&](const scene::Scene& s, const std::string& name) {
        auto question = ask(file);
        question.finish = name;
        std::string text;
        for (const auto& w : job::correct(s, library(), question).warnings)
            if (w.id == "finish-assumed") text = w.text;
        return text;
    };
    CHECK(told(one, "").empty());
    const auto two = a_scene(f, "[[finish]]\nname = \"clear\"\n[[finish.step]]\nuse = \"waterborne-acrylic\"\n");
    CHECK(told(two, "") ==
          "the board is taken to carry \"dyed\"; if it does not, name its finish with --finish: clear");
    CHECK(told(two, "dyed").empty());
}

TEST_CASE("a change of more than half as much again comes with a caution and its half, a smaller one with none") {
    const Folder f("correct-large");
    const auto s = wanting_stronger_dye(f);
    const auto c = job::correct(s, library(), ask(reading(f, finished(s))));
    REQUIRE_FALSE(c.proposals.empty());
    const auto& best = c.proposals.front();
    REQUIRE(best.change.kind == search::Change::Kind::strength);
    CHECK(best.change.amount == Approx(2.6).margin(0.3));
    const auto half = std::to_string(std::lround((1 + best.change.amount) / 2 * 100));
    CHECK(best.caution.find("try it on scrap first, and half of it (to " + half + " %)") != std::string::npos);
    for (const auto& p : c.proposals)
        if (p.change.kind == search::Change::Kind::coats || p.change.kind == search::Change::Kind::touch)
            CHECK(p.caution.empty());
    CHECK(nlohmann::json::parse(report::correct_json(s, c)).at("proposals").at(0).at("caution") == best.caution);
}

TEST_CASE("where one reading does not tell the wood from the dye, a bare reading is asked for") {
    const Folder f("correct-ask-bare");
    const auto s = wanting_stronger_dye(f);
    const auto asks = [&](const job::Correction& c) {
        return std::any_of(c.advice.begin(), c.advice.end(),
                           [](const auto& a) { return a.find("name that reading with --bare") != std::string::npos; });
    };
    CHECK(asks(job::correct(s, library(), ask(reading(f, finished(s))))));
    const auto bare =
        job::preview(s, library(), appearance::two_flux_solver()).finishes[0].stages.front().colors[0].lab;
    const auto line = [](const std::string& name, const color::Lab& c) {
        return name + "\t" + std::to_string(c.l) + "\t" + std::to_string(c.a) + "\t" + std::to_string(c.b) + "\n";
    };
    auto q = ask(f.write("r.txt", "light: D65\nobserver: 10deg\ngeometry: d/8-included\n" + line("before", bare) +
                                      line("after", finished(s))));
    q.sample = "after", q.bare = "before";
    CHECK_FALSE(asks(job::correct(s, library(), q)));
}

TEST_CASE("a wiped oil is offered neither film nor sheen") {
    const Folder f("correct-oil");
    const std::string geometry = "d/8-excluded";
    const auto s = scene::read_scene(
        f.write("s.toml", "format = 1\n[look]\nlights = [\"D65\"]\nobserver = \"10deg\"\ngeometry = \"" + geometry +
                              "\"\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"tung\"\n[[finish.step]]\nuse = "
                              "\"tung\"\ncoats = "
                              "3\nmethod = \"wipe\"\n"),
        library());
    const auto lab = finished(s);
    const auto file = f.write("r.txt", "light: D65\nobserver: 10deg\ngeometry: " + geometry + "\nboard\t" +
                                           std::to_string(lab.l - 7) + "\t" + std::to_string(lab.a) + "\t" +
                                           std::to_string(lab.b) + "\n");
    const auto wiped = job::correct(s, library(), ask(file));
    REQUIRE_FALSE(wiped.done);
    for (const auto& p : wiped.proposals) {
        INFO(p.text);
        CHECK(p.change.kind != search::Change::Kind::film);
        CHECK(p.change.kind != search::Change::Kind::sheen);
    }
}

TEST_CASE("a change of the wet film is told against the recipe's, not against what was learned of it") {
    const Folder f("correct-film");
    const auto s = scene::read_scene(
        f.write("s.toml", "format = 1\n" + look +
                              "[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"amber\"\n"
                              "[[finish.step]]\nuse = \"garnet-shellac\"\ncut_lb = 2\ncoats = 3\nmethod = \"brush\"\n"),
        library());
    auto thick = s;
    auto& usual = std::get<material::Binder>(thick.materials.at("garnet-shellac").data)
                      .wet_um[static_cast<std::size_t>(material::Method::brush)]
                      ->value;
    const double recipe = usual;
    usual *= 1.7;
    const auto c = job::correct(s, library(), ask(reading(f, finished(thick))));
    REQUIRE_FALSE(c.done);
    bool film = false;
    for (const auto& p : c.proposals) {
        if (p.change.kind != search::Change::Kind::film) continue;
        film = true;
        INFO(p.text);
        CHECK(p.text.find("µm wet instead of " + std::to_string(std::lround(recipe))) != std::string::npos);
        CHECK(p.change.amount == Approx(*p.change.finish.steps[0].wet_um / recipe));
    }
    CHECK(film);
}

TEST_CASE("figures that lie far from the library are told") {
    const Folder f("correct-far");
    const auto s = a_scene(f);
    const auto stages = job::preview(s, library(), appearance::two_flux_solver()).finishes[0].stages;
    const auto line = [](const std::string& name, const color::Lab& c) {
        return name + "\t" + std::to_string(c.l) + "\t" + std::to_string(c.a) + "\t" + std::to_string(c.b) + "\n";
    };
    // The bare wood as the library has it, the finished board much darker.
    auto dark = stages.back().colors[0].lab;
    dark.l -= 14, dark.a += 6;
    auto q = ask(f.write("r.txt", "light: D65\nobserver: 10deg\ngeometry: d/8-included\n" +
                                      line("before", stages.front().colors[0].lab) + line("after", dark)));
    q.sample = "after", q.bare = "before";
    const auto c = job::correct(s, library(), q);
    REQUIRE_FALSE(c.done);
    bool far = false, told = false;
    for (const auto& l : c.learned) {
        const double off = l.factor ? std::log(l.value / l.library) : l.value - l.library;
        far = far || std::abs(off) > 2 * l.library_error;
    }
    for (const auto& a : c.advice) told = told || a.find("of its spreads from the library") != std::string::npos;
    CHECK(far);
    CHECK(told);
}

TEST_CASE("where no change helps, none is spoken of") {
    const Folder f("correct-none");
    const auto s = scene::read_scene(
        f.write("s.toml",
                "format = 1\n" + look +
                    "[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"clear\"\n[[finish.step]]\nuse = "
                    "\"waterborne-acrylic\"\n[target]\nlab = [50, -20, -10]\nlight = \"D65\"\nobserver = \"10deg\"\n"),
        library());
    const auto c = job::correct(s, library(), ask(reading(f, finished(s))));
    REQUIRE(c.proposals.empty());
    REQUIRE_FALSE(c.advice.empty());
    CHECK(c.advice.front().find("no one change") == 0);
    for (const auto& a : c.advice) CHECK(a.find("the change") == std::string::npos);
}
