#pragma once
// What a surface of index n reflects at normal incidence, in air: F0 = ((n − 1)/(n + 1))².

namespace foretone::format {

inline double f0(double n) { return (n - 1) * (n - 1) / ((n + 1) * (n + 1)); }

}  // namespace foretone::format
