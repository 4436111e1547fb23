#include "foretone/format/sheet_png.hpp"

#include "foretone/format/png.hpp"

namespace foretone::format {

std::vector<std::uint8_t> sheet_png(const layout::Sheet& sheet) {
    return encode_png(layout::paint(sheet), {sheet.dpi, sheet.title, sheet.description});
}

}  // namespace foretone::format
