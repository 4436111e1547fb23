// Daylight: the chromaticity x_D, y_D of a correlated color temperature T, and from it the shares M1, M2 of two
// measured components (Judd, MacAdam & Wyszecki 1964) that are added to their mean:
//
//   S(λ) = S0(λ) + M1 S1(λ) + M2 S2(λ)
//   x_D = −4.6070e9/T³ + 2.9678e6/T² + 0.09911e3/T + 0.244063   (T ≤ 7000 K)
//         −2.0064e9/T³ + 1.9018e6/T² + 0.24748e3/T + 0.237040   (above)
//   y_D = −3.000 x_D² + 2.870 x_D − 0.275
//
// M1 and M2 are rounded to three decimals as CIE 15:2018 asks, so that T = 6504 K gives the table of D65 digit by
// digit. The components are tabled every 10 nm and joined by straight lines.
//
// Black body: M(λ, T) ∝ λ⁻⁵ / (exp(c2/(λT)) − 1), c2 = 1.438776877e-2 m K (2018 CODATA), through expm1.

#include "foretone/spectral/temperature.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"

namespace foretone::spectral {
namespace {

// CIE 15:2018, Table 6: S0, S1, S2 at 300–830 nm every 10 nm.
constexpr std::array<double, 54> mean = {{
    0.04,  6,     29.6,  55.3,  57.3,  61.8,  61.5,  68.8,  63.4,  65.8,  94.8,  104.8, 105.9, 96.8,
    113.9, 125.6, 125.5, 121.3, 121.3, 113.5, 113.1, 110.8, 106.5, 108.8, 105.3, 104.4, 100,   96,
    95.1,  89.1,  90.5,  90.3,  88.4,  84,    85.1,  81.9,  82.6,  84.9,  81.3,  71.9,  74.3,  76.4,
    63.3,  71.7,  77,    65.2,  47.7,  68.6,  65,    66,    61,    53.3,  58.9,  61.9,
}};
constexpr std::array<double, 54> first = {{
    0.02,  4.5,   22.4,  42,    40.6, 41.6,  38,    42.4,  38.5, 35,   43.4,  46.3, 43.9,  37.1,
    36.7,  35.9,  32.6,  27.9,  24.3, 20.1,  16.2,  13.2,  8.6,  6.1,  4.2,   1.9,  0,     -1.6,
    -3.5,  -3.5,  -5.8,  -7.2,  -8.6, -9.5,  -10.9, -10.7, -12,  -14,  -13.6, -12,  -13.3, -12.9,
    -10.6, -11.6, -12.2, -10.2, -7.8, -11.2, -10.4, -10.6, -9.7, -8.3, -9.3,  -9.8,
}};
constexpr std::array<double, 54> second = {{
    0,    2,    4,    8.5,  7.8,  6.7, 5.3,  6.1,  3, 1.2, -1.1, -0.5, -0.7, -1.2, -2.6, -2.9, -2.8, -2.6,
    -2.6, -1.8, -1.5, -1.3, -1.2, -1,  -0.5, -0.3, 0, 0.2, 0.5,  2.1,  3.2,  4.1,  4.7,  5.1,  6.7,  7.3,
    8.6,  9.8,  10.2, 8.3,  9.6,  8.5, 7,    7.6,  8, 6.7, 5.2,  7.4,  6.8,  7,    6.4,  5.5,  6.1,  6.5,
}};

constexpr double first_nm = 300, step_nm = 5;
constexpr int count = 107;  // to 830 nm

double between(const std::array<double, 54>& table, int i) {
    const auto k = static_cast<std::size_t>(i / 2);
    return i % 2 == 0 ? table[k] : (table[k] + table[k + 1]) / 2;
}

double three_decimals(double v) { return std::round(1000 * v) / 1000; }

std::string id_of(char family, double kelvin) { return family + std::to_string(std::lround(kelvin)); }

void check_range(const TemperatureLight& light) {
    if (light.in_range()) return;
    throw std::invalid_argument("a light of " + base::shortest(light.kelvin) + " K is outside " +
                                base::shortest(light.low_k()) + " to " + base::shortest(light.high_k()) + " K");
}

Illuminant sampled(char family, double kelvin, const std::array<double, count>& power) {
    // 560 nm is sample 52.
    std::vector<double> values(power.begin(), power.end());
    for (double& v : values) v *= 100 / power[52];
    return {id_of(family, kelvin), Sampled::regular(first_nm, step_nm, std::move(values))};
}

}  // namespace

Illuminant phase_of_daylight(double cct_k) {
    check_range({'D', cct_k});
    const double t = 1000 / cct_k;
    const double x = cct_k <= 7000 ? ((-4.6070 * t + 2.9678) * t + 0.09911) * t + 0.244063
                                   : ((-2.0064 * t + 1.9018) * t + 0.24748) * t + 0.237040;
    const double y = (-3.000 * x + 2.870) * x - 0.275;
    const double m = 0.0241 + 0.2562 * x - 0.7341 * y;
    const double m1 = three_decimals((-1.3515 - 1.7703 * x + 5.9114 * y) / m);
    const double m2 = three_decimals((0.0300 - 31.4424 * x + 30.0717 * y) / m);
    std::array<double, count> power{};
    for (int i = 0; i < count; ++i)
        power[static_cast<std::size_t>(i)] = between(mean, i) + m1 * between(first, i) + m2 * between(second, i);
    return sampled('D', cct_k, power);
}

Illuminant planckian(double kelvin) {
    check_range({'P', kelvin});
    constexpr double c2_nm_k = 1.438776877e7;
    std::array<double, count> power{};
    for (int i = 0; i < count; ++i) {
        const double nm = first_nm + step_nm * i;
        power[static_cast<std::size_t>(i)] = std::pow(560 / nm, 5) / std::expm1(c2_nm_k / (nm * kelvin));
    }
    return sampled('P', kelvin, power);
}

std::optional<TemperatureLight> temperature_light(std::string_view id) {
    if (id.size() < 4 || id.size() > 6 || (id[0] != 'D' && id[0] != 'P')) return std::nullopt;
    double kelvin = 0;
    for (const char c : id.substr(1)) {
        if (c < '0' || c > '9') return std::nullopt;
        kelvin = 10 * kelvin + (c - '0');
    }
    return TemperatureLight{id[0], kelvin};
}

Illuminant make_light(const TemperatureLight& light) {
    check_range(light);
    return light.family == 'D' ? phase_of_daylight(light.kelvin) : planckian(light.kelvin);
}

}  // namespace foretone::spectral
