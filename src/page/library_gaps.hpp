#pragma once
// The browser's C++ library (libc++ 14) has no std::bit_cast yet and converts whole numbers only in <charconv>. This
// header is included ahead of every file of the browser build and adds both, with the meaning the standard gives them.
// The C library there knows one locale, and its printf and strtod round correctly, so that the same number reads and
// prints the same as elsewhere.

#include <bit>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <system_error>

namespace std {

#ifndef __cpp_lib_bit_cast
template <class To, class From>
constexpr To bit_cast(const From& from) noexcept {
    return __builtin_bit_cast(To, from);
}
#endif

inline to_chars_result foretone_put(char* first, char* last, const char* text, int size) {
    if (size < 0 || last - first < size) return {last, errc::value_too_large};
    memcpy(first, text, static_cast<size_t>(size));
    return {first + size, errc{}};
}

/// The shortest text that reads back the same; fixed or scientific, whichever is shorter, fixed among equals.
inline to_chars_result to_chars(char* first, char* last, double v) {
    char scientific[40], fixed[400];
    int digits = 1, n = 0;
    if (!(v - v == 0)) {  // infinite or not a number
        n = snprintf(scientific, sizeof scientific, "%g", v);
        return foretone_put(first, last, scientific, n);
    }
    // Most numbers are short or need all 17 digits: whatever 15 digits can say, 15 digits find.
    for (const int tried : {15, 16, 17}) {
        n = snprintf(scientific, sizeof scientific, "%.*e", tried - 1, v);
        digits = tried;
        if (strtod(scientific, nullptr) == v) break;
    }
    // Zeros at the end of the digits say nothing.
    const char* e = strchr(scientific, 'e');
    const int exponent = atoi(e + 1);
    int end = static_cast<int>(e - scientific);
    while (digits > 1 && scientific[end - 1] == '0') --end, --digits;
    if (scientific[end - 1] == '.') --end;
    const string tail(e);
    const string shorter = string(scientific, static_cast<size_t>(end)) + tail;
    const int decimals = digits - 1 - exponent;
    n = snprintf(fixed, sizeof fixed, "%.*f", decimals > 0 ? decimals : 0, v);
    if (n > 0 && static_cast<size_t>(n) <= shorter.size()) return foretone_put(first, last, fixed, n);
    return foretone_put(first, last, shorter.data(), static_cast<int>(shorter.size()));
}

inline to_chars_result to_chars(char* first, char* last, double v, chars_format how) {
    if (how == chars_format::general) return to_chars(first, last, v);
    char text[400];
    for (int digits = 0; digits <= 17; ++digits) {  // shortest in this form
        const int n = snprintf(text, sizeof text,
                               how == chars_format::fixed ? "%.*f"
                               : how == chars_format::hex ? "%.*a"
                                                          : "%.*e",
                               digits, v);
        if (strtod(text, nullptr) == v || digits == 17)
            return foretone_put(first, last, text + (how == chars_format::hex ? 2 : 0), n);
    }
    return {last, errc::value_too_large};
}

inline to_chars_result to_chars(char* first, char* last, double v, chars_format how, int precision) {
    char text[400];
    const char* form = how == chars_format::fixed ? "%.*f" : how == chars_format::scientific ? "%.*e" : "%.*g";
    return foretone_put(first, last, text, snprintf(text, sizeof text, form, precision, v));
}

/// Neither blanks nor a '+' nor "0x" come before a number, as the standard has it.
inline from_chars_result from_chars(const char* first, const char* last, double& out,
                                    chars_format = chars_format::general) {
    const char* at = first;
    if (at != last && *at == '-') ++at;
    const bool begins = at != last && ((*at >= '0' && *at <= '9') || *at == '.' || *at == 'i' || *at == 'n' ||
                                       *at == 'I' || *at == 'N');
    if (!begins) return {first, errc::invalid_argument};
    // Up to 15 digits and a power of ten up to 22 are exact doubles, and so is one division or product of theirs
    // (Clinger 1990).
    {
        const char* p = at;
        double whole = 0;
        int digits = 0, decimals = 0;
        for (; p != last && *p >= '0' && *p <= '9'; ++p, ++digits) whole = 10 * whole + (*p - '0');
        if (p != last && *p == '.')
            for (++p; p != last && *p >= '0' && *p <= '9'; ++p, ++digits, ++decimals) whole = 10 * whole + (*p - '0');
        const bool more = p != last && (*p == 'e' || *p == 'E' || *p == 'x' || *p == 'X');
        if (digits > 0 && digits <= 15 && decimals <= 22 && !more) {
            constexpr double tens[] = {1,    1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                       1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
            const double v = whole / tens[decimals];
            out = *first == '-' ? -v : v;
            return {p, errc{}};
        }
    }
    string text(first, last);
    const size_t x = text.find_first_of("xX");
    if (x != string::npos) text.resize(x);
    char* end = nullptr;
    const double v = strtod(text.c_str(), &end);
    if (end == text.c_str()) return {first, errc::invalid_argument};
    const char* stop = first + (end - text.c_str());
    if (v - v != 0 && *at != 'i' && *at != 'n' && *at != 'I' && *at != 'N') return {stop, errc::result_out_of_range};
    out = v;
    return {stop, errc{}};
}

}  // namespace std
