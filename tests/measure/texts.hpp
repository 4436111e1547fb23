#pragma once
/// Texts of readings for tests, with invented values.

#include <string>

#include "foretone/base/number.hpp"
#include "foretone/measure/reading.hpp"
#include "support/tolerance.hpp"

namespace foretone::test {

/// An invented wood-like reflectance, fraction, at `nm`: rises from 0.15 + `level` by 0.001 a nm from 400.
inline double wood_like(double nm, double level = 0) { return 0.15 + level + 0.001 * (nm - 400); }

/// Wavelength columns `before`400`after` ... 700 every 10 nm, each with a blank before it.
inline std::string wavelength_columns(const std::string& before, const std::string& after = "") {
    std::string out;
    for (int nm = 400; nm <= 700; nm += 10) out += " " + before + std::to_string(nm) + after;
    return out;
}

/// The reflectances of `wood_like` times `factor` (1 or 100), each with a blank before it.
inline std::string wood_values(double level = 0, double factor = 1) {
    std::string out;
    for (int nm = 400; nm <= 700; nm += 10) {
        // Rounded to whole hundred-thousandths, so that the text is short and the value the same on every machine.
        const auto units = static_cast<long>(wood_like(nm, level) * 1e5 + 0.5);
        out += " " + base::shortest(static_cast<double>(units) * factor / 1e5);
    }
    return out;
}

/// A CGATS file of two samples with these columns and values.
inline std::string cgats(const std::string& columns, const std::string& first, const std::string& second,
                         const std::string& keywords = "") {
    return "CGATS.17\nORIGINATOR \"a test\"\n" + keywords +
           "NUMBER_OF_FIELDS 33\nBEGIN_DATA_FORMAT\nSAMPLE_ID SAMPLE_NAME" + columns +
           "\nEND_DATA_FORMAT\nNUMBER_OF_SETS 2\nBEGIN_DATA\n1 \"bare maple\"" + first + "\n2 \"one coat\"" + second +
           "\nEND_DATA\n";
}

inline bool has_note(const measure::Readings& r, const std::string& id) {
    for (const auto& n : r.notes)
        if (n.id == id) return true;
    return false;
}

/// The largest difference of a reading's reflectance from `wood_like`.
inline double worst_off(const measure::Reading& r, double level = 0) {
    double worst = 0;
    for (std::size_t i = 0; i < r.reflectance->value.size(); ++i) {
        worst = worst_of(worst, std::abs(r.reflectance->value[i] - wood_like(r.reflectance->wavelength_nm[i], level)));
    }
    return worst;
}

}  // namespace foretone::test
