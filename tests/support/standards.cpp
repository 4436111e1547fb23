#include "support/standards.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace foretone::test {
namespace {

// Columns of a CSV with leading `#` comments and one header line.
std::vector<std::vector<double>> columns(const std::string& path, std::string_view header) {
    std::ifstream in(path);
    if (!in) throw std::runtime_error("no file " + path);
    std::vector<std::vector<double>> out;
    std::string line;
    for (int number = 1; std::getline(in, line); ++number) {
        if (line.empty() || line[0] == '#') continue;
        const auto fail = [&] { throw std::runtime_error(path + ":" + std::to_string(number) + ": " + line); };
        if (out.empty()) {
            if (line != header) fail();
            out.resize(1 + static_cast<std::size_t>(std::count(header.begin(), header.end(), ',')));
            continue;
        }
        const char* at = line.data();
        const char* const end = at + line.size();
        for (std::size_t i = 0; i < out.size(); ++i) {
            double v = 0;
            const auto read = std::from_chars(at, end, v);
            const bool last = i + 1 == out.size();
            if (read.ec != std::errc{} || (last ? read.ptr != end : (read.ptr == end || *read.ptr != ','))) fail();
            out[i].push_back(v);
            at = last ? end : read.ptr + 1;
        }
    }
    if (out.empty()) throw std::runtime_error(path + ": empty");
    return out;
}

// The light that a file of nothing but comments is another name for; empty for a table.
std::string same_as(const std::string& id) {
    std::ifstream in(std::string(FORETONE_SPECTRA) + "/illuminants/" + id + ".csv");
    std::string line;
    const std::string mark = "# same as: ";
    while (std::getline(in, line))
        if (line.rfind(mark, 0) == 0) return line.substr(mark.size());
    return "";
}

spectral::Sampled sampled(const std::vector<double>& nm, const std::vector<double>& v) {
    spectral::Sampled s{nm, v};
    spectral::check(s);
    return s;
}

}  // namespace

spectral::Illuminant light(const std::string& id) {
    if (const auto other = same_as(id); !other.empty()) return {id, light(other).power};
    const auto c = columns(std::string(FORETONE_SPECTRA) + "/illuminants/" + id + ".csv", "wavelength_nm,power");
    return {id, sampled(c[0], c[1])};
}

spectral::Observer observer(const std::string& id) {
    const auto c = columns(std::string(FORETONE_SPECTRA) + "/observers/" + id + ".csv", "wavelength_nm,x,y,z");
    return {id, sampled(c[0], c[1]), sampled(c[0], c[2]), sampled(c[0], c[3])};
}

spectral::Illuminant thinned(const spectral::Illuminant& light, double first_nm, double last_nm, double step_nm) {
    spectral::Illuminant out{light.id, {}};
    for (std::size_t i = 0; i < light.power.value.size(); ++i) {
        const double nm = light.power.wavelength_nm[i];
        if (nm < first_nm || nm > last_nm || std::fmod(nm, step_nm) != 0) continue;
        out.power.wavelength_nm.push_back(nm);
        out.power.value.push_back(light.power.value[i]);
    }
    return out;
}

}  // namespace foretone::test
