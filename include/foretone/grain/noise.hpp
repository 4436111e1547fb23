#pragma once
// Repeatable noise in millimetres: a hash of lattice points, smoothed by the cubic B-spline. The spline has two
// continuous derivatives and almost the same variance everywhere, so that no lattice shows; and it is separable, so
// that a row costs four multiplications a pixel.
//
// The spline of lattice values of variance 1 has the variance 151/315 in each direction (the integral of its square).

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace foretone::grain {

/// A well-mixed 32-bit hash of a seed and two whole numbers (finalizer of the splitmix generator).
inline std::uint32_t hash(std::uint64_t seed, std::int64_t a, std::int64_t b) {
    std::uint64_t z = seed + 0x9e3779b97f4a7c15ULL * static_cast<std::uint64_t>(a) +
                      0xc2b2ae3d27d4eb4fULL * static_cast<std::uint64_t>(b);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return static_cast<std::uint32_t>((z ^ (z >> 31)) >> 32);
}

/// Uniform in [0, 1).
inline double unit(std::uint32_t h) { return h * (1.0 / 4294967296.0); }

/// Uniform, mean 0, variance 1.
inline double centred(std::uint32_t h) { return (2 * unit(h) - 1) * 1.7320508075688772; }

/// A stream of numbers from one hash: the next independent draw for the same place.
inline std::uint32_t next(std::uint32_t h) { return hash(h, 1, 7); }

/// Weights of the four lattice points around t in [0, 1).
inline void spline_weights(double t, double w[4]) {
    const double r = 1 - t;
    w[0] = r * r * r / 6;
    w[1] = (4 - 6 * t * t + 3 * t * t * t) / 6;
    w[2] = (4 - 6 * r * r + 3 * r * r * r) / 6;
    w[3] = t * t * t / 6;
}

/// Noise over a line, mean 0, variance 1.
class LineNoise {
public:
    LineNoise(std::uint64_t seed, double cell_mm) : seed_(seed), cell_(cell_mm), offset_(unit(hash(seed, 3, 5))) {}
    double operator()(double x) const;
    /// Root mean square of its slope, 1/mm: √(2/3 ÷ 151/315)/cell.
    double slope() const { return 1.1793 / cell_; }

private:
    std::uint64_t seed_;
    double cell_, offset_;
};

/// Noise over the plane, mean 0, variance 1, features about two cells long.
class Noise {
public:
    Noise(std::uint64_t seed, double cell_x_mm, double cell_y_mm)
        : seed_(seed),
          cell_x_(cell_x_mm),
          cell_y_(cell_y_mm),
          per_cell_y_(1 / cell_y_mm),
          offset_x_(unit(hash(seed, 11, 1))),
          offset_y_(unit(hash(seed, 11, 2))),
          shear_(seed + 13, 3 * cell_y_mm) {}

    double cell_y() const { return cell_y_; }

    /// Adds `amplitude` times the noise to a row of `count` points x = (i + phase) · step. y is q(x): taken at lattice
    /// columns, so it may change with x slowly. Each value is the mean over `tall` mm of y and one step of x.
    template <class Q>
    void add_row(float* out, int count, double phase, double step, double amplitude, double tall, Q&& q,
                 double x_shift = 0) const {
        x_shift += 0.8 * cell_x_ * shear_(q(0.0));  // so that no column of the lattice stands upright on the board
        const double first = (phase * step + x_shift) / cell_x_ + offset_x_;
        const double pace = step / cell_x_;
        const auto k0 = static_cast<std::int64_t>(std::floor(first - pace)) - 2;
        const auto k1 = static_cast<std::int64_t>(std::floor(first + pace * (count + 1))) + 4;
        const Spread over = spread(tall);
        thread_local std::vector<double> column;
        column.resize(static_cast<std::size_t>(k1 - k0 + 1));
        for (std::int64_t k = k0; k <= k1; ++k)
            column[static_cast<std::size_t>(k - k0)] =
                amplitude * 2.0861 * at_column(k, q((static_cast<double>(k) - offset_x_) * cell_x_ - x_shift), over);
        run(out, count, first, pace, column, k0);
    }

private:
    // Points across a pixel, in lattice cells: the first from its middle, and from one to the next.
    struct Spread {
        int points;
        double first, pace;
    };
    Spread spread(double tall) const;
    double at_column(std::int64_t column, double y, const Spread& over) const;
    static void run(float* out, int count, double first, double pace, const std::vector<double>& column,
                    std::int64_t k0);

    std::uint64_t seed_;
    double cell_x_, cell_y_, per_cell_y_, offset_x_, offset_y_;
    LineNoise shear_;
};

}  // namespace foretone::grain
