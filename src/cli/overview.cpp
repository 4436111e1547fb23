#include "overview.hpp"

#include <algorithm>
#include <iostream>

#include "foretone/format/sheet_png.hpp"
#include "foretone/report/overview.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/scene_folder.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

constexpr std::size_t table_columns = 100, name_columns = 26;

std::string shortened(const std::string& text, std::size_t columns) {
    return columns_of(text) > columns ? left(text, columns) : text;
}

using Rows = std::vector<std::vector<std::string>>;

// One group as rows of a table; the words take what room is left.
Rows rows_of(const job::Overview& all, const report::OverviewGroup& group, Chips how) {
    Rows rows = {{group.by_wood ? "wood" : "finish", "", "L*     a*     b*", "±dE00", "beside bare wood", "rests on",
                  "remarks"}};
    for (const std::size_t i : group.boards) {
        const auto& b = all.boards[i];
        std::vector<std::string> row = {shortened(group.by_wood ? b.wood : report::finish_of(all, b), name_columns)};
        if (b.fault) {
            row.insert(row.end(), 5, "");
        } else {
            const auto& c = b.finished().colors[0];
            row.insert(row.end(), {chip(c.screen.code, how), lab_text(c.lab), fixed(c.spread_de00, 1), b.words,
                                   std::string(material::word(b.seen.spread.rests_on))});
        }
        row.push_back(report::remarks(b, report::Remarks::brief));
        rows.push_back(std::move(row));
    }
    std::size_t others = 0;
    for (const std::size_t column : {0, 1, 2, 3, 5, 6}) {
        std::size_t widest = 0;
        for (const auto& row : rows) widest = std::max(widest, columns_of(row[column]));
        others += widest + 2;
    }
    const std::size_t room = std::clamp<std::size_t>(table_columns - std::min(table_columns, others), 18, 40);
    for (auto& row : rows) row[4] = shortened(row[4], room);
    return rows;
}

void print(const job::Overview& all) {
    const auto& look = all.look;
    std::cout << report::overview_title(all) << "\n"
              << "finished, under " << look.lights.front() << " · " << scene::geometry_text(look.geometry)
              << " · observer " << look.observer << " · solver " << all.solver << "\n";
    const Chips how = chips();
    for (const auto& group : report::grouped(all)) {
        std::cout << "\n"
                  << group.heading << "\n"
                  << table(rows_of(all, group, how), {false, false, true, true, false, false, false});
    }
}

// Which findings stand in the remarks, each once, with the scene and finish that have it, and on how many woods.
void print_findings(const job::Overview& all) {
    struct Said {
        std::string text;
        std::size_t boards = 0;
    };
    std::vector<Said> said;
    for (const auto& b : all.boards)
        for (const auto& f : b.seen.findings) {
            if (f.severity == schedule::Severity::note) continue;
            const std::string scene = all.scenes.size() > 1 ? all.scenes[b.scene].title + ": " : "";
            const std::string text = "[" + f.id + "] " + scene + b.seen.name + ", step " + std::to_string(f.step + 1) +
                                     ": " + f.what + (f.mends.empty() ? "" : "; mend: " + f.mends.front().text);
            const auto at = std::find_if(said.begin(), said.end(), [&](const Said& s) { return s.text == text; });
            (at == said.end() ? said.emplace_back(Said{text, 0}) : *at).boards += 1;
        }
    if (!said.empty()) std::cout << "\n";
    for (const auto& s : said)
        std::cout << s.text << (s.boards > 1 ? " (on " + std::to_string(s.boards) + " boards)" : "") << "\n";
}

struct ReadScenes {
    std::vector<scene::Scene> scenes;
    std::vector<scene::Problem> faults;
};

ReadScenes read_all(const std::vector<std::filesystem::path>& files, const scene::Library& lib) {
    ReadScenes out;
    for (const auto& file : files) {
        try {
            out.scenes.push_back(scene::read_scene(file, lib));
            if (out.scenes.back().finishes.empty()) {
                out.scenes.pop_back();
                out.faults.push_back({"finish-empty", {file.string(), 1, 1}, "there is no finish"});
            }
        } catch (const scene::InputError& e) {
            out.faults.insert(out.faults.end(), e.problems.begin(), e.problems.end());
        }
    }
    if (out.scenes.empty()) throw scene::InputError(out.faults);
    return out;
}

}  // namespace

std::vector<std::filesystem::path> scene_files(const std::vector<std::string>& given) {
    std::vector<std::filesystem::path> out;
    for (const auto& path : given) {
        std::error_code error;
        if (!std::filesystem::is_directory(path, error)) {
            out.emplace_back(path);
            continue;
        }
        for (auto& file : scene::scenes_in(path)) out.push_back(std::move(file));
    }
    return out;
}

std::vector<std::string> woods_said(const std::vector<std::string>& said, const scene::Library& library) {
    std::vector<std::string> out;
    const auto add = [&](const std::string& id) {
        if (std::find(out.begin(), out.end(), id) == out.end()) out.push_back(id);
    };
    for (const auto& one : said) {
        if (one != "all") add(one);
        if (one == "all")
            for (const auto& id : library.ids(material::Kind::wood)) add(id);
    }
    return out;
}

int run_overview(const Common& options, const std::vector<std::filesystem::path>& files, const std::string& stem,
                 const std::vector<std::string>& woods, bool with_picture) {
    const auto lib = library(options);
    auto read = read_all(files, lib);
    const auto all =
        job::overview(read.scenes, lib, woods_said(woods, lib), appearance::two_flux_solver(),
                      options.json.empty() ? appearance::StagesAsked::first_and_last : appearance::StagesAsked::all);

    std::vector<scene::OutputFile> out;
    const auto picture = std::filesystem::path(options.out) / (stem + "-overview.png");
    if (with_picture) out.push_back({picture, format::sheet_png(layout::lay_out(report::overview_page(all)))});
    deliver(options, std::move(out), options.json.empty() ? "" : report::overview_json(all));

    auto warnings = all.warnings;
    auto faults = read.faults;
    for (const auto& b : all.boards) {
        warnings.insert(warnings.end(), b.seen.warnings.begin(), b.seen.warnings.end());
        if (b.fault) {
            faults.push_back(*b.fault);
            faults.back().text = b.wood + ": " + faults.back().text;
        }
    }
    print_warnings(options, warnings);
    for (const auto& f : faults) std::cerr << "error: " << f.place.text() << ": " << f.text << " [" << f.id << "]\n";
    if (options.speaks()) {
        print(all);
        print_findings(all);
        std::cout
            << "\n± is one standard deviation. Screens and prints are not the sample: make one board before the job.\n";
        if (with_picture) std::cout << "open:\n  " << picture.string() << "\n";
    }
    print_cautions(options, all.cautions);
    return faults.empty() ? 0 : 1;
}

}  // namespace foretone::cli
