#include "quantity.hpp"

#include <algorithm>
#include <string>

#include "conditions.hpp"
#include "foretone/base/text.hpp"

namespace foretone::measure {
namespace {

// Lower case, without blanks and signs that say nothing: "Log (1 / R)" is "log(1/r)".
std::string squeezed(std::string_view words) {
    std::string out = base::lower(words);
    std::erase_if(out, [](char c) { return c == ' ' || c == '_' || c == '-' || c == '.' || c == '\t'; });
    return out;
}

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

bool any_of(const std::string& word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

[[noreturn]] void refuse(const Cell& where, const std::string& why) {
    throw Refused("not-reflectance", where.line, where.column, shortened(where.text),
                  "'" + shortened(where.text) + "' is not reflectance: " + why);
}

// "none", "no", "off", "unpolarized": a filter that is not there.
bool says_none(const std::string& word) {
    return any_of(word, {"", "no", "none", "off", "false", "0", "without", "unfiltered"}) || has(word, "unpol") ||
           has(word, "nonpol") || has(word, "nopol");
}

bool tells_the_kind(const std::string& key) {
    return any_of(key, {"quantity", "measurement", "measurement_type", "measurement_mode", "measurement_quantity",
                        "measurement_condition", "measurement_source", "mode", "device_mode", "data_type", "yunits",
                        "y_units", "condition", "m_condition"});
}

bool tells_of_filters(const std::string& key) {
    return has(key, "filter") || has(key, "polari") ||
           any_of(key, {"measurement_condition", "condition", "m_condition"});
}

}  // namespace

Quantity quantity_said(std::string_view words, const Cell& where) {
    const auto text = squeezed(words);
    if (has(text, "log(1/r)") || has(text, "log1/r") || has(text, "log10(1/r)") || has(text, "apparentabsorbance"))
        return Quantity::log_one_over_r;
    if (has(text, "absorbance") || text == "abs" || text == "au")
        refuse(where,
               "absorbance of a board is log(1/R), and can be read if the heading says log(1/R); that of a liquid says "
               "nothing of a board");
    if (has(text, "transmittance") || has(text, "transmission") || has(text, "transmissive"))
        refuse(where, "it is light that went through; read the board's reflectance");
    if (has(text, "opticaldensity") || text == "od") refuse(where, "export the reflectance behind the density");
    if (text == "k/s" || has(text, "(k/s)")) refuse(where, "export the reflectance behind K/S");
    return Quantity::reflectance;
}

void refuse_other_readings(std::string_view key, const Cell& value) {
    const auto k = key_of(key);
    const auto word = squeezed(value.text);
    const bool named = word == "m3" || has(word, "filter=pol") || (has(word, "polari") && !says_none(word));
    if ((tells_of_filters(k) && (named || word == "pol" || (has(k, "polari") && !says_none(word)))) ||
        (tells_the_kind(k) && named))
        throw Refused("polarized", value.line, value.column, shortened(value.text),
                      "the readings were made through polarizing filters (" + shortened(value.text) +
                          "), which take the surface's light away; read again without them (M0, M1 or M2)");
    if (tells_the_kind(k) && quantity_said(value.text, value) != Quantity::reflectance)
        refuse(value, "the whole file is said to be log(1/R); name the columns so, and they are worked back");
}

}  // namespace foretone::measure
