// The client's sheet as one file that prints, as the command line makes it.
#include "foretone/picture/sheet_html.hpp"
#include "foretone/scene/board.hpp"
#include "foretone/scene/client_sheet.hpp"
#include "session.hpp"
#include "sheet_boards.hpp"

namespace foretone::page {

// {finishes: [names], paper: "a4" or "letter", date}
Json Session::sheet(const Json& request) {
    const auto s = read(request);
    const auto paper =
        request.value("paper", std::string("a4")) == "letter" ? picture::Paper::letter : picture::Paper::a4;
    const auto work = scene::client_sheet(
        s, library_, solver_,
        {request.at("finishes").get<std::vector<std::string>>(), request.value("date", std::string())});
    const auto cut = request.value("cut", std::string("flat"));
    const cli::SheetBoards how{cut == "quarter" ? picture::Cut::quarter
                               : cut == "rift"  ? picture::Cut::rift
                                                : picture::Cut::flat,
                               scene::seed_of(s.title)};
    const auto size = picture::size_of(paper);
    const auto page = picture::lay_out(work.page, paper, cli::board_painter(work, library_, how));
    return {{"html", picture::sheet_html(page, {size.css, size.width_mm, size.height_mm})}};
}

}  // namespace foretone::page
