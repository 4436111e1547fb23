#include <algorithm>
#include <cmath>

#include "foretone/base/number.hpp"

#include "raw.hpp"

namespace foretone::measure {
namespace {

using base::shortest;

// A fraction is at most about 1 (1.02 with noise); as percent, wood finished as black as can be still reads above 1.
constexpr double surely_percent = 2, surely_fraction = 1;
constexpr double noise_below = -0.005, noise_above = 1.02;

std::string word_for(bool percent) { return percent ? "percent" : "fractions"; }

class Settler {
public:
    Settler(RawTable& table, const Options& options, const HowToSay& say, Notes& notes)
        : table_(table), options_(options), say_(say), notes_(notes) {}

    void run(std::vector<Reading>& out) {
        bool spectral = false;
        for (const auto& r : table_.readings) spectral = spectral || !r.samples.empty();
        const bool percent = spectral && is_percent();
        const double xyz_factor = scale_of_xyz();
        for (auto& r : table_.readings) {
            if (!r.samples.empty()) spectrum(r, percent);
            colors(r, xyz_factor);
            r.reading.geometry = r.conditions.geometry;
            out.push_back(std::move(r.reading));
        }
    }

private:
    bool is_percent() {
        const Sample* largest = nullptr;
        const Sample *signed_one = nullptr, *plain_one = nullptr;
        for (const auto& r : table_.readings)
            for (const auto& s : r.samples) {
                if (!largest || s.value > largest->value) largest = &s;
                auto& kind = s.percent_sign ? signed_one : plain_one;
                if (!kind) kind = &s;
            }
        if (signed_one && plain_one)
            throw Refused("scale-mixed", plain_one->line, plain_one->column, shortest(plain_one->value),
                          "some values carry a percent sign (line " + std::to_string(signed_one->line) + ") and " +
                              shortest(plain_one->value) + " here does not; write all in one way");
        if (options_.percent) {
            if (table_.percent && *table_.percent != *options_.percent)
                notes_.add("scale-overruled", table_.said_line, table_.said_column,
                           "the file calls its reflectances " + word_for(*table_.percent) + "; they were read as " +
                               word_for(*options_.percent) + ", as stated");
            return *options_.percent;
        }
        const auto said = signed_one ? std::optional(true) : table_.percent;
        if (said) {
            contradiction(*said, *largest);
            return *said;
        }
        return by_values(*largest);
    }

    void contradiction(bool percent, const Sample& largest) {
        if (percent ? largest.value > surely_fraction : largest.value <= surely_percent) return;
        throw Refused(
            "scale-contradicts", largest.line, largest.column, shortest(largest.value),
            "the file calls its reflectances " + word_for(percent) + ", but the largest of them is " +
                shortest(largest.value) + ", which only " + word_for(!percent) + " can be" +
                (table_.said_line > 0 ? "; correct what line " + std::to_string(table_.said_line) + " says" : ""));
    }

    bool by_values(const Sample& largest) {
        if (largest.value > surely_fraction && largest.value <= surely_percent)
            throw Refused("scale-ambiguous", largest.line, largest.column, shortest(largest.value),
                          "the largest reflectance is " + shortest(largest.value) +
                              ": the file does not say whether it is percent or a fraction, and it could be either; " +
                              say_.scale);
        const bool percent = largest.value > surely_percent;
        for (const auto& r : table_.readings) {
            if (!percent || r.samples.empty()) continue;
            const auto top = *std::max_element(r.samples.begin(), r.samples.end(),
                                               [](const Sample& a, const Sample& b) { return a.value < b.value; });
            if (top.value <= surely_percent)
                throw Refused("scale-mixed", top.line, top.column, shortest(top.value),
                              "the reading '" + shortened(r.reading.name) + "' nowhere exceeds " + shortest(top.value) +
                                  ", while others reach " + shortest(largest.value) +
                                  ": fractions and percent seem to be mixed; " + say_.scale);
        }
        notes_.add("scale-by-values", largest.line, largest.column,
                   "the file does not say whether reflectances are percent or fractions; its largest value is " +
                       shortest(largest.value) + ", so they were read as " + word_for(percent));
        return percent;
    }

    void spectrum(RawReading& r, bool percent) {
        auto& samples = r.samples;
        const auto before = [](const Sample& a, const Sample& b) { return a.nm < b.nm; };
        if (!std::is_sorted(samples.begin(), samples.end(), before)) {
            notes_.add("wavelengths-sorted", samples.front().line, samples.front().column,
                       "the wavelengths do not rise; they were put in rising order");
            std::stable_sort(samples.begin(), samples.end(), before);
        }
        spectral::Sampled out;
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const auto& s = samples[i];
            if (i > 0) steps(samples[i - 1], s);
            out.wavelength_nm.push_back(s.nm);
            out.value.push_back(fraction(s, percent, r.reading.name));
        }
        if (samples.front().nm > 400 || samples.back().nm < 700)
            throw Refused("spectrum-range-nm", samples.front().line, samples.front().column,
                          shortest(samples.front().nm),
                          "the reading '" + shortened(r.reading.name) + "' runs from " + shortest(samples.front().nm) +
                              " to " + shortest(samples.back().nm) + " nm; at least 400 to 700 nm is needed");
        for (std::size_t i = 1; i < samples.size(); ++i)
            if (samples[i].nm > 400 && samples[i - 1].nm < 700 && samples[i].nm - samples[i - 1].nm > 15) {
                notes_.add("spectrum-20nm", samples[i].line, samples[i].column,
                           "the reading '" + shortened(r.reading.name) + "' has a value every " +
                               shortest(samples[i].nm - samples[i - 1].nm) +
                               " nm: ASTM E308 has tables of their own for 20 nm, here it is interpolated; where a "
                               "reflectance bends sharply the color is a little off. Export every 10 nm if the "
                               "instrument can");
                break;
            }
        r.reading.reflectance = std::move(out);
    }

    void steps(const Sample& a, const Sample& b) const {
        if (!(b.nm > a.nm))
            throw Refused(
                "wavelength-twice", b.line, b.column, shortest(b.nm),
                "the wavelength " + shortest(b.nm) + " nm stands here for the second time; each may be there once");
        if (b.nm > 400 && a.nm < 700 && b.nm - a.nm > 20 + 1e-9)
            throw Refused("spectrum-coarse", b.line, b.column, shortest(b.nm),
                          "the step from " + shortest(a.nm) + " to " + shortest(b.nm) + " nm is wider than 20 nm");
    }

    double fraction(const Sample& s, bool percent, const std::string& name) {
        const double v = percent ? s.value / 100 : s.value;
        if (v >= 0 && v <= 1) return v;
        if (v < noise_below || v > noise_above)
            throw Refused("reflectance-range", s.line, s.column, shortest(s.value),
                          "the reflectance of '" + shortened(name) + "' at " + shortest(s.nm) + " nm is " +
                              shortest(s.value) +
                              (percent ? " %; it must be from 0 to 100" : "; it must be from 0 to 1"));
        notes_.add("reflectance-clipped", s.line, s.column,
                   "the reflectance at " + shortest(s.nm) + " nm, " + shortest(s.value) +
                       ", is outside what can be by no more than noise; read as " +
                       (v < 0     ? "0"
                        : percent ? "100"
                                  : "1"));
        return v < 0 ? 0 : 1;
    }

    double scale_of_xyz() {
        double largest = 0;
        const Reading* first = nullptr;
        for (const auto& r : table_.readings)
            if (r.reading.xyz) {
                largest = std::max(largest, r.reading.xyz->y);
                if (!first) first = &r.reading;
            }
        if (!first || largest > 1.2) return 1;
        notes_.add(
            "xyz-scale", first->line, 1,
            "no Y exceeds " + shortest(largest) + ": XYZ is on the scale where white has Y = 1; multiplied by 100");
        return 100;
    }

    void colors(RawReading& r, double xyz_factor) {
        auto& out = r.reading;
        if (!out.lab && !out.xyz && !out.delta) return;
        if (r.conditions.light.empty() || r.conditions.observer.empty()) return without_light(r);
        out.light = r.conditions.light;
        out.observer = r.conditions.observer;
        if (out.lab && (out.lab->l < 0 || out.lab->l > 100 || std::abs(out.lab->a) > 150 || std::abs(out.lab->b) > 150))
            throw Refused("lab-range", out.line, 1, shortest(out.lab->l),
                          "the Lab value " + shortest(out.lab->l) + " " + shortest(out.lab->a) + " " +
                              shortest(out.lab->b) + " of '" + shortened(out.name) +
                              "' cannot be; L is from 0 to 100, a and b within 150 of 0");
        if (out.delta && (std::abs(out.delta->l) > 100 || std::abs(out.delta->a) > 200 || std::abs(out.delta->b) > 200))
            throw Refused("lab-range", out.line, 1, shortest(out.delta->l),
                          "the difference " + shortest(out.delta->l) + " " + shortest(out.delta->a) + " " +
                              shortest(out.delta->b) + " of '" + shortened(out.name) + "' cannot be");
        if (!out.xyz) return;
        auto& c = *out.xyz;
        c = {c.x * xyz_factor, c.y * xyz_factor, c.z * xyz_factor};
        for (const double v : {c.x, c.y, c.z})
            if (v < 0 || v > 130)
                throw Refused("xyz-range", out.line, 1, shortest(v),
                              "XYZ of '" + shortened(out.name) + "' holds " + shortest(v) +
                                  "; it must be from 0 to 130 where white has Y = 100");
        if (out.lab) return;
        const auto white = options_.white ? options_.white(out.light, out.observer) : std::nullopt;
        if (white) out.lab = color::to_lab(c, *white);
    }

    void without_light(RawReading& r) {
        const std::string what = r.reading.lab ? "Lab" : r.reading.xyz ? "XYZ" : "Lab difference";
        if (r.samples.empty())
            throw Refused("light-missing", r.reading.line, 1, what,
                          "the " + what + " value of '" + shortened(r.reading.name) +
                              "' needs its light and observer, and the file does not say them; " + say_.light);
        notes_.add("lab-light-unknown", r.reading.line, 1,
                   what + " beside the reflectance was left out: the file does not say its light and observer");
        r.reading.lab.reset();
        r.reading.xyz.reset();
        r.reading.delta.reset();
    }

    RawTable& table_;
    const Options& options_;
    const HowToSay& say_;
    Notes& notes_;
};

}  // namespace

void settle(RawTable&& table, const Options& options, const HowToSay& say, Notes& notes, std::vector<Reading>& out) {
    for (auto& r : table.readings) r.conditions.state(options);
    Settler(table, options, say, notes).run(out);
    bool open = false;
    for (const auto& r : out) open = open || !r.geometry;
    if (open)
        notes.add("geometry-unstated", 0, 0,
                  "the geometry of readings is not stated (45/0, d/8-included or d/8-excluded)");
}

}  // namespace foretone::measure
