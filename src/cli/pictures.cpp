#include "pictures.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "foretone/base/parallel.hpp"
#include "foretone/color/words.hpp"
#include "foretone/layout/comparison.hpp"
#include "foretone/format/sheet_png.hpp"
#include "foretone/layout/step_board.hpp"
#include "aged.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {
using appearance::StageKind;
using job::Preview;
using job::SeenColor;
using job::SeenFinish;

std::string action_text(const appearance::Stage& stage, int coats) {
    if (stage.kind == StageKind::bare) return "";
    return stage.action + (coats > 1 ? ", coat " + std::to_string(stage.coat) : "");
}

layout::Plausible plausible(const std::vector<color::Display>& likely, const appearance::Region& region) {
    layout::Plausible out;
    for (const auto& shown : likely) {
        out.codes.push_back(shown.code);
        out.in_gamut = out.in_gamut && shown.in_gamut;
    }
    out.words = region_text(region) + "; 90 % of boards within ΔE00 " + fixed(region.de00_90, 1) + " of it. Of ± " +
                fixed(region.rms_de00, 1) + ", your materials are ± " + fixed(region.materials_de00, 1) +
                ", boards and coats ± " + fixed(region.boards_de00, 1);
    return out;
}

layout::StepBoard step_board(const Preview& p, std::size_t index) {
    const auto& finish = p.finishes[index];
    layout::StepBoard board;
    board.scene = p.scene.title;
    board.finish = finish.name;
    board.wood = p.wood_name;
    board.geometry = scene::geometry_text(p.scene.look.geometry);
    board.observer = observer_text(p.scene.look.observer);
    board.lights = p.scene.look.lights;
    for (const auto& s : finish.stages) {
        const int coats = s.stage.after_step > 0
                              ? p.scene.finishes[index].steps[static_cast<std::size_t>(s.stage.after_step) - 1].coats
                              : 1;
        board.columns.push_back(
            {std::string(appearance::word(s.stage.kind)), action_text(s.stage, coats), fields(s.colors)});
    }
    for (std::size_t l = 0; l < board.lights.size(); ++l)
        board.plausible.push_back(plausible(finish.plausible[l], finish.stages.back().colors[l].region));
    board.rests_on = rests_on(finish.spread);
    return board;
}

// The finished board new and after the look's times; below, what it may turn out as after the last of them.
layout::StepBoard years_board(const Preview& p, std::size_t index) {
    const auto& finish = p.finishes[index];
    layout::StepBoard board = step_board(p, index);
    board.finish += ", with the years";
    board.columns.erase(board.columns.begin(), board.columns.end() - 1);
    board.columns.front().action.clear();
    board.plausible.clear();
    for (const auto& a : finish.aged)
        board.columns.push_back({"after " + a.after.text, aged_caption(a), fields(a.colors)});
    const auto& last = finish.aged.back();
    for (std::size_t l = 0; l < board.lights.size(); ++l)
        board.plausible.push_back(plausible(last.plausible[l], last.colors[l].region));
    board.rests_on = std::string(material::word(last.rests_on));
    board.notes.push_back("The likely boards are those after " + last.after.text + ".");
    board.notes.push_back(ageing_note(job::age_class(p.scene)));
    return board;
}

// The schedule in a line: "Honey dye; Orange shellac ×2".
std::string summary(const SeenFinish& finish) {
    std::string text;
    for (std::size_t i = 0; i < finish.stages.size(); ++i) {
        const auto& s = finish.stages[i].stage;
        const bool last_of_step =
            i + 1 == finish.stages.size() || finish.stages[i + 1].stage.after_step != s.after_step;
        if (s.after_step == 0 || !last_of_step) continue;
        text += (text.empty() ? "" : "; ") + s.action + (s.coat > 1 ? " ×" + std::to_string(s.coat) : "");
    }
    return text;
}

layout::Comparison comparison(const Preview& p) {
    layout::Comparison c;
    c.scene = p.scene.title;
    c.wood = p.wood_name;
    c.geometry = scene::geometry_text(p.scene.look.geometry);
    c.observer = observer_text(p.scene.look.observer);
    c.lights = p.scene.look.lights;
    c.bare = fields(p.finishes.front().stages.front().colors);
    std::vector<const SeenFinish*> order;
    for (const auto& f : p.finishes) {
        if (f.name == p.reference)
            order.insert(order.begin(), &f);  // the reference stands first
        else
            order.push_back(&f);
    }
    const SeenFinish* weakest = order.front();
    for (const auto* f : order) {
        layout::ComparedFinish out{f->name, summary(*f), {}};
        for (std::size_t l = 0; l < c.lights.size(); ++l) {
            const auto& reference = order.front()->stages.back().colors[l];
            const auto& own = f->stages.back().colors[l];
            const bool same = f == order.front();
            out.by_light.push_back({field(own), same ? 0 : color::delta_e_00(reference.lab, own.lab),
                                    same ? "" : color::describe(reference.lab, own.lab)});
        }
        c.finishes.push_back(std::move(out));
        if (f->spread.rests_on > weakest->spread.rests_on) weakest = f;
    }
    c.rests_on = rests_on(weakest->spread);
    return c;
}

}  // namespace

layout::Field field(const SeenColor& c) {
    return {c.screen.code, c.screen.hex(), {c.lab.l, c.lab.a, c.lab.b}, c.screen.in_gamut, c.spread_de00};
}

std::vector<layout::Field> fields(const std::vector<SeenColor>& colors) {
    std::vector<layout::Field> out;
    for (const auto& c : colors) out.push_back(field(c));
    return out;
}

std::string observer_text(const std::string& id) {
    return id == "10deg" ? "10° observer" : id == "2deg" ? "2° observer" : id;
}

std::string region_text(const appearance::Region& r) {
    const auto part = [](const char* name, double mean, double variance) {
        std::string value = fixed(mean, 1);
        if (value[0] == '-')
            value = value.find_first_not_of("-0.") == std::string::npos ? value.substr(1) : "−" + value.substr(1);
        return std::string(name) + " " + value + " ± " + fixed(std::sqrt(variance), 1);
    };
    return "mean " + part("L*", r.mean.l, r.covariance[0][0]) + ", " + part("a*", r.mean.a, r.covariance[1][1]) + ", " +
           part("b*", r.mean.b, r.covariance[2][2]);
}

std::string rests_on(const appearance::Spread& spread) {
    std::string text(material::word(spread.rests_on));
    for (std::size_t i = 0; i < spread.weakest.size(); ++i) text += (i == 0 ? " (" : ", ") + spread.weakest[i];
    return spread.weakest.empty() ? text : text + ")";
}

std::vector<scene::OutputFile> pictures(const Preview& p, const std::filesystem::path& folder) {
    const std::string stem = scene::file_stem(p.scene.file);
    const auto words = scene::finish_words(p.scene);
    struct Picture {
        std::string word;  // of its name
        std::function<layout::Sheet()> sheet;
    };
    std::vector<Picture> all;
    for (std::size_t i = 0; i < p.finishes.size(); ++i)
        all.push_back({"-" + words.at(p.finishes[i].name), [&p, i] { return layout::lay_out(step_board(p, i)); }});
    if (!p.scene.look.after.empty()) {
        std::vector<std::string> names, taken;
        for (const auto& f : p.finishes) names.push_back(f.name + " years"), taken.push_back(words.at(f.name));
        const auto years = scene::file_words(names, taken);
        for (std::size_t i = 0; i < p.finishes.size(); ++i)
            all.push_back({"-" + years[i], [&p, i] { return layout::lay_out(years_board(p, i)); }});
    }
    all.push_back({"", [&p] { return layout::lay_out(comparison(p)); }});
    return base::parallel_map(all.size(), 0, [&](std::size_t i) {
        return scene::OutputFile{folder / (stem + all[i].word + ".png"), format::sheet_png(all[i].sheet())};
    });
}

}  // namespace foretone::cli
