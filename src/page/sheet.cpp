// The client's sheet as one file that prints and as pixels, as the command line makes them.
#include "foretone/format/sheet_html.hpp"
#include "foretone/report/json.hpp"
#include "foretone/job/board.hpp"
#include "foretone/report/client_sheet.hpp"
#include "session.hpp"
#include "foretone/job/sheet_boards.hpp"

namespace foretone::page {

// {finishes: [names], paper: "a4" or "letter", date, after}
Json Session::sheet(const Json& request) {
    auto s = read(request);
    if (const auto after = after_of(request, s.file)) s.look.after = {*after};
    const auto paper =
        request.value("paper", std::string("a4")) == "letter" ? layout::Paper::letter : layout::Paper::a4;
    const auto work = report::client_sheet(
        s, library_, solver_,
        {request.at("finishes").get<std::vector<std::string>>(), request.value("date", std::string())});
    const auto cut = request.value("cut", std::string("flat"));
    const job::SheetBoards how{cut == "quarter" ? grain::Cut::quarter
                               : cut == "rift"  ? grain::Cut::rift
                                                : grain::Cut::flat,
                               job::seed_of(s.title)};
    const auto size = layout::size_of(paper);
    const auto page = layout::lay_out(work.page, paper, job::board_painter(work, library_, how));
    show(layout::paint(page));
    return {{"html", format::sheet_html(page, {size.css, size.width_mm, size.height_mm})},
            {"width", page.width},
            {"height", page.height}};
}

}  // namespace foretone::page
