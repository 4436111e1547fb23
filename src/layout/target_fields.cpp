#include "target_fields.hpp"

#include <algorithm>

#include "foretone/base/number.hpp"

namespace foretone::layout {

void check_counts(std::size_t lights, std::size_t columns, const std::string& place) {
    if (lights < 1 || lights > 8) throw std::invalid_argument(place + ": 1 to 8 lights, got " + std::to_string(lights));
    if (columns < 1 || columns > 64)
        throw std::invalid_argument(place + ": 1 to 64 columns, got " + std::to_string(columns));
}

void check_fields(const std::vector<Field>& fields, const std::vector<std::string>& lights, const std::string& place) {
    if (fields.size() != lights.size())
        throw std::invalid_argument(place + ": one field a light, " + std::to_string(lights.size()) + ", got " +
                                    std::to_string(fields.size()));
    for (std::size_t l = 0; l < fields.size(); ++l) check_field(fields[l], place + ", light " + lights[l]);
}

void check_fields(const std::vector<ComparedField>& fields, const std::vector<std::string>& lights,
                  const std::string& place) {
    std::vector<Field> plain;
    for (const auto& f : fields) {
        plain.push_back(f.field);
        if (!(f.de00 >= 0 && f.de00 < 1000))
            throw std::invalid_argument(place + ": de00 must be 0 to 1000, got " + base::shortest(f.de00));
    }
    check_fields(plain, lights, place);
}

void take(Foot& foot, const Field& field) {
    foot.least_spread = std::min(foot.least_spread, field.spread_de00);
    foot.most_spread = std::max(foot.most_spread, field.spread_de00);
    foot.out_of_gamut = foot.out_of_gamut || !field.in_gamut;
}

std::vector<std::vector<std::size_t>> rows_of(std::size_t lead, std::size_t columns) {
    constexpr std::size_t most = 8;
    const std::size_t others = columns - lead, free = most - lead;
    const std::size_t rows = std::max<std::size_t>(1, (others + free - 1) / free), length = (others + rows - 1) / rows;
    std::vector<std::vector<std::size_t>> out(rows);
    for (std::size_t r = 0; r < rows; ++r) {
        for (std::size_t c = 0; c < lead; ++c) out[r].push_back(c);
        for (std::size_t c = lead + r * length; c < std::min(lead + (r + 1) * length, columns); ++c)
            out[r].push_back(c);
    }
    return out;
}

}  // namespace foretone::layout
