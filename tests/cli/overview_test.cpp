#include <catch2/catch.hpp>
#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/program.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

std::string overview_scene(const std::string& wood, const std::string& use) {
    return "format = 1\ntitle = \"On " + wood + "\"\n[wood]\nuse = \"" + wood +
           "\"\n[[finish]]\nname = \"plain\"\n[[finish.step]]\nuse = \"" + use + "\"\n";
}

std::string overview_file(const std::string& name) {
    std::ifstream in(folder() + "/" + name, std::ios::binary);
    std::stringstream s;
    s << in.rdbuf();
    return s.str();
}

// Columns of the longest line that stands in a table.
std::size_t widest_row(const std::string& text) {
    std::size_t most = 0;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
        if (line.find("memory") != std::string::npos || line.find("----") != std::string::npos)
            most = std::max(most, static_cast<std::size_t>(std::count_if(line.begin(), line.end(),
                                                                         [](char c) { return (c & 0xC0) != 0x80; })));
    return most;
}

}  // namespace

TEST_CASE("preview --wood all shows a finish on every wood in one table, one picture and one JSON") {
    fresh_folder();
    write("bench.toml", overview_scene("ash", "oil-varnish"));
    const auto r = run("preview bench.toml --wood all --out . --json all.json");
    INFO(r.err);
    REQUIRE(r.status == 0);
    CHECK(r.out.find("1 finish on 28 woods: On ash") != std::string::npos);
    CHECK(widest_row(r.out) <= 100);
    for (const std::string wood : {"walnut", "pine", "hard-maple"})
        CHECK(r.out.find("\n" + wood + " ") != std::string::npos);
    CHECK(exists("bench-overview.png"));
    const auto j = json::parse(overview_file("all.json"));
    REQUIRE(j.at("boards").size() == 28);
    const auto& board = j["boards"][0];
    CHECK(board.at("stages").back().at("stage") == "finished");
    CHECK(board.at("stages")[0].at("colors")[0].at("spread_dE00").get<double>() > 0);
    CHECK((board.contains("wood") && board.contains("rests_on") && board.contains("remarks")));
    const auto two = json::parse(run("preview bench.toml --woods ash --wood walnut --json - --no-pictures").out);
    REQUIRE(two.at("boards").size() == 2);
    CHECK((two["boards"][0] == j["boards"][1] && j["boards"][1].at("wood") == "ash"));
}

TEST_CASE("preview of a folder shows all its scenes; one that cannot be read is told and the others are shown") {
    fresh_folder();
    write("jobs/a.toml", overview_scene("ash", "oil-varnish"));
    write("jobs/b.toml", overview_scene("walnut", "waterborne-acrylic"));
    write("jobs/own.toml", "format = 1\n[material.own]\nkind = \"film\"\n");  // no scene: passed over
    const auto good = run("preview jobs --out .");
    INFO(good.err);
    REQUIRE(good.status == 0);
    CHECK(good.out.find("2 finishes of 2 scenes") != std::string::npos);
    CHECK(exists("jobs-overview.png"));
    CHECK(run("preview jobs/a.toml jobs/b.toml --wood cherry --no-pictures")
              .out.find("2 finishes on 1 wood of 2 scenes") != std::string::npos);

    write("jobs/c.toml", overview_scene("ash", "oil-varnihs"));
    const auto bad = run("preview jobs --no-pictures");
    CHECK(bad.status == 1);
    CHECK(bad.err.find("oil-varnish") != std::string::npos);
    CHECK(bad.out.find("2 finishes of 2 scenes") != std::string::npos);
    CHECK(run("preview jobs --end-grain").status == 2);
    CHECK(run("preview . --no-pictures").err.find("folder-no-scene") != std::string::npos);
    CHECK(run("preview jobs/a.toml --wood oka --no-pictures").err.find("material-unknown") != std::string::npos);
}
