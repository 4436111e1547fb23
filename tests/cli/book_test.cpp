#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/program.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

std::string file_text(const std::string& name) {
    std::ifstream in(folder() + "/" + name, std::ios::binary);
    std::stringstream s;
    s << in.rdbuf();
    return s.str();
}

std::string said_of(const std::string& tool, const std::string& name) {
    if (std::system((tool + " '" + folder() + "/" + name + "' >'" + folder() + "/said' 2>&1").c_str()) != 0) return "";
    return file_text("said");
}

const std::string one_finish =
    "format = 1\ntitle = \"Bench\"\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"varnish\"\n[[finish.step]]\nuse = "
    "\"oil-varnish\"\n";

}  // namespace

TEST_CASE("book writes a PDF and an HTML file of as many pages as it says, the same bytes each time") {
    fresh_folder();
    write("bench.toml", one_finish);
    const auto r = run("book bench.toml --wood ash --wood walnut --out . --json book.json");
    INFO(r.err);
    REQUIRE(r.status == 0);
    CHECK(r.out.find("4 chips on 2 pages, index included") != std::string::npos);
    CHECK(r.out.find("walnut") != std::string::npos);
    const auto j = json::parse(file_text("book.json"));
    CHECK(j.at("chips").size() == 4);
    CHECK(j.at("pages") == 2);
    const auto info = said_of("pdfinfo", "bench-book-a4.pdf");
    CHECK(info.find("Pages:           2\n") != std::string::npos);
    CHECK(info.find("595.276 x 841.89 pts (A4)") != std::string::npos);
    const auto text = said_of("pdftotext", "bench-book-a4.pdf");
    CHECK(text == "");  // it goes to a file of its own
    CHECK(file_text("bench-book-a4.txt").find("varnish") != std::string::npos);
    const auto html = file_text("bench-book-a4.html");
    CHECK(html.find("<script") == std::string::npos);
    const auto pdf = file_text("bench-book-a4.pdf");
    REQUIRE(run("book bench.toml --wood ash --wood walnut --out . --quiet").status == 0);
    CHECK(file_text("bench-book-a4.pdf") == pdf);
    CHECK(file_text("bench-book-a4.html") == html);
    REQUIRE(run("book bench.toml --cards --paper letter --out . --quiet").status == 0);
    CHECK(said_of("pdfinfo", "bench-cards-letter.pdf").find("612 x 792 pts (letter)") != std::string::npos);
}

TEST_CASE("book --lesson prints a front and a back of each scene, and takes no option of books") {
    fresh_folder();
    write("coats.toml", one_finish + "[[finish]]\nname = \"two\"\n[[finish.step]]\nuse = \"oil-varnish\"\ncoats = 2\n");
    const auto r = run("book --lesson coats.toml --out .");
    INFO(r.err);
    REQUIRE(r.status == 0);
    CHECK(r.out.find("Bench (differs: coats)") != std::string::npos);
    const auto one = said_of("pdfinfo", "coats-lesson-a4.pdf");
    CHECK(one.find("Pages:           2\n") != std::string::npos);
    CHECK(one.find("Title:           Bench\n") != std::string::npos);
    CHECK(run("book --lesson coats.toml --cards").status == 2);
    write("bench.toml", one_finish);
    REQUIRE(run("book --lesson bench.toml coats.toml --out .").status == 0);  // the first stage by stage
    CHECK(said_of("pdfinfo", "lessons-a4.pdf").find("Title:           Lessons in finishing\n") != std::string::npos);
    write("other.toml", one_finish +
                            "[[finish]]\nname = \"two\"\n[[finish.step]]\nuse = \"oil-varnish\"\ncoats = 2\n"
                            "[[finish.step]]\nuse = \"paste-wax\"\n[[finish.step]]\nuse = \"paste-wax\"\n");
    const auto refused = run("book --lesson other.toml --out .");
    CHECK(refused.status == 1);
    CHECK(refused.err.find("[lesson-differs]") != std::string::npos);
}

TEST_CASE("book refuses what it cannot show, and writes nothing") {
    fresh_folder();
    write("bench.toml", one_finish);
    CHECK(run("book").status == 2);
    CHECK(run("book nowhere.toml").status == 1);
    CHECK(run("book bench.toml --wood walnutt").err.find("[material-unknown]") != std::string::npos);
    CHECK(run("book bench.toml --light D66x").err.find("[light-unknown]") != std::string::npos);
    CHECK(run("book bench.toml --paper a5").status == 2);
    CHECK_FALSE(exists("out"));
}

TEST_CASE("sheet --pdf is one page with its typeface, and the same bytes each time") {
    fresh_folder();
    write("bench.toml", one_finish);
    REQUIRE(run("sheet bench.toml --pdf --out . --quiet").status == 0);
    const auto info = said_of("pdfinfo", "bench-sheet-a4.pdf");
    CHECK(info.find("Title:           Bench: finishes to choose from") != std::string::npos);
    CHECK(info.find("Pages:           1\n") != std::string::npos);
    CHECK(said_of("pdffonts", "bench-sheet-a4.pdf").find(" no ") == std::string::npos);
    const auto pdf = file_text("bench-sheet-a4.pdf");
    REQUIRE(run("sheet bench.toml --pdf --out . --quiet").status == 0);  // over its own file
    CHECK(file_text("bench-sheet-a4.pdf") == pdf);
}
