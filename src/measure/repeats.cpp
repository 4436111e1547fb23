// Repeats of one patch: mean and standard deviation.
//
// Symbols: m repeats · ΔE00 color difference of a repeat from the mean color.
// The divisor is m − 1: the mean was taken from the same m readings. ΔE00 is taken from each reading to the mean and
// not between pairs, so that it stays in the small range in which the formula is nearly a Euclidean distance and its
// squares may be summed.

#include "foretone/measure/repeats.hpp"

#include <cmath>
#include <tuple>

namespace foretone::measure {
namespace {

using Key =
    std::tuple<std::string, std::map<std::string, std::string>, std::string, std::string, int, bool, bool, bool, bool>;

Key group_key(const Reading& r) {
    return {r.name,
            r.tags,
            r.light,
            r.observer,
            r.geometry ? static_cast<int>(*r.geometry) : -1,
            r.reflectance.has_value(),
            r.lab.has_value(),
            r.xyz.has_value(),
            r.relative};
}

spectral::Sampled mean_spectrum(const std::vector<const Reading*>& group) {
    spectral::Sampled mean = *group.front()->reflectance;
    for (std::size_t g = 1; g < group.size(); ++g)
        for (std::size_t i = 0; i < mean.value.size(); ++i)
            mean.value[i] += spectral::cubic_at(*group[g]->reflectance, mean.wavelength_nm[i]);
    for (double& v : mean.value) v /= static_cast<double>(group.size());
    return mean;
}

color::Lab lab_of(const Reading& r, const color::Weights& weights) {
    return r.reflectance ? color::to_lab(color::xyz(spectral::to_grid(*r.reflectance).spectrum, weights), weights.white)
                         : *r.lab;
}

double spread(const std::vector<const Reading*>& group, const Reading& mean, const color::Weights& weights) {
    const auto center = lab_of(mean, weights);
    double sum = 0;
    for (const auto* r : group) {
        const double de = color::delta_e_00(lab_of(*r, weights), center);
        sum += de * de;
    }
    return std::sqrt(sum / static_cast<double>(group.size() - 1));
}

Reading mean_of(const std::vector<const Reading*>& group, const color::Weights& weights) {
    Reading mean = *group.front();
    if (group.size() == 1) return mean;
    const double m = static_cast<double>(group.size());
    if (mean.reflectance) mean.reflectance = mean_spectrum(group);
    color::Lab lab;
    color::Xyz xyz;
    mean.repeats = 0;
    for (const auto* r : group) {
        mean.repeats += r->repeats;
        if (r->lab) lab = {lab.l + r->lab->l / m, lab.a + r->lab->a / m, lab.b + r->lab->b / m};
        if (r->xyz) xyz = {xyz.x + r->xyz->x / m, xyz.y + r->xyz->y / m, xyz.z + r->xyz->z / m};
    }
    if (mean.lab) mean.lab = lab;
    if (mean.xyz) mean.xyz = xyz;
    if (mean.reflectance || mean.lab) mean.spread_de = spread(group, mean, weights);
    return mean;
}

}  // namespace

Readings average_repeats(const Readings& in, const color::Weights& weights) {
    std::map<Key, std::size_t> place;
    std::vector<std::vector<const Reading*>> groups;
    for (const auto& r : in.readings) {
        const auto [it, fresh] = place.try_emplace(group_key(r), groups.size());
        if (fresh) groups.emplace_back();
        groups[it->second].push_back(&r);
    }
    Readings out{in.format, in.keywords, {}, in.notes};
    for (const auto& group : groups) {
        out.readings.push_back(mean_of(group, weights));
        if (group.size() > 1)
            out.notes.push_back(
                {"repeats-averaged", group.front()->line, 1,
                 std::to_string(group.size()) + " readings of '" + group.front()->name + "' were averaged"});
    }
    return out;
}

}  // namespace foretone::measure
