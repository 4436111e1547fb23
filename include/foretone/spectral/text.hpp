#pragma once
/// Numbers in messages, the same on every locale.

#include <string>

namespace foretone::spectral {

/// Shortest decimal text that reads back as `v`; "nan", "inf", "-inf" for what is not finite.
std::string text(double v);

}  // namespace foretone::spectral
