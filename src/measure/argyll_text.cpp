// The lines that count, as the program of version 2.3 prints them:
//
//   Spectrum from 380.000 to 730.000 nm in 36 steps
//   4.61, 5.02, ...                                       percent
//   Result is XYZ: 36.06 35.38 21.35, D50 Lab: 66.04 7.78 21.41
//
// All else (prompts, serial numbers, other color spaces) is left out.

#include "argyll_text.hpp"

#include <cmath>

#include "foretone/base/number.hpp"
#include "raw.hpp"

namespace foretone::measure {
namespace {

const HowToSay say_in_argyll{"add '# light: D50' and '# observer: 2deg' above it", "spotread prints percent"};

constexpr std::string_view result_words = "result is xyz:", spectrum_words = "spectrum from ";

// Numbers one after another, parted by blanks and commas, up to the first word that is none.
std::vector<double> numbers_in(std::string_view text) {
    std::vector<double> out;
    while (true) {
        while (!text.empty() && (text.front() == ' ' || text.front() == ',' || text.front() == '\t'))
            text.remove_prefix(1);
        const auto [v, length, bad] = base::leading_number(text);
        if (length == 0 || bad || !std::isfinite(v) || out.size() > 2000) return out;
        out.push_back(v);
        text.remove_prefix(length);
    }
}

class ArgyllReader {
public:
    ArgyllReader(const Options& stated, Notes& notes) : stated_(stated), notes_(notes) {}

    void run(const Lines& lines, Readings& out) {
        for (const auto& line : lines.list) one(line);
        if (!spectrum_.empty() && !table_.readings.empty() && table_.readings.back().samples.empty())
            table_.readings.back().samples = std::move(spectrum_);
        table_.percent = true;
        settle(std::move(table_), stated_, say_in_argyll, notes_, out.readings);
    }

private:
    void one(const Line& line) {
        const std::string low = lower(trimmed(line.text));
        const auto comment = low.find_first_not_of("# ");
        if (low.starts_with(spectrum_words)) return begin_spectrum(low, line);
        if (bands_ > 0) return values(low, line);
        if (comment != std::string::npos && std::string_view(low).substr(comment).starts_with("name:")) {
            const auto at = line.text.find(':');
            name_ = trimmed(line.text.substr(at + 1));
            return;
        }
        const auto at = low.find(result_words);
        if (at != std::string::npos) result(low.substr(at + result_words.size()), line);
    }

    void begin_spectrum(const std::string& low, const Line& line) {
        const auto ends = numbers_in(std::string_view(low).substr(spectrum_words.size()));
        const auto to = low.find(" to "), in = low.find(" in ");
        const auto last = to == std::string::npos ? ends : numbers_in(std::string_view(low).substr(to + 4));
        const auto count = in == std::string::npos ? ends : numbers_in(std::string_view(low).substr(in + 4));
        if (ends.empty() || last.empty() || count.empty() || count[0] < 2 || count[0] > 2000 || last[0] <= ends[0])
            throw Refused("argyll-result", line.number, 1, shortened(line.text),
                          "'" + shortened(line.text) +
                              "' is no 'Spectrum from 380 to 730 nm in 36 steps'; copy the line as spotread prints it");
        first_nm_ = ends[0];
        last_nm_ = last[0];
        bands_ = static_cast<std::size_t>(count[0]);
        all_bands_ = bands_;
        spectrum_.clear();
    }

    void values(const std::string& low, const Line& line) {
        const auto list = numbers_in(low);
        if (list.empty() || list.size() > bands_)
            throw Refused("argyll-result", line.number, 1, shortened(line.text),
                          std::to_string(bands_) + " more values of the spectrum are due here, not '" +
                              shortened(line.text) + "'");
        for (const double v : list) {
            const auto i = static_cast<double>(spectrum_.size());
            const double nm = first_nm_ + (last_nm_ - first_nm_) * i / static_cast<double>(all_bands_ - 1);
            spectrum_.push_back({nm, v, line.number, 1, false});
        }
        bands_ -= list.size();
    }

    void result(const std::string& rest, const Line& line) {
        const auto xyz = numbers_in(rest);
        const auto lab_at = rest.find(" lab:");
        const auto comma = rest.find(',');
        const auto lab = lab_at == std::string::npos ? std::vector<double>() : numbers_in(rest.substr(lab_at + 5));
        if (xyz.size() != 3 || lab.size() != 3 || comma == std::string::npos || comma > lab_at)
            throw Refused("argyll-result", line.number, 1, shortened(line.text),
                          "'" + shortened(line.text) +
                              "' is no 'Result is XYZ: x y z, D50 Lab: L a b'; run spotread without -y, -u or -h");
        RawReading r;
        r.reading.line = line.number;
        r.reading.name = name_.empty() ? std::to_string(table_.readings.size() + 1) : name_;
        name_.clear();
        r.reading.lab = color::Lab{lab[0], lab[1], lab[2]};
        r.reading.tags["xyz"] = base::shortest(xyz[0]) + " " + base::shortest(xyz[1]) + " " + base::shortest(xyz[2]);
        r.conditions.light = light_from(trimmed(std::string_view(rest).substr(comma + 1, lab_at - comma - 1)));
        r.conditions.observer = stated_.observer.empty() ? "2deg" : stated_.observer;
        if (stated_.observer.empty())
            notes_.add("argyll-observer", line.number, 1,
                       "spotread computes for the 2 degree observer (CIE 1931) unless it is told another; 2deg was "
                       "taken");
        r.samples = std::move(spectrum_);
        spectrum_.clear();
        table_.readings.push_back(std::move(r));
    }

    const Options& stated_;
    Notes& notes_;
    RawTable table_;
    std::string name_;
    std::vector<Sample> spectrum_;
    double first_nm_ = 0, last_nm_ = 0;
    std::size_t bands_ = 0, all_bands_ = 0;
};

}  // namespace

bool is_argyll_text(const Lines& lines) {
    std::size_t looked = 0;
    for (const auto& line : lines.list) {
        if (lower(trimmed(line.text)).find(result_words) != std::string::npos) return true;
        if (++looked > 400) break;
    }
    return false;
}

Readings read_argyll_text(std::string_view text, const Options& stated) {
    Notes notes;
    Lines lines;
    clean(text, stated, notes, lines);
    Readings out{"Argyll text", {}, {}, {}};
    ArgyllReader(stated, notes).run(lines, out);
    out.notes = notes.list();
    return out;
}

}  // namespace foretone::measure
