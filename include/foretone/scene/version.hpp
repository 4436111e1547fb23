#pragma once
/// What made a file: stands in every result.

namespace foretone::scene {

inline constexpr const char* version = "0.1.0";

}  // namespace foretone::scene
