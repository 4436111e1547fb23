#include "foretone/report/sureness.hpp"
#include "json_values.hpp"

namespace foretone::report {
namespace {

Json reading_json(const std::vector<std::string>& readings, const search::NextReading& reading) {
    Json j = {{"read", Json::array()}, {"spread_dE00", reading.spread_de00}};
    for (const std::size_t i : reading.of) j["read"].push_back(readings.at(i));
    return j;
}

}  // namespace

Json measure_next_json(const std::vector<std::string>& readings, const search::NextReadings& next) {
    return {{"words", measure_next_text(readings, next)},   {"spread_dE00", next.now_de00},
            {"spread_boards_dE00", next.floor_de00},        {"best_one", reading_json(readings, next.one)},
            {"best_two", reading_json(readings, next.two)}, {"step_board", reading_json(readings, next.all)}};
}

}  // namespace foretone::report
