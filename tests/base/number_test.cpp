// Numbers to text and back. The standard library's <charconv> (GCC's own implementation of correct rounding) is the
// outside reference for the digits; the C locale functions show what a locale does to those who ask it.

#include "foretone/base/number.hpp"

#include <array>
#include <charconv>
#include <clocale>
#include <cmath>
#include <cstdio>
#include <limits>
#include <locale>
#include <random>
#include <vector>

#include <catch2/catch.hpp>

#include "foretone/base/bits.hpp"

using namespace foretone::base;

namespace {

// Any double but those that are not finite, all exponents alike; then numbers as people write them.
std::vector<double> seeded_numbers() {
    std::mt19937_64 bits(20240607);
    std::vector<double> out{0.0,
                            -0.0,
                            1.0,
                            -1.0,
                            0.1,
                            0.5,
                            1e5,
                            100000.5,
                            1e22,
                            1e23,
                            123456789012345680.0,
                            5e-324,
                            2.2250738585072014e-308,
                            1.7976931348623157e308,
                            9007199254740993.0,
                            1e15,
                            1e16,
                            1e17};
    while (out.size() < 20000) {
        const auto v = bit_cast<double>(bits());
        if (std::isfinite(v)) out.push_back(v);
    }
    for (int i = 0; i < 20000; ++i) {
        const auto whole = static_cast<double>(bits() % 2000001) - 1e6;
        out.push_back(whole / std::pow(10.0, static_cast<double>(bits() % 9)));
        out.push_back(whole * std::pow(10.0, static_cast<double>(bits() % 18)));
    }
    return out;
}

template <class... How>
std::string reference(double v, How... how) {
    std::array<char, 800> buffer{};
    return {buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), v, how...).ptr};
}

bool is_minus_zero(const std::string& text) {
    return text[0] == '-' && text.find_first_not_of("-0.") == std::string::npos;
}

}  // namespace

TEST_CASE("The shortest text is the standard library's, to the byte", "[number]") {
    std::size_t differ = 0;
    for (const double v : seeded_numbers()) differ += shortest(v) != reference(v);
    CHECK(differ == 0);
    CHECK(shortest(1e-7) == "1e-07");
    CHECK(shortest(100000) == "1e+05");
    CHECK(shortest(std::nan("")) == "nan");
    CHECK(shortest(-std::numeric_limits<double>::infinity()) == "-inf");
}

TEST_CASE("The shortest text reads back as the same bits", "[number]") {
    std::size_t differ = 0;
    for (const double v : seeded_numbers()) {
        const auto back = number_in(shortest(v));
        differ += !back || bit_cast<std::uint64_t>(*back) != bit_cast<std::uint64_t>(v);
    }
    CHECK(differ == 0);
}

TEST_CASE("Decimals, significant digits and exponents are the standard library's", "[number]") {
    std::size_t differ = 0;
    for (const double v : seeded_numbers())
        for (const int digits : {1, 2, 3, 6, 10}) {
            std::string decimals = reference(v, std::chars_format::fixed, digits);
            if (is_minus_zero(decimals)) decimals.erase(0, 1);
            differ += fixed(v, digits) != decimals;
            differ += significant(v, digits) != reference(v, std::chars_format::general, digits);
            differ += scientific(v, digits) != reference(v, std::chars_format::scientific, digits);
        }
    CHECK(differ == 0);
}

TEST_CASE("A number is rounded from its exact value, not from its digits", "[number]") {
    // 0.125 and 2.5 are exact in binary: ties go to even. 0.15 and 2.675 lie just below their digits (IEEE 754).
    CHECK(fixed(0.125, 2) == "0.12");
    CHECK(fixed(2.5, 0) == "2");
    CHECK(fixed(0.15, 1) == "0.1");
    CHECK(fixed(2.675, 2) == "2.67");
}

TEST_CASE("Zero has no minus", "[number]") {
    CHECK(fixed(-0.0, 1) == "0.0");
    CHECK(fixed(-0.004, 2) == "0.00");
    CHECK(fixed(-0.006, 2) == "-0.01");
    CHECK(at_most(-0.0004, 3) == "0");
    CHECK(fixed(-std::numeric_limits<double>::infinity(), 2) == "-inf");
}

TEST_CASE("At most so many decimals: no zeros at the end, no exponent, zeros before the point stay", "[number]") {
    CHECK(at_most(2.5, 3) == "2.5");
    CHECK(at_most(3, 3) == "3");
    CHECK(at_most(100, 0) == "100");
    CHECK(at_most(1200, 2) == "1200");
    CHECK(at_most(1e-9, 6) == "0");
    CHECK(at_most(1e21, 2) == "1000000000000000000000");
    CHECK(at_most(std::nan(""), 2) == "nan");
}

TEST_CASE("A TOML float has a point or an exponent", "[number]") {
    // TOML 1.0, section Float: without either it would be an integer.
    CHECK(toml_float(2, 6) == "2.0");
    CHECK(toml_float(-3, 6) == "-3.0");
    CHECK(toml_float(1.0 / 3, 6) == "0.333333");
    CHECK(toml_float(1e-7, 6) == "1e-07");
    CHECK(toml_float(1234567, 6) == "1.23457e+06");
    CHECK(toml_float(std::nan(""), 6) == "nan");
    CHECK(toml_float(-std::numeric_limits<double>::infinity(), 6) == "-inf");
}

TEST_CASE("No locale changes a digit, in or out", "[number]") {
    // A locale with a decimal comma: the C library's if it has one, the C++ library's made here in any case.
    struct Comma : std::numpunct<char> {
        char do_decimal_point() const override { return ','; }
        char do_thousands_sep() const override { return '.'; }
        std::string do_grouping() const override { return "\3"; }
    };
    const std::locale before = std::locale::global(std::locale(std::locale::classic(), new Comma));
    bool c_library_has_one = false;
    for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "de_DE"})
        c_library_has_one = c_library_has_one || std::setlocale(LC_ALL, name) != nullptr;
    CHECK(shortest(1234567.5) == "1234567.5");
    CHECK(fixed(12345.678, 2) == "12345.68");
    CHECK(at_most(0.5, 3) == "0.5");
    CHECK(significant(0.333333333, 3) == "0.333");
    CHECK(scientific(0.00012, 1) == "1.2e-04");
    CHECK(number_in("1234.5") == 1234.5);
    CHECK_FALSE(number_in("1234,5"));
    if (c_library_has_one) {
        std::array<char, 16> told{};
        std::snprintf(told.data(), told.size(), "%.1f", 0.5);
        CHECK(std::string(told.data()) == "0,5");  // what was defended against
    }
    std::setlocale(LC_ALL, "C");
    std::locale::global(before);
}

TEST_CASE("The start of a text is read as <charconv> reads it", "[number]") {
    for (const std::string text : {"12",       "12.5 g",   "-3",
                                   ".5",       "5.",       "1e3",
                                   "1e",       "1e+",      "1E-2x",
                                   "0x10",     "inf",      "-inf",
                                   "Infinity", "nan",      "-nan",
                                   "infx",     "",         " 1",
                                   "+1",       "-",        "-.",
                                   ".",        "e5",       "1,5",
                                   "1.2.3",    "--1",      "00012",
                                   "1e400",    "-1e400",   "1e-400",
                                   "0e999",    "4.9e-324", "123456789012345678901234567890",
                                   "0.1e-5"}) {
        double v = -7;
        const auto by_reference = std::from_chars(text.data(), text.data() + text.size(), v);
        const auto read = leading_number(text);
        CAPTURE(text);
        const bool none = by_reference.ec == std::errc::invalid_argument;
        CHECK(read.length == (none ? 0 : static_cast<std::size_t>(by_reference.ptr - text.data())));
        CHECK(read.out_of_range == (by_reference.ec == std::errc::result_out_of_range));
        if (by_reference.ec == std::errc() && !std::isnan(v)) {
            CHECK(read.value == v);
            CHECK(std::signbit(read.value) == std::signbit(v));
        }
        if (by_reference.ec == std::errc() && std::isnan(v)) CHECK(std::isnan(read.value));
    }
}

TEST_CASE("An exponent is left where it is not to be read", "[number]") {
    const auto read = leading_number("0.4e3", Exponent::left);
    CHECK(read.value == 0.4);
    CHECK(read.length == 3);
    CHECK(leading_number("400nm", Exponent::left).length == 3);
}

TEST_CASE("A number is the whole text or none", "[number]") {
    CHECK(number_in("2.5") == 2.5);
    for (const char* text : {"", "2.5 ", " 2.5", "2.5g", "1e400", "1e-400", "two", "+2"}) {
        CAPTURE(text);
        CHECK_FALSE(number_in(text));
    }
}
