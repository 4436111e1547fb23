#include "foretone/job/published.hpp"

#include <algorithm>

#include "foretone/material/ageing.hpp"
#include "foretone/scene/library.hpp"
#include "table_rows.hpp"

namespace foretone::job {
namespace {

std::vector<std::string> parts_of(const std::string& text) {
    std::vector<std::string> out;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(" + ", at), text.size());
        out.push_back(text.substr(at, end - at));
        at = end + 3;
    }
    return out;
}

int sign_of(const std::string& text) { return text == "+" ? 1 : text == "-" ? -1 : 0; }

PublishedBoard board_of(const Row& row) {
    PublishedBoard b;
    b.paper = row.at("paper"), b.source = row.at("source");
    b.laboratory = row.at("laboratory");
    b.species = row.at("species"), b.like = row.at("like");
    if (!row.at("bare_L").empty())
        b.bare = color::Lab{number(row, "bare_L"), number(row, "bare_a"), number(row, "bare_b")};
    b.bare_sd = {number(row, "bare_sd_L"), number(row, "bare_sd_a"), number(row, "bare_sd_b")};
    if (!row.at("porosity").empty()) b.porosity = number(row, "porosity");
    b.finish = parts_of(row.at("finish"));
    b.kind = row.at("class");
    b.coats = static_cast<int>(number(row, "coats"));
    b.coats_stated = row.at("coats_stated") == "yes";
    b.fitted = row.at("fitted") == "yes";
    b.de_ab = number(row, "deltaE_ab");
    b.signs = {sign_of(row.at("sign_dL")), sign_of(row.at("sign_da")), sign_of(row.at("sign_db"))};
    return b;
}

}  // namespace

std::vector<PublishedBoard> published_boards() {
    std::vector<PublishedBoard> out;
    for (const auto& row : table_rows("coated_wood_difference")) out.push_back(board_of(row));
    return out;
}

std::string finish_kind(const material::Material& binder) { return material::binder_kind(binder); }

int published_rows(const std::string& kind) {
    static const std::vector<PublishedBoard> boards = published_boards();
    return static_cast<int>(std::count_if(boards.begin(), boards.end(), [&](const auto& b) { return b.kind == kind; }));
}

PublishedFooting published_footing(const std::vector<std::string>& used, const material::Materials& materials) {
    PublishedFooting out;
    for (const auto& id : used) {
        const std::string kind = finish_kind(materials.at(id));
        if (kind.empty()) continue;
        const int rows = published_rows(kind);
        out.rows = out.rows < 0 ? rows : std::min(out.rows, rows);
        if (rows == 0 && std::find(out.without.begin(), out.without.end(), kind) == out.without.end())
            out.without.push_back(kind);
    }
    return out;
}

}  // namespace foretone::job
