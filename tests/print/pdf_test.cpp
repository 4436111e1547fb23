#include "foretone/print/pdf.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "foretone/base/number.hpp"
#include "foretone/format/sheet_png.hpp"
#include "support/folder.hpp"
#include "support/pictures/png_reader.hpp"
#include "../../src/print/output_intent.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

/// A page of 40 × 30 mm: a ground, a field with its corner cut, a picture, a strip, a line, three texts.
layout::Sheet small_page() {
    layout::Sheet s;
    s.width = 315, s.height = 236, s.dpi = 200, s.surround = {255, 255, 255};
    s.title = "A page";
    s.panels.push_back({{20, 20, 200, 120}, {190, 190, 190}});
    s.fields.push_back({{30, 30, 60, 60}, {181, 101, 29}, true});
    auto image = light::Image::filled(60, 60, {10, 200, 90});
    for (std::size_t i = 0; i < image.rgb.size() / 2; ++i) image.rgb[i] = static_cast<std::uint8_t>(i % 251);
    s.pictures.push_back({{110, 30, 60, 60}, image, "a picture"});
    s.strips.push_back({{30, 100, 40, 20}, {3, 2, 1}, false});
    s.rules.push_back({{20, 150, 200, 2}, {0, 0, 0}});
    const layout::TextStyle regular{layout::Face::regular, 22}, bold{layout::Face::bold, 22};
    s.texts.push_back({{}, 20.5, 180, "Grey oak, 5 µm", regular, {20, 20, 20}});
    s.texts.push_back({{}, 20, 205, "Walnut", bold, {20, 20, 20}});
    s.texts.push_back({{}, 120, 205, "Ł\xC2\xAD\xFF", regular, {20, 20, 20}});  // a soft hyphen, and no UTF-8
    return s;
}

constexpr print::PdfPaper small_paper{40, 30};

std::string bytes(const std::vector<std::uint8_t>& b) { return {b.begin(), b.end()}; }

std::string small_pdf() {
    const auto page = small_page();
    return bytes(print::sheets_pdf({&page, 1}, small_paper, "Ein Blatt, (1) €"));
}

std::string output_of(const std::string& command, const std::filesystem::path& to) {
    if (std::system((command + " >'" + to.string() + "' 2>&1").c_str()) != 0) return "failed: " + command;
    std::ifstream in(to, std::ios::binary);
    std::stringstream s;
    s << in.rdbuf();
    return s.str();
}

}  // namespace

TEST_CASE("a PDF's table says where each of its objects begins") {
    const auto pdf = small_pdf();
    const auto start = pdf.rfind("startxref\n") + 10;
    const auto table = static_cast<std::size_t>(*base::number_in(pdf.substr(start, pdf.rfind("\n%%EOF") - start)));
    REQUIRE(pdf.substr(table, 5) == "xref\n");
    const auto first = pdf.find('\n', table + 5) + 1;
    std::size_t count = 0;
    for (std::size_t at = first + 20; pdf.substr(at, 7) != "trailer"; at += 20) {
        ++count;
        const auto offset = static_cast<std::size_t>(*base::number_in(pdf.substr(at, 10)));
        const std::string due = std::to_string(count) + " 0 obj\n";
        CHECK(pdf.substr(offset, due.size()) == due);
    }
    CHECK(count > 8);
}

TEST_CASE("the same sheet is the same PDF, with sRGB said, typefaces embedded and no date") {
    const auto pdf = small_pdf();
    CHECK(pdf == small_pdf());
    CHECK(pdf.substr(0, 8) == "%PDF-1.4");
    CHECK(pdf.find("\n% foretone\n") < 30);
    for (const char* due : {"/OutputIntents", "sRGB IEC61966-2.1", "/FontFile2", "/Lang (en)"})
        CHECK(pdf.find(due) != std::string::npos);
    for (const char* never : {"CreationDate", "ModDate", "/JavaScript", "/URI", "http:/"})
        CHECK(pdf.find(never) == std::string::npos);
    const auto profile = print::srgb_profile();
    CHECK(pdf.find(profile) != std::string::npos);
    CHECK(profile.substr(36, 4) == "acsp");  // ICC.1:2001-04, table 9
    CHECK(profile.substr(12, 12) == "mntrRGB XYZ ");
    CHECK(profile == print::srgb_profile());
}

TEST_CASE("poppler reads the PDF: its size, its fonts, its text, and every pixel of its areas and pictures") {
    const Folder folder("pdf");
    const auto file = folder.write("page.pdf", small_pdf());
    const auto info = output_of("pdfinfo '" + file.string() + "'", folder / "info");
    CHECK(info.find("Title:           Ein Blatt, (1) €") != std::string::npos);
    CHECK(info.find("Pages:           1\n") != std::string::npos);
    CHECK(info.find("113.386 x 85.0394 pts") != std::string::npos);  // 40 × 30 mm
    CHECK(info.find("CreationDate") == std::string::npos);
    const auto fonts = output_of("pdffonts '" + file.string() + "'", folder / "fonts");
    CHECK(fonts.find("Lato-Regular") != std::string::npos);
    CHECK(fonts.find("Lato-Bold") != std::string::npos);
    CHECK(fonts.find(" no ") == std::string::npos);  // all embedded, subset and mapped to Unicode
    const auto text = output_of("pdftotext '" + file.string() + "' -", folder / "text");
    CHECK(text.find("Grey oak, 5 µm") != std::string::npos);
    CHECK(text.find("Walnut") != std::string::npos);

    const auto page = layout::paint(small_page());
    const auto shown = [&](const std::string& command, const char* name) {
        const auto stem = (folder / name).string();
        output_of(command + " '" + file.string() + "' '" + stem + "'", folder / "log");
        const auto png = folder.read(std::filesystem::exists(stem + ".png") ? std::string(name) + ".png"
                                                                            : std::string(name) + "-000.png");
        return read_png({png.begin(), png.end()}).image;
    };
    const auto drawn = shown("pdftoppm -r 200 -png -singlefile -aaVector no", "drawn");
    REQUIRE(drawn.width >= 300);
    std::size_t off = 0;
    for (const light::Box& b : {light::Box{32, 32, 40, 30}, {31, 101, 38, 18}, {180, 30, 30, 100}})
        for (int y = b.y; y < b.y + b.height; ++y)
            for (int x = b.x; x < b.x + b.width; ++x) off += drawn.at(x, y) != page.at(x, y);
    CHECK(off == 0);
    CHECK(shown("pdfimages -png", "picture").rgb == small_page().pictures[0].image.rgb);
}

TEST_CASE("what cannot be printed is refused") {
    const auto page = small_page();
    CHECK_THROWS_AS(print::sheets_pdf({}, small_paper, ""), std::invalid_argument);
    CHECK_THROWS_AS(print::sheets_pdf({&page, 1}, {0, 297}, ""), std::invalid_argument);
    CHECK_THROWS_AS(print::sheets_pdf({&page, 1}, {std::nan(""), 297}, ""), std::invalid_argument);
    auto wrong = page;
    wrong.pictures[0].box.width = 61;
    CHECK_THROWS_AS(print::sheets_pdf({&wrong, 1}, small_paper, ""), std::invalid_argument);
    CHECK_THROWS_AS(print::with_output_intent("%PDF-1.4\n", ""), std::logic_error);
}
