// A page is drawn in the sheet's own pixels, scaled to the paper: x_pt = x · 72/dpi. What a test proves of the sheet
// holds for the print. Glyphs stand where the sheet's own measure puts them (typeface.hpp), so that no shaper is asked.

#include "foretone/print/pdf.hpp"

#include <cairo-ft.h>
#include <cairo-pdf.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

#include "foretone/base/number.hpp"
#include "foretone/base/utf8.hpp"
#include "foretone/layout/typeface.hpp"
#include "output_intent.hpp"

namespace foretone::print {
namespace {

/// The two faces as cairo draws them. cairo keeps fonts that it has used: they live as long as the program.
class Faces {
public:
    static cairo_font_face_t* of(layout::Face face) {
        static const Faces faces;
        return face == layout::Face::bold ? faces.bold_ : faces.regular_;
    }

private:
    Faces() {
        if (FT_Init_FreeType(&library_) != 0) throw std::logic_error("print: FreeType does not start");
        regular_ = open(layout::Face::regular);
        bold_ = open(layout::Face::bold);
    }
    cairo_font_face_t* open(layout::Face face) {
        const auto bytes = layout::face_file(face);
        FT_Face opened = nullptr;
        if (FT_New_Memory_Face(library_, bytes.data(), static_cast<FT_Long>(bytes.size()), 0, &opened) != 0)
            throw std::logic_error("print: the embedded typeface cannot be read");
        return cairo_ft_font_face_create_for_ft_face(opened, FT_LOAD_NO_HINTING);
    }

    FT_Library library_ = nullptr;
    cairo_font_face_t* regular_ = nullptr;
    cairo_font_face_t* bold_ = nullptr;
};

void add_utf8(std::string& out, char32_t p) {
    const auto put = [&](unsigned byte) { out += static_cast<char>(byte); };
    const auto v = static_cast<unsigned>(p);
    if (v < 0x80) return put(v);
    if (v < 0x800) return put(0xC0 | v >> 6), put(0x80 | (v & 0x3F));
    if (v < 0x10000) return put(0xE0 | v >> 12), put(0x80 | (v >> 6 & 0x3F)), put(0x80 | (v & 0x3F));
    put(0xF0 | v >> 18), put(0x80 | (v >> 12 & 0x3F)), put(0x80 | (v >> 6 & 0x3F)), put(0x80 | (v & 0x3F));
}

class Pen {
public:
    Pen(cairo_t* to, const light::Code& paper) : to_(to), paper_(paper) {}

    void ink(const light::Code& c) { cairo_set_source_rgb(to_, c[0] / 255.0, c[1] / 255.0, c[2] / 255.0); }

    void area(const light::Box& b, const light::Code& c) {
        if (b.width <= 0 || b.height <= 0) return;
        ink(c);
        cairo_rectangle(to_, b.x, b.y, b.width, b.height);
        cairo_fill(to_);
    }

    void field(const layout::PlacedField& f) {
        area(f.box, f.code);
        if (!f.cut_corner) return;
        const int side = std::min({18, f.box.width, f.box.height}), bottom = f.box.y + f.box.height;
        ink(paper_);
        cairo_move_to(to_, f.box.x, bottom - side);
        cairo_line_to(to_, f.box.x, bottom);
        cairo_line_to(to_, f.box.x + side, bottom);
        cairo_close_path(to_);
        cairo_fill(to_);
    }

    void picture(const layout::PlacedPicture& p) {
        if (p.image.width != p.box.width || p.image.height != p.box.height)
            throw std::invalid_argument("print::sheets_pdf: a picture is not of its box's size");
        const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> pixels(
            cairo_image_surface_create(CAIRO_FORMAT_RGB24, p.image.width, p.image.height), cairo_surface_destroy);
        cairo_surface_flush(pixels.get());
        unsigned char* row = cairo_image_surface_get_data(pixels.get());
        if (!row) throw std::runtime_error("print::sheets_pdf: there is no memory for a picture");
        const int stride = cairo_image_surface_get_stride(pixels.get());
        const std::uint8_t* from = p.image.rgb.data();
        for (int y = 0; y < p.image.height; ++y, row += stride)
            for (int x = 0; x < p.image.width; ++x, from += 3) {
                const std::uint32_t one = std::uint32_t{from[0]} << 16 | std::uint32_t{from[1]} << 8 | from[2];
                std::copy_n(reinterpret_cast<const unsigned char*>(&one), 4, row + 4 * x);
            }
        cairo_surface_mark_dirty(pixels.get());
        cairo_set_source_surface(to_, pixels.get(), p.box.x, p.box.y);
        cairo_rectangle(to_, p.box.x, p.box.y, p.box.width, p.box.height);
        cairo_fill(to_);
    }

    void text(const layout::PlacedText& t) {
        const double scale = layout::pixels_per_unit(t.style);
        std::vector<cairo_glyph_t> glyphs;
        std::vector<cairo_text_cluster_t> clusters;
        std::string said;
        long units = 0;
        int before = layout::no_glyph;
        for (const char32_t point : base::code_points(t.text)) {
            const int glyph = layout::glyph_of(t.style.face, point);
            if (glyph == layout::no_glyph) continue;
            if (before != layout::no_glyph) units += layout::kerning_of(t.style.face, before, glyph);
            const auto bytes = said.size();
            add_utf8(said, base::is_control(point) ? U' ' : point);
            glyphs.push_back({static_cast<unsigned long>(glyph), t.x + double(units) * scale, double(t.baseline)});
            clusters.push_back({static_cast<int>(said.size() - bytes), 1});
            units += layout::advance_of(t.style.face, glyph);
            before = glyph;
        }
        ink(t.ink);
        cairo_set_font_face(to_, Faces::of(t.style.face));
        cairo_set_font_size(to_, t.style.size_px);
        cairo_show_text_glyphs(to_, said.data(), static_cast<int>(said.size()), glyphs.data(),
                               static_cast<int>(glyphs.size()), clusters.data(), static_cast<int>(clusters.size()),
                               static_cast<cairo_text_cluster_flags_t>(0));
    }

private:
    cairo_t* to_;
    light::Code paper_;
};

void draw(cairo_t* to, const layout::Sheet& s) {
    Pen pen(to, s.surround);
    pen.area({0, 0, s.width, s.height}, s.surround);
    for (const auto& r : s.panels) pen.area(r.box, r.code);
    for (const auto& f : s.fields) pen.field(f);
    for (const auto& p : s.pictures) pen.picture(p);
    // Pieces of a strip touch: each reaches under the next, or their edges, smoothed apart, would let the ground
    // through.
    for (std::size_t i = 0; i < s.strips.size(); ++i) {
        auto f = s.strips[i];
        const bool touches = i + 1 < s.strips.size() && s.strips[i + 1].box.y == f.box.y &&
                             s.strips[i + 1].box.x == f.box.x + f.box.width;
        if (touches) ++f.box.width;
        pen.field(f);
    }
    for (const auto& r : s.rules) pen.area(r.box, r.code);
    for (const auto& t : s.texts) pen.text(t);
}

cairo_status_t append(void* to, const unsigned char* bytes, unsigned count) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("print::sheets_pdf: ") + cairo_status_to_string(status));
}

}  // namespace

std::vector<std::uint8_t> sheets_pdf(std::span<const layout::Sheet> sheets, const PdfPaper& paper,
                                     const std::string& title) {
    if (sheets.empty()) throw std::invalid_argument("print::sheets_pdf: there is no sheet");
    for (const double mm : {paper.width_mm, paper.height_mm})
        if (!(mm >= 10 && mm <= 2000))
            throw std::invalid_argument("print::sheets_pdf: paper is 10 to 2000 mm a side, not " + base::shortest(mm));
    constexpr double points_per_mm = 72 / 25.4;
    std::string written;
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> file(
        cairo_pdf_surface_create_for_stream(append, &written, paper.width_mm * points_per_mm,
                                            paper.height_mm * points_per_mm),
        cairo_surface_destroy);
    cairo_pdf_surface_restrict_to_version(file.get(), CAIRO_PDF_VERSION_1_4);  // objects one by one, in a plain table
    cairo_pdf_surface_set_metadata(file.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
    {
        const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> to(cairo_create(file.get()), cairo_destroy);
        for (const auto& sheet : sheets) {
            cairo_save(to.get());
            cairo_scale(to.get(), 72 / sheet.dpi, 72 / sheet.dpi);
            draw(to.get(), sheet);
            cairo_restore(to.get());
            cairo_show_page(to.get());
        }
        check(cairo_status(to.get()));
    }
    cairo_surface_finish(file.get());
    check(cairo_surface_status(file.get()));
    return with_output_intent(written, title);
}

}  // namespace foretone::print
