// The manual page and the completions hold what --help holds, and shells take them.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "cli/program.hpp"

using namespace foretone::test;

namespace {

// Verbs as --help lists them: the first words of the lines below "Subcommands:".
std::vector<std::string> verbs_in(const std::string& help) {
    std::vector<std::string> out;
    std::istringstream lines(help.substr(std::min(help.find("Subcommands:"), help.size())));
    for (std::string line; std::getline(lines, line);)
        if (std::smatch m; std::regex_search(line, m, std::regex("^  ([a-z]+) "))) out.push_back(m[1]);
    return out;
}

std::set<std::string> options_in(const std::string& help) {
    std::set<std::string> out;
    std::istringstream lines(help);
    for (std::string line; std::getline(lines, line);)
        if (std::smatch m; std::regex_search(line, m, std::regex("^ +(-[a-z],)?(--[a-z][a-z-]*)"))) out.insert(m[2]);
    return out;
}

// What bash offers after `words`, the last of which is being typed.
std::string completed(const std::string& words, int at) {
    const std::string script = folder() + "/c.bash";
    std::ofstream(script) << "source " << folder() << "/foretone.bash\nCOMP_WORDS=(" << words << ")\nCOMP_CWORD=" << at
                          << "\n_foretone\necho \"${COMPREPLY[*]}\" > " << folder() << "/offered\n";
    REQUIRE(std::system(("bash " + script).c_str()) == 0);
    std::ifstream in(folder() + "/offered");
    std::string line;
    std::getline(in, line);
    return line;
}

}  // namespace

TEST_CASE("manual page and completions name every verb and option of --help, the same bytes every time") {
    fresh_folder();
    const std::string help = run("--help").out;
    const auto verbs = verbs_in(help);
    REQUIRE(verbs.size() >= 14);
    std::map<std::string, std::set<std::string>> options;
    for (const auto& verb : verbs) options[verb] = options_in(run(verb + " --help").out);
    for (const std::string form : {"man", "bash", "zsh"}) {
        INFO(form);
        const auto text = run("manual " + form);
        CHECK(text.status == 0);
        CHECK(run("manual " + form).out == text.out);
        const std::string plain = std::regex_replace(text.out, std::regex(R"(\\-)"), "-");
        for (const auto& verb : verbs) {
            INFO(verb);
            CHECK(std::regex_search(plain, std::regex("(^|[ '\n])" + verb + "([ ':\n)]|$)")));
            for (const auto& option : options.at(verb)) {
                INFO(option);
                CHECK(plain.find(option) != std::string::npos);
            }
        }
    }
    CHECK(help.find("manual") == std::string::npos);
    CHECK(run("manual fish").status == 2);
}

TEST_CASE("bash completes verbs, sub-verbs, options and their choices, and leaves files to itself") {
    fresh_folder();
    write("foretone.bash", run("manual bash").out);
    CHECK(completed("foretone pre", 1) == "preview");
    CHECK(completed("foretone mix la", 2) == "ladder");
    CHECK(completed("foretone preview s.toml --no-p", 3) == "--no-pictures");
    CHECK(completed("foretone board s.toml --cut ''", 4) == "flat quarter rift");
    CHECK(completed("foretone sheet s.toml --paper l", 4) == "letter");
    CHECK(completed("foretone preview sto", 2).empty());
    CHECK(completed("foretone preview --json ''", 3).empty());
}
