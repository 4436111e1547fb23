// A board's optical stack, and what a geometry reads of it.
//
// Symbols: a share of the area under film, w under film that touches the wood (surface_state.hpp) · R_f, R_o body
// reflectance of the wood under film and of open wood · F_f, F_o their first surfaces · R_in diffuse reflectance of the
// wood from within · k1, k2 the open surface's reflection from outside and inside · µa, µs′ absorption and reduced
// scattering, 1/mm · φ_k, n_k fill of the pores and its index · n_w the wall's.
//
//   body = w R_f + (1 − w) R_o,    surface = a F_f + (1 − a) F_o
//   R_o = (1 − k1)(1 − k2) R_in/(1 − k2 R_in)                          (Saunderson 1942)
//   µs′ = (4/3) S (1 − Σ φ_k + Σ φ_k ((n_w/n_k − 1)/(n_w − 1))²),   µa = µa of the wood + Σ absorbance/depth
//
// Why two stacks and not one of mean properties: light that enters through a hole in the film meets no film on its way
// out. Coats and wood have no step of index where they meet: the boundary is rough and filled. Every limit is taken
// without a step: no coat, no zone and a trace of either read alike.

#include "foretone/appearance/render.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <memory>

#include "every_fourth.hpp"

#include "foretone/appearance/surface_state.hpp"
#include "foretone/base/spares.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/optics/angular.hpp"
#include "foretone/optics/calibration.hpp"
#include "foretone/optics/gloss.hpp"
#include "foretone/optics/two_flux.hpp"

namespace foretone::appearance {
namespace {
using material::Wood;
using optics::Layer;
using spectral::Spectrum;

bool is_zero(const Spectrum& s, std::size_t every) {
    for (std::size_t i = 0; i < s.size(); i += every)
        if (s[i] != 0) return false;
    return true;
}

// A reading at a solver's nodes.
struct Split {
    std::vector<double> body, surface;

    explicit Split(std::size_t wavelengths) : body(wavelengths), surface(wavelengths) {}
    void add(double share, const Split& part) {
        for (std::size_t i = 0; i < body.size(); ++i) {
            body[i] += share * part.body[i];
            surface[i] += share * part.surface[i];
        }
    }
};

// Share of the wood's scattering that is left where the pores hold the given fills: a filled pore scatters as the
// square of its index step against the cell wall, relative to an empty one.
double scattering_left(const std::vector<const Soaked*>& here, double n_wall) {
    double filled = 0, left = 0;
    for (const auto* s : here) {
        const double room = std::min(s->fill, 1 - filled);
        const double step = (n_wall / s->fill_n - 1) / (n_wall - 1);
        filled += room;
        left += room * step * step;
    }
    return 1 - filled + left;
}

// Share of the wood's own absorption that is left where bleaches have been.
double absorption_left(const std::vector<const Soaked*>& here) {
    double left = 1;
    for (const auto* s : here) left *= s->keeps;
    return left;
}

// The wood from the surface down: the wetted zone as slabs, between two neighbouring depths everything that reaches
// deeper adds up, and below it the same wood without end. A zone that holds nothing is therefore no zone at all, in any
// light.
void add_wood_layers(const Board& board, const Wood& wood, Layer dry, std::size_t every, std::vector<Layer>& layers) {
    std::vector<double> depths;
    depths.reserve(board.zone.size());
    for (const auto& s : board.zone)
        if (s.depth_um > 0) depths.push_back(s.depth_um);
    std::sort(depths.begin(), depths.end());
    depths.erase(std::unique(depths.begin(), depths.end()), depths.end());

    std::vector<const Soaked*> here;
    here.reserve(board.zone.size());
    double top = 0;
    for (const double bottom : depths) {
        here.clear();
        for (const auto& s : board.zone)
            if (s.depth_um >= bottom) here.push_back(&s);
        Layer& layer = layers.emplace_back(dry);
        layer.thickness_mm = (bottom - top) / 1000;
        const double left = scattering_left(here, wood.n.value), kept = absorption_left(here);
        for (double& s : layer.scattering_per_mm) s *= left;
        if (kept < 1)
            for (double& a : layer.absorption_per_mm) a *= kept;
        for (const auto* s : here) {
            const double per_mm = 1000 / s->depth_um;
            for (std::size_t i = 0; i < layer.absorption_per_mm.size(); ++i) {
                layer.absorption_per_mm[i] += s->absorbance[i * every] * per_mm;
                layer.scattering_per_mm[i] += s->scattering[i * every] * per_mm;
            }
        }
        top = bottom;
    }
    layers.push_back(std::move(dry));
}

// A coat far thinner than the roughness it lies on is no optical layer of its own yet: it counts by
// w = 1 − exp(−thickness/1 µm), so that the trace of a seal under or over a coat changes nothing at once.
double own_share(const Coat& coat) { return -std::expm1(-coat.thickness_um / 1.0); }

// Index that coats have together where the first of them lies: each counts by w of what those before it leave,
//   n = Σ w_k Π_{j<k}(1 − w_j) n_k / Σ w_k Π_{j<k}(1 − w_j).
// A trace anywhere in the row has no say, and so no boundary either: not even one trace against another.
class SharedIndex {
public:
    void add(const Coat& coat) {
        const double share = left_ * own_share(coat);
        sum_ += share * coat.n;
        shares_ += share;
        left_ -= share;
    }
    double index(const Coat& nearest) const { return shares_ > 0 ? sum_ / shares_ : nearest.n; }

private:
    double left_ = 1, sum_ = 0, shares_ = 0;
};

// Index that a coat's layer has: its own, as far as it is a layer, else that of those above it, then below it.
double layer_index(const std::vector<Coat>& coats, std::size_t i) {
    SharedIndex shared;
    for (std::size_t k = i; k < coats.size(); ++k) shared.add(coats[k]);
    for (std::size_t k = i; k-- > 0;) shared.add(coats[k]);
    return shared.index(coats[i]);
}

// Index at the boundary of wood and coats.
double boundary_index(const std::vector<Coat>& coats) { return layer_index(coats, 0); }

Split covered_reading(const Board& board, const Wood& wood, const optics::Stack& stack, optics::Geometry geometry,
                      const Solver& solver) {
    const auto seen = solver.radiance(stack, geometry);
    const double n_top = layer_index(board.coats, board.coats.size() - 1);
    const double alpha = film_roughness(board, wood, n_top);
    const double lobe = optics::surface_radiance(alpha, n_top, geometry);
    const double smooth = optics::surface_radiance(0, n_top, optics::Geometry::d8_included);
    Split out(stack.wavelengths);
    for (std::size_t i = 0; i < out.body.size(); ++i) {
        out.body[i] = seen.body[i];
        // d/8-included reads every regular reflection, those between coats too; else the lobe of the first surface
        // speaks for all.
        out.surface[i] =
            geometry == optics::Geometry::d8_included ? std::max(lobe, lobe + seen.specular[i] - smooth) : lobe;
    }
    return out;
}

// Wood that no film touches, to diffuse light, its outer reflection included.
std::vector<double> open_reflectance(const SurfacePair& surface, std::vector<double> inside) {
    for (double& r : inside) r = material::dry_surface(surface.k1, surface.k2, r);
    return inside;
}

Split open_reading(const Board& board, const Wood& wood, const std::vector<double>& open, optics::Geometry geometry) {
    const double k1 = wood.surface_k1.value, first = open_first_surface(board, wood, geometry);
    Split out(open.size());
    for (std::size_t i = 0; i < out.body.size(); ++i) {
        out.surface[i] = first;
        out.body[i] = open[i] - k1;
    }
    return out;
}

// A film that bridges cells: all that is seen of the wood passes it, and the air under it. Open wood is rough: it
// answers as a dull base of its own reflectance. What little such a film scatters is taken as scattered at its lower
// face, by a slab that absorbs nothing, R = Sd/(1 + Sd) (Kubelka 1948), S ¾ of the reduced scattering: so the film is
// clear, and exact in both solvers.
Split bridged_reading(const Board& board, const Wood& wood, std::vector<Layer> coats, std::vector<double> below,
                      optics::Geometry geometry, const Solver& solver) {
    for (std::size_t i = 0; i < below.size(); ++i) {
        double depth = 0;
        for (const auto& c : coats)
            if (!c.scattering_per_mm.empty()) depth += 0.75 * c.scattering_per_mm[i] * c.thickness_mm;
        const double back = depth / (1 + depth), through = 1 - back;
        below[i] = back + through * through * below[i] / (1 - back * below[i]);
    }
    for (auto& c : coats) c.scattering_per_mm.clear();
    constexpr double any_mm = 0.01;  // air takes nothing away, however deep
    coats.push_back({1, any_mm, std::vector<double>(below.size()), {}, 0});
    const optics::Stack stack{below.size(), std::move(coats), {optics::Base::Kind::lambertian, below}};
    return covered_reading(board, wood, stack, geometry, solver);
}

// Takes the coats off a stack; what is left has the wood's own index.
std::vector<Layer> take_coats(optics::Stack& stack, std::size_t coats, double n) {
    const auto end = stack.layers.begin() + static_cast<std::ptrdiff_t>(coats);
    std::vector<Layer> taken(std::make_move_iterator(stack.layers.begin()), std::make_move_iterator(end));
    stack.layers.erase(stack.layers.begin(), end);
    for (auto& layer : stack.layers) layer.n = n;
    return taken;
}

}  // namespace

Spectrum SplitReflectance::total() const {
    Spectrum t = body;
    for (std::size_t i = 0; i < t.size(); ++i) t[i] += surface[i];
    return t;
}

// Readers are kept from call to call and lent to one at a time.
Solver two_flux_solver() {
    const auto readers = std::make_shared<base::Spares<optics::TwoFluxReader>>();
    return {"two-flux",
            [readers](const optics::Stack& s, optics::Geometry g) {
                return readers->with([&](optics::TwoFluxReader& reader) {
                    optics::Radiance out;
                    reader.read(s, g, out);
                    return out;
                });
            },
            [readers](const optics::Stack& s) {
                return readers->with([&](optics::TwoFluxReader& reader) {
                    std::vector<double> out;
                    reader.inside(s, out);
                    return out;
                });
            },
            1};
}

Solver angular_solver(int streams) {
    const optics::AngularOptions options{streams, false};
    return {"angular", [options](const optics::Stack& s, optics::Geometry g) { return optics::angular(s, g, options); },
            [options](const optics::Stack& s) { return optics::angular_inside(s, options); }, 1};
}

void SplitReflectance::add(double share, const SplitReflectance& part) {
    for (std::size_t i = 0; i < body.size(); ++i) {
        body[i] += share * part.body[i];
        surface[i] += share * part.surface[i];
    }
}

// It absorbs what makes a half-space of it reflect as the wood does. (A file's Kubelka–Munk S is ¾ of the reduced
// scattering, diffusion theory's figure.)
Layer dry_wood(const Wood& wood, std::size_t every) {
    constexpr double without_end = std::numeric_limits<double>::infinity();
    Layer dry{wood.n.value, without_end, material::body_reflectance(wood, every),
              material::scattering_per_mm(wood, every), 0};
    for (std::size_t i = 0; i < dry.absorption_per_mm.size(); ++i) {
        dry.scattering_per_mm[i] = dry.scattering_per_mm[i] * 4 / 3;
        dry.absorption_per_mm[i] =
            optics::absorption_over_scattering(dry.absorption_per_mm[i]) * dry.scattering_per_mm[i];
    }
    return dry;
}

namespace {

optics::Stack stack_on(const Layer& dry, const Board& board, const Wood& wood, bool with_coats, std::size_t every) {
    optics::Stack stack;
    stack.wavelengths = nodes_of(every);
    stack.base.kind = optics::Base::Kind::black;
    stack.layers.reserve(board.coats.size() + 4);
    Layer body = dry;
    if (with_coats) {
        body.n = boundary_index(board.coats);
        for (auto coat = board.coats.rbegin(); coat != board.coats.rend(); ++coat) {
            const auto i = static_cast<std::size_t>(board.coats.rend() - coat - 1);
            stack.layers.push_back({layer_index(board.coats, i),
                                    coat->thickness_um / 1000,
                                    thinned(coat->absorption_per_mm, every),
                                    {},
                                    0});
            if (!is_zero(coat->haze_per_mm, every))
                stack.layers.back().scattering_per_mm = thinned(coat->haze_per_mm, every);
        }
    }
    add_wood_layers(board, wood, std::move(body), every, stack.layers);
    return stack;
}

}  // namespace

optics::Stack stack_of(const Board& board, const Wood& wood, bool with_coats, std::size_t every) {
    return stack_on(dry_wood(wood, every), board, wood, with_coats, every);
}

namespace {

// A spot of flats alone, or of pores alone.
Board only(const Board& board, Where where) {
    Board out = board;
    std::erase_if(out.zone, [&](const Soaked& s) { return s.where != Where::all && s.where != where; });
    return out;
}

// One spot, all of it alike.
Split render_alike(const Layer& dry, const Board& board, const Wood& wood, optics::Geometry geometry,
                   const Solver& solver) {
    const auto shares = surface_shares(board, wood);
    const bool film = shares.film > 0;
    auto stack = stack_on(dry, board, wood, film, solver.every);
    const auto open = [&] { return open_reflectance(open_surface(board, wood), solver.inside(stack)); };
    if (!film) return open_reading(board, wood, open(), geometry);
    Split touching = covered_reading(board, wood, stack, geometry, solver);
    if (shares.touched >= 1) return touching;
    Split out(stack.wavelengths);
    out.add(shares.touched, touching);
    auto coats = take_coats(stack, board.coats.size(), wood.n.value);
    const auto uncoated = open();
    out.add(1 - shares.film, open_reading(board, wood, uncoated, geometry));
    if (const double bridged = shares.film - shares.touched; bridged > 0)
        out.add(bridged, bridged_reading(board, wood, std::move(coats), uncoated, geometry, solver));
    return out;
}

// Flats and pores side by side, where they differ.
Split render_spot(const Layer& dry, const Board& board, const Wood& wood, optics::Geometry geometry,
                  const Solver& solver) {
    const auto alike = [&](const Board& b) { return render_alike(dry, b, wood, geometry, solver); };
    const bool apart =
        std::any_of(board.zone.begin(), board.zone.end(), [](const Soaked& s) { return s.where != Where::all; });
    if (!apart) return alike(board);
    if (board.pore <= 0) return alike(only(board, Where::flats));
    if (board.pore >= 1) return alike(only(board, Where::pores));
    Split out = alike(only(board, Where::flats));
    const Split pores = alike(only(board, Where::pores));
    for (std::size_t i = 0; i < out.body.size(); ++i) {
        out.body[i] += board.pore * (pores.body[i] - out.body[i]);
        out.surface[i] += board.pore * (pores.surface[i] - out.surface[i]);
    }
    return out;
}

}  // namespace

std::vector<double> total_at_nodes(const Layer& dry, const Board& board, const Wood& wood, optics::Geometry geometry,
                                   const Solver& solver) {
    Split seen = render_spot(dry, board, wood, geometry, solver);
    for (std::size_t i = 0; i < seen.body.size(); ++i) seen.body[i] += seen.surface[i];
    return std::move(seen.body);
}

SplitReflectance render(const Board& board, const Wood& wood, optics::Geometry geometry, const Solver& solver) {
    const Split seen = render_spot(dry_wood(wood, solver.every), board, wood, geometry, solver);
    return {filled(seen.body, solver.every), filled(seen.surface, solver.every)};
}

}  // namespace foretone::appearance
