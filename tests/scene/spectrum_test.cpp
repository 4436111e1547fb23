#include <catch2/catch.hpp>
#include <string>

#include "foretone/base/number.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/spectrum_file.hpp"

using namespace foretone;
using namespace foretone::scene;

namespace {

std::string rows(double first, double step, int count, double value) {
    std::string text = "# a comment\nwavelength_nm,reflectance\n";
    for (int i = 0; i < count; ++i) text += base::shortest(first + step * i) + "," + base::shortest(value) + "\n";
    return text;
}

void expect_spectrum(const std::string& text, const std::string& id, std::size_t line, std::size_t column,
                     const std::string& says) {
    INFO(text.substr(0, 200));
    try {
        read_reflectance(text, "s.csv");
        FAIL("not refused");
    } catch (const InputError& e) {
        REQUIRE(e.problems.size() == 1);
        const auto& p = e.problems[0];
        INFO(e.what());
        CHECK(p.id == id);
        CHECK(p.place.line == line);
        CHECK(p.place.column == column);
        CHECK(p.text.find(says) != std::string::npos);
    }
}

}  // namespace

TEST_CASE("a spectrum reads with LF or CRLF, spaces and comments") {
    auto text = rows(400, 10, 31, 0.5);
    CHECK(read_reflectance(text, "s.csv").value.size() == 31);
    std::string crlf;
    for (const char c : text) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
    CHECK(read_reflectance(crlf, "s.csv").value.size() == 31);
    text.insert(text.find("400,"), " ");
    CHECK(read_reflectance(text, "s.csv").wavelength_nm[0] == 400);
}

TEST_CASE("what is wrong in a spectrum is told with line, column and value") {
    expect_spectrum("", "spectrum-header", 0, 0, "no header");
    expect_spectrum("nm,R\n400,0.5\n", "spectrum-header", 1, 1, "wavelength_nm,reflectance");
    expect_spectrum("wavelength_nm,reflectance\n400,0.5\n", "spectrum-short", 0, 0, "two rows");
    expect_spectrum("wavelength_nm,reflectance\n400,0.5\n410,abc\n", "spectrum-number", 3, 5, "'abc'");
    expect_spectrum("wavelength_nm,reflectance\n400,0.5\n410,\n", "spectrum-number", 3, 5, "not a number");
    expect_spectrum("wavelength_nm,reflectance\n400,0.5\n410,nan\n", "spectrum-not-finite", 3, 5, "finite");
    expect_spectrum("wavelength_nm,reflectance\n400,0.5\n410,inf\n", "spectrum-not-finite", 3, 5, "finite");
    expect_spectrum("wavelength_nm,reflectance\n400,0.5\n410,0.5,1\n", "spectrum-cells", 3, 1, "3 values");
    expect_spectrum("wavelength_nm,reflectance\n410,0.5\n400,0.5\n", "spectrum-order", 3, 1, "rising");
    expect_spectrum("wavelength_nm,reflectance\n410,0.5\n410,0.5\n", "spectrum-order", 3, 1, "each wavelength once");
    expect_spectrum(rows(400, 10, 31, 45), "spectrum-percent", 3, 1, "45 % is 0.45");
    expect_spectrum(rows(400, 10, 31, -0.1), "spectrum-range", 3, 1, "outside 0 to 1");
    expect_spectrum(rows(400, 10, 31, 1.2), "spectrum-range", 3, 1, "1.2");
    expect_spectrum(rows(400, 25, 13, 0.5), "spectrum-coarse", 4, 1, "wider than 20 nm");
    expect_spectrum(rows(420, 10, 29, 0.5), "spectrum-range-nm", 3, 1, "400 to 700");
    expect_spectrum("wavelength_nm,reflectance\n400,0,5\n410,0,5\n", "spectrum-cells", 2, 1,
                    "2 are due");  // a decimal comma
}
