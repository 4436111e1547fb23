/// Light and time through the verbs: board, export, sheet, match.

#include <fstream>
#include <sstream>

#include "cli/answers.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string seat = FORETONE_SCENES "/years-by-the-window.toml ";
const std::string seat_finish = "--finish 'waterborne alone' ";
const std::string few_pixels = "--size-mm 96x64 --mm-per-px 2 --view flat --light D65 ";

json aged_seat(const std::string& time) {
    const auto j = json_answer("preview " + seat + "--no-pictures --quiet");
    for (const auto& a : j.at("finishes").at(0).at("aged"))
        if (a.at("after") == time) return a;
    FAIL("no " << time);
    return {};
}

double far(const json& a, const json& b) {
    double sum = 0;
    for (std::size_t i = 0; i < 3; ++i) sum += std::pow(a[i].get<double>() - b[i].get<double>(), 2);
    return std::sqrt(sum);
}

std::string text_of(const std::string& name) {
    std::ifstream in(folder() + "/" + name);
    std::stringstream s;
    s << in.rdbuf();
    return s.str();
}

}  // namespace

TEST_CASE("a board and an export some years old have the color that preview says of that time") {
    fresh_folder();
    const auto due = aged_seat("5 years").at("colors").at(0).at("Lab");
    const auto board = json_answer("board " + seat + seat_finish + few_pixels + "--after '5 years'");
    CHECK(far(board.at("boards").at(0).at("predicted_Lab"), due) < 1e-6);
    CHECK(board.at("boards").at(0).at("dE00_mean_to_predicted") < 0.3);
    CHECK(exists("out/years-by-the-window-board-waterborne-alone-flat-5-years.png"));

    const auto r = run("export " + seat + seat_finish + "--palette --light D65 --after '5 years'");
    INFO(r.err);
    REQUIRE(r.status == 0);
    CHECK(r.err.find("[after-spread]") != std::string::npos);
    const auto palette = text_of("out/years-by-the-window-palette-d65.txt");
    CHECK(palette.find("waterborne alone, after 5 years by a window") != std::string::npos);
    std::ostringstream lightness;
    lightness << std::fixed;
    lightness.precision(2);
    lightness << due[0].get<double>();
    CHECK(palette.find(lightness.str()) != std::string::npos);
}

TEST_CASE("--after is one time of one finish") {
    fresh_folder();
    refused_with("export " + seat + "--palette --after '1 year'", "after-one", "name it with --finish");
    refused_with("export " + seat + "--palette --after '1 year' --finish 'no such'", "finish-unknown", "no such");
    CHECK(run("board " + seat + seat_finish + few_pixels + "--after soon").status == 2);
    CHECK(run("board " + seat + few_pixels + "--after '1 year' --photo x.png --card 1,1,2,2").status == 2);
    CHECK_FALSE(exists("out"));
}

TEST_CASE("the sheet says the last of the times, as a range, in a sentence to sign") {
    fresh_folder();
    const auto j = json_answer("sheet " + seat + "--quiet");
    const auto varies = j.at("varies").get<std::string>();
    CHECK(varies.find("Wood and finish change with light; this is what to expect, a range and never one color. After "
                      "5 years by a window: A ") == 0);
    CHECK(varies.find("(boards may differ ") != std::string::npos);
    const auto& aged = j.at("finishes").at(0).at("aged");
    REQUIRE(aged.size() == 3);
    CHECK(varies.find(aged.at(2).at("colors").at(0).at("words").get<std::string>()) != std::string::npos);
    CHECK(far(aged.at(2).at("colors").at(0).at("Lab"), aged_seat("5 years").at("colors").at(0).at("Lab")) < 1e-6);
    CHECK(aged.at(2).at("colors").at(0).at("dE00_90") > 1);
    CHECK(json_answer("sheet " FORETONE_SCENES "/stool-maple.toml --finish 'clear only' --quiet")
              .at("varies")
              .get<std::string>()
              .find("what to expect") == std::string::npos);
}

// Not under the sanitizers ([release]): two searches.
TEST_CASE("match judges a new piece beside an old one as both will look", "[release]") {
    fresh_folder();
    const auto scene = [](const std::string& target) {
        return "format = 1\n[look]\nexposure = \"window\"\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"old\"\n"
               "[[finish.step]]\nuse = \"waterborne-acrylic\"\ncoats = 2\n[target]\nfinish = \"old\"\n" +
               target +
               "[search]\n[search.dye]\nuse = [\"honey-dye\", \"russet-dye\"]\nat_once = 2\nmost_parts = 2\nwater = { "
               "from = 20, to = 200, step = 60 }\n[search.topcoat]\nuse = [\"waterborne-acrylic\"]\ncoats = 2\n";
    };
    write("now.toml", scene("aged = \"20 years\"\n"));
    write("then.toml", scene("aged = \"20 years\"\njudge_at = \"20 years\"\n"));
    const auto now = json_answer("match now.toml --no-pictures --quiet"),
               then = json_answer("match then.toml --no-pictures --quiet");
    // Beside an old maple a new one has to be dyed; in twenty years it will have gone there by itself.
    const auto undyed = [](const json& j) {
        for (const auto& c : j.at("candidates"))
            if (c.at("recipe").get<std::string>().find("dye") == std::string::npos)
                return c.at("worst_dE00").get<double>();
        return -1.0;
    };
    CHECK(now.at("candidates").at(0).at("recipe").get<std::string>().find("dye") != std::string::npos);
    CHECK(undyed(now) > 10);
    CHECK(undyed(then) >= 0);
    CHECK(undyed(then) < 1);
}

TEST_CASE("toned edges are an option of board") {
    fresh_folder();
    const std::string oak = "board " FORETONE_SCENES "/table-oak-toned.toml " + few_pixels;
    const auto j = json_answer(oak + "--finish 'seal, toner, lacquer' --shade edges");
    CHECK(j.at("board").at("shade") == "edges");
    CHECK(j.at("boards").at(0).at("contrast").is_null());
    CHECK(j.at("boards").at(0).at("dE00_by_unevenness").is_null());
    const auto& shade = j.at("boards").at(0).at("shade");
    CHECK(shade.at("edge_Lab").at(0) < shade.at("middle_Lab").at(0));
    CHECK(exists("out/table-oak-toned-board-seal-toner-lacquer-flat-edges.png"));
    refused_with(oak + "--finish limed --shade edges", "shade-toner", "brown-toner");
    CHECK(run(oak + "--shade edges --tilt").status == 2);
    CHECK(run(oak + "--shade middle").status == 2);
}
