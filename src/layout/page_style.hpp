#pragma once
/// The look all pages share. Lengths are pixels at 150 dpi.
///
/// The surround is a light neutral, so that it neither tints nor dazzles; inks are neutral too. Contrast on the
/// surround (WCAG 2.1 ratio) is at least 7 for every ink.

#include "foretone/layout/canvas.hpp"

namespace foretone::layout::style {

inline constexpr double dpi = 150;
inline constexpr light::Code surround{208, 208, 208};
inline constexpr light::Code ink{24, 24, 24};
inline constexpr light::Code quiet_ink{60, 60, 60};
inline constexpr light::Code hairline{150, 150, 150};

inline constexpr int margin = 60;
inline constexpr int text_width_max = 1240;  // a line of small text is not read well beyond this

inline constexpr TextStyle title{Face::bold, 38};
inline constexpr TextStyle overline{Face::regular, 20};
inline constexpr TextStyle heading{Face::bold, 20};
inline constexpr TextStyle body{Face::regular, 18};
inline constexpr TextStyle strong{Face::bold, 18};
inline constexpr TextStyle caption{Face::regular, 17};

}  // namespace foretone::layout::style
