#include "foretone/grain/noise.hpp"

#include <algorithm>

#include "loops.hpp"

namespace foretone::grain {

double LineNoise::operator()(double x) const {
    const double u = x / cell_ + offset_;
    const double k = std::floor(u);
    double w[4], sum = 0;
    spline_weights(u - k, w);
    for (int m = 0; m < 4; ++m) sum += w[m] * centred(hash(seed_, static_cast<std::int64_t>(k) + m - 1, 0));
    return sum * 1.44432;  // 1/√(151/315)
}

// The spline across, at one column of the lattice; over `tall` mm the mean of enough points. Points share lattice
// values: each value is drawn once, with the sum of its weights.
double Noise::at_column(std::int64_t column, double y, const Spread& over) const {
    constexpr int most_values = 160;  // 5 mm of the finest fibres
    const double first = y * per_cell_y_ + offset_y_ + over.first;
    auto lowest = static_cast<std::int64_t>(first);
    if (static_cast<double>(lowest) > first) --lowest;
    const double from = first - static_cast<double>(lowest);
    double weights[most_values], w[4], sum = 0;
    int values = 0;
    for (int n = 0; n < over.points; ++n) {
        const double v = from + n * over.pace;
        const int whole = static_cast<int>(v), at = std::min(whole, most_values - 4);
        while (values < at + 4) weights[values++] = 0;
        spline_weights(v - whole, w);
        for (int m = 0; m < 4; ++m) weights[at + m] += w[m];
    }
    for (int m = 0; m < values; ++m) sum += weights[m] * centred(hash(seed_, column, lowest + m - 1));
    return sum / over.points;
}

Noise::Spread Noise::spread(double tall) const {
    constexpr int most_points = 16;
    const int points = std::min(most_points, 1 + static_cast<int>(1.5 * tall / cell_y_));
    return {points, tall * (0.5 / points - 0.5) / cell_y_, tall / (cell_y_ * points)};
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
    add_cubics(base::widest_isa(), out, count, first, pace, column.data(), k0);
}

}  // namespace foretone::grain
