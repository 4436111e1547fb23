#include "foretone/report/overview.hpp"

#include <algorithm>

#include "foretone/appearance/uneven.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/report/tool_json.hpp"
#include "finish_json.hpp"
#include "short_name.hpp"

namespace foretone::report {
namespace {

constexpr double worth_uneven_de00 = 2;  // from here on the word is "uneven"

std::string ids_of(const std::vector<schedule::Finding>& findings, schedule::Severity severity) {
    std::vector<std::string> ids;
    for (const auto& f : findings)
        if (f.severity == severity && std::find(ids.begin(), ids.end(), f.id) == ids.end()) ids.push_back(f.id);
    return base::joined(ids);
}

std::string counted(std::size_t n, const std::string& one, const std::string& many) {
    return std::to_string(n) + " " + (n == 1 ? one : many);
}

layout::Field chip_field(const job::SeenColor& c) {
    return {c.screen.code, c.screen.hex(), {c.lab.l, c.lab.a, c.lab.b}, c.screen.in_gamut, c.spread_de00};
}

layout::OverviewBoard chip_board(const job::Overview& all, const job::OverviewBoard& b, bool by_wood) {
    layout::OverviewBoard out{by_wood ? short_name(b.wood_name) : finish_of(all, b), remarks(b), {}, {}};
    if (b.fault) return out;
    out.finished = chip_field(b.finished().colors[0]);
    out.bare = chip_field(b.bare().colors[0]);
    return out;
}

}  // namespace

std::string finish_of(const job::Overview& all, const job::OverviewBoard& b) {
    const bool grouped_by_scene = all.woods.empty() || all.scenes.size() == 1;
    return grouped_by_scene ? b.seen.name : all.scenes[b.scene].title + ": " + b.seen.name;
}

std::string remarks(const job::OverviewBoard& b, Remarks how) {
    if (b.fault) return "not worked out: " + b.fault->id;
    const auto told = [&](const std::string& ids) { return how == Remarks::full ? ": " + ids : ""; };
    std::vector<std::string> out;
    if (const auto ids = ids_of(b.seen.findings, schedule::Severity::failure); !ids.empty())
        out.push_back("will not hold" + told(ids));
    if (const auto ids = ids_of(b.seen.findings, schedule::Severity::warning); !ids.empty())
        out.push_back("may not hold" + told(ids));
    if (b.finished().uneven_de00 >= worth_uneven_de00)
        out.emplace_back(appearance::uneven_word(b.finished().uneven_de00));
    if (!b.finished().colors[0].screen.in_gamut) out.emplace_back("beyond the screen");
    std::string text;
    for (const auto& r : out) text += (text.empty() ? "" : "; ") + r;
    return text;
}

std::vector<OverviewGroup> grouped(const job::Overview& all) {
    std::vector<OverviewGroup> out;
    std::vector<std::pair<std::size_t, std::string>> keys;  // [group]: scene and finish, or scene
    const bool by_wood = all.woods.size() > 1;
    for (std::size_t i = 0; i < all.boards.size(); ++i) {
        const auto& b = all.boards[i];
        const auto& title = all.scenes[b.scene].title;
        const std::pair key(all.woods.size() == 1 ? 0 : b.scene, by_wood ? b.seen.name : "");
        const auto at = std::find(keys.begin(), keys.end(), key);
        if (at == keys.end()) {
            keys.push_back(key);
            const std::string heading = by_wood             ? (all.scenes.size() > 1 ? title + ": " : "") + b.seen.name
                                        : all.woods.empty() ? title + " · " + b.wood_name
                                                            : b.wood_name;
            out.push_back({heading, by_wood, {i}});
        } else {
            out[static_cast<std::size_t>(at - keys.begin())].boards.push_back(i);
        }
    }
    return out;
}

std::string overview_title(const job::Overview& all) {
    std::size_t finishes = 0;
    for (const auto& s : all.scenes) finishes += s.finishes.size();
    const auto said = counted(finishes, "finish", "finishes");
    const auto from =
        all.scenes.size() == 1 ? ": " + all.scenes[0].title : " of " + counted(all.scenes.size(), "scene", "scenes");
    if (all.woods.empty()) return said + from;
    return said + " on " + counted(all.woods.size(), "wood", "woods") + from;
}

layout::Overview overview_page(const job::Overview& all) {
    layout::Overview page;
    page.title = overview_title(all);
    page.geometry = scene::geometry_text(all.look.geometry);
    page.observer = all.look.observer == "10deg"  ? "10° observer"
                    : all.look.observer == "2deg" ? "2° observer"
                                                  : all.look.observer;
    page.light = all.look.lights.front();
    material::Mark weakest = material::Mark::measured;
    bool any = false;
    for (const auto& group : grouped(all)) {
        layout::OverviewGroup out{group.heading, "", {}};
        for (const std::size_t i : group.boards) {
            out.boards.push_back(chip_board(all, all.boards[i], group.by_wood));
            if (all.boards[i].fault) continue;
            weakest = material::weaker(weakest, all.boards[i].seen.spread.rests_on);
            any = true;
        }
        page.groups.push_back(std::move(out));
    }
    page.rests_on = any ? std::string(material::word(weakest)) + " at the weakest" : "no board was worked out";
    if (all.look.lights.size() > 1) page.notes.emplace_back("The colors under the other lights are in the JSON.");
    return page;
}

std::string overview_json(const job::Overview& all) {
    Json j;
    j["tool"] = tool_json(all.solver);
    j["scenes"] = Json::array();
    for (const auto& s : all.scenes) j["scenes"].push_back({{"file", s.file}, {"title", s.title}});
    j["boards"] = Json::array();
    for (const auto& b : all.boards) {
        Json board = {{"scene", b.scene}, {"wood", b.wood}, {"wood_name", b.wood_name}};
        if (b.fault) {
            board["name"] = b.seen.name;
            board["fault"] = warnings_json({*b.fault}).front();
        } else {
            board.update(finish_json(b.seen, all.look, false));
            board["words"] = b.words;
            board["remarks"] = remarks(b);
        }
        j["boards"].push_back(std::move(board));
    }
    j["warnings"] = warnings_json(all.warnings);
    j["cautions"] = cautions_json(all.cautions);
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
