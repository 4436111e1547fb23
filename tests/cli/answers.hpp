#pragma once
/// What the program answers: its JSON, its table lines, its refusals.

#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

namespace foretone::test {

/// The JSON of a command that succeeds.
inline nlohmann::json json_answer(const std::string& arguments) {
    const auto r = run(arguments + " --json -");
    INFO(arguments << "\n" << r.err);
    REQUIRE(r.status == 0);
    return nlohmann::json::parse(r.out);
}

/// The command is refused: status 1, one or more lines "PLACE: WORDS [ID]" on standard error, nothing on standard
/// output.
inline void refused_with(const std::string& arguments, const std::string& id, const std::string& words,
                         int status = 1) {
    const auto r = run(arguments);
    INFO(arguments << "\n" << r.err);
    CHECK(r.status == status);
    CHECK(r.out.empty());
    CHECK(r.err.rfind("error: ", 0) == 0);
    CHECK(r.err.find("[" + id + "]") != std::string::npos);
    CHECK(r.err.find(words) != std::string::npos);
}

inline std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> out;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) out.push_back(line);
    return out;
}

/// A value of `mix`, by its key.
inline double mix_value(const nlohmann::json& answer, const std::string& key) {
    for (const auto& v : answer.at("values"))
        if (v.at("key") == key) return v.at("value");
    FAIL("no value " << key << " in " << answer.dump());
    return 0;
}

/// One finish of one thin coat on maple: the quickest scene there is.
inline const std::string tiny_scene =
    "format = 1\ntitle = \"Tiny\"\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"oiled\"\n[[finish.step]]\n"
    "use = \"tung\"\nmethod = \"wipe\"\n";

}  // namespace foretone::test
