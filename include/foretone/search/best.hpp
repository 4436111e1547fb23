#pragma once
/// The best recipes of each kind, in bounded room.

#include <array>
#include <cstdint>
#include <limits>
#include <vector>

#include "foretone/search/space.hpp"

namespace foretone::search {

struct Found {
    double de00 = 0;           ///< worst over the lights
    std::uint64_t number = 0;  ///< of the recipe
    bool operator==(const Found&) const = default;
};

/// Total order: closer first, among equals the lower number. So what is kept does not depend on the order of arrival.
inline bool closer(const Found& a, const Found& b) { return a.de00 != b.de00 ? a.de00 < b.de00 : a.number < b.number; }

/// Keeps the `room` closest recipes of every kind; a kind is a number of steps and a number of colorants.
class Best {
public:
    explicit Best(std::size_t room) : room_(room) {}

    /// ΔE00 above which a recipe of this kind is not kept.
    double limit(int steps, int colorants) const {
        const auto& k = kind(steps, colorants);
        return k.size() < room_ ? std::numeric_limits<double>::infinity() : k.front().de00;
    }
    void offer(int steps, int colorants, const Found& found);
    /// Takes over what another found.
    void merge(const Best& other);

    /// The `most` closest of all kinds, closest first.
    std::vector<Found> closest(std::size_t most) const;

    /// One recipe of each kind that no other beats: none is as close with as few steps and as few colorants. Closest
    /// first.
    std::vector<Found> front() const;

private:
    // Of a coat: its own color and a tint.
    static constexpr int most_steps_ = longest_recipe, most_colorants_ = static_cast<int>(most_stocks + 2 * rooms);
    using Kind = std::vector<Found>;  // a heap, the farthest on top
    const Kind& kind(int steps, int colorants) const {
        return kinds_[static_cast<std::size_t>(steps * (most_colorants_ + 1) + colorants)];
    }

    std::size_t room_;
    std::array<Kind, (most_steps_ + 1) * (most_colorants_ + 1)> kinds_;
};

}  // namespace foretone::search
