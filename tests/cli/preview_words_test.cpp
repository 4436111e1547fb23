/// preview: its table against its JSON, what it notes, and what a terminal shows that a pipe does not.

#include <cstdlib>
#include <fstream>
#include <regex>

#include "cli/answers.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

std::string row_of(const std::string& out, const std::string& start) {
    for (const auto& line : lines_of(out))
        if (line.rfind(start, 0) == 0) return line;
    return "";
}
std::string decimals(double v, int digits) {
    std::ostringstream out;
    out.setf(std::ios::fixed);
    out.precision(digits);
    out << v;
    return out.str();
}

/// What the program prints when its standard output is a terminal.
std::string on_terminal(const std::string& environment, const std::string& arguments) {
    const std::string file = folder() + "/terminal.txt";
    const std::string command = "cd '" + folder() + "' && env -u COLORTERM -u NO_COLOR TERM=dumb " + environment +
                                " script -qec \"'" + program() + "' " + arguments + "\" /dev/null >'" + file +
                                "' 2>&1 </dev/null";
    REQUIRE(std::system(command.c_str()) == 0);
    std::ifstream in(file);
    std::stringstream s;
    s << in.rdbuf();
    return s.str();
}

const std::string two_finishes = tiny_scene +
                                 "[[finish]]\nname = \"varnished\"\n[[finish.step]]\nuse = "
                                 "\"oil-varnish\"\nmethod = \"brush\"\ncoats = 2\n";

}  // namespace

TEST_CASE("the table holds the figures of the JSON, rounded") {
    fresh_folder();
    write("tiny.toml", tiny_scene);
    const auto r = run("preview tiny.toml --no-pictures");
    const auto j = json_answer("preview tiny.toml --no-pictures");
    for (const auto& stage : j.at("finishes").at(0).at("stages")) {
        const auto& c = stage.at("colors").at(0);
        const auto row = row_of(r.out, stage.at("stage").get<std::string>());
        INFO(row);
        for (int i = 0; i < 3; ++i) CHECK(row.find(decimals(c.at("Lab").at(i).get<double>(), 1)) != std::string::npos);
        CHECK(row.find(c.at("hex").get<std::string>()) != std::string::npos);
        CHECK(row.find(decimals(c.at("spread_dE00").get<double>(), 1)) != std::string::npos);
    }
}

TEST_CASE("stages follow the bench: bare first, finished last, coats counted up") {
    fresh_folder();
    write("two.toml", two_finishes);
    const auto j = json_answer("preview two.toml --no-pictures");
    for (const auto& finish : j.at("finishes")) {
        const auto& stages = finish.at("stages");
        CHECK(stages.front().at("stage") == "bare");
        CHECK(stages.back().at("stage") == "finished");
        int step = 0, coat = 0;
        for (const auto& s : stages) {
            const int now = s.at("after_step"), n = s.at("coat");
            CHECK((now > step || (now == step && n >= coat)));
            step = now, coat = n;
        }
    }
    CHECK(j.at("finishes").at(1).at("stages").back().at("coat") == 2);
}

TEST_CASE("all finishes of one wood begin with the same bare board") {
    fresh_folder();
    write("two.toml", two_finishes);
    const auto j = json_answer("preview two.toml --no-pictures");
    CHECK(j.at("finishes").at(0).at("stages").at(0).at("reflectance") ==
          j.at("finishes").at(1).at("stages").at(0).at("reflectance"));
}

TEST_CASE("finishes are compared with the first, each with a size and words; one alone with nothing") {
    fresh_folder();
    write("two.toml", two_finishes);
    const auto j = json_answer("preview two.toml --no-pictures");
    REQUIRE(j.at("differences").size() >= 1);
    for (const auto& d : j.at("differences")) {
        CHECK(d.at("dE00") > 0);
        CHECK(d.at("from") != d.at("to"));
    }
    const auto text = run("preview two.toml --no-pictures").out;
    CHECK(text.find("finished, against \"oiled\"") != std::string::npos);
    CHECK(row_of(text, "varnished").empty() == false);
    write("tiny.toml", tiny_scene);
    CHECK(run("preview tiny.toml --no-pictures").out.find("against") == std::string::npos);  // one finish: nothing to
}

TEST_CASE("each light of the look has its columns, in the look's order") {
    fresh_folder();
    write("lights.toml", tiny_scene + "[look]\nlights = [\"A\", \"D65\", \"LED-2700\"]\nobserver = \"10deg\"\n");
    const auto r = run("preview lights.toml --no-pictures");
    CHECK(r.out.find("observer 10deg") != std::string::npos);
    const auto head = row_of(r.out, "stage");
    CHECK(head.find("A  L*") < head.find("D65  L*"));
    CHECK(head.find("D65  L*") < head.find("LED-2700  L*"));
    const auto j = json_answer("preview lights.toml --no-pictures");
    for (const auto& s : j.at("finishes").at(0).at("stages")) {
        REQUIRE(s.at("colors").size() == 3);
        CHECK(s.at("colors").at(0).at("light") == "A");
        CHECK(s.at("colors").at(2).at("light") == "LED-2700");
        for (const auto& c : s.at("colors")) CHECK(c.at("observer") == "10deg");
    }
}

TEST_CASE("what was assumed is noted once on standard error, and stands in the JSON") {
    fresh_folder();
    write("lab.toml",
          "format = 1\n[wood]\nlab = [75, 6, 20]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"
          "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"tung\"\n[[finish]]\nname = \"y\"\n"
          "[[finish.step]]\nuse = \"tung\"\ncoats = 2\n");
    const auto r = run("preview lab.toml --no-pictures");
    CHECK(r.status == 0);
    int assumed = 0;
    for (const auto& line : lines_of(r.err)) assumed += line.find("[wood-like-assumed]") != std::string::npos;
    CHECK(assumed == 1);
    CHECK(row_of(r.err, "note: lab.toml:2:1: ").find("generic") != std::string::npos);
    const auto j = json_answer("preview lab.toml --no-pictures");
    bool told = false;
    for (const auto& w : j.at("warnings"))
        told = told || (w.at("id") == "reflectance-from-lab" && w.at("where") == "lab.toml:3:7");
    CHECK(told);
    CHECK(j.at("finishes").at(0).at("stages").at(0).at("colors").at(0).at("Lab").at(0).get<double>() ==
          Approx(75).margin(0.05));
}

TEST_CASE("a terminal with true color shows each stage's own color, one with a palette the nearest, others none") {
    fresh_folder();
    write("tiny.toml", tiny_scene);
    const auto j = json_answer("preview tiny.toml --no-pictures");
    const auto full = on_terminal("COLORTERM=truecolor", "preview tiny.toml --no-pictures");
    const auto palette = on_terminal("TERM=xterm-256color", "preview tiny.toml --no-pictures");
    int shown = 0;
    for (const auto& s : j.at("finishes").at(0).at("stages")) {
        const auto hex = s.at("colors").at(0).at("hex").get<std::string>();
        std::string code, index;
        int at[3];
        for (std::size_t i = 0; i < 3; ++i) {
            const int v = std::stoi(hex.substr(1 + 2 * i, 2), nullptr, 16);
            code += ";" + std::to_string(v);
            // The cube's levels are 0, 95, 135, 175, 215, 255 (xterm's 256 colors).
            const int levels[] = {0, 95, 135, 175, 215, 255};
            at[i] = 0;
            for (int k = 1; k < 6; ++k)
                if (std::abs(levels[k] - v) <= std::abs(levels[at[i]] - v)) at[i] = k;
        }
        index = std::to_string(16 + 36 * at[0] + 6 * at[1] + at[2]);
        INFO(hex);
        CHECK(full.find("\x1b[48;2" + code + "m    \x1b[0m") != std::string::npos);
        CHECK(palette.find("\x1b[48;5;" + index + "m    \x1b[0m") != std::string::npos);
        ++shown;
    }
    CHECK(shown == 3);
    CHECK(on_terminal("COLORTERM=24bit", "preview tiny.toml --no-pictures").find("\x1b[48;2;") != std::string::npos);
    CHECK(on_terminal("COLORTERM=truecolor NO_COLOR=1", "preview tiny.toml --no-pictures").find("\x1b[48") ==
          std::string::npos);
    CHECK(on_terminal("", "preview tiny.toml --no-pictures").find("\x1b[48") == std::string::npos);
}

TEST_CASE("columns line up whatever letters and colors stand in them") {
    fresh_folder();
    auto scene = tiny_scene;
    scene.replace(scene.find("\"oiled\""), 7, "\"geölt — Überzug\"");
    write("tiny.toml", scene);
    auto shown = on_terminal("COLORTERM=truecolor", "preview tiny.toml --no-pictures");
    shown = std::regex_replace(shown, std::regex("\x1b\\[[0-9;]*m|\r"), "");
    const auto columns = [](const std::string& text) {
        std::size_t n = 0;
        for (const char c : text) n += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
        return n;
    };
    const auto head = row_of(shown, "stage"), bare = row_of(shown, "bare"), rule = row_of(shown, "-----");
    const auto end = [&](const std::string& line) { return columns(line); };
    CHECK(end(bare) == end(head));  // the last column is a number, set to the right
    CHECK(end(rule) == end(head));
    CHECK(shown.find("geölt — Überzug\n") != std::string::npos);
}

TEST_CASE("long words of a step are cut short in the table, not in the JSON") {
    fresh_folder();
    write("long.toml", "format = 1\n[wood]\nuse = \"ash\"\n[material.mine]\nkind = \"film\"\nname = \"" +
                           std::string(60, 'W') + "\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"mine\"\n");
    const auto row = row_of(run("preview long.toml --no-pictures").out, "finished");
    CHECK(row.find("W…") != std::string::npos);
    CHECK(row.find(std::string(50, 'W')) == std::string::npos);
    const auto j = json_answer("preview long.toml --no-pictures");
    CHECK(j.at("finishes").at(0).at("stages").back().at("action").get<std::string>().find(std::string(60, 'W')) !=
          std::string::npos);
}
