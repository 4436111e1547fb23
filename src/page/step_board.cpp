// A finish of the job as a step board: the boards file that `fit` reads, with the readings that were taken of it.
#include <sstream>

#include <toml++/toml.h>

#include "session.hpp"

namespace foretone::page {
namespace {

// Which library wood the board is of; a wood that is a reading of its own says whose kind it is.
std::string wood_of(const toml::table& scene, const std::string& file) {
    const auto wood = scene["wood"];
    for (const char* key : {"use", "like"})
        if (const auto id = wood[key].value<std::string>(); id && *id != "generic") return *id;
    throw scene::InputError(
        "fit-wood", {file},
        "the job's wood is a reading of no kind of wood; choose the wood by name first, the board's "
        "own bare reading then makes it this one");
}

toml::array state(const Json& r) {
    toml::table one;
    if (r.contains("name")) one.insert("name", r["name"].get<std::string>());
    if (r.contains("lab")) {
        toml::array lab;
        for (const auto& v : r["lab"]) lab.push_back(v.get<double>());
        one.insert("lab", std::move(lab));
    }
    if (const auto step = r.at("step").get<int>(); step > 0) {
        one.insert("step", step);
        one.insert("coat", r.at("coat").get<int>());
    }
    one.is_inline(true);
    return toml::array{std::move(one)};
}

}  // namespace

// {finish, title, by, light, observer, geometry, readings: [{name and/or lab, step, coat}], readings_file}
Json Session::step_board(const Json& request) const {
    const auto file = request.at("file").get<std::string>();
    const auto s = read(request);
    const auto finish = request.at("finish").get<std::size_t>();
    if (finish >= s.finishes.size())
        throw std::invalid_argument("page::Session: there is no finish " + std::to_string(finish));
    const auto root = toml::parse(request.at("text").get<std::string>());
    const auto* written = root["finish"][finish]["step"].as_array();

    toml::table board;
    board.insert("name", s.finishes[finish].name);
    board.insert("wood", wood_of(root, file));
    toml::array states;
    for (const auto& r : request.at("readings"))
        for (auto& one : state(r)) states.push_back(one);
    board.insert("reading", std::move(states));
    if (written) board.insert("step", *written);

    toml::table out;
    out.insert("format", 1);
    out.insert("title", request.at("title").get<std::string>());
    out.insert("by", request.at("by").get<std::string>());
    toml::table look;
    for (const char* key : {"light", "observer", "geometry"}) look.insert(key, request.at(key).get<std::string>());
    out.insert("look", std::move(look));
    if (request.contains("readings_file"))
        out.insert("readings", toml::table{{"file", request["readings_file"].get<std::string>()}});
    // Cans and shelves of the job are the board's too.
    for (const char* key : {"material", "materials"})
        if (const auto* node = root.get(key)) out.insert(key, *node);
    out.insert("board", toml::array{std::move(board)});
    std::ostringstream text;
    text << toml::toml_formatter(out) << "\n";
    return {{"boards", text.str()}};
}

}  // namespace foretone::page
