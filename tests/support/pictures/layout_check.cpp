#include "support/pictures/layout_check.hpp"

namespace foretone::test {
namespace {

bool overlap(const light::Box& a, const light::Box& b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

bool within(const light::Box& a, const light::Box& b) {
    return a.x >= b.x && a.y >= b.y && a.x + a.width <= b.x + b.width && a.y + a.height <= b.y + b.height;
}

bool inside(const light::Box& b, const layout::Sheet& sheet) {
    constexpr int margin = 30;
    return b.x >= margin && b.y >= margin && b.x + b.width <= sheet.width - margin &&
           b.y + b.height <= sheet.height - margin;
}

}  // namespace

std::string layout_fault(const layout::Sheet& sheet) {
    for (std::size_t i = 0; i < sheet.texts.size(); ++i) {
        const layout::PlacedText& t = sheet.texts[i];
        if (!inside(t.box, sheet)) {
            return "outside the margins: " + t.text;
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (overlap(t.box, sheet.texts[j].box)) {
                return "texts overlap: " + t.text + " | " + sheet.texts[j].text;
            }
        }
        for (const layout::PlacedField& f : sheet.fields) {
            if (overlap(t.box, f.box)) {
                return "text on a field: " + t.text;
            }
        }
        for (const layout::PlacedField& f : sheet.strips) {
            if (overlap(t.box, f.box)) {
                return "text on a strip: " + t.text;
            }
        }
        for (const layout::PlacedPicture& p : sheet.pictures) {
            if (overlap(t.box, p.box)) {
                return "text on a picture: " + t.text;
            }
        }
        for (const layout::PlacedRule& r : sheet.rules) {
            if (overlap(t.box, r.box)) {
                return "text on a line: " + t.text;
            }
        }
        // A text lies on a ground or beside it, never across its edge: its ink is chosen for one of them.
        for (const layout::PlacedRule& p : sheet.panels) {
            if (overlap(t.box, p.box) && !within(t.box, p.box)) {
                return "text across the edge of a ground: " + t.text;
            }
        }
    }
    for (std::size_t i = 0; i < sheet.pictures.size(); ++i) {
        const light::Box& box = sheet.pictures[i].box;
        if (!inside(box, sheet) || box.width < 100 || box.height < 100) {
            return "a picture outside the margins or too small to compare";
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (overlap(box, sheet.pictures[j].box)) {
                return "pictures overlap";
            }
        }
        for (const layout::PlacedField& f : sheet.strips) {
            if (overlap(box, f.box)) {
                return "a strip on a picture";
            }
        }
    }
    for (std::size_t i = 0; i < sheet.strips.size(); ++i) {
        if (!inside(sheet.strips[i].box, sheet)) {
            return "a strip outside the margins";
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (overlap(sheet.strips[i].box, sheet.strips[j].box)) {
                return "pieces of strips overlap";
            }
        }
        for (const layout::PlacedField& f : sheet.fields) {
            if (overlap(sheet.strips[i].box, f.box)) {
                return "a strip on a field";
            }
        }
    }
    for (std::size_t i = 0; i < sheet.fields.size(); ++i) {
        if (!inside(sheet.fields[i].box, sheet) || sheet.fields[i].box.width < 100 ||
            sheet.fields[i].box.height < 100) {
            return "a field outside the margins or too small to compare";
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (overlap(sheet.fields[i].box, sheet.fields[j].box)) {
                return "fields overlap";
            }
        }
    }
    return {};
}

std::size_t lines_with(const layout::Sheet& sheet, const std::string& part) {
    std::size_t count = 0;
    for (const layout::PlacedText& t : sheet.texts) {
        count += t.text.find(part) != std::string::npos;
    }
    return count;
}

}  // namespace foretone::test
