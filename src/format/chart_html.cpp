#include "foretone/format/chart_html.hpp"

#include <fmt/core.h>

#include "foretone/format/png.hpp"
#include "foretone/format/sheet_html.hpp"
#include "foretone/layout/chart_page.hpp"
#include "foretone/photo/chart.hpp"

namespace foretone::format {

std::string chart_html(const std::string& paper) {
    const auto png = encode_png(layout::chart_page(), {layout::chart_dpi, "", "", false});
    const auto style = fmt::format(
        "@page{{size:{};margin:0}}html,body{{margin:0;padding:0;background:#fff}}"
        "img{{display:block;width:{}mm;height:{}mm;margin:10mm auto 0}}",
        paper, photo::chart_width_mm, photo::chart_height_mm);
    return html_head("Color chart", style) +
           "<body>\n<img alt=\"Color chart: forty fields between four ringed corner marks\" "
           "src=\"data:image/png;base64," +
           base64(png) + "\">\n</body></html>\n";
}

}  // namespace foretone::format
