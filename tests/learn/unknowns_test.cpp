// What a fit takes for unknown, and how each unknown moves the materials.

#include "../../src/learn/unknowns.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "foretone/material/optics_of.hpp"
#include "foretone/schedule/deposit.hpp"
#include "learn/hidden.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using learn::Unknown;
using learn::Unknowns;

namespace {

learn::FitQuestion asked(bool spectra) { return HiddenCase(1, spectra).question; }

Eigen::VectorXd zeros(const Unknowns& u) { return Eigen::VectorXd::Zero(static_cast<Eigen::Index>(u.all().size())); }

// Every optical figure and spectrum, in the order of the materials.
std::vector<double> everything(const material::Materials& materials) {
    std::vector<double> out;
    for (const auto& [id, m] : materials) {
        material::Material copy = m;
        for (const auto& f : material::figures(copy)) {
            if (f.figure) out.push_back(f.figure->value);
            if (f.spectrum) out.insert(out.end(), f.spectrum->values.begin(), f.spectrum->values.end());
        }
    }
    return out;
}

// What woods reflect, and films and dyes absorb: a film's color may be a number in the library and a spectrum here.
std::vector<double> colors_of(const material::Materials& materials) {
    std::vector<double> out;
    const auto add = [&](const spectral::Spectrum& s) { out.insert(out.end(), s.begin(), s.end()); };
    for (const auto& [id, m] : materials) {
        if (const auto* wood = std::get_if<material::Wood>(&m.data)) add(wood->reflectance.values);
        if (const auto* film = std::get_if<material::Binder>(&m.data)) add(material::absorption_per_mm(*film));
        if (const auto* dye = std::get_if<material::Dye>(&m.data)) add(material::mass_absorptivity_m2_per_g(*dye));
    }
    return out;
}

double farthest(const std::vector<double>& p, const std::vector<double>& q) {
    REQUIRE(p.size() == q.size());
    double worst = 0;
    for (std::size_t i = 0; i < p.size(); ++i) worst = worst_of(worst, std::abs(p[i] - q[i]));
    return worst;
}

std::size_t first_of(const Unknowns& u, Unknown::Kind kind, const std::string& material = "") {
    for (std::size_t k = 0; k < u.all().size(); ++k)
        if (u.all()[k].kind == kind && (material.empty() || u.all()[k].material == material)) return k;
    FAIL("no such unknown");
    return 0;
}

}  // namespace

TEST_CASE("with all unknowns at zero the materials are the library's") {
    for (const bool spectra : {false, true}) {
        Unknowns u(asked(spectra));
        u.apply(zeros(u));
        CHECK(farthest(colors_of(u.materials()), colors_of(u.library())) < 1e-12);
    }
}

TEST_CASE("every unknown of a material moves something, and setting all to zero again puts everything back") {
    Unknowns u(asked(true));
    u.apply(zeros(u));
    const auto base = everything(u.materials());
    for (std::size_t k = 0; k < u.all().size(); ++k) {
        const auto& one = u.all()[k];
        auto p = zeros(u);
        p(static_cast<Eigen::Index>(k)) = 1;
        u.apply(p);
        INFO("unknown " << k << " of " << one.group << " " << one.material);
        const bool moved = farthest(everything(u.materials()), base) > 0;
        const bool figures = !one.noise() && one.kind != Unknown::Kind::law && one.kind != Unknown::Kind::build;
        if (figures) CHECK(moved);
        if (one.noise()) CHECK_FALSE(moved);  // noise acts where a reading is predicted
        u.apply(zeros(u));
        CHECK(farthest(everything(u.materials()), base) < 1e-12);
    }
}

TEST_CASE("a dye's strength and a film's color move by the factor that their own spread gives") {
    Unknowns u(asked(true));
    const auto film = first_of(u, Unknown::Kind::film, "orange-shellac");
    auto p = zeros(u);
    p(static_cast<Eigen::Index>(film)) = 0.7;
    u.apply(p);
    const auto alpha = [](const material::Materials& m) {
        return std::get<material::Binder>(m.at("orange-shellac").data).absorption_per_mm->values;
    };
    u.apply(zeros(u));
    const auto before = alpha(u.materials());
    u.apply(p);
    const auto after = alpha(u.materials());
    double worst = 0;
    for (std::size_t i = 0; i < before.size(); ++i)
        if (before[i] > 0)
            worst = worst_of(worst, std::abs(std::log(after[i] / before[i]) - 0.7 * u.all()[film].curve[i]));
    CHECK(worst < 1e-12);

    const auto stock = first_of(u, Unknown::Kind::stock, "honey-dye");
    p = zeros(u);
    p(static_cast<Eigen::Index>(stock)) = -1.5;
    u.apply(p);
    const auto strength = [](const material::Materials& m) {
        return std::get<material::Stock>(m.at("honey-dye").data).strength.value;
    };
    CHECK_THAT(std::log(strength(u.materials()) / strength(u.library())), Near(-1.5 * u.all()[stock].sd, identity));
}

TEST_CASE("a tinted film is one factor deeper until the unknowns are set again; other materials have no film to tint") {
    Unknowns u(asked(true));
    u.apply(zeros(u));
    const auto alpha = [&] {
        return std::get<material::Binder>(u.materials().at("orange-shellac").data).absorption_per_mm->values;
    };
    const auto before = alpha();
    REQUIRE(u.tint_film("orange-shellac", 1.25));
    double worst = 0;
    for (std::size_t i = 0; i < before.size(); ++i) worst = worst_of(worst, std::abs(alpha()[i] - 1.25 * before[i]));
    CHECK(worst < 1e-12);
    CHECK_FALSE(u.tint_film("honey-dye", 2));
    CHECK_FALSE(u.tint_film("no-such-thing", 2));
    u.apply(zeros(u));
    CHECK(alpha() == before);
}

TEST_CASE("coats are laid one a time: as many as the steps say, with a build for each material and method") {
    const auto question = asked(false);
    const Unknowns u(question);
    REQUIRE(u.coats().size() == question.boards.size());
    CHECK(u.coats()[0].size() == 4);  // dye, three coats
    CHECK(u.coats()[1].size() == 2);
    CHECK(u.coats()[0][0].build == learn::none);  // a dye's strength holds its hand
    const auto build = u.build_of("orange-shellac", material::Method::spray);
    REQUIRE(build != learn::none);
    for (std::size_t c = 1; c < 4; ++c) {
        CHECK(u.coats()[0][c].build == build);
        CHECK(u.coats()[0][c].number == 2);
        CHECK(u.coats()[0][c].coat == static_cast<int>(c));
        CHECK(u.coats()[0][c].hand == u.coats()[0][1].hand);  // the coats of a step have a hand in common
        for (std::size_t d = 1; d < c; ++d) CHECK(u.coats()[0][c].own != u.coats()[0][d].own);
    }
    CHECK(u.coats()[1][0].build == build);
    CHECK(u.coats()[1][0].hand != u.coats()[0][1].hand);
    CHECK(u.build_of("orange-shellac", material::Method::brush) == learn::none);
    CHECK(u.build_of("honey-dye", material::Method::spray) == learn::none);
}

TEST_CASE("boards of one wood differ only where there are two of them and they may, places only where they may") {
    auto question = asked(true);
    const auto count = [&](Unknown::Kind kind) {
        const Unknowns u(question);
        std::size_t n = 0;
        for (const auto& one : u.all()) n += one.kind == kind;
        return n;
    };
    CHECK(count(Unknown::Kind::board) == 0);  // boards cut from one plank
    CHECK(count(Unknown::Kind::place) > 0);
    CHECK(count(Unknown::Kind::instrument) == 2 * question.readings.size());
    question.noise.board_de = 2;
    CHECK(count(Unknown::Kind::board) > 0);
    question.noise.place_de = 0;
    CHECK(count(Unknown::Kind::place) == 0);
    question.noise.hand = 0;
    CHECK(count(Unknown::Kind::coat) == 0);
    question.boards.pop_back();
    std::erase_if(question.readings, [](const auto& r) { return r.board == 1; });
    CHECK(count(Unknown::Kind::board) == 0);  // one board is what its wood is taken to be
    for (auto& r : question.readings) {
        r.lab = lab_of(*r.reflectance);
        r.reflectance.reset();
    }
    CHECK(count(Unknown::Kind::instrument) == 0);
}

TEST_CASE("a lone step that lays no binder has no material of its own, a film has") {
    const auto library = whole_library();
    CHECK(learn::laid_material(dyed(1).steps[0], library).empty());
    CHECK(learn::laid_material(dyed(1).steps[1], library) == "orange-shellac");
}

TEST_CASE("each laid coat is one coat of its step, its amount left to be set") {
    const auto question = asked(true);
    const Unknowns u(question);
    for (std::size_t b = 0; b < question.boards.size(); ++b)
        for (const auto& laid : u.coats()[b]) {
            const auto& step = question.boards[b].finish.steps[static_cast<std::size_t>(laid.number) - 1];
            CHECK(laid.step.coats == 1);
            CHECK_FALSE(laid.step.wet_um);
            CHECK_FALSE(laid.step.wet_g_per_m2);
            CHECK_FALSE(laid.step.coverage_m2_per_l);
            CHECK(laid.said == (step.wet_um || step.wet_g_per_m2 || step.coverage_m2_per_l));
            CHECK_THAT(laid.wet_um, Near(schedule::deposit(step, u.library()).wet_um, identity));
        }
}

TEST_CASE("a wood may lie off its file by its own spread and a shop's, an instrument by its repeat, as stated") {
    const auto question = asked(false);
    const Unknowns u(question);
    const auto& wood = std::get<material::Wood>(u.library().at(question.boards[0].wood).data).reflectance;
    // d ln(K/S)/d ln R = −(1 + R)/(1 − R), averaged over the grid; 5 % is a shop's own stock (common practice).
    double slope = 0;
    for (const double r : wood.values) slope += (1 + r) / (1 - r) / 81;
    const auto first = first_of(u, Unknown::Kind::wood);
    for (const std::size_t i : {0u, 40u, 80u})
        CHECK_THAT(u.all()[first].curve[i], Near(slope * std::hypot(wood.sd, 0.05), closed_form));
    const auto spectra = asked(true);
    const Unknowns s(spectra);
    const auto instrument = first_of(s, Unknown::Kind::instrument);
    const auto& reading = spectra.readings[s.all()[instrument].where];
    const double l = lab_of(*reading.reflectance).l;
    // L* = 116 Y^⅓ − 16: d L*/d ln Y = (L* + 16)/3; four fifths of the variance are a level.
    CHECK_THAT(s.all()[instrument].curve[30], Near(reading.spread_de * std::sqrt(0.8) * 3 / (l + 16), closed_form));
    CHECK_THAT(s.all()[instrument + 1].curve[54],  // 650 nm: one unit of its tilt
               Near(reading.spread_de * std::sqrt(0.2) * 3 / (l + 16), closed_form));
}

TEST_CASE("with spectra a wood's curves have the covariance of their prior: level, tilt, bend and a shape over 40 nm") {
    const auto question = asked(true);
    const Unknowns u(question);
    const auto& wood = std::get<material::Wood>(u.library().at(question.boards[0].wood).data).reflectance;
    double slope = 0;
    for (const double r : wood.values) slope += (1 + r) / (1 - r) / 81;
    const double level = slope * std::hypot(wood.sd, 0.05);
    const auto due = [&](double a, double b) {
        const double s = (a - 560) / 180, t = (b - 560) / 180, apart = (a - b) / 40;
        return level * level * (1 + 0.25 * s * t + 0.25 * s * s * t * t + 0.0625 * std::exp(-apart * apart / 2));
    };
    for (const auto& [i, j] : {std::pair{24u, 24u}, {24u, 32u}, {24u, 40u}, {4u, 64u}, {30u, 33u}}) {
        double sum = 0;
        for (const auto& one : u.all())
            if (one.kind == Unknown::Kind::wood) sum += one.curve[i] * one.curve[j];
        CHECK(sum == Approx(due(spectral::grid_nm(i), spectral::grid_nm(j))).epsilon(2e-4));  // small curves left out
    }
}
