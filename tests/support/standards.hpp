#pragma once
/// Reads the lights and observers the project carries, for tests.

#include <string>

#include "foretone/spectral/standard.hpp"

namespace foretone::test {

/// spectra/illuminants/`id`.csv. Throws std::runtime_error naming file and line.
spectral::Illuminant light(const std::string& id);

/// spectra/observers/`id`.csv. Throws std::runtime_error naming file and line.
spectral::Observer observer(const std::string& id);

/// The tabulated samples of `light` at whole multiples of `step_nm` from `first_nm` to `last_nm`.
spectral::Illuminant thinned(const spectral::Illuminant& light, double first_nm, double last_nm, double step_nm);

}  // namespace foretone::test
