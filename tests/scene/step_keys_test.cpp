/// A step of a scene: every key read into trade units, every bound, every fault at its place.

#include "foretone/schedule/measure.hpp"
#include "scene/faults.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string scene_of_step(const std::string& lines) {
    return "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\n" + lines;
}
std::string varnish_with(const std::string& lines) { return scene_of_step("use = \"oil-varnish\"\n" + lines); }
std::string mix_of(const std::string& amount) {
    return scene_of_step("mix = [ { use = \"honey-dye\", " + amount + " }, { use = \"water\", rest = true } ]\n");
}
schedule::Step step_from(const std::string& text) { return scene_from(text).finishes.at(0).steps.at(0); }

struct AmountKey {
    const char* key;
    schedule::Amount amount;
    double low, high;
};
const AmountKey amount_ends[] = {{"parts", schedule::Amount::parts, 1e-4, 1e4},
                                 {"parts_weight", schedule::Amount::parts_weight, 1e-4, 1e4},
                                 {"percent_volume", schedule::Amount::percent_volume, 1e-4, 100},
                                 {"percent_weight", schedule::Amount::percent_weight, 1e-4, 100},
                                 {"ml", schedule::Amount::ml, 1e-3, 1e6},
                                 {"g", schedule::Amount::g, 1e-4, 1e6},
                                 {"drops", schedule::Amount::drops, 0.1, 1e5},
                                 {"g_per_l", schedule::Amount::g_per_l, 1e-3, 500},
                                 {"oz_per_qt", schedule::Amount::oz_per_qt, 1e-4, 20}};

}  // namespace

TEST_CASE("a part's amount is read in the unit that its key names, from one end of its range to the other") {
    for (const auto& a : amount_ends)
        for (const double v : {a.low, 1.0, a.high}) {
            const auto step = step_from(mix_of(std::string(a.key) + " = " + base::shortest(v)));
            INFO(a.key << " = " << v);
            REQUIRE(step.mix.size() == 2);
            CHECK(step.mix[0].use == "honey-dye");
            CHECK(step.mix[0].amount == a.amount);
            CHECK(step.mix[0].value == v);
            CHECK(step.mix[1].amount == schedule::Amount::rest);
        }
}

TEST_CASE("a part's amount beyond its range is refused with the range, at the number") {
    for (const auto& a : amount_ends)
        for (const double v : {a.low / 2, a.high * 2, -1.0}) {
            const std::string written = std::string(a.key) + " = ";
            const auto text = mix_of(written + base::shortest(v));
            auto at = place_in(text, written);
            INFO(text);
            holds_fault(scene_faults(text), "value-range", at.line, at.column + written.size(),
                        "is outside " + base::shortest(a.low) + " to " + base::shortest(a.high));
        }
}

TEST_CASE("how much goes on is read in five units, each by its definition") {
    // 1 mil = 25.4 um; 1 ft2 = 0.3048^2 m2; 1 US gal = 231 cubic inches = 3.785411784 L.
    CHECK(step_from(varnish_with("wet_um = 90\n")).wet_um == 90);
    CHECK_THAT(*step_from(varnish_with("wet_mil = 4\n")).wet_um, Near(101.6, closed_form));
    CHECK(step_from(varnish_with("wet_g_per_m2 = 70\n")).wet_g_per_m2 == 70);
    CHECK(step_from(varnish_with("coverage_m2_per_l = 12\n")).coverage_m2_per_l == 12);
    CHECK_THAT(*step_from(varnish_with("coverage_ft2_per_gal = 400\n")).coverage_m2_per_l,
               Near(400 * 0.3048 * 0.3048 / 3.785411784, closed_form));
    const auto plain = step_from(varnish_with(""));
    CHECK_FALSE((plain.wet_um || plain.wet_g_per_m2 || plain.coverage_m2_per_l));
}

TEST_CASE("the other keys of a step are read, and unsaid ones keep their defaults") {
    const auto s =
        step_from(scene_of_step("use = \"orange-shellac\"\ncoats = 3\nmethod = \"spray\"\ncut_lb = 1.5\n"
                                "ready_cut_lb = 3\nsheen_gu60 = 40\nafter_days = 2.5\nscuff = true\n"));
    CHECK(s.coats == 3);
    CHECK(s.method == material::Method::spray);
    CHECK(s.cut_lb == 1.5);
    CHECK(s.ready_cut_lb == 3);
    CHECK(s.sheen_gu60 == 40);
    CHECK(s.after_days == 2.5);
    CHECK(s.scuff);
    const auto plain = step_from(varnish_with(""));
    CHECK(plain.coats == 1);
    CHECK_FALSE((plain.method || plain.cut_lb || plain.ready_cut_lb || plain.sheen_gu60 || plain.after_days));
    CHECK_FALSE(plain.scuff);
    REQUIRE(plain.mix.size() == 1);
    CHECK(plain.mix[0].use == "oil-varnish");
}

TEST_CASE("every method has its word") {
    const std::pair<const char*, material::Method> all[] = {{"wipe", material::Method::wipe},
                                                            {"brush", material::Method::brush},
                                                            {"spray", material::Method::spray},
                                                            {"roll", material::Method::roll}};
    for (const auto& [word, method] : all)
        CHECK(step_from(varnish_with("method = \"" + std::string(word) + "\"\n")).method == method);
    refuses(varnish_with("method = \"dip\"\n"), "value-choice", "\"dip\"", "Valid: wipe, brush, spray or roll.");
    refuses(varnish_with("method = 2\n"), "value-type", "2\n", "method is a number; a text in quotes is due");
}

TEST_CASE("numbers of a step end where a finisher's do") {
    struct End {
        const char* key;
        double low, high;
    };
    const End ends[] = {{"coats", 1, 30},
                        {"wet_um", 1, 500},
                        {"wet_mil", 0.04, 20},
                        {"wet_g_per_m2", 1, 500},
                        {"cut_lb", 0.1, 6},
                        {"sheen_gu60", 0, 100},
                        {"after_days", 0, 3650},
                        {"coverage_m2_per_l", 2, 1000},
                        {"coverage_ft2_per_gal", 80, 40000}};
    for (const auto& e : ends) {
        const std::string key = std::string(e.key) + " = ";
        INFO(key);
        CHECK(scene_faults(varnish_with(key + base::shortest(e.low) + "\n")).empty());
        CHECK(scene_faults(varnish_with(key + base::shortest(e.high) + "\n")).empty());
        for (const double v : {e.low - 1, e.high + 1}) {
            const auto text = varnish_with(key + base::shortest(v) + "\n");
            holds_fault(scene_faults(text), "value-range", 8, key.size() + 1, "is outside");
        }
    }
}

TEST_CASE("what goes on is said once, as one material or as a mix") {
    refuses(varnish_with("mix = [ { use = \"water\", parts = 1 } ]\n"), "key-conflict", "[[finish.step]]",
            "either use = \"material\" or mix");
    refuses(scene_of_step("mix = 5\n"), "step-empty", "mix", "list of parts");
    refuses(scene_of_step("mix = [ 5 ]\n"), "value-type", "5 ]", "{ use = \"material\", parts = 3 }");
    refuses(scene_of_step("mix = [ { parts = 3 } ]\n"), "key-missing", "{ parts", "needs use");
    refuses(scene_of_step("mix = [ { use = \"water\", parts = 3, ml = 3 } ]\n"), "key-conflict", "{ use",
            "'water' is said more than once");
    refuses(scene_of_step("mix = [ { use = \"water\", parts = 3, rest = true } ]\n"), "key-conflict", "{ use",
            "more than once");
    refuses(scene_of_step("mix = [ { use = \"water\", rest = false } ]\n"), "value-type", "false",
            "rest can only be true");
    refuses(scene_of_step("mix = [ { use = \"water\", part = 3 } ]\n"), "key-unknown", "part =", "parts");
    refuses(scene_of_step("mix = [ { use = \"water\", g_per_m2 = 3 } ]\n"), "unit-unknown", "g_per_m2", "g_per_l");
    refuses(scene_of_step("use = 5\n"), "value-type", "5\n", "use is a number");
}

TEST_CASE("the amount of a part names every way to say it") {
    const auto found = scene_faults(scene_of_step("mix = [ { use = \"water\" } ]\n"));
    REQUIRE(found.size() == 1);
    for (const auto& a : amount_ends) CHECK(found[0].text.find(a.key) != std::string::npos);
    CHECK(found[0].text.find("rest") != std::string::npos);
}

TEST_CASE("a wet film is said once, in one unit") {
    const char* said[] = {"wet_um = 90\n", "wet_mil = 3\n", "wet_g_per_m2 = 60\n", "coverage_m2_per_l = 11\n",
                          "coverage_ft2_per_gal = 400\n"};
    for (std::size_t i = 0; i < 5; ++i)
        for (std::size_t j = i + 1; j < 5; ++j)
            refuses(varnish_with(std::string(said[i]) + said[j]), "key-conflict", "[[finish.step]]", "more than once");
}

TEST_CASE("a ready cut goes with the cut it is thinned to, and can only be thinned") {
    const std::string shellac = "use = \"orange-shellac\"\n";
    refuses(scene_of_step(shellac + "ready_cut_lb = 3\n"), "key-missing", "ready_cut_lb", "needs cut_lb");
    refuses(scene_of_step(shellac + "ready_cut_lb = 2\ncut_lb = 3\n"), "value-range", "cut_lb = 3",
            "above ready_cut_lb");
    CHECK(scene_faults(scene_of_step(shellac + "ready_cut_lb = 3\ncut_lb = 3\n")).empty());
}

TEST_CASE("yes or no is true or false, not a number or a word") {
    refuses(varnish_with("scuff = 1\n"), "value-type", "1\n", "scuff is true or false");
    refuses(varnish_with("scuff = \"yes\"\n"), "value-type", "\"yes\"", "true or false");
    CHECK_FALSE(step_from(varnish_with("scuff = false\n")).scuff);
}

TEST_CASE("a step's fault is placed at the part it is about, or else at the step") {
    const auto text =
        scene_of_step("mix = [ { use = \"honey-dye\", parts = 1 },\n        { use = \"water\", parts = 9 } ]\n");
    const auto s = scene_from(text);
    const auto placed = [&](int part) { return s.at(schedule::Fault("some-id", part, "words"), 0, 0).problems.at(0); };
    CHECK(placed(0).place.text() == "test.toml:7:9");
    CHECK(placed(1).place.text() == "test.toml:8:9");
    CHECK(placed(-1).place.text() == "test.toml:6:1");
    CHECK(placed(2).place.text() == "test.toml:6:1");
    CHECK(placed(1).id == "some-id");
    CHECK(placed(1).text == "words");
}
