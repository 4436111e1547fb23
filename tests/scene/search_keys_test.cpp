/// [search]: what `match` may use, and what it cannot be told.

#include "scene/faults.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string searched(const std::string& lines) {
    return "format = 1\n[wood]\nuse = \"ash\"\n[target]\nsrgb = \"#b5651d\"\n[search]\n" + lines;
}
const std::string varnish_top = "[search.topcoat]\nuse = [\"oil-varnish\"]\n";
std::string dye_with(const std::string& lines) { return searched(varnish_top + "[search.dye]\n" + lines); }
std::string sealer_with(const std::string& lines) {
    return searched(varnish_top + "[search.sealer]\nuse = [\"orange-shellac\"]\n" + lines);
}

search::Choices choices_of(const std::string& text) { return scene_from(text).search.value().choices; }

}  // namespace

TEST_CASE("a search needs only a topcoat, and has defaults for the rest") {
    const auto c = choices_of(searched(varnish_top));
    CHECK(c.most_steps == 4);
    CHECK_FALSE((c.dye || c.oil || c.sealer));
    REQUIRE(c.topcoat);
    CHECK(c.topcoat->use == std::vector<std::string>{"oil-varnish"});
    CHECK(c.topcoat->coats == std::vector<int>{1});
    CHECK(c.topcoat->cut_lb.empty());
    CHECK_FALSE(c.topcoat->method);
    CHECK_FALSE(c.topcoat->always);
    CHECK(choices_of(searched("most_steps = 2\n" + varnish_top)).most_steps == 2);
}

TEST_CASE("every key of a search is read") {
    const auto c = choices_of(searched(
        "most_steps = 3\n"
        "[search.dye]\nuse = [\"honey-dye\", \"russet-dye\", \"honey-dye\"]\nat_once = 1\nmost_parts = 3\n"
        "water = [19, 9, 9]\nwet_g_per_m2 = 60\nalways = true\n"
        "[search.oil]\nuse = [\"tung\"]\nmethod = \"wipe\"\nalways = true\n"
        "[search.sealer]\nuse = [\"orange-shellac\"]\ncut_lb = 1.5\ncoats = [1, 2]\n"
        "tint = [\"solvent-red-24\"]\ntint_percent = 0.1\n"
        "[search.topcoat]\nuse = [\"oil-varnish\", \"paste-wax\", \"tung\"]\ncoats = 3\nsheen_gu60 = [80, 30]\n"
        "method = \"roll\"\n"));
    CHECK(c.most_steps == 3);
    CHECK(c.dye->use == std::vector<std::string>{"honey-dye", "russet-dye"});
    CHECK(c.dye->at_once == 1);
    CHECK(c.dye->most_parts == 3);
    CHECK(c.dye->water == std::vector<int>{9, 19});
    CHECK(c.dye->wet_g_per_m2 == 60);
    CHECK(c.dye->always);
    CHECK(c.oil->method == material::Method::wipe);
    CHECK(c.oil->always);
    CHECK(c.sealer->cut_lb == std::vector<double>{1.5});
    CHECK(c.sealer->coats == std::vector<int>{1, 2});
    CHECK(c.sealer->tint == std::vector<std::string>{"solvent-red-24"});
    CHECK(c.sealer->tint_percent == std::vector<double>{0.1});
    CHECK_FALSE(c.sealer->always);
    CHECK(c.topcoat->use == std::vector<std::string>{"oil-varnish", "paste-wax", "tung"});
    CHECK(c.topcoat->coats == std::vector<int>{3});
    CHECK(c.topcoat->sheen_gu60 == std::vector<double>{30, 80});
    CHECK(c.topcoat->method == material::Method::roll);
}

TEST_CASE("lists and ranges are the same values, each once and rising") {
    using Cuts = std::vector<double>;
    const auto cuts = [](const std::string& v) {
        return choices_of(sealer_with("cut_lb = " + v + "\n")).sealer->cut_lb;
    };
    CHECK(cuts("2") == Cuts{2});
    CHECK(cuts("[2, 1, 2, 1.5]") == Cuts{1, 1.5, 2});
    CHECK(cuts("{ from = 1, to = 2, step = 0.5 }") == Cuts{1, 1.5, 2});
    CHECK(cuts("{ from = 1, to = 2.2, step = 0.5 }") == Cuts{1, 1.5, 2});
    CHECK(cuts("{ from = 1, to = 3 }") == Cuts{1, 2, 3});
    CHECK(cuts("{ from = 2, to = 2 }") == Cuts{2});
    CHECK(cuts("{ from = 0.1, to = 0.3, step = 0.1 }") == Cuts{0.1, 0.2, 0.3});  // no rounding off the end
    CHECK(choices_of(sealer_with("coats = { from = 1, to = 3 }\n")).sealer->coats == std::vector<int>{1, 2, 3});
}

TEST_CASE("ranges that run backwards, lack an end or have no end of steps are refused at the range") {
    const auto cut = [](const std::string& v) { return sealer_with("cut_lb = " + v + "\n"); };
    refuses(cut("{ from = 3, to = 1 }"), "range-reversed", "{ from", "from 3 to 1");
    refuses(cut("{ from = 1 }"), "key-missing", "{ from", "lacks to");
    refuses(cut("{ to = 1 }"), "key-missing", "{ to", "lacks from");
    refuses(cut("{ from = 1, to = 3, step = 0.0001 }"), "range-steps", "{ from", "more than 1000 steps");
    refuses(cut("{ from = 1, to = 3, by = 1 }"), "key-unknown", "by", "step");
    refuses(cut("{ from = 1, to = 7 }"), "value-range", "7 }", "0.1 to 6 lb/gal");
    refuses(cut("{ from = 1, to = 3, step = 0 }"), "value-range", "0 }", "step = 0");
    refuses(cut("[]"), "value-empty", "[]", "give a number, a list, or { from");
    refuses(cut("[1, 9]"), "value-range", "9]", "0.1 to 6");
    refuses(cut("\"2\""), "value-unit", "\"2\"", "a plain number is due");
    refuses(sealer_with("coats = 1.5\n"), "value-whole", "1.5", "must be a whole number");
    refuses(sealer_with("coats = [1, 2.5]\n"), "value-whole", "[1, 2.5]", "2.5");
    refuses(sealer_with("coats = 31\n"), "value-range", "31", "1 to 30");
}

TEST_CASE("what is searched must be of the kind its place is for") {
    refuses(searched("[search.topcoat]\nuse = [\"honey-dye\"]\n"), "material-kind", "\"honey-dye\"]",
            "here a topcoat is due: a film, oil or wax");
    refuses(searched(varnish_top + "[search.oil]\nuse = [\"oil-varnish\"]\n"), "material-kind", "\"oil-varnish\"]",
            "a oil is due: a oil");
    refuses(searched(varnish_top + "[search.sealer]\nuse = [\"tung\"]\n"), "material-kind", "\"tung\"",
            "sealer is due");
    refuses(dye_with("use = [\"acid-black-1\"]\nwater = 9\n"), "material-kind", "\"acid-black-1\"", "ready dye is due");
    refuses(sealer_with("tint = [\"honey-dye\"]\ntint_percent = 1\n"), "material-kind", "\"honey-dye\"",
            "powder dye is due");
    refuses(searched("[search.topcoat]\nuse = [\"oil-varnsh\"]\n"), "material-unknown", "\"oil-varnsh\"",
            "Did you mean oil-varnish");
    refuses(searched("[search.topcoat]\nuse = []\n"), "value-empty", "use", "name at least one topcoat");
    refuses(searched("[search.topcoat]\ncoats = 2\n"), "key-missing", "[search.topcoat]", "which topcoat?");
    refuses(searched("[search.topcoat]\nuse = \"oil-varnish\"\n"), "value-type", "\"oil-varnish\"", "a list of texts");
}

TEST_CASE("a search without a topcoat, or with unknown tables and keys, is refused") {
    refuses(searched("most_steps = 2\n"), "search-topcoat", "[search]", "no finish is done without one");
    refuses(searched("most_steps = 8\n" + varnish_top), "value-range", "8\n", "1 to 7");
    refuses(searched(varnish_top + "[search.primer]\nuse = []\n"), "key-unknown", "primer", "in [search]");
    refuses(searched("oil = 5\n" + varnish_top), "value-type", "5\n", "a table is due");
    refuses(searched(varnish_top + "always = true\n"), "key-unknown", "always", "[search.topcoat]");
    refuses(sealer_with("always = 1\n"), "value-type", "1\n", "always is true or false");
    refuses(sealer_with("method = \"dip\"\n"), "value-choice", "\"dip\"", "wipe, brush, spray or roll");
}

TEST_CASE("a dye says how far it is thinned; a tint says its powder and its percentage") {
    const auto d = choices_of(dye_with("use = [\"honey-dye\"]\nwater = [19, 9]\n")).dye.value();
    CHECK(d.water == std::vector<int>{9, 19});
    CHECK(d.at_once == 2);
    CHECK(d.most_parts == 4);
    CHECK(d.wet_g_per_m2 == 70);
    CHECK_FALSE(d.always);
    refuses(dye_with("use = [\"honey-dye\"]\n"), "key-missing", "[search.dye]", "how far is the dye thinned?");
    refuses(dye_with("use = [\"honey-dye\"]\nwater = 1001\n"), "value-range", "1001", "0 to 1000 parts");
    refuses(dye_with("use = [\"honey-dye\"]\nwater = 9.5\n"), "value-whole", "9.5", "whole number");
    refuses(dye_with("use = [\"honey-dye\"]\nwater = 9\nat_once = 13\n"), "value-range", "13", "1 to 12");
    refuses(sealer_with("tint = [\"solvent-red-24\"]\n"), "key-missing", "[search.sealer]", "tint needs tint_percent");
    refuses(sealer_with("tint_percent = 1\n"), "key-missing", "[search.sealer]", "tint_percent needs tint");
    refuses(sealer_with("tint = [\"solvent-red-24\"]\ntint_percent = 21\n"), "value-range", "21", "20 %");
}

TEST_CASE("a search knows where its tables stand, so that what cannot be made is told there") {
    const auto text = searched("[search.dye]\nuse = [\"honey-dye\"]\nwater = 9\n" + varnish_top);
    const auto s = scene_from(text).search.value();
    CHECK(s.place.line == place_in(text, "[search]").line);
    CHECK(s.dye.line == place_in(text, "[search.dye]").line);
    CHECK(s.rooms[search::topcoat_room].line == place_in(text, "[search.topcoat]").line);
    CHECK(s.rooms[search::oil_room].line == 0);
}
