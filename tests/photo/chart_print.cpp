// Sources: sensitivities in tests/data/camera_sensitivities.csv are the camera data of the rawtoaces project (Academy
// Software Foundation, Apache-2.0), measured with monochromators in the two laboratories named there; relative, every
// second value of its 5 nm, eleven cameras in the order of its file names. Inks are invented: bell curves of absorbance
// where cyan, magenta, yellow and black inks absorb.

#include "chart_print.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Dense>

#include "foretone/color/srgb.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/spectral/grid.hpp"
#include "support/standards.hpp"
#include "support/table.hpp"

namespace foretone::test {
namespace {

double bell(double nm, double at, double wide) { return std::exp(-0.5 * std::pow((nm - at) / wide, 2)); }

// Absorbance of cyan, magenta, yellow, black at a wavelength, of one unit.
std::array<double, 4> ink(int set, double nm) {
    if (set == 0)
        return {bell(nm, 640, 55) + 0.12 * bell(nm, 460, 60), bell(nm, 535, 38) + 0.2 * bell(nm, 440, 40),
                bell(std::max(nm, 425.0), 425, 40), 1};
    return {bell(nm, 620, 45) + 0.6 * bell(nm, 680, 30) + 0.08, bell(nm, 560, 30) + 0.7 * bell(nm, 520, 25) + 0.05,
            bell(std::max(nm, 440.0), 440, 32) + 0.03, 1};
}

spectral::Spectrum print_of(int set, const std::array<double, 4>& amount) {
    spectral::Spectrum out;
    for (std::size_t k = 0; k < out.size(); ++k) {
        const double nm = 380 + 5.0 * double(k);
        const auto a = ink(set, nm);
        double d = 0;
        for (std::size_t i = 0; i < 4; ++i) d += amount[i] * a[i];
        out[k] = 0.87 * (1 - 0.35 * bell(nm, 380, 15)) * (0.015 + 0.985 * std::pow(10, -d));
    }
    return out;
}

const color::Weights& daylight() {
    static const auto w = color::make_weights(test::light("D65"), test::observer("2deg"));
    return w;
}

color::Lab lab_under_d65(const spectral::Spectrum& r) {
    return color::to_lab(color::xyz(r, daylight()), daylight().white);
}

spectral::Spectrum solved_print(int set, const color::Lab& want) {
    std::array<double, 4> amount{0.1, 0.1, 0.1, 0};
    const bool grey = std::hypot(want.a, want.b) < 3;
    if (grey) amount = {0, 0, 0, 0.1};
    const auto off = [&](const std::array<double, 4>& a) {
        const auto lab = lab_under_d65(print_of(set, a));
        return Eigen::Vector3d(lab.l - std::min(want.l, 94.0), lab.a - want.a, lab.b - want.b);
    };
    for (int round = 0; round < 25; ++round) {
        const auto here = off(amount);
        if (grey) {
            auto more = amount;
            more[3] += 1e-3;
            const double slope = (off(more)[0] - here[0]) / 1e-3;
            amount[3] = std::max(0.0, amount[3] - 0.7 * here[0] / slope);
            continue;
        }
        Eigen::Matrix3d j;
        for (int k = 0; k < 3; ++k) {
            auto more = amount;
            more[std::size_t(k)] += 1e-3;
            j.col(k) = (off(more) - here) / 1e-3;
        }
        const Eigen::Vector3d step = j.fullPivLu().solve(here);
        for (int k = 0; k < 3; ++k)
            amount[std::size_t(k)] = std::clamp(amount[std::size_t(k)] - 0.6 * step[k], 0.0, 3.0);
    }
    return print_of(set, amount);
}

}  // namespace

std::vector<spectral::Spectrum> printed_fields(int inks) {
    static std::array<std::vector<spectral::Spectrum>, 2> known;
    auto& out = known.at(std::size_t(inks));
    if (out.empty())
        for (const auto& f : photo::chart_fields()) out.push_back(solved_print(inks, f.lab));
    return out;
}

TestCamera::TestCamera(int number, const std::string& lamp) {
    const auto rows = table("camera_sensitivities.csv");
    const auto illuminant = test::light(lamp);
    const char* names = "rgb";
    for (std::size_t c = 0; c < 3; ++c) {
        const auto column = names[c] + std::to_string(number);
        for (std::size_t k = 0; k < weights_[c].size(); ++k) {
            const double nm = 380 + 5.0 * double(k);
            const auto i = std::min(std::size_t((nm - 380) / 10), rows.size() - 2);
            const double f = (nm - 380) / 10 - double(i);
            const double s = rows[i].number(column) + f * (rows[i + 1].number(column) - rows[i].number(column));
            weights_[c][k] = s * spectral::linear_at(illuminant.power, nm);
        }
    }
    white_ = {1, 1, 1};
    white_ = raw(spectral::Spectrum::constant(1));
    // The maker's matrix: white balanced values to linear sRGB, least squares over another printer's fields.
    Eigen::Matrix3d squares = Eigen::Matrix3d::Zero(), products = Eigen::Matrix3d::Zero();
    for (const auto& r : printed_fields(1)) {
        const auto v = raw(r);
        const auto code = color::xyz_to_srgb(color::from_lab(lab_under_d65(r), color::srgb_white));
        Eigen::Vector3d from(v[0], v[1], v[2]), to;
        for (int k = 0; k < 3; ++k) to[k] = color::srgb_decode(code[std::size_t(k)]);
        squares += from * from.transpose();
        products += to * from.transpose();
    }
    const Eigen::Matrix3d m = products * squares.inverse();
    for (int r = 0; r < 3; ++r)
        for (int c = 0; c < 3; ++c) to_srgb_[std::size_t(r)][std::size_t(c)] = m(r, c);
}

std::array<double, 3> TestCamera::raw(const spectral::Spectrum& reflectance) const {
    std::array<double, 3> out{};
    for (std::size_t c = 0; c < 3; ++c) {
        for (std::size_t k = 0; k < reflectance.size(); ++k) out[c] += weights_[c][k] * reflectance[k];
        out[c] /= white_[c];
    }
    return out;
}

std::array<double, 3> TestCamera::file_values(const spectral::Spectrum& reflectance, double brightness) const {
    const auto v = raw(reflectance);
    std::array<double, 3> out{};
    for (std::size_t r = 0; r < 3; ++r) {
        double linear = 0;
        for (std::size_t c = 0; c < 3; ++c) linear += to_srgb_[r][c] * v[c];
        const double code = color::srgb_encode(std::clamp(0.85 * brightness * linear, 0.0, 1.0));
        // A contrast curve as phones lay over their pictures: deeper shadows, brighter lights.
        out[r] = color::srgb_decode(code - 0.06 * std::sin(2 * std::acos(-1.0) * code));
    }
    return out;
}

}  // namespace foretone::test
