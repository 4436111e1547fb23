#pragma once
/// Named tolerance classes; every comparison in the suite uses one, or states its own beside its source.

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numeric>
#include <string>

#include <catch2/catch.hpp>

namespace foretone::test {

inline constexpr double identity = 1e-12;     ///< the same thing computed two ways
inline constexpr double closed_form = 1e-9;   ///< against a closed form or an invariant
inline constexpr double quadrature = 1e-6;    ///< an integral against its converged value
inline constexpr double table_digits = 1e-4;  ///< against a table printed to four decimals
inline constexpr double fit = 6e-3;           ///< a two-parameter fit against what it was fitted to

/// The larger of the worst so far and one more; a NaN stays, and is what the check then sees.
inline double worst_of(double so_far, double one) { return std::isnan(so_far) || one <= so_far ? so_far : one; }
inline double worst_of(std::initializer_list<double> all) {
    return std::accumulate(all.begin(), all.end(), -INFINITY, [](double a, double b) { return worst_of(a, b); });
}

/// Is `one` the new worst? For loops that also keep where it was; no number after a NaN is worse.
inline bool worse(double one, double so_far) { return !std::isnan(so_far) && !(one <= so_far); }

/// The smaller of the least so far and one more; a NaN stays.
inline double least_of(double so_far, double one) { return -worst_of(-so_far, -one); }
inline double least_of(std::initializer_list<double> all) {
    return std::accumulate(all.begin(), all.end(), INFINITY, [](double a, double b) { return least_of(a, b); });
}

/// |actual − expected| ≤ tolerance; the failure says by how many times the tolerance was missed.
class Near : public Catch::MatcherBase<double> {
public:
    Near(double expected, double tolerance) : expected_(expected), tolerance_(tolerance) {}
    bool match(const double& actual) const override {
        actual_ = actual;
        return std::isfinite(actual) && std::abs(actual - expected_) <= tolerance_;
    }
    std::string describe() const override {
        const double off = std::abs(actual_ - expected_);
        return "is within " + Catch::Detail::stringify(tolerance_) + " of " + Catch::Detail::stringify(expected_) +
               " (off by " + Catch::Detail::stringify(off) + ", " + Catch::Detail::stringify(off / tolerance_) +
               " times the tolerance)";
    }

private:
    double expected_, tolerance_;
    mutable double actual_ = 0;
};

}  // namespace foretone::test
