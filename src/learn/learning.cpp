// A world is a draw of appearance::UncertainFigures over all finishes in question: its materials stay, its boards and
// hands are drawn again for every board. A reading sees one place of a board, off by the place's own shift of ln(K/S),
// through an instrument that is off as a whole and at every wavelength.

#include "foretone/learn/learning.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "foretone/appearance/lattice.hpp"
#include "foretone/schedule/deposit.hpp"

namespace foretone::learn {
namespace {
using appearance::Origin;
using appearance::UncertainFigures;
using color::Lab;
using spectral::Spectrum;

// Standard normal deviates, the same on every machine.
class Normal {
public:
    explicit Normal(std::uint64_t seed) : random_(seed) {}
    double operator()() { return appearance::normal_quantile((static_cast<double>(random_() >> 11) + 0.5) * 0x1p-53); }

private:
    std::mt19937_64 random_;
};

bool of_the_plank(const appearance::Coordinate& c) { return c.name.find("/reflectance/board/") != std::string::npos; }

class HiddenWorld {
public:
    explicit HiddenWorld(const LearningQuestion& q)
        : q_(q), finishes_(with_learned(q)), figures_(q.materials, q.wood, finishes_, q.weights, {}), draw_(q.seed) {
        for (const auto& c : figures_.coordinates()) {
            material_draws_.push_back(c.origin == Origin::materials ? draw_() : 0);
            first_.push_back(c.origin == Origin::boards ? draw_() : 0);
        }
    }

    /// A board, as amplitudes of all coordinates: the first step board's plank or a new one, a new hand.
    std::vector<double> board(bool first_plank) {
        std::vector<double> out = material_draws_;
        for (std::size_t i = 0; i < out.size(); ++i) {
            const auto& c = figures_.coordinates()[i];
            if (c.origin == Origin::materials) continue;
            const double fresh = draw_();
            out[i] = first_plank && of_the_plank(c) ? first_[i] : fresh;
        }
        return out;
    }

    /// All readings of a step board.
    void read_board(std::size_t number, FitQuestion& ask) {
        const auto world = board(number == 0);
        figures_.set(world);
        ask.boards.push_back({"board " + std::to_string(number + 1), q_.wood, q_.learned});
        read(number, 0, 0, 0, ask);
        std::size_t coats = 0;
        for (std::size_t s = 0; s < q_.learned.steps.size(); ++s)
            for (int c = 1; c <= q_.learned.steps[s].coats; ++c) read(number, static_cast<int>(s) + 1, c, ++coats, ask);
    }

    /// What each finish asked about looks like on a board.
    std::vector<Lab> look(const std::vector<double>& world) {
        figures_.set(world);
        std::vector<Lab> out;
        for (std::size_t f = 1; f < finishes_.size(); ++f)
            out.push_back(lab(seen(f, static_cast<std::size_t>(-1), figures_.wood())));
        return out;
    }

private:
    static std::vector<schedule::Finish> with_learned(const LearningQuestion& q) {
        std::vector<schedule::Finish> out = {q.learned};
        out.insert(out.end(), q.asked.begin(), q.asked.end());
        return out;
    }

    Lab lab(const Spectrum& r) const { return color::to_lab(color::xyz(r, q_.weights), q_.weights.white); }

    // The first so many coats of a finish, each laid as the hand lays it.
    Spectrum seen(std::size_t finish, std::size_t coats, const material::Wood& wood) const {
        const auto& departure = figures_.departure(finish);
        appearance::Board board;
        if (departure.law) board.law = *departure.law;
        const auto& steps = finishes_[finish].steps;
        std::size_t laid = 0;
        for (std::size_t s = 0; s < steps.size(); ++s) {
            const auto first = schedule::deposit(steps[s], figures_.materials());
            for (std::size_t c = 0; c < departure.wet[s].size() && laid < coats; ++c, ++laid) {
                const double wet_um = std::clamp(first.wet_um * departure.wet[s][c], 1.001, 499.9);  // what can be laid
                const auto coat =
                    schedule::thicker(c == 0 ? first : schedule::further_coat(first), wet_um / first.wet_um);
                board = appearance::after_drying(board, coat, wood);
            }
        }
        return appearance::render(board, wood, q_.geometry, appearance::two_flux_solver()).total();
    }

    material::Wood at_a_place() {
        material::Wood wood = figures_.wood();
        Spectrum shift;
        for (const auto& curve : appearance::board_shapes(wood, q_.weights, q_.noise.place_de)) {
            const double by = draw_();
            for (std::size_t i = 0; i < shift.size(); ++i) shift[i] += by * curve[i];
        }
        for (std::size_t i = 0; i < shift.size(); ++i)
            wood.reflectance.values[i] = appearance::with_body_shift(wood.reflectance.values[i], shift[i]);
        return wood;
    }

    void read(std::size_t board, int step, int coat, std::size_t coats, FitQuestion& ask) {
        BoardReading out;
        out.name = std::to_string(board) + "/" + std::to_string(step) + "/" + std::to_string(coat);
        out.board = board;
        out.step = step;
        out.coat = coat;
        out.weights = q_.weights;
        out.spread_de = q_.reading_de;
        Spectrum shown = seen(0, coats, at_a_place());
        if (q_.spectra) {
            // d L*/d ln R = (L* + 16)/3.
            const double repeat = q_.reading_de * 3 / (lab(shown).l + 16);
            const double level = draw_() * repeat * std::sqrt(repeat_level_share);
            const double tilt = draw_() * repeat * std::sqrt(repeat_tilt_share);
            for (std::size_t i = 0; i < shown.size(); ++i) {
                const double off = level + tilt * (spectral::grid_nm(i) - 560) / 90 + sample_noise * draw_();
                shown[i] = std::clamp(shown[i] * std::exp(off), 1e-3, 0.999);
            }
            out.reflectance = shown;
        } else {
            const double sd = q_.reading_de / std::sqrt(3.0);
            Lab c = lab(shown);
            c.l += sd * draw_(), c.a += sd * draw_(), c.b += sd * draw_();
            out.lab = c;
        }
        ask.readings.push_back(std::move(out));
    }

    const LearningQuestion& q_;
    std::vector<schedule::Finish> finishes_;
    UncertainFigures figures_;
    Normal draw_;
    std::vector<double> material_draws_, first_;
};

void score(const std::vector<appearance::Spread>& predicted, const std::vector<Lab>& truth, bool same_board,
           Learned& out) {
    for (std::size_t a = 0; a < truth.size(); ++a) {
        const auto& region = predicted[a].regions.back().front();
        const double off = color::delta_e_00(region.mean, truth[a]);
        out.colors.push_back({a, same_board, off, region.de00_90, off <= region.de00_90});
    }
    if (same_board) return;
    for (std::size_t a = 0; a + 1 < truth.size(); ++a) {
        const auto& d = predicted[a + 1].from_earlier[a].front();
        const double de = color::delta_e_00(truth[a], truth[a + 1]);
        out.differences.push_back({a, a + 1, std::abs(de - (d.low_de00 + d.high_de00) / 2),
                                   (d.high_de00 - d.low_de00) / 2, de >= d.low_de00 && de <= d.high_de00});
    }
}

}  // namespace

appearance::Knowledge learned_of(const FitResult& result, material::Materials& materials) {
    for (const auto& [id, m] : result.materials) materials[id] = m;
    for (const auto& id : result.changed)
        if (const auto* stock = std::get_if<material::Stock>(&materials.at(id).data))
            for (const auto& load : stock->mix)
                if (auto* dye = std::get_if<material::Dye>(&materials.at(load.use).data))
                    dye->molar_absorptivity.sd = dye->purity.sd = 0;
    appearance::Knowledge out;
    out.fits = {result.joint};
    return out;
}

Learned learn(const LearningQuestion& q) {
    HiddenWorld world(q);
    Learned out;
    FitQuestion ask;
    ask.materials = q.materials;
    ask.geometry = q.geometry;
    ask.noise = q.noise;
    ask.leave_one_out = false;
    for (int b = 0; b < q.boards; ++b) world.read_board(static_cast<std::size_t>(b), ask);
    const auto on_first_plank = world.look(world.board(true)), elsewhere = world.look(world.board(false));

    material::Materials materials = q.materials;
    appearance::Knowledge known;
    if (q.boards > 0) try {
            known = learned_of(Fit(ask).result(), materials);
        } catch (const NoFit& e) {
            out.refused = e.id;
            return out;
        }
    const auto solver = appearance::two_flux_solver();
    const auto predict = [&](bool same_board) {
        known.same_board = same_board;
        return appearance::spreads({materials,
                                    q.wood,
                                    q.asked,
                                    q.geometry,
                                    solver,
                                    {q.weights},
                                    appearance::StagesAsked::last,
                                    known,
                                    {},
                                    {}});
    };
    score(predict(false), elsewhere, false, out);
    if (q.boards == 1) score(predict(true), on_first_plank, true, out);
    return out;
}

}  // namespace foretone::learn
