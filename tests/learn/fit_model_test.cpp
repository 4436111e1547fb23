// The fit's model: what it predicts, how that moves with each unknown, and the errors that follow.

#include "../../src/learn/fit_model.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <numeric>

#include "../../src/learn/headlines.hpp"
#include "../../src/learn/least_squares.hpp"
#include "learn/hidden.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using learn::FitModel;
using learn::Unknown;

namespace {

learn::FitQuestion asked_by(std::uint64_t seed, bool spectra) { return HiddenCase(seed, spectra).question; }

Eigen::VectorXd zeros(const FitModel& m) { return Eigen::VectorXd::Zero(m.size()); }

std::vector<std::size_t> fitted_unknowns(const FitModel& m) {
    std::vector<std::size_t> out;
    for (std::size_t k = 0; k < m.unknowns().all().size(); ++k)
        if (m.unknowns().all()[k].kind != Unknown::Kind::law) out.push_back(k);
    return out;
}

// Central differences of the residuals by one unknown.
Eigen::VectorXd by_differences(FitModel& m, std::size_t k) {
    constexpr double h = 0.02;
    auto p = zeros(m);
    p(static_cast<Eigen::Index>(k)) = h;
    const Eigen::VectorXd up = m.residuals(p);
    p(static_cast<Eigen::Index>(k)) = -h;
    return (up - m.residuals(p)) / (2 * h);
}

}  // namespace

TEST_CASE("the library's own board is predicted as a scene shows it") {
    for (const bool spectra : {false, true}) {
        const auto q = asked_by(2, spectra);
        FitModel m(q);
        m.set(zeros(m));
        const auto solver = appearance::two_flux_solver();
        for (std::size_t r = 0; r < q.readings.size(); ++r) {
            auto finish = q.boards[q.readings[r].board].finish;
            finish.steps.resize(static_cast<std::size_t>(q.readings[r].step));
            if (!finish.steps.empty()) finish.steps.back().coats = q.readings[r].coat;
            const auto shown = search::finished({q.materials, q.boards[0].wood, q.geometry, solver}, finish);
            const auto mine = m.predicted(r, false);
            double worst = 0;
            for (std::size_t i = 0; i < mine.size(); ++i) worst = worst_of(worst, std::abs(mine[i] - shown[i]));
            INFO(q.readings[r].name << " off by " << worst);
            CHECK(worst < 1e-9);
        }
    }
}

TEST_CASE("the Jacobian is what differences of the residuals find, for every unknown") {
    for (const bool spectra : {false, true}) {
        FitModel m(asked_by(3, spectra));
        const auto active = fitted_unknowns(m);
        const Eigen::MatrixXd j = m.jacobian(zeros(m), active);
        REQUIRE(j.cols() == static_cast<Eigen::Index>(active.size()));
        for (std::size_t a = 0; a < active.size(); ++a) {
            const auto& u = m.unknowns().all()[active[a]];
            const Eigen::VectorXd d = by_differences(m, active[a]);
            const Eigen::VectorXd mine = j.col(static_cast<Eigen::Index>(a));
            INFO((spectra ? "spectra: " : "Lab: ")
                 << u.group << " " << u.material << ", kind " << static_cast<int>(u.kind) << ": " << mine.norm()
                 << " and " << d.norm());
            // Within a tenth: the derivative of a whole curve stands for that of its parts, to first order.
            CHECK((mine - d).norm() <= 0.1 * std::max(1.0, d.norm()));
        }
    }
}

TEST_CASE("the last residuals are the unknowns themselves: their prior") {
    FitModel m(asked_by(4, false));
    auto p = zeros(m);
    for (Eigen::Index k = 0; k < p.size(); ++k) p(k) = 0.01 * static_cast<double>(k % 7) - 0.02;
    const Eigen::VectorXd r = m.residuals(p);
    CHECK((r.tail(p.size()) - p).norm() < 1e-12);
    const auto active = fitted_unknowns(m);
    const Eigen::MatrixXd j = m.jacobian(p, active);
    double worst = 0;
    for (std::size_t a = 0; a < active.size(); ++a)
        for (Eigen::Index k = 0; k < p.size(); ++k)
            worst = worst_of(worst, std::abs(j(j.rows() - p.size() + k, static_cast<Eigen::Index>(a)) -
                                             (static_cast<std::size_t>(k) == active[a] ? 1 : 0)));
    CHECK(worst == 0);
}

TEST_CASE("a reading that is left out weighs nothing and is predicted all the same") {
    FitModel m(asked_by(5, true));
    const auto p = zeros(m);
    const Eigen::VectorXd all = m.residuals(p);
    m.leave_out(2);
    const Eigen::VectorXd without = m.residuals(p);
    CHECK(without.squaredNorm() < all.squaredNorm());
    CHECK(m.predicted_lab(2, false).l > 0);
    m.leave_out(learn::none);
    CHECK((m.residuals(p) - all).norm() == 0);
}

TEST_CASE("the best fit is a minimum: no unknown moved alone lowers the sum of squares") {
    FitModel m(asked_by(6, false));
    const auto active = fitted_unknowns(m);
    const auto best = learn::best_fit(m, zeros(m), active);
    const double least = m.residuals(best).squaredNorm();
    CHECK(least < m.residuals(zeros(m)).squaredNorm());
    for (const auto k : active)
        for (const double by : {0.2, -0.2}) {
            auto p = best;
            p(static_cast<Eigen::Index>(k)) += by;
            INFO(m.unknowns().all()[k].group << " " << m.unknowns().all()[k].material << " by " << by);
            CHECK(m.residuals(p).squaredNorm() > least);
        }
}

TEST_CASE("no figure is fitted beyond what it can be, and the others fit best with those that end there") {
    int ended = 0;
    for (std::uint64_t seed = 0; seed < 10; ++seed) {
        FitModel m(asked_by(seed, false));
        const auto active = fitted_unknowns(m);
        const auto best = learn::best_fit(m, zeros(m), active);
        const double least = m.residuals(best).squaredNorm();
        for (const auto k : active) {
            const auto& u = m.unknowns().all()[k];
            const double x = best(static_cast<Eigen::Index>(k));
            INFO("case " << seed << ", " << u.group << " " << u.material << " at " << x);
            CHECK((x >= u.lowest() && x <= u.highest()));
            ended += x == u.lowest() || x == u.highest();
            for (const double by : {0.2, -0.2}) {
                auto p = best;
                p(static_cast<Eigen::Index>(k)) = std::clamp(x + by, u.lowest(), u.highest());
                if (p != best) CHECK(m.residuals(p).squaredNorm() > least);
            }
        }
    }
    CHECK(ended > 0);
}

TEST_CASE("a figure's ends are where what it moves comes to the ends of its range") {
    FitModel m(asked_by(1, true));
    int seen = 0;
    for (std::size_t k = 0; k < m.unknowns().all().size(); ++k) {
        const auto& u = m.unknowns().all()[k];
        if (u.kind != Unknown::Kind::figure || !u.at.figure) continue;
        for (const bool up : {false, true}) {
            const double end = up ? u.highest() : u.lowest();
            if (!std::isfinite(end)) continue;
            auto p = zeros(m);
            p(static_cast<Eigen::Index>(k)) = end;
            m.set(p);
            INFO(u.material << " " << u.at.key);
            CHECK_THAT(u.at.figure->value, Near(up ? u.at.high : u.at.low, closed_form * std::max(1.0, u.at.high)));
            ++seen;
        }
    }
    CHECK(seen > 20);
}

TEST_CASE("a Jacobian squared by its rows' columns is the Jacobian squared") {
    Normal draw(11);
    Eigen::MatrixXd j = Eigen::MatrixXd::Zero(100, 40);
    for (Eigen::Index r = 0; r < j.rows(); ++r)
        for (Eigen::Index c = 0; c < j.cols(); ++c)
            if (c < 5 || c % 7 == r / 20) j(r, c) = draw();  // some felt everywhere, the others here or there
    CHECK((learn::squared(j) - j.transpose() * j).cwiseAbs().maxCoeff() < closed_form);
}

TEST_CASE("only the active unknowns are fitted, and none of them at all is no fit") {
    FitModel m(asked_by(7, false));
    const std::vector<std::size_t> some = {0, 1};
    const auto best = learn::best_fit(m, zeros(m), some);
    for (Eigen::Index k = 2; k < best.size(); ++k) CHECK(best(k) == 0);
    CHECK(best.head(2).norm() > 0);
    CHECK(learn::best_fit(m, best, {}) == best);
}

TEST_CASE("the covariance is the inverse of the Jacobian's square, and never wider than the prior") {
    FitModel m(asked_by(8, true));
    const auto active = fitted_unknowns(m);
    const Eigen::MatrixXd c = learn::covariance(m, zeros(m), active);
    const Eigen::MatrixXd j = m.jacobian(zeros(m), active);
    const auto n = static_cast<Eigen::Index>(active.size());
    CHECK((c * (j.transpose() * j) - Eigen::MatrixXd::Identity(n, n)).cwiseAbs().maxCoeff() < 1e-8);
    CHECK((c - c.transpose()).cwiseAbs().maxCoeff() < 1e-9);
    for (Eigen::Index k = 0; k < n; ++k) {
        CHECK(c(k, k) > 0);
        CHECK(c(k, k) <= 1 + 1e-9);
    }
}

TEST_CASE("a headline's gradient is zero for what it does not rest on, and its value at zero is the library's") {
    FitModel m(asked_by(9, true));
    m.set(zeros(m));
    const auto told = learn::headlines(m);
    REQUIRE(told.size() >= 6);
    for (const auto& h : told) {
        const auto g = learn::gradient(m, h, zeros(m));
        INFO(h.material << " " << h.figure);
        CHECK(g.norm() > 0);
        for (std::size_t k = 0; k < m.unknowns().all().size(); ++k) {
            const auto& u = m.unknowns().all()[k];
            if (u.noise()) CHECK(g(static_cast<Eigen::Index>(k)) == 0);
        }
        if (h.figure == "strength") CHECK_THAT(h.value(m), Near(1, closed_form));
    }
    // A stock's strength moves with its own unknown by the spread of its logarithm.
    for (const auto& h : told)
        if (h.material == "honey-dye" && h.figure == "strength")
            for (std::size_t k = 0; k < m.unknowns().all().size(); ++k)
                if (m.unknowns().all()[k].kind == Unknown::Kind::stock && m.unknowns().all()[k].material == "honey-dye")
                    CHECK_THAT(learn::gradient(m, h, zeros(m))(static_cast<Eigen::Index>(k)),
                               Near(m.unknowns().all()[k].sd, 1e-6));
}

TEST_CASE("the absorbance of a stock is that of its powders at its strength; what holds no dye has none") {
    auto library = whole_library();
    const double before = learn::whole_absorbance(library, "honey-dye");
    CHECK(before > 0);
    std::get<material::Stock>(library.at("honey-dye").data).strength.value *= 2;
    CHECK_THAT(learn::whole_absorbance(library, "honey-dye") / before, Near(2, identity));
    CHECK(learn::whole_absorbance(library, "water") == 0);
    double sum = 0;
    for (const auto& load : std::get<material::Stock>(library.at("honey-dye").data).mix)
        sum += 2 * load.g_per_l * learn::whole_absorbance(library, load.use);
    const double strength = std::get<material::Stock>(library.at("honey-dye").data).strength.value / 2;
    CHECK_THAT(learn::whole_absorbance(library, "honey-dye"), Near(sum * strength, closed_form * sum));
}

TEST_CASE("an instrument that is off moves a reading's whole spectrum, to both ends, and no other reading") {
    const auto q = asked_by(3, true);
    FitModel m(q);
    m.set(zeros(m));
    std::vector<spectral::Spectrum> before;
    for (std::size_t r = 0; r < q.readings.size(); ++r) before.push_back(m.predicted(r, true));
    for (std::size_t k = 0; k < m.unknowns().all().size(); ++k) {
        const auto& u = m.unknowns().all()[k];
        if (u.kind != Unknown::Kind::instrument || u.where != 2) continue;
        auto p = zeros(m);
        p(static_cast<Eigen::Index>(k)) = 1.5;
        m.set(p);
        const auto now = m.predicted(2, true);
        double worst = 0;
        for (std::size_t i = 0; i < now.size(); ++i)
            worst = worst_of(worst, std::abs(std::log(now[i] / before[2][i]) - 1.5 * u.curve[i]));
        CHECK(worst < closed_form);
        CHECK(m.predicted(1, true) == before[1]);
        CHECK(m.predicted(2, false) == before[2]);
    }
}
