// Which figures act as one: ε, purity and molar mass of a powder only ever appear as their product, so they are one
// strength. Volume solids, cut and wet film only appear as dry build, so they are one build. A film's color is one
// curve, whether its file says a Gardner number or a spectrum; with Lab readings alone the curve has two amplitudes, ln
// α = ln α_library + a + b (λ − 450 nm)/100 nm, which turns one Gardner-like curve A450 exp(−(λ − 450)/w) into another.

#include "unknowns.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "fields.hpp"
#include "foretone/appearance/wood_shapes.hpp"
#include "foretone/material/gardner.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/material/references.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/mixture.hpp"
#include "foretone/schedule/pot.hpp"

namespace foretone::learn {
namespace {
using material::Binder;
using material::Figure;
using material::Materials;
using spectral::Spectrum;

// A relative spread as one of the logarithm: a quarter less is a factor 0.75, and so is taken a third more. The larger
// of the two ways to read "± 25 %" as a factor, so that a weak dye is not taken for an impossible one.
double as_log(double share) { return share > 0 ? -std::log(1 - std::min(share, 0.8)) : 0; }
// Standard deviation of the logarithm of what is log-normal with this spread, as a share of its mean.
double log_sd(double share) { return std::sqrt(std::log1p(share * share)); }

double relative(const Figure& f) { return f.value > 0 ? as_log(f.sd / f.value) : 0; }
double relative(const std::optional<Figure>& f) { return f ? relative(*f) : 0; }

// ΔE*ab that a shift of ln(K/S) by `curve` makes of a reading.
double shift_de(const Spectrum& reflectance, const Spectrum& curve, double by, const color::Weights& w) {
    Spectrum moved;
    for (std::size_t i = 0; i < moved.size(); ++i) moved[i] = shifted(reflectance[i], by * curve[i]);
    return color::delta_e_ab(color::to_lab(color::xyz(reflectance, w), w.white),
                             color::to_lab(color::xyz(moved, w), w.white));
}

// A wood from board to board, as curves of ln(K/S): most of the variance paler or darker as a whole, some warmer or
// cooler, a little of any smooth shape. Scaled so that together they make ΔE*ab `de`, root mean square.
std::vector<Spectrum> wood_noise(const Spectrum& reflectance, double de, const color::Weights& w, bool spectra) {
    FieldPrior prior{0.1, 0.05, 0.03, 560, 180, spectra ? 0.015 : 0, 60};
    auto curves = field_curves(prior);
    double squares = 0;
    for (const auto& curve : curves) squares += std::pow(shift_de(reflectance, curve, 0.1, w) / 0.1, 2);
    for (auto& curve : curves)
        for (double& v : curve.values) v *= de / std::sqrt(squares);
    return curves;
}

// Of a logarithm: how far a film's color varies by its file.
double film_level_sd(const Binder& b) {
    if (b.absorption_per_mm) return b.absorption_per_mm->sd;
    if (!b.gardner) return 0;
    const double low = std::max(1.0, b.gardner->value - 2 * b.gardner->sd),
                 high = std::min(18.0, b.gardner->value + 2 * b.gardner->sd);
    const double slope =
        high > low
            ? std::log(material::gardner_fit(high).a450_per_cm / material::gardner_fit(low).a450_per_cm) / (high - low)
            : 0;
    return std::hypot(slope * b.gardner->sd, relative(b.gardner_solids_volume_percent));
}

// In standard deviations from where it starts; a spectrum is scaled as a whole, down to nothing.
double end_of(const Unknown& u, double end, double none_there) {
    if (u.kind != Unknown::Kind::figure) return none_there;
    if (!u.at.figure) return none_there < 0 ? -1 / u.sd : none_there;
    if (u.scale) return end > 0 ? std::log(end / u.value) / u.sd : none_there;
    return (end - u.value) / u.sd;
}

}  // namespace

double Unknown::lowest() const { return end_of(*this, at.low, -std::numeric_limits<double>::infinity()); }
double Unknown::highest() const { return end_of(*this, at.high, std::numeric_limits<double>::infinity()); }

std::string laid_material(const schedule::Step& step, const Materials& materials) {
    const auto mixture = schedule::mix(step, materials);
    const schedule::Mixture::Binder* most = nullptr;
    for (const auto& b : mixture.binders)
        if (!most || b.dry_share > most->dry_share) most = &b;
    return most ? most->id : "";
}

Unknowns::Unknowns(const FitQuestion& question) {
    std::set<std::string> woods, used;
    for (const auto& board : question.boards) {
        woods.insert(board.wood);
        for (const auto& step : board.finish.steps)
            for (const auto& part : step.mix) material::add_with_parts(question.materials, part.use, used);
    }
    for (const auto& ids : {woods, used})
        for (const auto& id : ids)
            if (question.materials.count(id)) library_.emplace(id, question.materials.at(id));
    materials_ = library_;
    const bool spectra = std::any_of(question.readings.begin(), question.readings.end(),
                                     [](const auto& r) { return r.reflectance.has_value(); });
    for (const auto& id : woods) add_wood(id, question, spectra);
    for (const auto& id : used) add_material(id, spectra);
    add_law();
    add_boards(question);
    add_noise(question, spectra);
}

void Unknowns::add_wood(const std::string& id, const FitQuestion& question, bool spectra) {
    constexpr double own_wood =
        0.05;  // a shop's own stock of a wood against the species' typical board, relative (common practice)
    const auto& wood = std::get<material::Wood>(library_.at(id).data);
    wood_values_[id] = wood.reflectance.values;
    // The library's spread of a wood holds that of its boards; one that was read is known better than boards are alike.
    const auto mark = wood.reflectance.from.mark;
    const bool read = mark == material::Mark::measured || mark == material::Mark::fitted;
    const double board_de = question.noise.board_de;
    board_de_[id] = read ? board_de : appearance::boards_part_de(wood, question.readings.front().weights, board_de);
    double slope = 0;  // d ln(K/S)/d ln R, averaged over the visible
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        const double r = wood.reflectance.values[i];
        slope += (1 + r) / (1 - r) / static_cast<double>(spectral::grid_size);
    }
    FieldPrior prior;
    prior.level = slope * std::hypot(wood.reflectance.sd, own_wood);
    prior.tilt = prior.bend = 0.5 * prior.level;
    if (spectra) prior.shape = 0.25 * prior.level;
    for (auto& curve : field_curves(prior))
        all_.push_back({Unknown::Kind::wood, id + " reflectance", id, 1, curve, {}, 0, {}, none});
    add_figures(id, {"reflectance"});
}

void Unknowns::add_material(const std::string& id, bool spectra) {
    const auto& m = library_.at(id);
    if (const auto* dye = std::get_if<material::Dye>(&m.data)) {
        dye_values_[id] = dye->molar_absorptivity.values;
        const double sd =
            std::hypot(as_log(dye->molar_absorptivity.sd), relative(dye->purity), relative(dye->molar_mass_g_per_mol));
        if (sd > 0) all_.push_back({Unknown::Kind::dye, "dyes", id, sd, {}, {}, 0, {}, none});
        return;
    }
    if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        strength_[id] = stock->strength.value;
        if (stock->strength.sd > 0)
            all_.push_back({Unknown::Kind::stock, "dyes", id, relative(stock->strength), {}, {}, 0, {}, none});
        return;
    }
    if (const auto* binder = std::get_if<Binder>(&m.data)) {
        const Spectrum alpha = material::absorption_per_mm(*binder);
        const double level = film_level_sd(*binder);
        if (level > 0 && *std::max_element(alpha.begin(), alpha.end()) > 0) {
            film_alpha_[id] = alpha;
            auto& work = std::get<Binder>(materials_.at(id).data);
            const auto from = binder->absorption_per_mm ? binder->absorption_per_mm->from : binder->gardner->from;
            work.absorption_per_mm = material::SpectrumFigure{alpha, level, from, false, false, false};
            work.gardner.reset();
            work.gardner_solids_volume_percent.reset();
            FieldPrior prior{level, 0.25, 0, 450, 100, spectra ? 0.2 : 0, 40};
            for (auto& curve : field_curves(prior))
                all_.push_back({Unknown::Kind::film, id + " film", id, 1, curve, {}, 0, {}, none});
        }
    }
    add_figures(id, {"gardner", "gardner_solids_volume_percent", "absorption_per_mm", "solids_volume_percent",
                     "resin_density_g_per_ml", "cut_lb", "density_g_per_ml"});
}

void Unknowns::add_figures(const std::string& id, const std::set<std::string>& but) {
    for (const auto& f : material::figures(materials_.at(id))) {
        if (!f.optical || f.sd() <= 0 || but.count(f.key) || f.key.rfind("wet_um.", 0) == 0 || f.key == "sheen_gu60")
            continue;
        Unknown u{Unknown::Kind::figure, id + " " + f.key, id, f.sd(), {}, f, 0, {}, none};
        if (f.figure)
            u.value = f.figure->value;
        else
            u.values = f.spectrum->values;
        // Depths, films, coefficients multiply one another in what a board shows: their products are what is read, and
        // sums of logarithms are what normal errors keep.
        u.scale = f.figure && u.value > 0 && (f.unit == "um" || f.unit == "1/mm");
        if (u.scale) u.sd = log_sd(f.sd() / u.value);
        all_.push_back(u);
    }
}

void Unknowns::add_law() {
    for (std::size_t i = 0; i < schedule::uptake_figures().size(); ++i)
        all_.push_back({Unknown::Kind::law, "uptake", "", schedule::uptake_figures()[i].sd, {}, {}, 0, {}, i});
}

// Every coat as a step of its own, its wet film stated, so that each can be laid thinner or thicker.
void Unknowns::add_boards(const FitQuestion& question) {
    const double common = question.noise.hand * std::sqrt(0.5);
    for (std::size_t b = 0; b < question.boards.size(); ++b) {
        coats_.emplace_back();
        const auto& steps = question.boards[b].finish.steps;
        for (std::size_t s = 0; s < steps.size(); ++s) {
            LaidCoat laid;
            laid.step = steps[s];
            laid.step.coats = 1;
            laid.wet_um = schedule::deposit(steps[s], library_).wet_um;
            laid.said = steps[s].wet_um || steps[s].wet_g_per_m2 || steps[s].coverage_m2_per_l;
            laid.step.wet_um = laid.step.wet_g_per_m2 = laid.step.coverage_m2_per_l = std::nullopt;
            laid.number = static_cast<int>(s) + 1;
            for (const auto& part : steps[s].mix) material::add_with_parts(library_, part.use, laid.uses);
            const std::string binder = laid_material(steps[s], library_);
            if (!binder.empty()) {
                const auto method = schedule::method_of(steps[s], library_);
                const auto& data = std::get<Binder>(library_.at(binder).data);
                const auto [it, fresh] = builds_.emplace(std::pair{binder, method}, all_.size());
                if (fresh) {
                    const auto& usual = data.wet_um[static_cast<std::size_t>(method)];
                    const double sd = std::hypot(laid.said ? 0 : relative(usual), relative(data.solids_volume_percent));
                    all_.push_back({Unknown::Kind::build, binder + " film", binder, sd, {}, {}, 0, {}, none});
                }
                laid.build = it->second;
            }
            const auto hand = [&] {
                if (common <= 0) return none;
                all_.push_back({Unknown::Kind::coat, "", "", common, {}, {}, 0, {}, b});
                return all_.size() - 1;
            };
            laid.hand = hand();
            for (int c = 1; c <= steps[s].coats; ++c) {
                laid.coat = c;
                laid.own = hand();
                coats_.back().push_back(laid);
            }
        }
    }
}

void Unknowns::add_noise(const FitQuestion& question, bool spectra) {
    const auto& weights = question.readings.front().weights;
    std::map<std::string, int> boards_of;
    for (const auto& board : question.boards) ++boards_of[board.wood];
    for (std::size_t b = 0; b < question.boards.size(); ++b) {
        const auto& wood = question.boards[b].wood;
        if (boards_of[wood] < 2 || board_de_.at(wood) <= 0) continue;
        for (auto& curve : wood_noise(wood_values_.at(wood), board_de_.at(wood), weights, spectra))
            all_.push_back({Unknown::Kind::board, "", "", 1, curve, {}, 0, {}, b});
    }
    for (std::size_t r = 0; r < question.readings.size(); ++r) {
        const auto& reading = question.readings[r];
        if (question.noise.place_de > 0)
            for (auto& curve : wood_noise(wood_values_.at(question.boards[reading.board].wood), question.noise.place_de,
                                          weights, reading.reflectance.has_value()))
                all_.push_back({Unknown::Kind::place, "", "", 1, curve, {}, 0, {}, r});
        if (!reading.reflectance) continue;
        // An instrument's repeats differ mostly as a whole: d L*/d ln R is (L* + 16)/3.
        const double l = color::to_lab(color::xyz(*reading.reflectance, reading.weights), reading.weights.white).l;
        for (const auto& [power, share] : {std::pair{0, repeat_level_share}, std::pair{1, repeat_tilt_share}}) {
            Spectrum curve;
            const double sd = reading.spread_de * std::sqrt(share) * 3 / (l + 16);
            for (std::size_t i = 0; i < curve.size(); ++i)
                curve[i] = sd * (power == 0 ? 1 : (spectral::grid_nm(i) - 560) / 90);
            all_.push_back({Unknown::Kind::instrument, "", "", 1, curve, {}, 0, {}, r});
        }
    }
}

std::size_t Unknowns::build_of(const std::string& material, material::Method method) const {
    const auto it = builds_.find({material, method});
    return it == builds_.end() ? none : it->second;
}

bool Unknowns::tint_film(const std::string& id, double factor) {
    if (!film_alpha_.count(id)) return false;
    for (double& v : std::get<Binder>(materials_.at(id).data).absorption_per_mm->values) v *= factor;
    return true;
}

void Unknowns::apply(const Eigen::VectorXd& p) {
    std::map<std::string, Spectrum> sums;
    for (const auto& [id, values] : wood_values_) sums[id] = {};
    for (const auto& [id, values] : film_alpha_) sums[id] = {};
    for (std::size_t k = 0; k < all_.size(); ++k) {
        const Unknown& u = all_[k];
        const double x = p(static_cast<Eigen::Index>(k));
        if (u.kind == Unknown::Kind::wood || u.kind == Unknown::Kind::film) {
            Spectrum& sum = sums[u.material];
            for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += x * u.curve[i];
        } else {
            apply(k, x);
        }
    }
    for (auto& [id, values] : wood_values_) {
        auto& out = std::get<material::Wood>(materials_.at(id).data).reflectance.values;
        const Spectrum& sum = sums[id];
        for (std::size_t i = 0; i < out.size(); ++i) out[i] = shifted(values[i], sum[i]);
    }
    for (auto& [id, alpha] : film_alpha_) {
        auto& out = std::get<Binder>(materials_.at(id).data).absorption_per_mm->values;
        const Spectrum& sum = sums[id];
        for (std::size_t i = 0; i < out.size(); ++i) out[i] = alpha[i] * std::exp(sum[i]);
    }
}

void Unknowns::apply(std::size_t unknown, double x) {
    const Unknown& u = all_[unknown];
    switch (u.kind) {
        case Unknown::Kind::dye: {
            const Spectrum& values = dye_values_.at(u.material);
            auto& out = std::get<material::Dye>(materials_.at(u.material).data).molar_absorptivity.values;
            const double factor = std::exp(x * u.sd);
            for (std::size_t i = 0; i < out.size(); ++i) out[i] = values[i] * factor;
            break;
        }
        case Unknown::Kind::stock:
            std::get<material::Stock>(materials_.at(u.material).data).strength.value =
                strength_.at(u.material) * std::exp(x * u.sd);
            break;
        case Unknown::Kind::figure:
            if (u.scale) {
                u.at.figure->value = std::clamp(u.value * std::exp(u.sd * x), u.at.low, u.at.high);
                break;
            }
            if (u.at.figure)
                u.at.figure->value = u.value;
            else
                u.at.spectrum->values = u.values;
            material::move(u.at, x);
            break;
        case Unknown::Kind::law: {
            const auto& f = schedule::uptake_figures()[u.where];
            law_.*f.at = std::clamp(schedule::UptakeLaw{}.*f.at + u.sd * x, f.low, f.high);
            break;
        }
        case Unknown::Kind::build: {
            const auto it = std::find_if(builds_.begin(), builds_.end(),
                                         [&](const auto& build) { return build.second == unknown; });
            const auto method = static_cast<std::size_t>(it->first.second);
            const auto& usual = std::get<Binder>(library_.at(u.material).data).wet_um[method];
            if (usual)
                std::get<Binder>(materials_.at(u.material).data).wet_um[method]->value =
                    std::clamp(usual->value * std::exp(u.sd * x), 1.0, 500.0);
            break;
        }
        default:
            break;
    }
}

}  // namespace foretone::learn
