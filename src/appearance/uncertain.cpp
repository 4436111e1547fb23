// A world z moves the amounts a_m of all moves at once, a = E z, E the effects; then every figure is put back to its
// own value and moved once:
//   value          v + a, kept inside its range          (spectrum: v (1 + a), never below nothing)
//   logarithm      v exp(Σ a s),  s the shapes, or 1
//   body           ln(K/S) of a reflectance + Σ a s
// A fit's table has one coordinate a row: column k of its factor is what coordinate k does to figures k, k + 1, … The
// coordinates of how coats go in are those of all fits and of the world itself; a fit's figures follow the logarithm of
// what such a figure truly moved, ln(v′/v) v/sd in place of z.

#include "foretone/appearance/uncertain.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "foretone/material/references.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/mixture.hpp"
#include "foretone/schedule/pot.hpp"

namespace foretone::appearance {
namespace {
using material::Materials;
constexpr auto nothing = static_cast<std::size_t>(-1);

void add_used(const Materials& from, const std::string& id, Materials& to) {
    if (id.empty() || !from.count(id) || !to.emplace(id, from.at(id)).second) return;
    for (const auto& part : material::parts(from.at(id))) add_used(from, part, to);
}

// The binder that a step lays most of, "" if it has none.
std::string main_binder(const schedule::Step& step, const Materials& materials) {
    const auto mixture = schedule::mix(step, materials);
    const schedule::Mixture::Binder* most = nullptr;
    for (const auto& b : mixture.binders)
        if (!most || b.dry_share > most->dry_share) most = &b;
    return most ? most->id : "";
}

// "orange-shellac, spray": one hand lays it.
std::string laid_text(const schedule::Step& step, const Materials& materials) {
    std::string text;
    for (const auto& part : step.mix) text += (text.empty() ? "" : " + ") + part.use;
    const bool binder = !main_binder(step, materials).empty();
    const auto method = step.method ? *step.method
                        : binder    ? schedule::method_of(step, materials)
                                    : material::Method::wipe;
    return text + ", " + std::string(material::method_words[static_cast<std::size_t>(method)]);
}

// Everything that makes two coats the same pass over a board.
std::string pass_text(const schedule::Step& step, const Materials& materials) {
    std::string text = laid_text(step, materials);
    for (const auto& part : step.mix)
        text += "/" + std::to_string(static_cast<int>(part.amount)) + ":" + std::to_string(part.value);
    for (const auto& v : {step.wet_um, step.wet_g_per_m2, step.coverage_m2_per_l, step.cut_lb})
        text += "/" + (v ? std::to_string(*v) : std::string());
    return text;
}

}  // namespace

std::string_view word(Origin origin) { return origin == Origin::materials ? "materials" : "boards"; }

double made_up_for(double usual, double sd, double now) {
    constexpr double least = 0.05;  // of the usual: a figure at nothing is made up for by no factor
    return usual > 0 && sd > 0 ? std::log(std::max(now / usual, least)) * usual / sd : 0;
}

bool Knowledge::ages() const {
    return !after.empty() || std::any_of(past.begin(), past.end(), [](const auto& p) { return !p.empty(); });
}

std::vector<material::AgeSpan> Knowledge::times(std::size_t finish) const {
    auto out = finish < past.size() ? past[finish] : std::vector<material::AgeSpan>();
    out.insert(out.end(), after.begin(), after.end());
    return out;
}

UncertainFigures::UncertainFigures(const Materials& materials, const std::string& wood,
                                   const std::vector<schedule::Finish>& finishes, const color::Weights& weights,
                                   const Knowledge& knowledge)
    : hand_(knowledge.hand) {
    add_used(materials, wood, materials_);
    for (const auto& finish : finishes) {
        Materials own;
        add_used(materials, wood, own);
        for (const auto& step : finish.steps)
            for (const auto& part : step.mix) add_used(materials, part.use, own);
        used_.emplace_back();
        for (const auto& [id, m] : own) used_.back().push_back(id);
        materials_.merge(own);
    }
    wood_ = &std::get<material::Wood>(materials_.at(wood).data);
    add_law(finishes, knowledge);
    for (const auto& fit : knowledge.fits) add_fit(fit);
    add_wood(wood, weights, knowledge);
    add_figures();
    for (const auto& finish : finishes) add_hand(finish, knowledge.hand);
    add_ageing(wood, knowledge);
    set(std::vector<double>(coordinates_.size(), 0.0));
}

std::size_t UncertainFigures::coordinate(Coordinate c, std::vector<Effect> effects) {
    coordinates_.push_back(std::move(c));
    effects_.push_back(std::move(effects));
    return coordinates_.size() - 1;
}

// The move of a fit's figure; all shapes of a figure are one move.
std::size_t UncertainFigures::moved(const JointFigure& f) {
    const auto [it, fresh] = fitted_.try_emplace({f.material, f.figure}, moved_.size());
    if (fresh) {
        Moved m;
        m.material = f.material;
        m.acts = f.acts;
        m.wet = f.figure.starts_with("wet_um.");
        m.wood = std::holds_alternative<material::Wood>(materials_.at(f.material).data);
        m.load = material::load_at(materials_.at(f.material), f.figure);
        if (m.load) m.value = *m.load;
        for (const auto& at : material::figures(materials_.at(f.material)))
            if (at.key == f.figure) m.at = at;
        if (m.at.figure) m.value = m.at.figure->value;
        if (m.at.spectrum) m.values = m.at.spectrum->values;
        moved_.push_back(std::move(m));
    }
    Moved& m = moved_[it->second];
    if (f.shape_number > 0) m.shapes.push_back(f.shape);
    m.amounts.push_back(0);
    return it->second;
}

void UncertainFigures::add_fit(const JointTable& whole) {
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < whole.figures.size(); ++i)
        if (materials_.count(whole.figures[i].material) || whole.figures[i].material == uptake_rows) rows.push_back(i);
    const JointTable table = rows_of_table(whole, rows);
    std::vector<std::vector<Effect>> effects(table.figures.size());
    for (std::size_t i = 0; i < table.figures.size(); ++i) {
        if (table.figures[i].material == uptake_rows) continue;
        const std::size_t m = moved(table.figures[i]), amount = moved_[m].amounts.size() - 1;
        for (std::size_t k = 0; k <= i; ++k)
            if (table.factor[i][k] != 0) effects[k].push_back({m, amount, table.factor[i][k]});
    }
    for (std::size_t k = 0; k < effects.size(); ++k) {
        if (effects[k].empty()) continue;
        if (table.figures[k].material == uptake_rows)
            add_to_law(table.figures[k].figure, std::move(effects[k]));
        else
            coordinate({table.figures[k].name(), "what \"" + table.title + "\" left open", Origin::materials},
                       std::move(effects[k]));
    }
}

// What a fit's figures do with a figure of how coats go in: as far as that one is not known.
void UncertainFigures::add_to_law(const std::string& figure, std::vector<Effect> effects) {
    const auto& all = schedule::uptake_figures();
    const auto it = std::find_if(law_.begin(), law_.end(), [&](std::size_t i) { return all[i].name == figure; });
    if (it == law_.end()) return;
    auto& of_law = effects_[first_law_ + static_cast<std::size_t>(it - law_.begin())];
    for (auto& e : effects) {
        e.size *= law_share_;
        of_law.push_back(e);
    }
}

void UncertainFigures::add_wood(const std::string& id, const color::Weights& weights, const Knowledge& knowledge) {
    const auto it = fitted_.find({id, "reflectance"});
    WoodShapes shapes;
    if (it == fitted_.end()) {
        shapes = wood_shapes(*wood_, weights, knowledge.board_de, knowledge.same_board);
    } else if (!knowledge.same_board) {
        double de = knowledge.board_de;
        for (const auto& fit : knowledge.fits)
            for (const auto& [wood, other] : fit.another_board_de)
                if (wood == id) de = other;
        shapes.board = board_shapes(*wood_, weights, de);
    }
    if (shapes.stock.empty() && shapes.board.empty()) return;
    const std::size_t m = moved({id, "reflectance", 0, JointFigure::Acts::body, {}, 0});
    moved_[m].amounts.pop_back();
    const auto add = [&](const std::vector<spectral::Spectrum>& curves, Origin origin) {
        int number = 0;
        for (const auto& curve : curves) {
            moved_[m].shapes.push_back(curve);
            moved_[m].amounts.push_back(0);
            const std::string part = origin == Origin::materials ? "/reflectance/" : "/reflectance/board/";
            coordinate({id + part + std::to_string(++number),
                        id + (origin == Origin::materials ? " reflectance" : " from board to board"), origin},
                       {{m, moved_[m].amounts.size() - 1, 1.0}});
        }
    };
    add(shapes.stock, Origin::materials);
    add(shapes.board, Origin::boards);
}

void UncertainFigures::add_figures() {
    for (auto& [id, material] : materials_)
        for (auto& f : material::figures(material)) {
            if (!f.optical || f.sd() <= 0 || fitted_.count({id, f.key})) continue;
            if (f.spectrum && std::holds_alternative<material::Wood>(material.data)) continue;
            Moved m;
            m.material = id;
            m.at = f;
            m.value = f.figure ? f.figure->value : 0;
            if (f.spectrum) m.values = f.spectrum->values;
            m.share = f.spectrum != nullptr;
            m.wood = std::holds_alternative<material::Wood>(material.data);
            m.amounts = {0};
            moved_.push_back(std::move(m));
            coordinate({id + "/" + f.key, id + " " + f.key, Origin::materials}, {{moved_.size() - 1, 0, f.sd()}});
        }
}

// Figures of how the wood was readied and where pigment stays are left out where no finish and no fit asks for them.
void UncertainFigures::add_law(const std::vector<schedule::Finish>& finishes, const Knowledge& knowledge) {
    using schedule::Tells;
    law_share_ = knowledge.uptake;
    first_law_ = coordinates_.size();
    if (law_share_ <= 0) return;
    std::set<std::string> fitted;
    for (const auto& fit : knowledge.fits)
        for (std::size_t k = 0; k < fit.figures.size(); ++k)
            if (fit.figures[k].material == uptake_rows)
                for (std::size_t i = k + 1; i < fit.factor.size(); ++i)
                    if (fit.factor[i][k] != 0 && fit.figures[i].material != uptake_rows)
                        fitted.insert(fit.figures[k].figure);
    bool readied = wood_->grit != schedule::usual_grit, pigment = false;
    for (const auto& finish : finishes)
        for (const auto& step : finish.steps) {
            readied = readied || step.sand || step.water_pop || schedule::deposit(step, materials_).raises_grain;
            for (const auto& p : schedule::mix(step, materials_).powders)
                pigment = pigment || std::holds_alternative<material::Pigment>(materials_.at(p.id).data);
        }
    const auto& figures = schedule::uptake_figures();
    for (std::size_t i = 0; i < figures.size(); ++i) {
        const Tells when = figures[i].tells;
        const bool asked = (when != Tells::readied || readied) && (when != Tells::pigment || pigment);
        if (!asked && !fitted.count(figures[i].name)) continue;
        law_.push_back(i);
        coordinate({"uptake/" + figures[i].name, "how coats go in: " + figures[i].name, Origin::materials}, {});
    }
}

void UncertainFigures::add_hand(const schedule::Finish& finish, double hand) {
    Hand out;
    std::map<std::string, int> times;  // this finish laid it before
    const auto named = [&](const std::string& name, const std::string& what) {
        const auto [it, fresh] = named_.try_emplace(name, coordinates_.size());
        if (fresh) coordinate({name, what, Origin::boards}, {});
        return it->second;
    };
    for (const auto& step : finish.steps) {
        const std::string laid = laid_text(step, materials_), pass = pass_text(step, materials_);
        const auto coats = static_cast<std::size_t>(std::max(step.coats, 0));
        const std::string what = laid + ": wet film";
        const bool any = hand > 0 && coats > 0;
        out.step.push_back(any ? named(laid + ": hand/" + std::to_string(++times[laid]), what) : nothing);
        out.coat.emplace_back(coats, nothing);
        for (auto& coat : out.coat.back())
            if (any) coat = named(pass + ": coat/" + std::to_string(++times["coat " + pass]), what);
        const std::string binder = main_binder(step, materials_);
        const auto fit =
            binder.empty()
                ? fitted_.end()
                : fitted_.find({binder, "wet_um." + std::string(material::method_words[static_cast<std::size_t>(
                                                        schedule::method_of(step, materials_))])});
        out.build.push_back(fit == fitted_.end() ? nothing : fit->second);
        out.departure.wet.emplace_back(coats, 1.0);
        out.departure.soaks.push_back(schedule::deposit(step, materials_).soaks());
    }
    hands_.push_back(std::move(out));
}

void UncertainFigures::add_ageing(const std::string& wood, const Knowledge& knowledge) {
    first_ageing_ = coordinates_.size();
    if (!knowledge.ages()) return;
    std::vector<material::AgeSpan> places = knowledge.after;
    for (const auto& one : knowledge.past) places.insert(places.end(), one.begin(), one.end());
    ageing_as_filed_ = ageing_laws(materials_, wood);
    ages_ = ageing_coordinates(ageing_as_filed_, materials_, places);
    for (const auto& c : ages_) coordinate({c.name, c.what, c.of_place ? Origin::boards : Origin::materials}, {});
}

std::string UncertainFigures::what(std::size_t coordinate, std::size_t finish) const {
    const Hand& hand = hands_[finish];
    for (std::size_t s = 0; s < hand.step.size(); ++s) {
        const auto& coats = hand.coat[s];
        if (hand.step[s] == coordinate || std::find(coats.begin(), coats.end(), coordinate) != coats.end())
            return "step " + std::to_string(s + 1) + " wet film";
    }
    return coordinates_[coordinate].what;
}

bool UncertainFigures::moves(std::size_t coordinate, std::size_t finish) const {
    const auto within = [&](std::size_t first, std::size_t count) {
        return coordinate >= first && coordinate < first + count;
    };
    if (within(first_law_, law_.size()) || within(first_ageing_, ages_.size())) return true;
    const Hand& hand = hands_[finish];
    const auto has = [](const auto& list, const auto& what) {
        return std::find(list.begin(), list.end(), what) != list.end();
    };
    for (std::size_t s = 0; s < hand.step.size(); ++s)
        if (hand.step[s] == coordinate || has(hand.coat[s], coordinate)) return true;
    return std::any_of(effects_[coordinate].begin(), effects_[coordinate].end(), [&](const Effect& e) {
        const Moved& m = moved_[e.moved];
        return m.wet ? has(hand.build, e.moved) : has(used_[finish], m.material);
    });
}

void UncertainFigures::apply(Moved& m) const {
    using Acts = JointFigure::Acts;
    if (m.wet) return;
    if (m.load) {
        *m.load = m.value * std::exp(m.amounts[0]);
        return;
    }
    if (m.at.figure) {
        const double v = m.acts == Acts::value ? m.value + m.amounts[0] : m.value * std::exp(m.amounts[0]);
        m.at.figure->value = std::clamp(v, m.at.low, m.at.high);
        return;
    }
    for (std::size_t i = 0; i < m.values.size(); ++i) {
        double by = m.shapes.empty() ? m.amounts[0] : 0;
        for (std::size_t s = 0; s < m.shapes.size(); ++s) by += m.amounts[s] * m.shapes[s][i];
        const double v = m.values[i];
        const double now = m.acts == Acts::body ? (by == 0 ? v : with_body_shift(v, by))
                           : m.share            ? v * std::max(0.0, 1 + by)
                                                : v * std::exp(by);
        m.at.spectrum->values[i] = std::clamp(now, m.at.low, m.at.high);
    }
}

void UncertainFigures::set(std::span<const double> world) {
    for (auto& m : moved_) std::fill(m.amounts.begin(), m.amounts.end(), 0.0);
    std::vector<double> by(world.begin(), world.end());
    schedule::UptakeLaw law;
    const auto& of_law = schedule::uptake_figures();
    for (std::size_t i = 0; i < law_.size(); ++i) {
        const auto& f = of_law[law_[i]];
        double& v = law.*f.at;
        const double usual = v, sd = law_share_ * f.sd;
        v = std::clamp(usual + sd * world[first_law_ + i], f.low, f.high);
        by[first_law_ + i] = made_up_for(usual, sd, v);
    }
    for (std::size_t c = 0; c < world.size(); ++c)
        for (const auto& e : effects_[c]) moved_[e.moved].amounts[e.amount] += e.size * by[c];
    bool moved = false;
    for (auto& m : moved_) {
        if (m.amounts == m.applied) continue;
        apply(m);
        m.applied = m.amounts;
        moved = moved || !(m.wood || m.wet);
    }
    materials_set_ += moved;
    ageing_ = ageing_as_filed_;
    for (std::size_t i = 0; i < ages_.size(); ++i) ages_[i].move(ageing_, world[first_ageing_ + i]);
    const double common = hand_ * std::sqrt(wet_film_common), own = hand_ * std::sqrt(1 - wet_film_common);
    for (auto& hand : hands_) {
        hand.departure.law = law;
        for (std::size_t s = 0; s < hand.step.size(); ++s) {
            const double build = hand.build[s] == nothing ? 1 : std::exp(moved_[hand.build[s]].amounts[0]);
            for (std::size_t c = 0; c < hand.coat[s].size(); ++c) {
                const bool sure = hand.step[s] == nothing;
                const double off = sure ? 0 : common * world[hand.step[s]] + own * world[hand.coat[s][c]];
                hand.departure.wet[s][c] = build * std::max(0.1, 1 + off);
            }
        }
    }
}

}  // namespace foretone::appearance
