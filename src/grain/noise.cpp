#include "foretone/grain/noise.hpp"

#include <algorithm>

namespace foretone::grain {

double LineNoise::operator()(double x) const {
    const double u = x / cell_ + offset_;
    const double k = std::floor(u);
    double w[4], sum = 0;
    spline_weights(u - k, w);
    for (int m = 0; m < 4; ++m) sum += w[m] * centred(hash(seed_, static_cast<std::int64_t>(k) + m - 1, 0));
    return sum * 1.44432;  // 1/√(151/315)
}

// The spline across, at one column of the lattice; over `tall` mm the mean of enough points.
double Noise::at_column(std::int64_t column, double y, double tall) const {
    const int points = std::min(16, 1 + static_cast<int>(1.5 * tall / cell_y_));
    double sum = 0;
    for (int n = 0; n < points; ++n) {
        const double v = (y + tall * ((n + 0.5) / points - 0.5)) / cell_y_ + offset_y_;
        const double k = std::floor(v);
        double w[4];
        spline_weights(v - k, w);
        for (int m = 0; m < 4; ++m) sum += w[m] * centred(hash(seed_, column, static_cast<std::int64_t>(k) + m - 1));
    }
    return sum / points;
}

// Along the row one cubic between two columns. A step longer than half a cell is divided.
void Noise::run(float* out, int count, double first, double pace, const std::vector<double>& column, std::int64_t k0) {
    if (pace > 0.5) {
        const int parts = std::min(16, 1 + static_cast<int>(2 * pace));
        for (int i = 0; i < count; ++i) {
            double sum = 0;
            for (int n = 0; n < parts; ++n) {
                const double u = first + pace * (i + (n + 0.5) / parts - 0.5);
                const double k = std::floor(u);
                double w[4];
                spline_weights(u - k, w);
                const double* c = &column[static_cast<std::size_t>(static_cast<std::int64_t>(k) - k0 - 1)];
                sum += w[0] * c[0] + w[1] * c[1] + w[2] * c[2] + w[3] * c[3];
            }
            out[i] += static_cast<float>(sum / parts);
        }
        return;
    }
    for (int i = 0; i < count;) {
        const double k = std::floor(first + pace * i);
        int end = std::min(count, static_cast<int>(std::ceil((k + 1 - first) / pace)));
        end = std::max(end, i + 1);
        const double* c = &column[static_cast<std::size_t>(static_cast<std::int64_t>(k) - k0 - 1)];
        const auto a0 = static_cast<float>((c[0] + 4 * c[1] + c[2]) / 6), a1 = static_cast<float>((c[2] - c[0]) / 2);
        const auto a2 = static_cast<float>((c[0] - 2 * c[1] + c[2]) / 2),
                   a3 = static_cast<float>((c[3] - c[0]) / 6 + (c[1] - c[2]) / 2);
        const auto t0 = static_cast<float>(first + pace * i - k), dt = static_cast<float>(pace);
        for (int n = 0; n < end - i; ++n) {
            const float t = t0 + dt * static_cast<float>(n);
            out[i + n] += a0 + t * (a1 + t * (a2 + t * a3));
        }
        i = end;
    }
}

}  // namespace foretone::grain
