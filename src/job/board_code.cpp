// Symbols: s1 … s4 the code's signs as numbers 0–30, c its check sign; h a checksum of the recipe.
//
//   s1 + 31 s2 + 31² s3 + 31³ s4 = h mod 31⁴          2 s1 + 3 s2 + 4 s3 + 5 s4 + c = 0 mod 31
//
// The signs are the digits from 2 and the letters without I, L, O and the digits 0 and 1, which hands and eyes confuse:
// 31, a prime. So one wrong sign changes the sum by k·d, d not 0, and two exchanged ones by (j − k)·d: never by a
// multiple of 31, and every such slip is noticed. Two recipes of a scene share a code once in 923,521.

#include "foretone/job/board_code.hpp"

#include <array>

#include "foretone/base/checksum.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/search/words.hpp"

namespace foretone::job {
namespace {

constexpr std::string_view signs = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
static_assert(signs.size() == 31);

// Everything that a step says, beside what stands in its line.
std::string every_figure(const schedule::Finish& finish) {
    std::string out = finish.name + "\n" + search::mixing_line(finish) + (finish.wet_place ? "\nwet place" : "");
    for (const auto& s : finish.steps) {
        out += "\n";
        for (const auto& figure :
             {s.ready_cut_lb, s.after_days, s.sand, s.flood_minutes, s.remainder, s.passes, s.toner_strength})
            out += (figure ? base::shortest(*figure) : "-") + " ";
        out += std::string(s.scuff ? "scuffed " : "") + (s.water_pop ? "popped" : "");
    }
    return out;
}

std::size_t check_sign(std::string_view four) {
    std::size_t sum = 0;
    for (std::size_t i = 0; i < four.size(); ++i) sum += (i + 2) * signs.find(four[i]);
    return (31 - sum % 31) % 31;
}

std::string shown(std::string_view five) { return std::string(five.substr(0, 4)) + "-" + std::string(five.substr(4)); }

std::string known_codes(const scene::Scene& scene) {
    std::string out;
    for (const auto& f : scene.finishes) out += (out.empty() ? "" : "; ") + board_code(f) + " \"" + f.name + "\"";
    return out;
}

}  // namespace

std::string board_code(const schedule::Finish& finish) {
    auto h = base::fnv1a(every_figure(finish));
    std::string out;
    for (int i = 0; i < 4; ++i, h /= 31) out += signs[static_cast<std::size_t>(h % 31)];
    return shown(out + signs[check_sign(out)]);
}

std::size_t finish_of_code(const scene::Scene& scene, const std::string& code, const std::string& asked) {
    const auto five = base::upper(base::replaced(base::replaced(code, "-", ""), " ", ""));
    if (five.size() != 5 || five.find_first_not_of(signs) != std::string::npos)
        throw scene::InputError("code-syntax", {asked},
                                "'" + code.substr(0, 40) +
                                    "' is no board's code: five signs as K7QM-4, digits from 2 and letters without I, "
                                    "L and O");
    const auto four = std::string_view(five).substr(0, 4);
    if (signs[check_sign(four)] != five[4])
        throw scene::InputError("code-slip", {asked},
                                "'" + shown(five) + "' does not add up: one sign is misread, or two are exchanged. " +
                                    "Codes of this scene: " + known_codes(scene));
    for (std::size_t i = 0; i < scene.finishes.size(); ++i)
        if (board_code(scene.finishes[i]) == shown(five)) return i;
    throw scene::InputError("code-unknown", {asked},
                            "no finish of this scene has the code " + shown(five) +
                                ": its recipe was changed after the label was printed, or it is another scene's. "
                                "Codes of this scene: " +
                                known_codes(scene));
}

}  // namespace foretone::job
