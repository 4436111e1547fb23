#include <iostream>
#include <memory>

#include "common.hpp"
#include "findings.hpp"
#include "foretone/format/sheet_png.hpp"
#include "foretone/format/sheet_html.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/print/pdf.hpp"
#include "foretone/report/client_sheet.hpp"
#include "foretone/scene/output.hpp"
#include "seed.hpp"
#include "foretone/job/sheet_boards.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

struct SheetOptions : Common {
    std::string scene, paper, cut = "flat", date;
    std::vector<std::string> finishes;
    std::string seed;
    bool pdf = false;
};

job::SheetBoards boards_of(const SheetOptions& o, const scene::Scene& s) {
    const auto cut = o.cut == "quarter" ? grain::Cut::quarter : o.cut == "rift" ? grain::Cut::rift : grain::Cut::flat;
    return {cut, seed_from("sheet", o.seed, s.title)};
}

void print(const report::WrittenSheet& work) {
    const auto& page = work.page;
    std::cout << page.title << "\n" << page.wood << "\n\n";
    for (const auto& r : page.refusals) std::cout << "do not sign: " << r << "\n\n";
    std::vector<std::vector<std::string>> rows = {{"", "finish", "sheen", "against clear", "90 % within dE00"}};
    for (std::size_t i = 0; i < work.shown; ++i) {
        const auto& colors = work.preview.finishes[i].stages.back().colors;
        rows.push_back({layout::letter_of(i), marked(page.finishes[i].name, work.preview.finishes[i].findings),
                        work.gloss[i].empty() ? page.finishes[i].sheen : page.finishes[i].sheen + ", " + work.gloss[i],
                        page.finishes[i].against,
                        fixed(largest({colors[0].region.de00_90, colors[1].region.de00_90}), 1)});
    }
    std::cout << table(rows, {false, false, false, false, true});
    if (page.clear) std::cout << page.clear->name << "\n";
    for (const auto& m : page.mind) std::cout << "mind: " << m << "\n";
    const auto& lights = work.preview.scene.look.lights;
    std::cout << "lights: " << lights[0] << " and " << lights[1];
    if (work.lights_left_out > 0)
        std::cout << ", the look's first two; there is no room for "
                  << (work.lights_left_out == 1 ? "the third" : "the others");
    std::cout << "\nrests on: " << work.rests_on << "\n";
}

int run_sheet(const SheetOptions& o) {
    const auto lib = library(o);
    auto read = scene::read_scene(o.scene, lib);
    const auto paper = paper_for(o.paper, units_for(o, read));
    const auto work = report::client_sheet(std::move(read), lib, appearance::two_flux_solver(), {o.finishes, o.date});
    const auto size = layout::size_of(paper);
    const auto sheet =
        layout::lay_out(work.page, paper, job::board_painter(work, lib, boards_of(o, work.preview.scene)));
    const std::string stem = scene::file_stem(o.scene) + "-sheet-" + std::string(size.word);
    const std::filesystem::path folder = o.out;
    std::vector<scene::OutputFile> files = {
        {folder / (stem + ".png"), format::sheet_png(sheet)},
        scene::OutputFile::text(folder / (stem + ".html"),
                                format::sheet_html(sheet, {size.css, size.width_mm, size.height_mm}))};
    if (o.pdf)
        files.push_back(
            {folder / (stem + ".pdf"), print::sheets_pdf({&sheet, 1}, {size.width_mm, size.height_mm}, sheet.title)});
    std::vector<std::string> written;
    for (const auto& f : files) written.push_back(f.path.string());
    const std::string json = o.json.empty() ? "" : report::client_sheet_json(work, paper);
    deliver(o, std::move(files), json);

    auto warnings = work.preview.warnings;
    for (std::size_t i = 0; i < work.shown; ++i)
        for (const auto& w : work.preview.finishes[i].warnings)
            if (w.id != "out-of-gamut")
                warnings.push_back(w);  // the sheet says so of what it shows, and shows no stage between
    print_warnings(o, warnings);
    if (o.speaks()) {
        print(work);
        std::cout << "\nScreens and prints are not the sample: sign the real board.\nopen, or print at full size ("
                  << (o.pdf ? "the PDF; " : "") << "HTML from a browser):\n";
        for (const auto& file : written) std::cout << "  " << file << "\n";
    }
    scene::Scene shown = work.preview.scene;
    shown.finishes.resize(work.shown);
    print_cautions(o, job::cautions_of(shown));
    return 0;
}

}  // namespace

void add_sheet(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<SheetOptions>();
    auto* verb = app.add_subcommand(
        "sheet", "The client's sheet: up to four finishes on boards under two lights, to choose from and sign");
    auto& o = *options;
    verb->add_option("SCENE", o.scene, "Scene file (TOML)")->required();
    verb->add_option("--paper", o.paper, "a4 or letter (default: letter where units are US)")
        ->type_name("PAPER:{a4,letter}");
    verb->add_option("--finish", o.finishes,
                     "A finish to show; may be given up to four times (default: all of the scene)")
        ->type_name("NAME")
        ->allow_extra_args(false);
    verb->add_option("--cut", o.cut, "How the boards are sawn: flat, quarter or rift (default flat)")
        ->check(CLI::IsMember({"flat", "quarter", "rift"}));
    verb->add_option("--seed", o.seed, "Which piece of wood, a whole number (default: from the scene's title)")
        ->type_name("N");
    verb->add_option("--date", o.date, "Text for the date's line (default: left blank)");
    verb->add_flag("--pdf", o.pdf, "Write the page as a PDF file too: one page, its typeface and colors with it");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_sheet(*options); }; });
}

}  // namespace foretone::cli
