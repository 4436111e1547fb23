#pragma once
/// Invented materials that hide behind the library's, boards made of them, and readings of these boards with noise.

#include <random>

#include "foretone/appearance/stages.hpp"
#include "foretone/appearance/lattice.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/learn/fit.hpp"
#include "foretone/search/finished.hpp"
#include "support/standards.hpp"
#include "support/whole_library.hpp"

namespace foretone::test {

inline const color::Weights& d65_10deg() {
    static const color::Weights w = color::make_weights(light("D65"), observer("10deg"));
    return w;
}

/// Standard normal deviates that are the same on every machine.
class Normal {
public:
    explicit Normal(std::uint64_t seed) : random_(seed) {}
    double operator()() { return appearance::normal_quantile((static_cast<double>(random_() >> 11) + 0.5) * 0x1p-53); }
    std::uint64_t below(std::uint64_t n) { return random_() % n; }

private:
    std::mt19937_64 random_;
};

/// The materials with every figure of every material drawn from its spread.
inline material::Materials hidden_materials(Normal& draw) {
    material::Materials materials = whole_library();
    for (auto& [id, m] : materials)
        for (auto& f : material::figures(m))
            if (f.optical && f.sd() > 0) material::move(f, std::clamp(draw(), -2.0, 2.0));
    return materials;
}

inline schedule::Step step_of(std::vector<schedule::Part> mix, int coats) {
    schedule::Step s;
    s.mix = std::move(mix);
    s.coats = coats;
    return s;
}

/// Dye, then so many coats of amber shellac at 1.5 lb, sprayed.
inline schedule::Finish dyed(int coats, double dye_parts = 4) {
    auto dye = step_of({{"honey-dye", schedule::Amount::parts, dye_parts}, {"water", schedule::Amount::parts, 36}}, 1);
    dye.wet_g_per_m2 = 65;
    auto film = step_of({{"orange-shellac", schedule::Amount::parts, 1}}, coats);
    film.cut_lb = 1.5;
    film.method = material::Method::spray;
    return {"dyed", coats > 0 ? std::vector{dye, film} : std::vector{dye}};
}

inline schedule::Finish undyed(int coats) {
    auto f = dyed(coats);
    f.steps.erase(f.steps.begin());
    f.name = "undyed";
    return f;
}

/// The wood moved at random by ΔE*ab `de` (root mean square): paler or darker, warmer or cooler, by reflectance itself.
inline material::Wood moved_wood(const material::Wood& wood, double de, Normal& draw) {
    material::Wood out = wood;
    const double level = draw(), slope = draw();
    const auto l = color::to_lab(color::xyz(wood.reflectance.values, d65_10deg()), d65_10deg().white);
    // A relative change of 1 % moves L* by (L* + 16)/300; a slope of 1 % per 100 nm moves b* by about a third of that
    // again.
    const double unit = de * 3 / (l.l + 16);
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        const double t = (spectral::grid_nm(i) - 560) / 100;
        out.reflectance.values[i] =
            std::clamp(wood.reflectance.values[i] * (1 + unit * (0.85 * level + 0.25 * slope * t)), 0.006, 0.97);
    }
    return out;
}

/// What a board of hidden materials shows after each coat, one coat a time, each laid by a hand that varies by 15 %.
struct HandBoard {
    std::vector<schedule::Step> coats;  ///< single coats with their wet film
    HandBoard(const material::Materials& materials, const schedule::Finish& finish, double hand, Normal& draw) {
        for (const auto& step : finish.steps) {
            const double common = draw() * std::sqrt(0.5);
            for (int c = 0; c < step.coats; ++c) {
                schedule::Step one = step;
                one.coats = 1;
                one.wet_um = std::clamp(
                    schedule::deposit(step, materials).wet_um * (1 + hand * (common + draw() * std::sqrt(0.5))), 1.0,
                    500.0);
                one.wet_g_per_m2.reset();
                coats.push_back(one);
            }
        }
    }
    spectral::Spectrum after(std::size_t n, const material::Materials& materials, const material::Wood& wood) const {
        material::Materials s = materials;
        s["the-board"] = {"the-board", material::Kind::wood, "", "", wood, {}};
        const auto solver = appearance::two_flux_solver();
        return search::finished({s, "the-board", optics::Geometry::d8_included, solver},
                                {"", {coats.begin(), coats.begin() + static_cast<long>(n)}});
    }
};

inline color::Lab noisy(const color::Lab& lab, double de, Normal& draw) {
    const double sd = de / std::sqrt(3.0);
    return {lab.l + sd * draw(), lab.a + sd * draw(), lab.b + sd * draw()};
}

inline color::Lab lab_of(const spectral::Spectrum& r) {
    return color::to_lab(color::xyz(r, d65_10deg()), d65_10deg().white);
}

/// A spectrum as an instrument gives it: off as a whole by about ΔE `de`, and each value by 0.3 %.
inline spectral::Spectrum noisy(const spectral::Spectrum& r, double de, Normal& draw) {
    spectral::Spectrum out = r;
    const double level = draw() * de * 3 / (lab_of(r).l + 16);
    for (double& v : out.values) v *= 1 + level + 0.003 * draw();
    return out;
}

/// One seeded case: hidden materials, a step board with the dye and one without, cut from one plank, its places ΔE 2
/// apart.
struct HiddenCase {
    Normal draw;
    material::Materials materials;
    std::string wood;
    HandBoard with_dye, without;
    learn::FitQuestion question;

    HiddenCase(std::uint64_t seed, bool spectra, double wood_de = 2.0, double instrument_de = 0.3)
        : draw(seed),
          materials(hidden_materials(draw)),
          wood(std::vector<std::string>{"hard-maple", "cherry", "ash", "walnut", "white-oak"}[seed % 5]),
          with_dye(materials, dyed(3), 0.15, draw),
          without(materials, undyed(2), 0.15, draw) {
        question.materials = whole_library();
        question.boards = {{"A", wood, dyed(3)}, {"B", wood, undyed(2)}};
        question.noise.board_de = 0;
        question.noise.place_de = wood_de;
        question.leave_one_out = false;
        const std::vector<std::array<int, 3>> states = {{0, 0, 0}, {0, 1, 1}, {0, 2, 1}, {0, 2, 2},
                                                        {1, 0, 0}, {1, 1, 1}, {1, 1, 2}};
        for (const auto& [board, step, coat] : states) {
            learn::BoardReading r;
            r.name = std::string(board == 0 ? "A" : "B") + std::to_string(step) + std::to_string(coat);
            r.board = static_cast<std::size_t>(board);
            r.step = step, r.coat = coat;
            r.weights = d65_10deg();
            r.spread_de = instrument_de;
            const std::size_t n = static_cast<std::size_t>(step == 0 ? 0 : board == 0 ? step - 1 + coat : coat);
            const auto& hand = board == 0 ? with_dye : without;
            const auto place = moved_wood(std::get<material::Wood>(materials.at(wood).data), wood_de, draw);
            const auto shown = hand.after(n, materials, place);
            if (spectra)
                r.reflectance = noisy(shown, instrument_de, draw);
            else
                r.lab = noisy(lab_of(shown), instrument_de, draw);
            question.readings.push_back(r);
        }
    }

    /// The third coat on the dyed board, on the wood as it is on average.
    color::Lab next_coat() const {
        return lab_of(with_dye.after(4, materials, std::get<material::Wood>(materials.at(wood).data)));
    }
};

}  // namespace foretone::test
