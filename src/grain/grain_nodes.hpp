#pragma once
// Noise that changes slowly from row to row: worked out at every few rows, straight between. With rows a sixth of a
// lattice cell apart a cubic spline is off by 0.6 % of its spread at most (h²/8 times its second derivative, whose root
// mean square is 2.4 spreads a cell²), and its variance by a ten-thousandth.

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "loops.hpp"

namespace foretone::grain {

class NodeRows {
public:
    /// For noise whose lattice cells are `cell_mm` high, in rows of `step` mm.
    NodeRows(double cell_mm, double step) : every_(std::clamp(static_cast<int>(cell_mm / (6 * step)), 1, 16)) {}

    /// Adds row y to `out`; draw(row, values) adds what belongs to a row to zeros. The same whatever was asked before.
    template <class Draw>
    void add(base::Isa isa, float* out, int count, int y, const Draw& draw) {
        const int node = static_cast<int>(std::floor(static_cast<double>(y) / every_));
        if (node != node_) {
            if (node == node_ + 1 && every_ > 1)
                std::swap(upper_, lower_);
            else
                fill(upper_, count, node, draw);
            if (every_ > 1) fill(lower_, count, node + 1, draw);
            node_ = node;
        }
        const float t = static_cast<float>(y - node * every_) / static_cast<float>(every_);
        add_between(isa, out, upper_.data(), every_ > 1 ? lower_.data() : upper_.data(), t, count);
    }

private:
    template <class Draw>
    void fill(std::vector<float>& row, int count, int node, const Draw& draw) {
        row.assign(static_cast<std::size_t>(count), 0.0f);
        draw(node * every_, row.data());
    }

    int every_, node_ = std::numeric_limits<int>::min() / 2;
    std::vector<float> upper_, lower_;
};

}  // namespace foretone::grain
