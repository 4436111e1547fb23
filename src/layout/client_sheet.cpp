// The words are set first, then the boards take what room is left: words have a least size, wood looks the better the
// larger it is.

#include "foretone/layout/client_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "client_sheet_words.hpp"
#include "foretone/base/utf8.hpp"
#include "plausible.hpp"

namespace foretone::layout {
namespace {
namespace look = client_style;

constexpr int board_most = 560, control_least = 100;

void check(const ClientSheet& sheet) {
    const std::string here = "layout::lay_out(ClientSheet)";
    if (sheet.finishes.empty() || sheet.finishes.size() > client_sheet_most) {
        throw std::invalid_argument(here + ": 1 to 4 finishes, got " + std::to_string(sheet.finishes.size()));
    }
    if (sheet.refusals.size() > client_sheet_most) {
        throw std::invalid_argument(here + ": at most 4 refusals, got " + std::to_string(sheet.refusals.size()));
    }
    const auto check_row = [&](const ClientRow& row) {
        for (const ClientBoard& b : row.by_light) {
            if (b.later.size() > most_plausible)
                throw std::invalid_argument(here + ", " + row.name + ": at most 48 later colors, got " +
                                            std::to_string(b.later.size()));
            if (b.plausible.size() > most_plausible) {
                throw std::invalid_argument(here + ", " + row.name + ": at most 48 plausible colors, got " +
                                            std::to_string(b.plausible.size()));
            }
        }
    };
    check_row(sheet.bare);
    if (sheet.clear) check_row(*sheet.clear);
    for (const ClientRow& row : sheet.finishes) check_row(row);
}

/// Longer than this no text gets its room anywhere: what is beyond is not even measured.
constexpr std::size_t bytes_most = 1600;

std::string bounded(const std::string& text) {
    if (text.size() <= bytes_most) return text;
    std::size_t at = 0, whole = 0;
    while (at <= bytes_most) whole = at, base::next_code_point(text, at);
    return text.substr(0, whole) + "…";
}

ClientSheet bounded(ClientSheet s) {
    const auto cut = [](std::string& text) { text = bounded(text); };
    const auto cut_row = [&](ClientRow& row) {
        for (std::string* text : {&row.name, &row.sheen, &row.against, &row.spread, &row.recipe}) cut(*text);
    };
    for (std::string* text :
         {&s.title, &s.wood, &s.facts, &s.lights[0], &s.lights[1], &s.vary, &s.boards, &s.shop, &s.notes, &s.date}) {
        cut(*text);
    }
    cut_row(s.bare);
    if (s.clear) cut_row(*s.clear);
    for (ClientRow& row : s.finishes) cut_row(row);
    for (std::string& text : s.refusals) cut(text);
    for (std::string& text : s.mind) cut(text);
    return s;
}

/// What stands where on the page, pixels.
struct Plan {
    int left, width;  // of all that is printed
    int words_width;  // of the words beside the boards
    int boards_left, board_width;
    int x(std::size_t light) const { return boards_left + int(light) * (board_width + look::board_gap); }
};

Plan plan_of(const PaperSize& paper) {
    Plan p{look::margin, paper.width_px - 2 * look::margin, 0, 0, 0};
    p.words_width = p.width * 24 / 100;
    p.boards_left = p.left + p.words_width + 22 + look::panel_edge;
    p.board_width = (p.left + p.width - look::panel_edge - look::board_gap - p.boards_left) / 2;
    return p;
}

class Composer {
public:
    Composer(ClientSheet sheet, Paper paper, const BoardPainter& painter)
        : sheet_(std::move(sheet)),
          paper_(size_of(paper)),
          painter_(painter),
          plan_(plan_of(paper_)),
          page_(plan_.width) {}

    Sheet compose() {
        Sheet& s = page_.sheet;
        s.width = paper_.width_px;
        s.height = paper_.height_px;
        s.dpi = client_sheet_dpi;
        s.surround = look::paper;
        s.title = sheet_.title.empty() ? "Finishes to choose from" : sheet_.title + ": finishes to choose from";
        s.description = "Screens and prints are not the sample";
        choose_heights();
        int y = add_client_header(page_, sheet_, plan_.left, plan_.width, how()) + 4;
        const int panel_top = y;
        y = light_names(y + 8);
        y = controls(y);
        for (std::size_t i = 0; i < sheet_.finishes.size(); ++i) y = finish(i, y);
        s.panels.push_back({{plan_.boards_left - look::panel_edge, panel_top,
                             plan_.left + plan_.width - plan_.boards_left + look::panel_edge, y - panel_top - 2},
                            look::panel});
        add_client_foot(page_, sheet_, plan_.left, y + 10, plan_.width, how());
        add_signature(page_, sheet_, plan_.left, bottom() - signature_height(), plan_.width);
        return std::move(page_.sheet);
    }

private:
    int bottom() const { return paper_.height_px - look::margin + 10; }

    int signature_height() const {
        Page scratch(plan_.width);
        return add_signature(scratch, sheet_, plan_.left, 0, plan_.width);
    }

    look::Terseness how() const {
        look::Terseness t = look::settings[setting_];
        t.mind_lines = std::max(t.mind_lines, mind_lines_);
        return t;
    }

    int words_height() const {
        Page scratch(plan_.width);
        return add_client_header(scratch, sheet_, plan_.left, plan_.width, how()) + 4 +
               add_client_foot(scratch, sheet_, plan_.left, 0, plan_.width, how());
    }

    /// Height that a finish's words need beside its boards; a row holds a board, its strip and the gap between. Only
    /// where room is short do the last of the words give way.
    int least_board() const {
        const int room = setting_ < 3 ? paper_.height_px : 0;
        int most = 0;
        for (std::size_t i = 0; i < sheet_.finishes.size(); ++i) {
            Page scratch(plan_.width);
            most = std::max(most, add_row_words(scratch, sheet_.finishes[i], letter_of(i), plan_.left, 0,
                                                plan_.words_width, room, how()));
        }
        return std::max(100, most - look::strip_gap - look::strip_height);
    }

    /// The first setting that leaves the boards enough room; in it, findings as long as that room allows.
    void choose_heights() {
        for (setting_ = 0; setting_ < std::size(look::settings); ++setting_) {
            mind_lines_ = 0;
            if (!set_heights()) continue;
            lengthen_findings();
            return;
        }
        throw std::invalid_argument("layout::lay_out(ClientSheet): the cautions leave no room for boards");
    }

    void lengthen_findings() {
        const std::size_t most = longest_finding();
        const int wanted = std::max(how().board_wanted, look::board_least_wanted);
        for (mind_lines_ = how().mind_lines; mind_lines_ < most;) {
            ++mind_lines_;
            if (set_heights() && board_height_ >= wanted) continue;
            --mind_lines_;
            set_heights();
            return;
        }
    }

    /// Lines of the longest finding, as far as they may be wanted.
    std::size_t longest_finding() const {
        std::size_t most = 0;
        for (const std::string& text : sheet_.mind)
            most = std::max(most, wrap_text(text, {Face::regular, how().text_px}, look::column_of(plan_.width),
                                            look::mind_lines_most)
                                      .size());
        return most;
    }

    /// Heights under the words as they are set; whether they will do.
    bool set_heights() {
        const int below_board = look::strip_gap + look::strip_height + look::row_gap;
        const int fixed = 8 + Page::line_height(look::light) + 6 + Page::line_height(look::half) + 2;
        const int count = int(sheet_.finishes.size());
        const int room = bottom() - signature_height() - 24 - words_height() - fixed - (count + 1) * below_board;
        // The controls are half as high as the finishes, but not less than can be judged.
        board_height_ = std::min({board_most, room * 2 / (2 * count + 1), (room - control_least) / count});
        control_height_ = std::max(control_least, board_height_ / 2);
        return board_height_ >= std::max(least_board(), how().board_wanted);
    }

    int light_names(int y) {
        for (std::size_t l = 0; l < 2; ++l) {
            page_.paragraph(plan_.x(l), y, sheet_.lights[l], look::light, look::panel_ink, plan_.board_width, 1);
        }
        return y + Page::line_height(look::light) + 6;
    }

    int controls(int y) {
        const int top = y;
        y += Page::line_height(look::half) + 2;
        for (std::size_t l = 0; l < 2; ++l) {
            const int width = sheet_.clear ? (plan_.board_width - look::board_gap) / 2 : plan_.board_width;
            page_.paragraph(plan_.x(l), top, "bare", look::half, look::panel_ink, width, 1);
            board({BoardWanted::Of::bare, 0, l, width, control_height_}, sheet_.bare, plan_.x(l), y);
            if (!sheet_.clear) continue;
            const int x = plan_.x(l) + plan_.board_width - width;
            page_.paragraph(x, top, "clear", look::half, look::panel_ink, width, 1);
            board({BoardWanted::Of::clear, 0, l, width, control_height_}, *sheet_.clear, x, y);
        }
        const ClientRow words{sheet_.bare.name, "", sheet_.clear ? sheet_.clear->name : "", "", "", false, {}};
        add_row_words(page_, words, "", plan_.left, y, plan_.words_width, control_height_, how());
        return y + control_height_ + look::strip_gap + look::strip_height + look::row_gap;
    }

    int finish(std::size_t i, int y) {
        const ClientRow& row = sheet_.finishes[i];
        for (std::size_t l = 0; l < 2; ++l) {
            board({BoardWanted::Of::finish, i, l, plan_.board_width, board_height_}, row, plan_.x(l), y);
        }
        add_row_words(page_, row, letter_of(i), plan_.left, y, plan_.words_width,
                      board_height_ + look::strip_gap + look::strip_height, how());
        return y + board_height_ + look::strip_gap + look::strip_height + look::row_gap;
    }

    /// The picture; below it the chip and, where there are any, the likely boards.
    void board(const BoardWanted& wanted, const ClientRow& row, int x, int y) {
        const ClientBoard& b = row.by_light[wanted.light];
        page_.sheet.pictures.push_back(
            {{x, y, wanted.width, wanted.height}, painter_(wanted), row.name + ", " + sheet_.lights[wanted.light]});
        const int strip_top = y + wanted.height + look::strip_gap, count = int(b.plausible.size());
        const int chip_width = count == 0 ? wanted.width : wanted.width / look::chip_share;
        page_.sheet.strips.push_back({{x, strip_top, chip_width, look::strip_height}, b.chip, !b.in_gamut});
        const int left = x + chip_width + look::strip_gap, width = x + wanted.width - left;
        const int half = b.later.empty() ? look::strip_height : look::strip_height / 2;
        const auto likely = [&](const std::vector<light::Code>& codes, int top, int height) {
            const int n = int(codes.size());
            for (int i = 0; i < n; ++i) {
                const int from = left + i * width / n, to = left + (i + 1) * width / n;
                page_.sheet.strips.push_back({{from, top, to - from, height}, codes[std::size_t(i)], false});
            }
        };
        likely(b.plausible, strip_top, half);
        likely(b.later, strip_top + half, look::strip_height - half);
    }

    ClientSheet sheet_;
    PaperSize paper_;
    const BoardPainter& painter_;
    Plan plan_;
    Page page_;
    std::size_t setting_ = 0, mind_lines_ = 0;
    int board_height_ = 0, control_height_ = 0;
};

}  // namespace

PaperSize size_of(Paper paper) {
    PaperSize p =
        paper == Paper::a4 ? PaperSize{"a4", "A4", 210, 297, 0, 0} : PaperSize{"letter", "letter", 215.9, 279.4, 0, 0};
    p.width_px = int(std::lround(p.width_mm / 25.4 * client_sheet_dpi));
    p.height_px = int(std::lround(p.height_mm / 25.4 * client_sheet_dpi));
    return p;
}

Sheet lay_out(const ClientSheet& sheet, Paper paper, const BoardPainter& painter) {
    check(sheet);
    return Composer(bounded(sheet), paper, painter).compose();
}

}  // namespace foretone::layout
