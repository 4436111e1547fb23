#include "target_chances.hpp"

#include <algorithm>

#include "foretone/search/chance.hpp"

namespace foretone::job {
namespace {

// Share of the draws that lie within the tolerance under every light.
double share_within(double tolerance, const std::vector<appearance::Draws>& aim,
                    const std::vector<appearance::Draws>& draws) {
    std::size_t within = 0;
    const std::size_t count = draws.front().size();
    for (std::size_t i = 0; i < count; ++i) {
        bool all = true;
        for (std::size_t l = 0; l < draws.size(); ++l)
            all = all && color::delta_e_00(aim[l][i], draws[l][i]) <= tolerance;
        within += all;
    }
    return static_cast<double>(within) / static_cast<double>(count);
}

}  // namespace

const schedule::Finish* target_finish(const scene::Scene& scene) {
    if (!scene.target || scene.target->finish.empty()) return nullptr;
    for (const auto& f : scene.finishes)
        if (f.name == scene.target->finish) return &f;
    return nullptr;
}

std::vector<appearance::Draws> aimed_at(const TargetView& target, const appearance::Spread* finish, std::size_t draws) {
    if (finish) return finish->finished;
    std::vector<appearance::Draws> out;
    for (const auto& light : target.aim.lights) out.emplace_back(draws, light.lab);
    return out;
}

Chances target_chances(const std::vector<appearance::Draws>& aim, const appearance::Spread& spread,
                       const scene::Target& target) {
    Chances out;
    std::vector<appearance::Draws> other;
    for (std::size_t l = 0; l < aim.size(); ++l) {
        const auto& draws = spread.finished[l];
        other.push_back(appearance::on_the_other_board(draws));
        out.seen = std::max(out.seen, appearance::chance_beyond(search::client_sees_de00, aim[l], draws));
        out.seen_other_board =
            std::max(out.seen_other_board, appearance::chance_beyond(search::client_sees_de00, aim[l], other[l]));
        out.off_target_de00 = std::max(out.off_target_de00, appearance::difference_spread(aim[l], draws).spread_de00);
    }
    if (target.tolerance_de00)
        out.within = share_within(*target.tolerance_de00, aim, target.same_board ? spread.finished : other);
    return out;
}

}  // namespace foretone::job
