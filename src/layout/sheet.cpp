#include "foretone/layout/sheet.hpp"

#include <stdexcept>
#include <string>

namespace foretone::layout {

light::Image paint(const Sheet& sheet) {
    constexpr int corner = 18;  // pixels; 3 mm at 150 dpi
    Canvas canvas(sheet.width, sheet.height, sheet.surround);
    for (const PlacedRule& r : sheet.panels) canvas.fill(r.box, r.code);
    for (const PlacedField& f : sheet.fields) {
        canvas.fill(f.box, f.code);
        if (f.cut_corner) {
            canvas.cut_corner(f.box, corner, sheet.surround);
        }
    }
    for (const PlacedPicture& p : sheet.pictures) {
        if (p.image.width != p.box.width || p.image.height != p.box.height) {
            throw std::invalid_argument("layout::paint: a picture of " + std::to_string(p.image.width) + " × " +
                                        std::to_string(p.image.height) + " pixels in a box of " +
                                        std::to_string(p.box.width) + " × " + std::to_string(p.box.height));
        }
        canvas.place(p.box.x, p.box.y, p.image);
    }
    for (const PlacedField& f : sheet.strips) {
        canvas.fill(f.box, f.code);
        if (f.cut_corner) canvas.cut_corner(f.box, corner, sheet.surround);
    }
    for (const PlacedRule& r : sheet.rules) {
        canvas.fill(r.box, r.code);
    }
    for (const PlacedText& t : sheet.texts) {
        canvas.text(t.x, t.baseline, t.text, t.style, t.ink);
    }
    return std::move(canvas).take();
}

}  // namespace foretone::layout
