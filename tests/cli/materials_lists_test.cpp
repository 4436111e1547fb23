/// materials: the list, one material's figures, and the check, each against the others.

#include <map>

#include "cli/answers.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string good_spirit =
    "format = 1\nkind = \"liquid\"\nname = \"Spirit\"\nnote = \"strong\"\n"
    "n = { value = 1.36, sd = 0.01, mark = \"published\", source = \"a table\" }\n"
    "density_g_per_ml = { value = 0.79, sd = 0.02, mark = \"measured\", source = \"a scale\" }\n"
    "depth_um = { value = 50, sd = 20, mark = \"practice\", source = \"a hand\" }\n"
    "fill = { value = 0.5, sd = 0.1, mark = \"computed\", source = \"a sum\" }\n"
    "[order]\ncautions = [\"vapor\"]\ncure_days = { value = 2, sd = 1, mark = \"practice\", source = \"a hand\" }\n";

}  // namespace

TEST_CASE("the list names every material once, by kind, and everything listed can be shown") {
    const auto j = json_answer("materials");
    std::map<std::string, std::string> kinds;
    std::string last_kind, last_id;
    for (const auto& m : j.at("materials")) {
        const std::string id = m.at("id"), kind = m.at("kind");
        CHECK(kinds.emplace(id, kind).second);
        if (kind == last_kind) CHECK(last_id < id);  // sorted within a kind
        last_kind = kind, last_id = id;
        CHECK_FALSE(m.at("name").get<std::string>().empty());
    }
    const auto text = run("materials").out;
    for (const auto& [id, kind] : kinds) CHECK(text.find("\n" + id + " ") != std::string::npos);
    for (const auto& light : j.at("lights")) CHECK(text.find(" " + light.get<std::string>()) != std::string::npos);
    CHECK(j.at("observers") == json::array({"10deg", "2deg"}));
    // One of each kind, shown.
    std::map<std::string, std::string> one;
    for (const auto& [id, kind] : kinds) one.emplace(kind, id);
    CHECK(one.size() >= 8);
    for (const auto& [kind, id] : one) {
        const auto shown = json_answer("materials --show " + id);
        CHECK(shown.at("id") == id);
        CHECK(shown.at("kind") == kind);
        CHECK_FALSE(shown.at("figures").empty());
    }
}

TEST_CASE("a material shows every figure as its file has it") {
    fresh_folder();
    write("lib/liquids/spirit.toml", good_spirit);
    const auto j = json_answer("materials --show spirit --spectra lib");
    CHECK(j.at("name") == "Spirit");
    CHECK(j.at("note") == "strong");
    CHECK(j.at("weakest") == "practice");
    REQUIRE(j.at("figures").size() == 4);
    const auto& n = j.at("figures").at(0);
    CHECK(
        n ==
        json(
            {{"key", "n"}, {"unit", ""}, {"value", 1.36}, {"sd", 0.01}, {"mark", "published"}, {"source", "a table"}}));
    CHECK(j.at("figures").at(1).at("unit") == "g/mL");
    const auto r = run("materials --show spirit --spectra lib");
    CHECK(r.out.find("spirit · liquid · Spirit\nstrong\n") == 0);
    CHECK(r.out.find("depth_um                       50 um   ± 20\n") != std::string::npos);
    CHECK(r.out.find("practice: a hand\n") != std::string::npos);
    CHECK(r.out.find("rests on: practice\n") != std::string::npos);
    CHECK(r.out.find("cautions                       vapor\n") != std::string::npos);
    CHECK(r.out.find("cure_days                      2 d   ± 1\n") != std::string::npos);
}

TEST_CASE("curves are shown by their range, whole in the JSON") {
    const auto j = json_answer("materials --show hard-maple");
    const auto& curve = j.at("figures").at(0);
    CHECK(curve.at("key") == "reflectance");
    CHECK(curve.at("value").at("start_nm") == 380);
    CHECK(curve.at("value").at("step_nm") == 5);
    CHECK(curve.at("value").at("values").size() == 81);
    CHECK(j.contains("pores"));
    CHECK(run("materials --show hard-maple").out.find("grain.pores") != std::string::npos);
    const auto stock = run("materials --show honey-dye");
    CHECK(stock.out.find("in one litre of water:") != std::string::npos);
    CHECK(run("materials --show acid-black-1").out.find("dissolves in:") != std::string::npos);
}

TEST_CASE("the check counts what the files hold: figures are those of all marks together") {
    const auto j = json_answer("materials --check");
    CHECK(j.at("problems") == 0);
    std::size_t sum = 0;
    for (const auto& [mark, count] : j.at("marks").items()) sum += count.get<std::size_t>();
    CHECK(sum == j.at("figures"));
    const auto list = json_answer("materials");
    CHECK(j.at("files") == list.at("materials").size() + list.at("lights").size() + list.at("observers").size());
}

TEST_CASE("the check tells every problem of every file and exits 1, --show refuses the one it shows") {
    fresh_folder();
    write("lib/liquids/spirit.toml", good_spirit);
    CHECK(run("materials --check --spectra lib").status == 0);
    auto bad = good_spirit;
    bad.replace(bad.find("1.36"), 4, "13.6");
    bad.replace(bad.find("0.5,"), 4, "50,");
    write("lib/liquids/bad.toml", bad);
    write("lib/liquids/worse.toml", "format = 1\n");
    const auto r = run("materials --check --spectra lib");
    CHECK(r.status == 1);
    CHECK(r.err.find("lib/liquids/bad.toml:5:15: n = 13.6 is outside 1.2 to 1.7 [value-range]") != std::string::npos);
    CHECK(r.err.find("lib/liquids/bad.toml:8:18: fill = 50 is outside 0 to 1; a fraction is due (50 % is 0.5)") !=
          std::string::npos);
    CHECK(r.err.find("lib/liquids/worse.toml:1:1: kind is missing") != std::string::npos);
    CHECK(r.out.find("3 files, 4 figures") == 0);
    refused_with("materials --show bad --spectra lib", "value-range", "bad.toml:5:15");
    refused_with("materials --show spirt --spectra lib", "material-unknown", "Valid: bad, spirit or worse.");
    CHECK(run("materials --show spirit --check --spectra lib").status == 2);
}

TEST_CASE("lights and observers show where they come from") {
    const auto j = json_answer("materials --show D65");
    CHECK(j.at("kind") == "illuminant");
    CHECK_FALSE(j.at("comments").empty());
    const auto r = run("materials --show 2deg");
    CHECK(r.out.find("2deg · observer\n") == 0);
    CHECK(r.out.find("CIE") != std::string::npos);
}
