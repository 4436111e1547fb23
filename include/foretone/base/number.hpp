#pragma once
/// Numbers to text and back, the same on every machine and in every locale. "nan", "inf" and "-inf" stand for what is
/// not finite. Text is correctly rounded from the exact value of the double.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace foretone::base {

/// Shortest text that reads back as `v`, fixed or scientific, whichever is shorter, fixed among equals: "0.1", "1e-07".
std::string shortest(double v);

/// `v` with exactly so many decimals (0–300), zero without a minus: "2.50", "0.00".
std::string fixed(double v, int decimals);

/// `v` with at most so many decimals (0–300), never an exponent, no zeros at the end, zero without a minus: "2.5", "3".
std::string at_most(double v, int decimals);

/// `v` to so many significant digits (1–17), no zeros at the end; an exponent below 1e-4 and where the digits do not
/// reach the point: "0.333333", "1e+06".
std::string significant(double v, int digits);

/// `v` to so many significant digits (1–17) as a TOML float, which has a point or an exponent: "2.0", "1e-07", "nan".
std::string toml_float(double v, int digits);

/// `v` as one digit, so many decimals (0–17) and an exponent: "1.2e-05".
std::string scientific(double v, int decimals);

/// What a text begins with.
struct LeadingNumber {
    double value = 0;
    std::size_t length = 0;     ///< characters that are the number; 0: there is none
    bool out_of_range = false;  ///< too large for a double, or too small and not zero
};

enum class Exponent { read, left };

/// The number at the start of `text`: a '-' or nothing, digits with a decimal point or without, and an exponent if
/// that is to be read; "inf", "infinity" and "nan" in any case. No blank, no '+', no comma, no hexadecimal.
LeadingNumber leading_number(std::string_view text, Exponent exponent = Exponent::read);

/// `text` as a number (as above) from first to last character; nothing if it is none or out of range.
std::optional<double> number_in(std::string_view text);

}  // namespace foretone::base
