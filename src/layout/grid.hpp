#pragma once
/// Columns of color fields that touch, under several lights, with captions below: what step board and comparison have
/// in common.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "foretone/layout/field.hpp"
#include "page.hpp"

namespace foretone::layout {

/// Lights of a page, and fields side by side in one strip.
inline constexpr std::size_t most_lights = 8, strip_most = 8;

/// A caption is L*, a* and b* in line with those of its neighbours, or text that is wrapped.
struct Caption {
    std::vector<std::string> numbers;  ///< three, or none
    std::string text;
};

struct Cell {
    light::Code code{};
    bool in_gamut = true;
    std::vector<Caption> captions;        ///< one a label of the grid
    std::optional<light::Code> beside{};  ///< what it is compared with: takes the lower part of the field, touching it
};

struct GridColumn {
    std::string heading, subheading;
    std::vector<Cell> by_light;
};

struct Grid {
    std::vector<std::string> lights;
    std::vector<std::string> labels;  ///< of the captions, set left of them
    std::vector<GridColumn> columns;
    /// Rows of the page: which columns stand in each, left to right.
    std::vector<std::vector<std::size_t>> strips;
};

/// The captions every field has: L* a* b*, sRGB code, spread; and their labels.
std::vector<Caption> field_captions(const Field& field);
std::vector<std::string> field_labels();

/// How far the fields of this grid stand in from the page's left edge, pixels.
int grid_gutter(const Grid& grid);

/// How wide the page's inner part should be for this grid, pixels.
int grid_width(const Grid& grid);

/// Places the grid from `y` on; returns where it ends.
int add_grid(Page& page, int y, const Grid& grid);

/// Throws std::invalid_argument, opening with `place`, if a value of the field is out of its range or `hex` is not that
/// of `code`.
void check_field(const Field& field, const std::string& place);

}  // namespace foretone::layout
