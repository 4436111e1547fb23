#include "foretone/report/sureness.hpp"

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"

namespace foretone::report {
namespace {

std::string plus_minus(double de00) { return "±" + base::fixed(de00, 1); }

// A step board that takes less than a tenth of the spread is not worth an hour.
constexpr double hardly = 0.9;

}  // namespace

std::string sureness_text(const job::SeenFinish& finish, std::size_t light) {
    const auto& c = finish.stages.back().colors.at(light);
    return plus_minus(c.spread_de00) + " under " + c.light + ": " + plus_minus(c.region.materials_de00) +
           " by what your materials are, " + plus_minus(c.region.boards_de00) + " by what boards and coats do";
}

std::string readings_text(const std::vector<std::string>& readings, const search::NextReading& reading) {
    std::vector<std::string> words;
    for (const std::size_t i : reading.of) words.push_back(readings.at(i));
    return base::joined(words, ", ", " and ");
}

std::string measure_next_text(const std::vector<std::string>& readings, const search::NextReadings& n) {
    if (!(n.all.spread_de00 < hardly * n.now_de00))
        return "a step board would hardly narrow this: " + plus_minus(n.floor_de00) + " is what boards and coats do";
    std::string out =
        "one step board would bring this from " + plus_minus(n.now_de00) + " to about " + plus_minus(n.all.spread_de00);
    if (!n.one.of.empty() && n.all.of.size() > 1)
        out += "; reading " + readings_text(readings, n.one) + " alone, to about " + plus_minus(n.one.spread_de00);
    if (n.two.of.size() == 2 && n.all.of.size() > 2)
        out += "; " + readings_text(readings, n.two) + ", to about " + plus_minus(n.two.spread_de00);
    return out;
}

}  // namespace foretone::report
