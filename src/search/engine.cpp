// Every recipe examined, by interpolation in the dye's absorbance.
//
// Symbols: a(λ) absorbance of the dyed zone (natural log, one pass) · A(λ) the largest that any mix has · x = −1 … 1
// the polynomial's argument.
//   a = s (e^{v(1+x)/2} − 1), v = ln(1 + A/s), s = 0.2
// Reflectance falls steeply where the first traces of dye meet pale wood and levels out in the dark: in x it is nearly
// even. With Chebyshev nodes the polynomial is well-conditioned (Lebesgue constant below 3 for 16 nodes), and its error
// falls by a constant factor with each node; tests/search compares with direct solves.

#include "foretone/search/engine.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "chebyshev.hpp"
#include "foretone/appearance/tones.hpp"
#include "foretone/appearance/uneven.hpp"

namespace foretone::search {
namespace {
using appearance::Board;
using spectral::Spectrum;

constexpr double bend = 0.2;  // s above
constexpr std::size_t grid = std::tuple_size_v<decltype(Spectrum::values)>;
static_assert(grid <= chebyshev::padded);

double absorbance_at(double x, double largest) { return bend * std::expm1(0.5 * (1 + x) * std::log1p(largest / bend)); }
double place_of(double a, double largest) {
    return largest > 0 ? 2 * std::log1p(a / bend) / std::log1p(largest / bend) - 1 : -1;
}

using Row = std::array<double, chebyshev::padded>;

Row row_of(const Spectrum& s) {
    Row out{};
    std::copy(s.begin(), s.end(), out.begin());
    return out;
}

// CIEDE2000's S_L at a mean lightness (Sharma, Wu & Dalal 2005, equation 15).
double s_l(double mean) { return 1 + 0.015 * (mean - 50) * (mean - 50) / std::sqrt(20 + (mean - 50) * (mean - 50)); }

}  // namespace

struct Engine::Prepared {
    Prepared(const Space& s, const Setting& b, Aim a, EngineOptions o)
        : space(s),
          setting(b),
          aim(std::move(a)),
          nodes(static_cast<std::size_t>(o.nodes)),
          most_uneven(o.most_uneven),
          wood(std::get<material::Wood>(b.materials.at(b.wood).data)) {
        if (aim.lights.empty()) throw std::invalid_argument("search: an aim without lights");
        if (o.nodes < 2 || o.nodes > 64)
            throw std::invalid_argument("search: nodes is " + std::to_string(o.nodes) + ", not 2 to 64");
        for (const auto& room : space.options) {
            deposits.emplace_back();
            for (const auto& option : room)
                deposits.back().push_back(schedule::deposit(option.step, setting.materials));
        }
        for (const auto& light : aim.lights)
            weights.push_back({row_of(light.weights.x), row_of(light.weights.y), row_of(light.weights.z)});
        interpolates = space.mixes.size() > nodes;
        if (wood.grain) tenths = appearance::outer_tenths(wood.grain->blotch.value);
        prepare_mixes();
    }

    void prepare_mixes() {
        std::vector<Spectrum> absorbances;
        for (const auto& mix : space.mixes) {
            steps_of_mix.push_back({mix ? 1 : 0, mix ? mix->colorants() : 0});
            absorbances.emplace_back();
            if (!mix) continue;
            auto d = schedule::deposit(dye_step(space, *mix), setting.materials);
            absorbances.back() = d.dye_absorbance;
            for (std::size_t i = 0; i < grid; ++i) largest[i] = std::max(largest[i], d.dye_absorbance[i]);
            dye = std::move(d);
        }
        if (!interpolates) {
            direct = std::move(absorbances);
            return;
        }
        places.assign(space.mixes.size() * chebyshev::padded, 0.0F);
        for (std::size_t m = 0; m < absorbances.size(); ++m)
            for (std::size_t i = 0; i < grid; ++i)
                places[m * chebyshev::padded + i] = static_cast<float>(place_of(absorbances[m][i], largest[i]));
    }

    // The finished board of a way over a dye of the given absorbance, at a spot that takes `uptake` times the mean.
    Spectrum solve(const Way& way, const Spectrum* absorbance, double uptake = 1) const {
        Board board;
        if (absorbance) {
            schedule::Deposit d = dye;
            d.dye_absorbance = *absorbance;
            board = appearance::after_drying(board, d, wood);
        }
        for (const Room r : put_on) {
            if (way.option[r] < 0) continue;
            const auto o = static_cast<std::size_t>(way.option[r]);
            board = appearance::after_coats(std::move(board), deposits[r][o], space.options[r][o].step.coats, wood);
        }
        if (uptake != 1) board = appearance::at_uptake(board, uptake);
        return appearance::render(board, wood, setting.geometry, setting.solver).total();
    }

    // Chebyshev coefficients of a way's reflectance: c_k = (2 − δ_k0)/N Σ_j R(x_j) cos(kθ_j), θ_j = (j + ½)π/N.
    std::vector<double> coefficients(const Way& way, double uptake = 1) const {
        std::vector<Spectrum> at(nodes);
        const double n = static_cast<double>(nodes);
        for (std::size_t j = 0; j < nodes; ++j) {
            const double x = std::cos((static_cast<double>(j) + 0.5) * std::numbers::pi / n);
            Spectrum a{};
            for (std::size_t i = 0; i < grid; ++i) a[i] = absorbance_at(x, largest[i]);
            at[j] = solve(way, &a, uptake);
        }
        std::vector<double> c(nodes * chebyshev::padded, 0.0);
        for (std::size_t k = 0; k < nodes; ++k)
            for (std::size_t j = 0; j < nodes; ++j) {
                const double f =
                    (k == 0 ? 1 : 2) / n *
                    std::cos(static_cast<double>(k) * (static_cast<double>(j) + 0.5) * std::numbers::pi / n);
                for (std::size_t i = 0; i < grid; ++i) c[k * chebyshev::padded + i] += f * at[j][i];
            }
        return c;
    }

    const Spectrum* mix_absorbance(std::size_t mix) const { return space.mixes[mix] ? &direct[mix] : nullptr; }

    color::Lab lab(std::size_t light, const double* r) const {
        const auto& w = weights[light];
        return color::to_lab(
            {chebyshev::weighted_sum(isa, w[0].data(), r), chebyshev::weighted_sum(isa, w[1].data(), r),
             chebyshev::weighted_sum(isa, w[2].data(), r)},
            aim.lights[light].weights.white);
    }

    // Worst ΔE00 over the lights, or anything above `limit` once one light alone is.
    double worst_de00(const double* r, double limit) const {
        const auto& first = aim.lights.front();
        const double y = chebyshev::weighted_sum(isa, weights.front()[1].data(), r) / first.weights.white.y;
        const double l = color::to_lab({y, y, y}, {1, 1, 1}).l;
        const double bound = std::abs(l - first.lab.l) / s_l((l + first.lab.l) / 2);
        if (bound > limit) return bound;
        double worst = 0;
        for (std::size_t i = 0; i < weights.size() && worst <= limit; ++i)
            worst = std::max(worst, color::delta_e_00(aim.lights[i].lab, lab(i, r)));
        return worst;
    }

    struct MixEffort {
        int steps, colorants;
    };
    const base::Isa isa = base::widest_isa();
    Space space;
    Setting setting;
    Aim aim;
    std::size_t nodes;
    std::optional<double> most_uneven;
    std::array<double, 2> tenths = {1, 1};  ///< uptakes of the palest and the darkest tenth
    material::Wood wood;
    std::vector<std::vector<schedule::Deposit>> deposits;
    std::vector<std::array<Row, 3>> weights;
    bool interpolates = false;
    schedule::Deposit dye;
    Spectrum largest{};
    std::vector<MixEffort> steps_of_mix;
    std::vector<Spectrum> direct;  ///< absorbances, where recipes are solved one by one
    std::vector<float> places;     ///< x of every mix and wavelength
};

Engine::Engine(const Space& space, const Setting& setting, Aim aim, EngineOptions options)
    : prepared_(std::make_unique<Prepared>(space, setting, std::move(aim), options)) {}
Engine::~Engine() = default;
Engine::Engine(Engine&&) noexcept = default;

// How uneven the mixes of one way come out. What it takes to know is worked out when it is first asked for.
class Engine::Unevenness {
public:
    Unevenness(const Prepared& p, const Way& way, bool interpolates) : p_(p), way_(way), interpolates_(interpolates) {}

    /// ΔE00 under the first light between the tenths of the board that take least and most.
    double of(std::size_t mix) {
        std::array<color::Lab, 2> lab;
        for (std::size_t t = 0; t < 2; ++t) lab[t] = p_.lab(0, at(t, mix).data());
        return color::delta_e_00(lab[0], lab[1]);
    }

private:
    Row at(std::size_t tenth, std::size_t mix) {
        if (!interpolates_ || !p_.space.mixes[mix])
            return row_of(p_.solve(way_, p_.mix_absorbance(mix), p_.tenths[tenth]));
        auto& c = coefficients_[tenth];
        if (c.empty()) c = p_.coefficients(way_, p_.tenths[tenth]);
        Row r{};
        chebyshev::reflectance(p_.isa, c.data(), p_.nodes, p_.places.data() + mix * chebyshev::padded, r.data());
        return r;
    }

    const Prepared& p_;
    const Way& way_;
    bool interpolates_;
    std::array<std::vector<double>, 2> coefficients_;
};

void Engine::examine(std::size_t index, Best& best) const {
    const Prepared& p = *prepared_;
    const Way& way = p.space.ways.at(index);
    const std::size_t mixes = p.space.mixes_with(way);
    const bool interpolates = p.interpolates && mixes > p.nodes;
    const auto coefficients = interpolates ? p.coefficients(way) : std::vector<double>();
    Unevenness uneven(p, way, interpolates);
    Row r{};
    for (std::size_t m = 0; m < mixes; ++m) {
        if (interpolates && p.space.mixes[m]) {
            chebyshev::reflectance(p.isa, coefficients.data(), p.nodes, p.places.data() + m * chebyshev::padded,
                                   r.data());
        } else {
            r = row_of(p.solve(way, p.mix_absorbance(m)));
        }
        const int steps = way.steps + p.steps_of_mix[m].steps, colorants = way.colorants + p.steps_of_mix[m].colorants;
        const double limit = best.limit(steps, colorants);
        const double de00 = p.worst_de00(r.data(), limit);
        if (de00 > limit || (p.most_uneven && uneven.of(m) > *p.most_uneven)) continue;
        best.offer(steps, colorants, {de00, index * p.space.mixes.size() + m});
    }
}

std::size_t Engine::examine(std::size_t first, std::size_t last, Best& best, const std::function<bool()>& go_on) const {
    for (std::size_t w = first; w < last; ++w) {
        if (!go_on()) return w;
        examine(w, best);
    }
    return last;
}

Spectrum Engine::reflectance(std::uint64_t number) const {
    const Prepared& p = *prepared_;
    const Way& way = p.space.ways.at(static_cast<std::size_t>(number / p.space.mixes.size()));
    const auto mix = static_cast<std::size_t>(number % p.space.mixes.size());
    if (!p.interpolates || !p.space.mixes[mix]) return p.solve(way, p.mix_absorbance(mix));
    Spectrum out{};
    Row r{};
    chebyshev::reflectance(p.isa, p.coefficients(way).data(), p.nodes, p.places.data() + mix * chebyshev::padded,
                           r.data());
    std::copy_n(r.begin(), grid, out.begin());
    return out;
}

}  // namespace foretone::search
