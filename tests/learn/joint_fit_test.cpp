// What a fit hands on of its covariance: the same errors as it prints, and what they are together.

#include <catch2/catch.hpp>

#include "foretone/schedule/suction.hpp"
#include "learn/hidden.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::size_t row_of(const appearance::JointTable& t, const std::string& name) {
    for (std::size_t i = 0; i < t.figures.size(); ++i)
        if (t.figures[i].name() == name) return i;
    throw std::out_of_range("no row " + name);
}

double correlation(const appearance::JointTable& t, std::size_t i, std::size_t j) {
    double sum = 0;
    for (std::size_t k = 0; k <= std::min(i, j); ++k) sum += t.factor[i][k] * t.factor[j][k];
    return sum / (t.sd(i) * t.sd(j));
}

}  // namespace

TEST_CASE("the table's figures are the fitted ones, no surer than the fit prints them") {
    // What the fit holds for sure (how coats go in, figures that no reading tells) is not known in the table, so its
    // errors are the printed ones or larger.
    for (const bool spectra : {false, true}) {
        const HiddenCase c(spectra ? 3 : 4, spectra);
        const learn::Fit fit(c.question);
        const auto& result = fit.result();
        auto joint = result.joint;
        REQUIRE(joint.figures.size() > 5);
        CHECK(appearance::drop_edited(joint, result.materials).empty());
        CHECK(joint.figures.size() == result.joint.figures.size());
        std::size_t compared = 0;
        for (const auto& f : result.figures) {
            const bool same = std::any_of(joint.figures.begin(), joint.figures.end(),
                                          [&](const auto& j) { return j.name() == f.material + "/" + f.figure; });
            if (!same) continue;
            ++compared;
            const double over = joint.sd(row_of(joint, f.material + "/" + f.figure)) / f.error;
            INFO(f.material << " " << f.figure << ": " << over);
            CHECK(over > 1 - 1e-6);
            CHECK(std::isfinite(over));
        }
        CHECK(compared >= 3);
    }
}

TEST_CASE("how coats go in is as unsure in the table as ever") {
    const HiddenCase c(3, true);
    const auto joint = learn::Fit(c.question).result().joint;
    for (const auto& f : schedule::uptake_figures()) {
        const auto row = row_of(joint, "(uptake)/" + f.name);
        CHECK_THAT(joint.sd(row) / f.sd, Near(1, 1e-6));
    }
}

TEST_CASE("suction that binds only where it is far from usual is made up for, too") {
    // 65 g/m2 of dye on maple that draws in 100: at two standard deviations less, 50, a part is wiped off, and the same
    // reading asks for a stronger dye.
    const auto question = [] {
        HiddenCase c(0, false);
        return c.question;
    }();
    REQUIRE(question.boards.front().wood == "hard-maple");
    const auto joint = learn::Fit(question).result().joint;
    const auto suction = row_of(joint, "(uptake)/suction"), strength = row_of(joint, "honey-dye/strength");
    CHECK(correlation(joint, strength, suction) < -0.01);
}

TEST_CASE("a film's color and its build are known better together than each alone") {
    // The readings see their product: the stronger the one may be, the thinner the other. On pale woods, where a film
    // shows; the level of its absorption is in one of the first shapes.
    for (const std::uint64_t pale : {0U, 2U}) {
        const HiddenCase c(pale, true);
        const auto joint = learn::Fit(c.question).result().joint;
        const auto build = row_of(joint, "orange-shellac/wet_um.spray");
        double least = 1;
        for (const char* shape : {"1", "2", "3"}) {
            const auto color = row_of(joint, std::string("orange-shellac/absorption_per_mm/") + shape);
            least = least_of(least, correlation(joint, color, build));
        }
        INFO("case " << pale);
        CHECK(least < -0.3);
    }
}

TEST_CASE("another board of a wood that one board showed lies further off than boards differ") {
    HiddenCase c(3, true);
    c.question.boards.pop_back();  // one board alone
    std::erase_if(c.question.readings, [](const auto& r) { return r.board == 1; });
    c.question.noise = {};
    const auto joint = learn::Fit(c.question).result().joint;
    REQUIRE(joint.another_board_de.size() == 1);
    CHECK(joint.another_board_de[0].second > c.question.noise.board_de);
    CHECK(joint.another_board_de[0].second < std::sqrt(2.0) * c.question.noise.board_de);
}
