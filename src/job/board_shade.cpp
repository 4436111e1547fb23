// Toned edges. Symbols: d distance to an edge · r reach · s share of the toner's color.
//
//   one edge    e(d) = (1 + cos(π d/r))/2 for d < r, else 0
//   a point     s = 1 − (1 − e(d_x))(1 − e(d_y))
//
// Every share is a board of its own by the same account (toner_strength times s), solved at `first_shades` even shares
// from none to all; where the readings of two neighbours lie further apart than ΔE00 `shade_gap` under any of the
// lights, one between them is solved too, the widest gap first, up to `most_shades` in all (strong toners: the first
// color counts most). A pixel lies between two, and its codes are mixed in proportion: over so small a step codes are
// as good as straight in light. Film is laid alike all over: a gun that is held back leaves less color where it is
// thinned, and the topcoats level it.

#include "board_shade.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <numbers>

#include "foretone/appearance/ageing.hpp"
#include "foretone/appearance/stages.hpp"
#include "foretone/light/rows.hpp"

namespace foretone::job {
namespace {

constexpr std::size_t first_shades = 9;

bool is_toner(const material::Materials& materials, const std::string& id) {
    const auto it = materials.find(id);
    return it != materials.end() && it->second.kind == material::Kind::toner;
}

bool toner_step(const schedule::Step& step, const material::Materials& materials) {
    return std::any_of(step.mix.begin(), step.mix.end(), [&](const auto& p) { return is_toner(materials, p.use); });
}

schedule::Finish toned(schedule::Finish finish, const material::Materials& materials, double share) {
    for (auto& step : finish.steps)
        if (toner_step(step, materials)) step.toner_strength = share * step.toner_strength.value_or(1);
    return finish;
}

double along_edge(double from_edge, double reach) {
    return from_edge < reach ? 0.5 * (1 + std::cos(std::numbers::pi * std::max(0.0, from_edge) / reach)) : 0;
}

// How much of level k there is in a share: a hat over its two neighbours.
double hat(double share, const std::vector<SettledBoard>& levels, std::size_t k) {
    const double at = levels[k].toned;
    if (share < at) return k == 0 ? 1 : std::max(0.0, 1 - (at - share) / (at - levels[k - 1].toned));
    return k + 1 == levels.size() ? 1 : std::max(0.0, 1 - (share - at) / (levels[k + 1].toned - at));
}

color::Lab lab_of(const spectral::Spectrum& reflectance, const color::Weights& weights) {
    return color::to_lab(color::xyz(reflectance, weights), weights.white);
}

double gap(const SettledBoard& a, const SettledBoard& b, const std::vector<color::Weights>& lights) {
    double out = 0;
    for (const auto& light : lights)
        out = std::max(out, color::delta_e_00(lab_of(a.settled.due, light), lab_of(b.settled.due, light)));
    return out;
}

// The widest step between neighbours, and the upper one of them.
struct WidestStep {
    std::size_t upper = 0;
    double gap = 0;
};

WidestStep widest_step(const std::vector<SettledBoard>& levels, const std::vector<color::Weights>& lights) {
    WidestStep out;
    for (std::size_t k = 1; k < levels.size(); ++k)
        if (const double one = gap(levels[k - 1], levels[k], lights); one > out.gap) out = {k, one};
    return out;
}

}  // namespace

SettledBoard settled_board(const scene::Scene& scene, const schedule::Finish& finish, const BoardRequest& request,
                           const BoardMaps& maps, const appearance::Solver& solver) {
    const std::vector<material::AgeSpan> times = {{scene.look.exposure, request.after ? request.after->days : 0}};
    const auto old = appearance::aged(scene.materials, scene.wood, finish, times);
    auto board = appearance::boards(old.materials, old.wood, old.finish).back();
    const auto& wood = old.wood_data();
    auto settled = appearance::mean_matched_spectra(board, wood, appearance::centred(wood, maps.shades()),
                                                    optics::Geometry::g45_0, solver, maps, maps.range());
    return {std::move(board), wood, std::move(settled), 1};
}

bool holds_toner(const schedule::Finish& finish, const material::Materials& materials) {
    return std::any_of(finish.steps.begin(), finish.steps.end(),
                       [&](const auto& step) { return step.coats > 0 && toner_step(step, materials); });
}

double edge_share(double x, double y, double width, double height) {
    const double reach = shade_reach * std::min(width, height);
    return 1 - (1 - along_edge(std::min(x, width - x), reach)) * (1 - along_edge(std::min(y, height - y), reach));
}

double widest_gap(const std::vector<SettledBoard>& levels, const std::vector<color::Weights>& lights) {
    return widest_step(levels, lights).gap;
}

std::vector<SettledBoard> shaded_boards(const scene::Scene& scene, const schedule::Finish& finish,
                                        const BoardRequest& request, const BoardMaps& maps,
                                        const appearance::Solver& solver, const std::vector<color::Weights>& lights) {
    const auto at = [&](double share) {
        auto board = settled_board(scene, toned(finish, scene.materials, share), request, maps, solver);
        board.toned = share;
        return board;
    };
    std::vector<SettledBoard> out;
    for (std::size_t k = 0; k < first_shades; ++k)
        out.push_back(at(static_cast<double>(k) / static_cast<double>(first_shades - 1)));
    while (out.size() < most_shades) {
        const auto [upper, wide] = widest_step(out, lights);
        if (wide <= shade_gap) break;
        auto between = at(0.5 * (out[upper - 1].toned + out[upper].toned));
        out.insert(out.begin() + static_cast<std::ptrdiff_t>(upper), std::move(between));
    }
    return out;
}

namespace {

// One level's picture and means, over all pixels.
struct Level {
    Level(const SettledBoard& settled, const BoardMaps& maps, const color::Weights& weights, light::View view)
        : tones(settled.settled.spectra, weights),
          finished{tones, light::sheen_of(settled.board, settled.wood), light::fibres_of(settled.wood)},
          lit(maps.width(), maps.height(), maps.mm_per_px(), finished, {view, 0}),
          mean(settled.settled.spectra) {}
    Level(const Level&) = delete;
    Level& operator=(const Level&) = delete;

    appearance::ToneTable tones;
    light::Finished finished;
    light::BoardPicture lit;
    appearance::ToneMean mean;
    double share = 0;  // of the board
};

}  // namespace

SeenBoard shaded_board(const std::vector<SettledBoard>& levels, const BoardMaps& maps, const color::Weights& weights,
                       light::View view, const TakeRows& take) {
    std::deque<Level> drawn;
    for (const auto& level : levels) drawn.emplace_back(level, maps, weights, view);
    std::vector<std::uint8_t> rgb;
    std::vector<double> shares;
    std::vector<float> mixed;
    maps.each_piece([&](const BoardMaps::Piece& p) {
        shares.clear();
        for (int y = p.from; y < p.end; ++y)
            for (int x = 0; x < maps.width(); ++x)
                shares.push_back(edge_share(x + 0.5, y + 0.5, maps.width(), maps.height()));
        rgb.resize(3 * shares.size());
        mixed.assign(rgb.size(), 0.0F);
        for (std::size_t k = 0; k < levels.size(); ++k) {
            drawn[k].lit.draw(p.maps, p.first, p.from, p.end, rgb);
            drawn[k].mean.add(p.of(p.maps.shade), p.of(p.maps.uptake), p.of(p.maps.pore));
            for (std::size_t i = 0; i < shares.size(); ++i) {
                const double w = hat(shares[i], levels, k);
                drawn[k].share += w;
                for (std::size_t c = 0; c < 3 && w > 0; ++c)
                    mixed[3 * i + c] += static_cast<float>(w) * static_cast<float>(rgb[3 * i + c]);
            }
        }
        for (std::size_t i = 0; i < mixed.size(); ++i) rgb[i] = static_cast<std::uint8_t>(std::lround(mixed[i]));
        take(rgb);
    });
    SeenBoard seen;
    spectral::Spectrum mean{}, due{};
    for (std::size_t k = 0; k < levels.size(); ++k) {
        const double all = drawn[k].share / static_cast<double>(maps.range().count);
        const auto own = drawn[k].mean.mean().total();
        for (std::size_t i = 0; i < mean.size(); ++i) {
            mean[i] += all * own[i];
            due[i] += all * levels[k].settled.due[i];
        }
        seen.reduced_share += all * drawn[k].lit.reduced_share();
        seen.white_share += all * drawn[k].lit.white_share();
    }
    seen.mean = lab_of(mean, weights);
    seen.predicted = lab_of(due, weights);
    seen.de00 = color::delta_e_00(seen.mean, seen.predicted);
    const auto middle = lab_of(levels.front().settled.due, weights), edge = lab_of(levels.back().settled.due, weights);
    seen.shade = Shade{middle, edge, color::delta_e_00(middle, edge)};
    return seen;
}

}  // namespace foretone::job
