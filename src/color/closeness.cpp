#include "foretone/color/closeness.hpp"

namespace foretone::color {

std::string_view closeness(double de00) {
    if (de00 < closeness_de00[0]) return "as good as the target";
    if (de00 < closeness_de00[1]) return "near the target";
    if (de00 < closeness_de00[2]) return "off the target";
    return "far from the target";
}

}  // namespace foretone::color
