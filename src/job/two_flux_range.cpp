// The limits are those of the tables in optics/two_flux.hpp, which tests/optics/solver_agreement.cpp keeps true.

#include "foretone/job/two_flux_range.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "foretone/base/number.hpp"

namespace foretone::job {
namespace {

constexpr double least_g = -0.3;
constexpr double least_reduced = 0.05, most_reduced = 20;  // µs(1 − g), 1/mm: of hazy films, of slabs
constexpr double most_absorption = 20;                     // 1/mm
constexpr double thinnest_mm = 0.02, thickest_mm = 1;
constexpr double hardly = 1;  // µs(1 − g) d: a slab below it passes most of what falls on it
constexpr int most_clear_films = 5;

double largest_of(const std::vector<double>& values) {
    return values.empty() ? 0 : *std::max_element(values.begin(), values.end());
}

class Range {
public:
    Range(const scene::StackFile& file, std::string name) : file_(file), name_(std::move(name)) {}

    std::vector<scene::Problem> left() {
        int clear = 0;
        for (std::size_t i = 0; i < file_.stack.layers.size(); ++i) {
            const auto& layer = file_.stack.layers[i];
            if (largest_of(layer.scattering_per_mm) > 0)
                scattering(layer, fmt::format("layer {}", i + 1));
            else
                ++clear;
        }
        if (clear > most_clear_films)
            say(fmt::format("there are {} clear films; errors are stated for up to {}", clear, most_clear_films));
        if (file_.stack.base.kind == optics::Base::Kind::open)
            say("there is nothing below; errors are stated over a diffuse base and for half-spaces");
        return std::move(out_);
    }

private:
    void scattering(const optics::Layer& layer, const std::string& which) {
        if (layer.anisotropy < least_g)
            say(
                fmt::format("{} scatters backward (anisotropy {}); two-flux is no model of less than {} and off by up "
                            "to 0.6",
                            which, base::shortest(layer.anisotropy), base::shortest(least_g)));
        const double reduced = largest_of(layer.scattering_per_mm) * (1 - layer.anisotropy);
        if (reduced < least_reduced || reduced > most_reduced)
            say(fmt::format("{} has a reduced scattering of {} /mm; errors are stated for {} to {}", which,
                            base::at_most(reduced, 3), base::shortest(least_reduced), base::shortest(most_reduced)));
        if (const double absorbed = largest_of(layer.absorption_per_mm); absorbed > most_absorption)
            say(fmt::format("{} has an absorption of {} /mm; errors are stated up to {}", which,
                            base::at_most(absorbed, 3), base::shortest(most_absorption)));
        const double d = layer.thickness_mm;
        if (std::isfinite(d) && (d < thinnest_mm || d > thickest_mm))
            say(fmt::format("{} is {} mm thick; errors are stated for {} to {}, and for half-spaces", which,
                            base::shortest(d), base::shortest(thinnest_mm), base::shortest(thickest_mm)));
        if (file_.light.diffuse && std::isfinite(d) && layer.n > 1 && reduced * d < hardly)
            say(which + " hardly scatters and lies under diffuse light; such slabs come out as much as 0.24 wrong");
    }

    void say(const std::string& words) {
        out_.push_back({"two-flux-range", {name_}, words + ": ask again with --solver angular"});
    }

    const scene::StackFile& file_;
    std::string name_;
    std::vector<scene::Problem> out_;
};

}  // namespace

std::vector<scene::Problem> beyond_two_flux(const scene::StackFile& file, const std::string& name) {
    return Range(file, name).left();
}

}  // namespace foretone::job
