#include "book.hpp"

#include <iostream>
#include <memory>

#include "foretone/format/sheet_html.hpp"
#include "foretone/print/pdf.hpp"
#include "foretone/report/book.hpp"
#include "overview.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

int run_book(const BookOptions& o) {
    if (o.lesson) return run_lesson(o);
    const auto lib = library(o);
    std::vector<scene::Scene> scenes;
    for (const auto& file : o.scenes) scenes.push_back(scene::read_scene(file, lib));
    const auto paper = paper_for(o.paper, units_for(o, scenes.front()));
    const auto form = o.cards ? layout::BookForm::cards : layout::BookForm::pages;
    const auto room = layout::chip_room(paper, form);
    auto book = job::book(
        scenes, lib, {woods_said(o.woods, lib), o.light, cut_of(o), room.width, room.height, layout::client_sheet_dpi});
    const auto written = report::book_pages(book, scenes, o.title);
    const auto pages = layout::lay_out(written, paper, form);
    const auto json = o.json.empty() ? "" : report::book_json(book, scenes, o.title, paper, pages.size());
    const std::string stem =
        (o.scenes.size() == 1 ? scene::file_stem(o.scenes[0]) + "-" : "") + (o.cards ? "cards" : "book");
    const auto files = deliver_pages(o, pages, paper, stem, json);
    print_warnings(o, book.warnings);
    if (o.speaks()) {
        std::vector<std::vector<std::string>> rows = {{"no.", "wood", "finish", "color", "90 % within dE00"}};
        for (std::size_t i = 0; i < book.chips.size(); ++i) {
            const auto& c = book.chips[i];
            rows.push_back({std::to_string(i + 1), c.wood, c.name + (c.fails ? " (will not hold)" : ""), c.screen.hex(),
                            fixed(c.region.de00_90, 1)});
        }
        std::cout << written.title << "\n\n"
                  << table(rows, {true, false, false, false, true}) << book.chips.size() << " chips on " << pages.size()
                  << " pages, index included\nScreens and prints are not the sample: make one board before the job.\n"
                  << "open, or print at full size (100 %):\n";
        for (const auto& f : files) std::cout << "  " << f << "\n";
    }
    print_cautions(o, book.cautions);
    return 0;
}

}  // namespace

grain::Cut cut_of(const BookOptions& o) {
    return o.cut == "quarter" ? grain::Cut::quarter : o.cut == "rift" ? grain::Cut::rift : grain::Cut::flat;
}

std::vector<std::string> deliver_pages(const BookOptions& o, const std::vector<layout::Sheet>& pages,
                                       layout::Paper paper, const std::string& stem, const std::string& json) {
    const auto size = layout::size_of(paper);
    const auto file = std::filesystem::path(o.out) / (stem + "-" + std::string(size.word));
    std::vector<scene::OutputFile> files = {
        {file.string() + ".pdf", print::sheets_pdf(pages, {size.width_mm, size.height_mm}, pages.front().title)},
        scene::OutputFile::text(file.string() + ".html",
                                format::sheets_html(pages, {size.css, size.width_mm, size.height_mm}))};
    std::vector<std::string> written;
    for (const auto& f : files) written.push_back(f.path.string());
    deliver(o, std::move(files), json);
    return written;
}

void add_book(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<BookOptions>();
    auto& o = *options;
    auto* verb = app.add_subcommand(
        "book", "A swatch book: the finishes of scenes on one or many woods, with an index; or a teaching set");
    verb->add_option("SCENE", o.scenes, "Scene files (TOML)")->required();
    verb->add_option("--wood", o.woods,
                     "A wood of the library, or all: every finish on it; may be given more than once (default: each "
                     "scene's own)")
        ->type_name("ID")
        ->allow_extra_args(false);
    verb->add_option("--light", o.light, "The light of all chips (default: the first scene's first)")->type_name("ID");
    verb->add_option("--paper", o.paper, "a4 or letter (default: letter where units are US)")
        ->type_name("PAPER:{a4,letter}");
    verb->add_option("--cut", o.cut, "How the boards are sawn: flat, quarter or rift (default flat)")
        ->check(CLI::IsMember({"flat", "quarter", "rift"}));
    verb->add_option("--title", o.title, "What the book is called")->type_name("TEXT");
    verb->add_flag("--cards", o.cards, "Cards to cut out along the marks and hang on a ring");
    verb->add_flag("--lesson", o.lesson,
                   "A teaching set: of each scene, boards that differ in one thing, the question on the front and the "
                   "answer on the back");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_book(*options); }; });
}

}  // namespace foretone::cli
