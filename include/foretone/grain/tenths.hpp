#pragma once
/// The contrast of a board whose spots come in pieces: all of them twice, in any pieces.

#include <array>
#include <span>
#include <vector>

#include "foretone/grain/contrast.hpp"

namespace foretone::grain {

class Tenths {
public:
    /// `tones` must outlive it.
    explicit Tenths(const appearance::ToneTable& tones) : tones_(tones) {}

    /// First all spots here: how pale and how dark they become. Uptake and pore may be empty.
    void widen(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore);
    /// Then all spots here.
    void count(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore);
    /// As `contrast` of the board. Throws std::invalid_argument if there were no spots.
    Contrast contrast() const;

private:
    struct Bin {
        std::size_t spots = 0;
        std::array<double, 3> xyz{};
    };
    const appearance::ToneTable& tones_;
    float low_ = 1e9F, high_ = -1e9F;  // of −Y
    std::vector<Bin> bins_;
    std::size_t spots_ = 0;
};

}  // namespace foretone::grain
