#include "foretone/base/number.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fast_float/fast_float.h>
#include <fmt/core.h>

namespace foretone::base {
namespace {

struct Digits {
    std::string text;  // no zero at either end
    int exponent;      // of the first digit
};

// The digits of a plain or scientific number above 0.
Digits digits_of(std::string_view number) {
    const auto e = number.find('e');
    int exponent = e == std::string_view::npos ? 0 : std::stoi(std::string(number.substr(e + 1)));
    const auto mantissa = number.substr(0, e);
    const auto point = mantissa.find('.');
    exponent += static_cast<int>(std::min(point, mantissa.size())) - 1;
    std::string all(mantissa);
    if (point != std::string_view::npos) all.erase(point, 1);
    const auto first = all.find_first_not_of('0'), last = all.find_last_not_of('0');
    return {all.substr(first, last - first + 1), exponent - static_cast<int>(first)};
}

bool zero(std::string_view number) { return number.find_first_not_of("-0.") == std::string_view::npos; }

std::string without_minus(std::string text) { return text.starts_with('-') ? text.substr(1) : text; }

bool begins_word(std::string_view text) {
    const char c = text.starts_with('-') && text.size() > 1 ? text[1] : text.empty() ? '0' : text[0];
    return c == 'i' || c == 'I' || c == 'n' || c == 'N';
}

// A digit other than 0 before the exponent.
bool has_digit(std::string_view number) {
    return number.substr(0, number.find_first_of("eE")).find_first_of("123456789") != std::string_view::npos;
}

}  // namespace

std::string shortest(double v) {
    const std::string general = fmt::format("{}", v);
    if (!std::isfinite(v) || v == 0) return general;
    const std::string minus = v < 0 ? "-" : "";
    const Digits d = digits_of(without_minus(general));
    const int decimals = static_cast<int>(d.text.size()) - 1 - d.exponent;
    const std::string point = d.text.size() > 1 ? "." : "";
    const std::string with_exponent = fmt::format("{}{}{}{}e{}{:02}", minus, d.text[0], point, d.text.substr(1),
                                                  d.exponent < 0 ? '-' : '+', std::abs(d.exponent));
    if (d.exponent > 25) return with_exponent;  // 17 digits and an exponent are never as long
    const std::string without = fmt::format("{:.{}f}", v, std::max(0, decimals));
    return without.size() <= with_exponent.size() ? without : with_exponent;
}

std::string fixed(double v, int decimals) {
    std::string text = fmt::format("{:.{}f}", v, decimals);
    return zero(text) ? without_minus(std::move(text)) : text;
}

std::string at_most(double v, int decimals) {
    std::string text = fixed(v, decimals);
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string significant(double v, int digits) { return fmt::format("{:.{}g}", v, digits); }

std::string toml_float(double v, int digits) {
    std::string text = significant(v, digits);
    return text.find_first_of(".en") == std::string::npos ? text + ".0" : text;
}

std::string scientific(double v, int decimals) { return fmt::format("{:.{}e}", v, decimals); }

LeadingNumber leading_number(std::string_view text, Exponent exponent) {
    double v = 0;
    const char* const end = text.data() + text.size();
    const auto form = exponent == Exponent::read ? fast_float::chars_format::general : fast_float::chars_format::fixed;
    const auto read = fast_float::from_chars(text.data(), end, v, form);
    if (read.ec == std::errc::invalid_argument) return {};
    const auto length = static_cast<std::size_t>(read.ptr - text.data());
    const auto number = text.substr(0, length);
    const bool range =
        read.ec != std::errc() || (std::isinf(v) && !begins_word(number)) || (v == 0 && has_digit(number));
    return {range ? 0 : v, length, range};
}

std::optional<double> number_in(std::string_view text) {
    const auto read = leading_number(text);
    if (read.length == 0 || read.length != text.size() || read.out_of_range) return std::nullopt;
    return read.value;
}

}  // namespace foretone::base
