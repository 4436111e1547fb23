/// `coats` and `match`: what they print is their JSON, and their verdicts follow from its figures.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "cli/answers.hpp"
#include "foretone/color/lab.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

/// Two finishes on maple, the second the target, and ten recipes to search: the quickest scene of its kind.
const std::string decide_scene =
    "format = 1\ntitle = \"Small search\"\n[look]\nlights = [\"D65\", \"A\"]\n[wood]\nuse = \"hard-maple\"\n"
    "[[finish]]\nname = \"shellac\"\n[[finish.step]]\nuse = \"tung\"\nmethod = \"wipe\"\n"
    "[[finish.step]]\nuse = \"orange-shellac\"\ncut_lb = 2\ncoats = 2\nmethod = \"brush\"\n"
    "[[finish]]\nname = \"varnish\"\n[[finish.step]]\nuse = \"oil-varnish\"\ncoats = 2\nmethod = \"brush\"\n";
const std::string decide_target = "[target]\nfinish = \"varnish\"\n";
const std::string decide_search =
    "[search.sealer]\nuse = [\"orange-shellac\"]\ncut_lb = [1, 2]\ncoats = [1, 2]\nmethod = \"spray\"\n"
    "[search.topcoat]\nuse = [\"waterborne-acrylic\"]\ncoats = [1, 2]\nmethod = \"brush\"\n";

double worst_of_lights(const json& count_of_coats) {
    double worst = 0;
    for (const auto& c : count_of_coats.at("colors")) worst = std::max(worst, c.at("dE00").get<double>());
    return worst;
}

/// The words of a printed line, split at blanks.
std::vector<std::string> split_line(const std::string& line) {
    std::istringstream in(line);
    std::vector<std::string> out;
    for (std::string w; in >> w;) out.push_back(w);
    return out;
}

/// The lines under the first rule of dashes, up to an empty one.
std::vector<std::vector<std::string>> table_rows(const std::string& text) {
    std::vector<std::vector<std::string>> out;
    bool in = false;
    for (const auto& line : lines_of(text)) {
        if (in && line.empty()) break;
        if (in) out.push_back(split_line(line));
        if (line.rfind("--", 0) == 0) in = true;
    }
    return out;
}

std::string tenths(double v) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", v);
    return text;
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("each row of coats is its JSON rounded, from none to as many as asked for") {
    fresh_folder();
    write("s.toml", decide_scene + decide_target);
    const auto j = json_answer("coats s.toml --no-pictures --upto 3");
    const auto rows = table_rows(run("coats s.toml --no-pictures --upto 3").out);
    REQUIRE(j.at("coats").size() == 4);
    REQUIRE(rows.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        const auto& count_of_coats = j.at("coats")[i];
        CHECK(count_of_coats.at("coats") == i);
        CHECK(rows[i][0] == std::to_string(i));
        for (const auto& c : count_of_coats.at("colors")) {
            for (std::size_t axis = 0; axis < 3; ++axis)
                CHECK(std::count(rows[i].begin(), rows[i].end(), tenths(c.at("Lab")[axis])) >= 1);
            for (const char* key : {"spread_dE00", "dE00"})
                CHECK(std::count(rows[i].begin(), rows[i].end(), tenths(c.at(key))) >= 1);
            CHECK(c.contains("added_dE00") == (i > 0));
        }
        CHECK(std::count(rows[i].begin(), rows[i].end(), tenths(worst_of_lights(count_of_coats))) >= 1);
    }
    // Each coat of shellac is a film more.
    for (std::size_t i = 1; i < 4; ++i)
        CHECK(j.at("coats")[i].at("film_um").get<double>() > j.at("coats")[i - 1].value("film_um", 0.0));
}

TEST_CASE("the verdicts on coats follow from the figures: nearest, within the spread, not seen") {
    fresh_folder();
    write("s.toml", decide_scene + decide_target);
    const auto j = json_answer("coats s.toml --no-pictures --upto 5");
    const auto said = run("coats s.toml --no-pictures --upto 5").out;
    const auto& counts = j.at("coats");
    std::size_t nearest = 0, settled = 0;
    const auto apart = [&](std::size_t a, std::size_t b) {
        double most = 0;
        for (std::size_t l = 0; l < counts[a].at("colors").size(); ++l) {
            const auto lab = [&](std::size_t n) {
                const auto v = counts[n]["colors"][l].at("Lab").get<std::array<double, 3>>();
                return foretone::color::Lab{v[0], v[1], v[2]};
            };
            most = std::max(most, foretone::color::delta_e_00(lab(a), lab(b)));
        }
        return most;
    };
    const auto told_from_more = [&] {
        for (std::size_t k = settled + 1; k < counts.size(); ++k)
            if (apart(settled, k) >= 1) return true;
        return false;
    };
    while (told_from_more()) ++settled;
    for (std::size_t i = 0; i < j.at("coats").size(); ++i)
        if (worst_of_lights(j["coats"][i]) < worst_of_lights(j["coats"][nearest])) nearest = i;
    const auto counted = [](std::size_t n) {
        return n == 0 ? std::string("none") : std::to_string(n) + (n == 1 ? " coat" : " coats");
    };
    CHECK(says(said, "nearest the target: " + counted(nearest) + " (dE00 " +
                         tenths(worst_of_lights(j["coats"][nearest])) + " under the worst light)\n"));
    CHECK(says(said, settled + 1 < counts.size()
                         ? "more coats, up to 5, are not seen (dE00 under 1): after " + counted(settled) + "\n"
                         : "(dE00 under 1): they are seen to the last\n"));
}

TEST_CASE("coats takes the finish that is no target and its step of most coats, unless another is named") {
    fresh_folder();
    write("s.toml", decide_scene + decide_target);
    const auto j = json_answer("coats s.toml --no-pictures --upto 1");
    CHECK((j.at("finish") == "shellac" && j.at("step") == 2));
    CHECK(json_answer("coats s.toml --no-pictures --upto 1 --step 1").at("step") == 1);
    CHECK(json_answer("coats s.toml --no-pictures --upto 1 --finish varnish").at("finish") == "varnish");
    CHECK(json_answer("coats s.toml --no-pictures --upto 30").at("coats").size() == 31);
    for (const char* wrong : {"--upto 0", "--upto 31", "--step 0", "--upto two"})
        CHECK(run(std::string("coats s.toml --no-pictures ") + wrong).status == 2);
    refused_with("coats s.toml --step 3", "step-unknown", "shellac");
    refused_with("coats s.toml --finish shelac", "finish-unknown", "shellac");
    CHECK_FALSE(exists("out"));
}

TEST_CASE("without a target coats says what a coat adds and nothing of a target") {
    fresh_folder();
    write("s.toml", decide_scene);
    const auto said = run("coats s.toml --no-pictures --upto 2");
    CHECK(said.status == 0);
    for (const char* word : {"target", "seen  ", "two boards", "metamerism"}) CHECK_FALSE(says(said.out, word));
    CHECK(says(said.out, "coat adds"));
    const auto j = json_answer("coats s.toml --no-pictures --upto 2");
    CHECK_FALSE(j.contains("target"));
    for (const auto& c : j.at("coats")[1].at("colors")) CHECK_FALSE(c.contains("dE00"));
}

TEST_CASE("match tells every recipe it judged, and its candidates by their places") {
    fresh_folder();
    write("s.toml", decide_scene + decide_target + decide_search);
    const auto j = json_answer("match s.toml --no-pictures --threads 1");
    const auto said = run("match s.toml --no-pictures --threads 2").out;
    CHECK((j.at("recipes") == 10 && j.at("examined") == 10));  // 2 topcoats, alone or over 2 cuts of 1 or 2 coats
    CHECK(says(said, "10 of 10 recipes judged in "));
    const auto& candidates = j.at("candidates");
    REQUIRE(candidates.size() >= 2);
    CHECK(candidates[0].at("place") == 1);
    const auto rows = table_rows(said);
    REQUIRE(rows.size() == candidates.size() + 1);  // and the target's own
    CHECK(rows[0][0] == "target");
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const auto& c = candidates[i];
        CHECK(c.at("place") > (i == 0 ? 0 : candidates[i - 1].at("place").get<int>()));  // of all that were judged
        CHECK(rows[i + 1][0] == std::to_string(i + 1));
        CHECK((rows[i + 1][1] == "*") == c.at("best_of_kind").get<bool>());
        CHECK(c.at("worst_dE00").get<double>() == worst_of_lights(c));
        for (const char* chance : {"chance_seen", "chance_seen_other_board"}) {
            REQUIRE(c.at(chance).get<double>() >= 0.01);
            CHECK(std::count(rows[i + 1].begin(), rows[i + 1].end(),
                             std::to_string(std::lround(100 * c.at(chance).get<double>()))) >= 1);
        }
        CHECK(says(said, "  " + c.at("recipe").get<std::string>() + " · "));
        CHECK(c.at("steps") == c.at("step").size());
        int coats = 0;
        for (const auto& s : c.at("step")) coats += s.value("coats", 1);
        CHECK(c.at("coats") == coats);
    }
    CHECK(says(said, "recommended: " + candidates[0].at("recipe").get<std::string>() + "\n"));
    for (const auto& edge : j.at("on_the_edge"))
        CHECK(says(said, "on the edge of what is allowed: " + edge.get<std::string>() + "\n"));
    CHECK(j.at("on_the_edge").size() >= 1);
}

TEST_CASE("a better recipe within what is told as equal is no worse in its spread") {
    fresh_folder();
    write("s.toml", decide_scene + decide_target + decide_search);
    const auto candidates = json_answer("match s.toml --no-pictures").at("candidates");
    // Closeness in steps of 0.2 decides, then the spread (the order that the program prints).
    for (std::size_t i = 1; i < candidates.size(); ++i) {
        const double a = std::floor(candidates[i - 1].at("worst_dE00").get<double>() / 0.2),
                     b = std::floor(candidates[i].at("worst_dE00").get<double>() / 0.2);
        CHECK(a <= b);
        if (a == b)
            CHECK(candidates[i - 1].at("spread_dE00").get<double>() <= candidates[i].at("spread_dE00").get<double>());
    }
}

TEST_CASE("a target that no finish reaches is told to be out of reach, in the JSON as on the terminal") {
    fresh_folder();
    write("s.toml",
          decide_scene + "[target]\nlab = [95, 0, 0]\nlight = \"D65\"\nobserver = \"2deg\"\n" + decide_search);
    const auto j = json_answer("match s.toml --no-pictures");
    const auto said = run("match s.toml --no-pictures").out;
    CHECK(j.at("unreachable").get<std::string>().rfind("the wood itself is ", 0) == 0);
    CHECK(says(said, "out of reach: " + j.at("unreachable").get<std::string>() + "\n"));
    CHECK(j.at("target").at("colors").size() == 1);  // a Lab value is judged under its own light alone
    CHECK_FALSE(says(said, "metamerism"));
}

TEST_CASE("a search without what it needs is refused with the key that is missing, and writes nothing") {
    fresh_folder();
    write("none.toml", decide_scene + decide_target);
    write("aimless.toml", decide_scene + decide_search);
    CHECK(run("match none.toml").status == 1);
    refused_with("match aimless.toml", "target-missing", "[target]");
    for (const char* wrong : {"--threads 257", "--threads 0", "--budget -1", "--budget 0"})
        CHECK(run(std::string("match none.toml ") + wrong).status == 2);
    CHECK_FALSE(exists("out"));
}

TEST_CASE("a cell that is cut short is as wide as its column, its last character the mark of it") {
    fresh_folder();
    write("long.toml", "format = 1\n[wood]\nuse = \"ash\"\n[material.mine]\nkind = \"film\"\nname = \"" +
                           std::string(60, 'W') + "\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"mine\"\n");
    const auto said = run("preview long.toml --no-pictures").out;
    const std::string mark = "\xE2\x80\xA6";
    const auto end = said.find(mark);
    REQUIRE(end != std::string::npos);
    const auto start = said.rfind("  ", end) + 2;
    const std::size_t characters = end - start + 1;  // one byte each, and the mark
    // The rule of dashes under the heading is as wide as the column.
    CHECK(says(said, "  " + std::string(characters, '-') + "  "));
    CHECK(characters == 44);
}
