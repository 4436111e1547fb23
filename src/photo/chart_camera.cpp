// The camera from the chart, by least squares (Gauss–Newton, damped as Marquardt 1963).
//
// Symbols: v a field's linear value in the file · x = ln v · l what the sensor had, ln l = a x + b x² + c x³ · M matrix
// · g fall of light over the chart · L, C, H lightness, chroma, hue. What is made small: for each field ΔL/σ, ΔC/(1 +
// 0.045 C)/σ, ΔH/(1 + 0.015 C)/σ (CIE 94's weights: near ΔE00 for colors of wood), σ² = 0.5² + the truth's own. Priors:
// M the file's own matrix, each entry within its row's mean size (weak); a 1 ± 0.3, b 0 ± 0.1, c 0 ± 0.02; g 0 ± 0.1.
// No chart is so poor that the fit has no answer. How far off a reading is: each field is read by a camera that was
// fitted without it.

#include <algorithm>
#include <cmath>

#include <Eigen/Dense>
#include <fmt/core.h>

#include "foretone/color/srgb.hpp"
#include "foretone/photo/chart.hpp"

namespace foretone::photo {
namespace {

constexpr std::size_t camera_unknowns = 14, least_fields = 20;
constexpr double curve_prior[] = {0.3, 0.1, 0.02}, light_prior = 0.1, own_de = 0.5, poorest = 8;
using Unknowns = std::array<double, camera_unknowns>;  // M by rows, curve, light

Camera camera_of(const Unknowns& u) {
    Camera out;
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c) out.to_xyz[r][c] = u[3 * r + c];
    out.curve = {u[9], u[10], u[11]};
    out.light = {u[12], u[13]};
    return out;
}

struct Field {
    std::array<double, 3> rgb;
    color::Lab lab;
    double x_mm, y_mm, sigma;
};

std::array<double, 3> off(const Camera& camera, const Field& p) {
    const auto got = camera.lab(p.rgb, p.x_mm, p.y_mm);
    const double c1 = std::hypot(got.a, got.b), c0 = std::hypot(p.lab.a, p.lab.b);
    const double da = got.a - p.lab.a, db = got.b - p.lab.b;
    // ΔH with its sign, from the cross product: smooth through 0.
    const double dh =
        c0 > 1e-6 ? (p.lab.a * db - p.lab.b * da) / std::max(std::sqrt(c0 * std::max(c1, 1e-3)), 1e-3) : 0;
    const double dc = c0 > 3 ? c1 - c0 : std::hypot(da, db);
    if (c0 <= 3) return {(got.l - p.lab.l) / p.sigma, da / p.sigma, db / p.sigma};
    return {(got.l - p.lab.l) / p.sigma, dc / (1 + 0.045 * c0) / p.sigma, dh / (1 + 0.015 * c0) / p.sigma};
}

Eigen::VectorXd residuals(const Unknowns& u, const Unknowns& prior, const Unknowns& loose,
                          const std::vector<Field>& points) {
    Eigen::VectorXd out(static_cast<Eigen::Index>(3 * points.size() + camera_unknowns));
    const Camera camera = camera_of(u);
    Eigen::Index at = 0;
    for (const auto& p : points)
        for (const double v : off(camera, p)) out[at++] = v;
    for (std::size_t k = 0; k < camera_unknowns; ++k) out[at++] = (u[k] - prior[k]) / loose[k];
    return out;
}

Unknowns fitted(Unknowns u, const Unknowns& prior, const Unknowns& loose, const std::vector<Field>& points,
                int rounds) {
    auto r = residuals(u, prior, loose, points);
    double damping = 1e-3;
    for (int round = 0; round < rounds; ++round) {
        Eigen::MatrixXd j(r.size(), static_cast<Eigen::Index>(camera_unknowns));
        for (std::size_t k = 0; k < camera_unknowns; ++k) {
            Unknowns moved = u;
            const double step = 1e-5 * loose[k];
            moved[k] += step;
            j.col(static_cast<Eigen::Index>(k)) = (residuals(moved, prior, loose, points) - r) / step;
        }
        const Eigen::MatrixXd normal = j.transpose() * j;
        const Eigen::VectorXd slope = j.transpose() * r;
        bool better = false;
        for (int tries = 0; tries < 8 && !better; ++tries) {
            Eigen::MatrixXd damped = normal;
            damped.diagonal() *= 1 + damping;
            const Eigen::VectorXd step = damped.ldlt().solve(slope);
            Unknowns next = u;
            for (std::size_t k = 0; k < camera_unknowns; ++k) next[k] -= step[static_cast<Eigen::Index>(k)];
            const auto after = residuals(next, prior, loose, points);
            better = after.allFinite() && after.squaredNorm() < r.squaredNorm();
            if (!better) {
                damping *= 8;
                continue;
            }
            const bool done = r.squaredNorm() - after.squaredNorm() < 1e-9 * r.squaredNorm();
            u = next;
            r = after;
            damping = std::max(1e-9, damping / 8);
            if (done) return u;
        }
        if (!better) break;
    }
    return u;
}

}  // namespace

color::Xyz Camera::xyz(const std::array<double, 3>& rgb, double x_mm, double y_mm) const {
    const double u = std::clamp(2 * x_mm / chart_width_mm - 1, -3.0, 3.0),
                 v = std::clamp(2 * y_mm / chart_height_mm - 1, -3.0, 3.0);
    const double lit = std::exp(-light[0] * u - light[1] * v);
    std::array<double, 3> l{};
    for (std::size_t k = 0; k < 3; ++k) {
        const double x = std::log(std::max(rgb[k], 1e-5));
        l[k] = std::exp(std::clamp(x * (curve[0] + x * (curve[1] + x * curve[2])), -15.0, 5.0));
    }
    std::array<double, 3> out{};
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c) out[r] += lit * to_xyz[r][c] * l[c];
    return {out[0], out[1], out[2]};
}

color::Lab Camera::lab(const std::array<double, 3>& rgb, double x_mm, double y_mm) const {
    const auto c = xyz(rgb, x_mm, y_mm);
    return color::to_lab({100 * c.x, 100 * c.y, 100 * c.z}, color::srgb_white);
}

ChartFit fit_camera(const std::vector<FieldSeen>& seen, const std::vector<std::optional<color::Lab>>& truth,
                    double truth_de) {
    const auto& fields = chart_fields();
    if (seen.size() != fields.size() || truth.size() != fields.size())
        throw std::invalid_argument("photo::fit_camera: one value for each field of the chart is due");
    std::vector<Field> points;
    std::vector<std::size_t> which;
    for (std::size_t k = 0; k < fields.size(); ++k) {
        if (!seen[k].plain || !truth[k]) continue;
        points.push_back({seen[k].rgb, *truth[k], fields[k].x_mm, fields[k].y_mm, std::hypot(own_de, truth_de)});
        which.push_back(k);
    }
    ChartFit out;
    out.used = points.size();
    if (points.size() < least_fields)
        throw PhotoFault("chart-few",
                         fmt::format("of the chart's {} fields {} can be used; {} are wanted. What is too bright or in "
                                     "glare cannot be: photograph in soft, even light with less exposure",
                                     fields.size(), points.size(), least_fields));
    // From the file's own matrix, brought to the chart's mean light.
    const ToXyz file = srgb_to_xyz_matrix();
    double due = 0, got = 0;
    for (const auto& p : points) {
        due += color::from_lab(p.lab, color::srgb_white).y / 100;
        for (std::size_t c = 0; c < 3; ++c) got += file[1][c] * p.rgb[c];
    }
    Unknowns prior{}, loose{};
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c) {
            prior[3 * r + c] = file[r][c] * due / got;
            loose[3 * r + c] = due / got / 3;
        }
    prior[9] = 1;
    for (std::size_t k = 0; k < 3; ++k) loose[9 + k] = curve_prior[k];
    loose[12] = loose[13] = light_prior;
    const Unknowns best = fitted(prior, prior, loose, points, 60);
    out.camera = camera_of(best);
    out.left_out.resize(fields.size());
    std::vector<double> off00;
    double squares = 0;
    for (std::size_t k = 0; k < points.size(); ++k) {
        auto others = points;
        others.erase(others.begin() + std::ptrdiff_t(k));
        const auto lab =
            camera_of(fitted(best, prior, loose, others, 6)).lab(points[k].rgb, points[k].x_mm, points[k].y_mm);
        const auto& is = points[k].lab;
        off00.push_back(color::delta_e_00(lab, is));
        out.left_out[which[k]] = off00.back();
        squares += std::pow(lab.l - is.l, 2) + std::pow(lab.a - is.a, 2) + std::pow(lab.b - is.b, 2);
    }
    for (const double v : off00) out.left_out_mean += v / double(off00.size());
    std::sort(off00.begin(), off00.end());
    out.left_out_p95 = off00[std::min(off00.size() - 1, off00.size() * 95 / 100)];
    out.left_out_de = std::sqrt(squares / double(points.size()));
    if (out.left_out_mean > poorest)
        throw PhotoFault("chart-poor",
                         fmt::format("the chart's fields are read wrong by a mean ΔE00 of {:.1f}, each by the others: "
                                     "are the readings those of this print, does the lamp light all of it, and is the "
                                     "picture a plain one without filters?",
                                     out.left_out_mean));
    return out;
}

}  // namespace foretone::photo
