#include <cctype>
#include <cmath>
#include <stdexcept>

#include "grid.hpp"

namespace foretone::layout {

void check_field(const Field& field, const std::string& place) {
    constexpr const char* names[] = {"L*", "a*", "b*"};
    for (std::size_t i = 0; i < 3; ++i) {
        if (!(std::abs(field.lab[i]) < 1000)) {  // also false for what is not a number
            throw std::invalid_argument(place + ": " + names[i] + " must be a number within ±1000, got " +
                                        std::to_string(field.lab[i]));
        }
    }
    if (!(field.spread_de00 >= 0 && field.spread_de00 < 1000)) {
        throw std::invalid_argument(place + ": spread_de00 must be 0 to 1000, got " +
                                    std::to_string(field.spread_de00));
    }
    if (field.hex.empty()) {
        return;
    }
    std::string given = field.hex;
    for (char& c : given) {
        c = char(std::tolower(static_cast<unsigned char>(c)));
    }
    Field plain = field;
    plain.in_gamut = true;
    const std::string expected = field_captions(plain)[1].text;
    if (given != expected) {
        throw std::invalid_argument(place + ": hex must be that of the code, " + expected + ", got " + field.hex);
    }
}

}  // namespace foretone::layout
