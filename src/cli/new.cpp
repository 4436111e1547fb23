// `new`: a first scene from a few options, or from questions where a person sits at the terminal.

#include <unistd.h>

#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/base/text.hpp"
#include "foretone/base/utf8.hpp"
#include "foretone/job/new_scene.hpp"
#include "foretone/scene/scene.hpp"

namespace foretone::cli {
namespace {

struct NewOptions : Common {
    std::string file = "my-scene.toml", wood, title, target;
    std::vector<std::string> finishes, lights;
};

// The answer to a question, or `usual` for an empty line or none.
std::string asked(const std::string& question, const std::string& usual) {
    std::cout << question << (usual.empty() ? "" : " [" + usual + "]") << ": " << std::flush;
    std::string line;
    std::getline(std::cin, line);
    const std::string answer(base::trimmed(base::one_line(line)));
    return answer.empty() ? usual : answer;
}

void ask(NewOptions& o) {
    std::cout << "Enter takes what stands in brackets; 'foretone materials' lists woods and finishes.\n";
    if (o.wood.empty()) o.wood = asked("Which wood", "hard-maple");
    if (o.finishes.empty())
        for (std::string one = asked("Its coats in order", "orange-shellac x2, waterborne-acrylic x2"); !one.empty();
             one = asked("Another finish to compare (empty: no more)", ""))
            o.finishes.push_back(one);
    if (o.lights.empty())
        for (const auto& one : base::split(asked("Under which lights", "daylight, lamp"), ','))
            o.lights.emplace_back(base::trimmed(one));
    if (o.target.empty()) o.target = asked("A target: #rrggbb, L a b, or a reading's file (empty: none)", "");
    if (o.units.empty()) o.units = asked("Units, us or metric", "metric");
}

int run_new(NewOptions o) {
    const auto lib = library(o);
    const bool asks =
        isatty(STDIN_FILENO) && isatty(STDOUT_FILENO) && o.speaks() && o.wood.empty() && o.finishes.empty();
    if (asks) ask(o);
    job::NewScene s;
    s.title = o.title;
    if (!o.wood.empty()) s.wood = o.wood;
    if (!o.lights.empty()) s.lights = o.lights;
    s.target = o.target;
    if (s.target.find(',') == std::string::npos && s.target.find(' ') != std::string::npos &&
        s.target.find_first_not_of("0123456789.- ") == std::string::npos)
        s.target = base::replaced(s.target, " ", ", ");
    s.units = units_said(o).value_or(schedule::UnitSystem::metric);
    if (o.finishes.empty()) o.finishes = {"orange-shellac x2, waterborne-acrylic x2"};
    scene::Problems problems;
    for (const auto& f : o.finishes) try {
            s.finishes.push_back(job::read_steps(f, lib));
        } catch (const scene::InputError& e) {
            for (const auto& p : e.problems) problems.add(p.id, p.place, p.text);
        }
    problems.raise();
    const auto text = job::new_scene_text(s, lib);
    const std::filesystem::path file = o.file;
    scene::read_scene_text(text, o.file, file.parent_path(), lib);  // what is written can be read
    auto out = scene::OutputFile::text(file, text);
    out.otherwise = "choose another name";
    scene::write_all({out}, o.rules());
    put_json(o, "{\n  \"written\": " + base::toml_quoted(o.file) + "\n}\n");
    if (o.speaks()) std::cout << "written: " << o.file << "\nnow:     foretone preview " << o.file << "\n";
    return 0;
}

}  // namespace

void add_new(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<NewOptions>();
    auto* verb = app.add_subcommand("new", "A first scene, with comments; asks where it is run at a terminal");
    auto& o = *options;
    verb->add_option("FILE", o.file, "The scene to write (default: my-scene.toml)");
    verb->add_option("--wood", o.wood, "Its wood (default hard-maple)")->type_name("ID");
    verb->add_option("--finish", o.finishes,
                     "Coats in order, as 'orange-shellac x2, waterborne-acrylic x3'; repeat it to compare")
        ->type_name("COATS")
        ->allow_extra_args(false);
    verb->add_option("--light", o.lights,
                     "A light of the look, as D65, A, daylight, lamp; may be repeated (default D65 and A)")
        ->type_name("ID")
        ->allow_extra_args(false);
    verb->add_option("--target", o.target, "'#b5651d', 'L, a, b', a reading's file or a finish's name")
        ->type_name("COLOR");
    verb->add_option("--title", o.title, "What the piece is called");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_new(*options); }; });
}

}  // namespace foretone::cli
