#include <algorithm>
#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/scene/boards.hpp"
#include "foretone/job/fit_next.hpp"
#include "foretone/report/json.hpp"
#include "foretone/report/sureness.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/schedule/units.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

struct FitOptions : Common {
    std::string boards;
};

// Three significant digits, for a table.
std::string three(double v) {
    const double a = std::abs(v);
    return fixed(v, a >= 99.95 ? 0 : a >= 9.995 ? 1 : a >= 0.9995 ? 2 : a >= 0.09995 ? 3 : 4);
}

void print_readings(const scene::BoardsFile& boards, const learn::FitResult& result) {
    std::vector<std::vector<std::string>> rows = {{"reading", "board", "state", "read  L*     a*     b*",
                                                   "fitted  L*     a*     b*", "dE00", "noise allows", "left out"}};
    for (std::size_t i = 0; i < result.readings.size(); ++i) {
        const auto& r = result.readings[i];
        rows.push_back({r.name, boards.question.boards[boards.question.readings[i].board].name, boards.state(i),
                        lab_text(r.read), lab_text(r.predicted), fixed(r.de00, 1), fixed(r.expected_de00, 1),
                        r.left_out_de00 ? fixed(*r.left_out_de00, 1) : ""});
    }
    std::cout << table(rows, {false, false, false, true, true, true, true, true});
    std::cout << "over all readings: dE00 " << fixed(result.rms_de00, 1);
    if (result.left_out_rms_de00)
        std::cout << "; each predicted from the others alone: " << fixed(*result.left_out_rms_de00, 1);
    std::cout << "\n\n";
}

// Films of headlines are said in mil where units are US; other figures as they stand in a file, whose keys say µm.
void print_figures(const learn::FitResult& result, bool headlines, schedule::UnitSystem units) {
    std::vector<std::vector<std::string>> rows = {{"material", "figure", "library", "fitted", "95 % interval", ""}};
    for (const auto& f : result.figures) {
        if (f.headline != headlines) continue;
        const bool mil = headlines && f.unit == "um" && units == schedule::UnitSystem::us;
        const double one = mil ? schedule::um_per_mil : 1;
        const std::string unit = mil ? " mil" : f.unit.empty() ? "" : " " + f.unit;
        rows.push_back({f.material, f.figure, three(f.library / one) + unit, three(f.value / one) + unit,
                        three(f.low() / one) + " to " + three(f.high() / one) + (f.cut() ? " (cut)" : ""),
                        f.resolved ? "from the readings" : "library figure kept"});
    }
    if (rows.size() > 1) std::cout << table(rows, {false, false, true, true, true, false});
}

int run_fit(const FitOptions& options) {
    const auto lib = library(options);
    const auto boards = scene::read_boards(options.boards, lib);
    const auto fit = scene::fit_boards(boards);
    const auto& result = fit.result();
    const auto next = job::fit_next(boards, result);
    const auto file = std::filesystem::path(options.out) / (scene::file_word(boards.title) + ".toml");
    auto fitted = scene::OutputFile::text(file, scene::fitted_toml(boards, result));
    fitted.lasting = true;
    const std::string json = report::fit_json(boards, result, next, file.generic_string());
    deliver(options, {std::move(fitted)}, json);

    print_warnings(options, boards.warnings);
    if (!options.speaks()) return 0;
    std::cout << boards.title << "\n"
              << boards.by << " · " << boards.light << " · observer " << boards.observer << "\n\n";
    print_readings(boards, result);
    const auto units = units_said(options).value_or(schedule::UnitSystem::metric);
    print_figures(result, true, units);
    std::cout << "\nother figures that have an effect on the readings\n";
    print_figures(result, false, units);
    if (std::any_of(result.figures.begin(), result.figures.end(), [](const auto& f) { return f.cut(); }))
        std::cout
            << "(cut): the interval is cut where the figure can go no further: a share ends at 1, an amount at 0\n";
    for (const auto& n : result.notes) std::cout << "note: " << n << "\n";
    for (const auto& n : next)
        std::cout << "\nto be surer of the finish of \"" << n.board
                  << "\": " << report::measure_next_text(n.readings, n.next) << "\n";
    std::cout << "\nmaterials, for a scene's materials = [\"...\"]:\n  " << file.generic_string() << "\n";
    for (const auto& id : result.changed)
        std::cout << "    " << boards.written_as(id)
                  << (boards.written_as(id) == id ? " (takes the library's place)\n" : " (in place of " + id + ")\n");
    return 0;
}

}  // namespace

void add_fit(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<FitOptions>();
    auto* verb =
        app.add_subcommand("fit", "Fits materials to readings of step boards and writes them as a file for scenes");
    verb->add_option("BOARDS", options->boards, "Boards file (TOML): what was put on which board, and its readings")
        ->required();
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_fit(*options); }; });
}

}  // namespace foretone::cli
