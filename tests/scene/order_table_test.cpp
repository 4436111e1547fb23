/// [order] of a material: facts, waits and cautions, in a scene and in a library.

#include "foretone/scene/material_file.hpp"
#include "scene/faults.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string ordered(const std::string& lines) {
    return "format = 1\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"tung\"\n"
           "[material.mine]\nkind = \"film\"\n[material.mine.order]\n" +
           lines;
}
material::Order order_of(const std::string& lines) { return scene_from(ordered(lines)).materials.at("mine").order; }

/// A file of a liquid up to its table [order].
std::string before_order() {
    const auto text = library().text(*library().find("water"));
    return text.substr(0, text.find("[order]")) + "[order]\n";
}
std::vector<scene::Problem> library_order_faults(const std::string& lines) {
    scene::Problems problems;
    const auto text = before_order() + lines;
    scene::read_material_file(text, "m.toml", "mine", problems);
    return problems.list();
}

}  // namespace

TEST_CASE("each fact of [order] is read into its own place") {
    using Fact = std::optional<material::YesNo> material::Order::*;
    const std::pair<const char*, Fact> facts[] = {{"holds_wax", &material::Order::holds_wax},
                                                  {"hot_solvent", &material::Order::hot_solvent},
                                                  {"wrinkles", &material::Order::wrinkles},
                                                  {"needs_scuff", &material::Order::needs_scuff},
                                                  {"ties", &material::Order::ties},
                                                  {"suits_wet_places", &material::Order::suits_wet_places},
                                                  {"two_component", &material::Order::two_component}};
    for (const auto& [key, member] : facts)
        for (const bool value : {true, false}) {
            INFO(key);
            const auto o = order_of(std::string(key) + (value ? " = true\n" : " = false\n"));
            REQUIRE(o.*member);
            CHECK((o.*member)->value == value);
            CHECK((o.*member)->sure == material::Sure::stated);
            CHECK((o.*member)->source == "stated in the scene");
        }
}

TEST_CASE("a fact may say how sure it is and where it comes from, also in a scene") {
    const auto o = order_of(
        "ties = { value = true, mark = \"conflicting\", source = \"two books\" }\n"
        "holds_wax = { value = false, mark = \"published\" }\n");
    CHECK(o.ties->sure == material::Sure::conflicting);
    CHECK(o.ties->source == "two books");
    CHECK(o.holds_wax->sure == material::Sure::published);
    CHECK(o.holds_wax->source == "stated in the scene");
}

TEST_CASE("what lifts a layer, what it does not hold on to, its waits and its cautions are read") {
    const auto o = order_of(
        "redissolved_by = [\"alcohol\", \"water\"]\nrecoat_early_h = 3\nrecoat_late_h = 48\n"
        "cure_days = 5\ncautions = [\"vapor\", \"dust\"]\n[material.mine.order.sticks_not_to]\nwax = "
        "true\nuncured-oil = false\n");
    CHECK(o.redissolved_by->value == std::vector<std::string>{"alcohol", "water"});
    CHECK(o.recoat_early_h->value == 3);
    CHECK(o.recoat_late_h->value == 48);
    CHECK(o.cure_days->value == 5);
    CHECK(o.cautions == std::vector<std::string>{"vapor", "dust"});
    CHECK(o.sticks_not_to.at("wax").value);
    CHECK_FALSE(o.sticks_not_to.at("uncured-oil").value);
    CHECK(order_of("redissolved_by = []\n").redissolved_by->value.empty());
}

TEST_CASE("facts that are not stated stay those of the like material") {
    const auto varnish = library().material("oil-varnish").order;
    const auto o = order_of("ties = true\n");
    CHECK(o.wrinkles->value == varnish.wrinkles->value);
    CHECK(o.recoat_late_h->value == varnish.recoat_late_h->value);
    CHECK(o.cautions == varnish.cautions);
    CHECK(order_of("cautions = []\n").cautions.empty());  // said: none
}

TEST_CASE("facts of the wrong shape, unknown words and waits that run backwards are refused at their place") {
    refuses(ordered("ties = 1\n"), "value-type", "1\n", "ties");
    refuses(ordered("ties = { value = 1 }\n"), "value-type", "{ value", "ties");
    refuses(ordered("ties = { value = true, mark = \"memory\" }\n"), "value-choice", "\"memory\"",
            "published, practice or conflicting");
    refuses(ordered("ties = { value = true, sure = 1 }\n"), "key-unknown", "sure", "the fact ties");
    refuses(ordered("redissolved_by = \"water\"\n"), "value-type", "\"water\"", "{ value = [ ... ]");
    refuses(ordered("redissolved_by = { value = \"water\" }\n"), "value-type", "{ value", "{ value = [ ... ]");
    refuses(ordered("redissolved_by = [5]\n"), "value-type", "5]", "a text is due");
    refuses(ordered("cautions = [\"fumes\"]\n"), "value-choice", "cautions", "vapor");
    refuses(ordered("recoat_early_h = 50\nrecoat_late_h = 20\n"), "value-range", "[material.mine.order]",
            "recoat_late_h is before recoat_early_h");
    refuses(ordered("cure_days = 366\n"), "value-range", "366", "0 to 365 d");
    refuses(ordered("recoat_early_h = -1\n"), "value-range", "-1", "0 to 1440 h");
    refuses(ordered("recoat_late_h = 8761\n"), "value-range", "8761", "0 to 8760 h");
    refuses(ordered("sticks = true\n"), "key-unknown", "sticks", "[order] of mine");
    refuses(ordered("[material.mine.order.sticks_not_to]\nwaks = true\n"), "key-unknown", "waks",
            "Valid: wax, waxed-film or uncured-oil.");
    refuses(ordered("sticks_not_to = true\n"), "value-type", "true\n", "a table is due");
}

TEST_CASE("in a library a fact owes its mark and its source") {
    const auto lines_before = [](const std::string& lines) { return place_in(before_order() + lines, lines).line; };
    const auto owed = [&](const std::string& line, const std::string& says, std::size_t column) {
        INFO(line);
        holds_fault(library_order_faults(line), "provenance-missing", lines_before(line), column, says);
    };
    owed("ties = { value = true, source = \"x\" }\n", "ties has no mark", 8);
    owed("ties = { value = true, mark = \"practice\" }\n", "ties has no source", 8);
    owed("redissolved_by = { value = [], source = \"x\" }\n", "redissolved_by has no mark", 18);
    owed("cure_days = 5\n", "cure_days must say where it comes from", 13);
    holds_fault(library_order_faults("ties = true\n"), "value-type", lines_before("ties = true\n"), 8, "ties");
    holds_fault(library_order_faults("redissolved_by = []\n"), "value-type", lines_before("redissolved_by = []\n"), 18,
                "mark");
    CHECK(library_order_faults("ties = { value = true, mark = \"practice\", source = \"x\" }\n").empty());
}
