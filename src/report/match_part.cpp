#include "foretone/report/match_part.hpp"

#include <nlohmann/json.hpp>

#include "foretone/report/tool_json.hpp"
#include "foretone/scene/text_file.hpp"

namespace foretone::report {

std::string match_part_json(const job::MatchPart& part) {
    nlohmann::ordered_json j;
    j["tool"] = tool_json();
    j["part"] = {part.number, part.of};
    j["problem"] = part.problem;
    j["recipes"] = part.recipes;
    j["kept"] = nlohmann::ordered_json::array();
    for (const auto& found : part.kept) j["kept"].push_back({found.number, found.de00});
    return j.dump(1) + "\n";
}

job::MatchPart read_match_part(const std::filesystem::path& path) {
    constexpr std::size_t largest = 20'000'000;  // 100 recipes of each of some 120 kinds are under a megabyte
    const std::string text = scene::read_bytes(path, largest);
    try {
        const auto j = nlohmann::json::parse(text);
        job::MatchPart out;
        out.file = path.string();
        out.number = j.at("part").at(0).get<std::size_t>();
        out.of = j.at("part").at(1).get<std::size_t>();
        out.problem = j.at("problem").get<std::string>();
        out.recipes = j.at("recipes").get<std::uint64_t>();
        for (const auto& one : j.at("kept"))
            out.kept.push_back({one.at(1).get<double>(), one.at(0).get<std::uint64_t>()});
        if (out.number >= 1 && out.number <= out.of && out.of <= job::most_parts) return out;
    } catch (const nlohmann::json::exception&) {}
    throw scene::InputError("part-file", {path.string()},
                            "this is no whole part of a search: write one with foretone match SCENE --part 1/64 "
                            "--json FILE");
}

}  // namespace foretone::report
