// Each source of noise moves the finished color by a small vector in Lab, m_j, worked out once at one standard
// deviation. A board is the prediction and the sum of all moves by independent normal amplitudes, Lab + Σ z_j m_j, with
// the same z under every light. The bound is the 95 % quantile of ΔE00 (of the worst light) over many such boards: 1.96
// standard deviations would hold fewer of them where the sources move the color in different directions.

#include "foretone/learn/board_noise.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

#include "fields.hpp"
#include "fit_work.hpp"
#include "foretone/appearance/lattice.hpp"
#include "foretone/schedule/deposit.hpp"

namespace foretone::learn {
namespace {
using color::Lab;
using Move = std::vector<Eigen::Vector3d>;  // one a light

class Sources {
public:
    Sources(const search::Setting& setting, const schedule::Finish& finish, const std::vector<color::Weights>& lights)
        : setting_(setting), finish_(finish), lights_(lights), base_(look(setting.materials, finish)) {}

    const std::vector<Move>& moves() const { return moves_; }
    Lab base(std::size_t light) const { return {base_[light](0), base_[light](1), base_[light](2)}; }

    /// ΔE00 under the first light of the sources from `first` on.
    double de00_from(std::size_t first) const {
        std::vector<Eigen::Vector3d> seen;
        for (std::size_t j = first; j < moves_.size(); ++j) seen.push_back(moves_[j].front());
        return de00_of(base(0), seen);
    }

    void add_reading(double spread_de) {
        for (int axis = 0; axis < 3; ++axis)
            moves_.emplace_back(lights_.size(), spread_de / std::sqrt(3.0) * Eigen::Vector3d::Unit(axis));
    }

    // Paler or darker by the same share at every wavelength, most of the variance; warmer or cooler; and a bend. Scaled
    // so that together they make ΔE*ab `de`, root mean square, of the bare wood.
    void add_wood(double de) {
        if (de <= 0) return;
        const auto& bare = std::get<material::Wood>(setting_.materials.at(setting_.wood).data).reflectance.values;
        const FieldPrior prior{0.01, 0.005, 0.003, 560, 180, 0, 40};
        const auto moved = [&](const spectral::Spectrum& curve, double times) {
            spectral::Spectrum out = bare;
            for (std::size_t i = 0; i < out.size(); ++i) out[i] = std::min(0.98, out[i] * std::exp(times * curve[i]));
            return out;
        };
        const auto seen = [&](const spectral::Spectrum& r) {
            return color::to_lab(color::xyz(r, lights_.front()), lights_.front().white);
        };
        const auto curves = field_curves(prior);
        double squares = 0;
        for (const auto& curve : curves) squares += std::pow(color::delta_e_ab(seen(bare), seen(moved(curve, 1))), 2);
        for (const auto& curve : curves) {
            material::Materials materials = setting_.materials;
            std::get<material::Wood>(materials.at(setting_.wood).data).reflectance.values =
                moved(curve, -de / std::sqrt(squares));
            add(materials, finish_, 1);
        }
    }

    // Half of the variance is common to a step's coats, half is each coat's own.
    void add_hand(double hand) {
        if (hand <= 0) return;
        for (std::size_t s = 0; s < finish_.steps.size(); ++s) {
            if (finish_.steps[s].coats <= 0) continue;
            schedule::Finish moved = finish_;
            auto& step = moved.steps[s];
            const double wet = schedule::deposit(step, setting_.materials).wet_um;
            const double share = hand * std::sqrt(0.5 + 0.5 / static_cast<double>(step.coats));
            // A film at the upper end of what can be laid is laid thinner instead.
            const double sign = wet * (1 + share) > 500 ? -1 : 1;
            step.wet_um = wet * (1 + sign * share);
            step.wet_g_per_m2 = step.coverage_m2_per_l = std::nullopt;
            add(setting_.materials, moved, sign);
        }
    }

private:
    Move look(const material::Materials& materials, const schedule::Finish& finish) const {
        const auto seen = search::finished({materials, setting_.wood, setting_.geometry, setting_.solver}, finish);
        Move out;
        for (const auto& w : lights_) {
            const auto lab = color::to_lab(color::xyz(seen, w), w.white);
            out.emplace_back(lab.l, lab.a, lab.b);
        }
        return out;
    }

    void add(const material::Materials& materials, const schedule::Finish& finish, double sign) {
        Move move = look(materials, finish);
        for (std::size_t l = 0; l < move.size(); ++l) move[l] = sign * (move[l] - base_[l]);
        moves_.push_back(std::move(move));
    }

    const search::Setting& setting_;
    const schedule::Finish& finish_;
    const std::vector<color::Weights>& lights_;
    Move base_;
    std::vector<Move> moves_;
};

// Within this ΔE00 of the base lies `noise_share` of the boards, judged by the worst light of each.
double bound(const Sources& sources, std::size_t lights) {
    constexpr unsigned shifts = 31;
    const auto& moves = sources.moves();
    const appearance::ShiftedLattice lattice(moves.size(), moves.size());
    std::vector<double> worst, amplitudes(moves.size());
    for (unsigned shift = 0; shift < shifts; ++shift)
        for (std::size_t point = 0; point < appearance::lattice_points; ++point) {
            for (std::size_t j = 0; j < moves.size(); ++j)
                amplitudes[j] = appearance::normal_quantile(lattice.at(point, j, shift));
            double most = 0;
            for (std::size_t l = 0; l < lights; ++l) {
                Eigen::Vector3d off = Eigen::Vector3d::Zero();
                for (std::size_t j = 0; j < moves.size(); ++j) off += amplitudes[j] * moves[j][l];
                const Lab at = sources.base(l);
                most = std::max(most, color::delta_e_00(at, {at.l + off(0), at.a + off(1), at.b + off(2)}));
            }
            worst.push_back(most);
        }
    const auto rank = worst.begin() + static_cast<std::ptrdiff_t>(noise_share * static_cast<double>(worst.size()));
    std::nth_element(worst.begin(), rank, worst.end());
    return *rank;
}

}  // namespace

double BoardNoise::reading_and_board_de00() const { return std::hypot(reading_de00, board_de00); }

BoardNoise board_noise(const search::Setting& setting, const schedule::Finish& finish,
                       const std::vector<color::Weights>& lights, double spread_de, const Noise& noise) {
    BoardNoise out;
    Sources sources(setting, finish, lights);
    sources.add_reading(spread_de);
    out.reading_de00 = sources.de00_from(0);
    std::size_t before = sources.moves().size();
    sources.add_wood(noise.board_de);
    out.board_de00 = sources.de00_from(before);
    before = sources.moves().size();
    sources.add_wood(noise.place_de);
    out.place_de00 = sources.de00_from(before);
    before = sources.moves().size();
    sources.add_hand(noise.hand);
    out.hand_de00 = sources.de00_from(before);
    out.bound_de00 = bound(sources, lights.size());
    return out;
}

}  // namespace foretone::learn
