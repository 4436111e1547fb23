#pragma once
/// Finishes over the library's materials, for tests: from nothing to strong dye, oil, pigment and haze.

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "foretone/schedule/step.hpp"
#include "support/standards.hpp"
#include "support/whole_library.hpp"

namespace foretone::test {

inline const material::Wood& wood_of(const std::string& id) {
    return std::get<material::Wood>(whole_library().at(id).data);
}

inline schedule::Step step_of(std::vector<schedule::Part> mix, int coats, material::Method method) {
    schedule::Step s;
    s.mix = std::move(mix);
    s.coats = coats;
    s.method = method;
    return s;
}

inline schedule::Step dye_step(const std::string& stock, double water_parts) {
    auto s = step_of({{stock, schedule::Amount::parts, 1}, {"water", schedule::Amount::parts, water_parts}}, 1,
                     material::Method::wipe);
    s.wet_g_per_m2 = 70;
    return s;
}

inline schedule::Step coat_step(const std::string& film, int coats, double gu60 = -1) {
    auto s = step_of({{film, schedule::Amount::parts, 1}}, coats, material::Method::brush);
    if (gu60 >= 0) s.sheen_gu60 = gu60;
    return s;
}

inline schedule::Step wash_step() {
    auto s = step_of({{"super-blonde-shellac", schedule::Amount::parts, 1}}, 1, material::Method::spray);
    s.cut_lb = 0.75;
    return s;
}

inline std::vector<schedule::Finish> finishes() {
    const auto oil = step_of({{"boiled-linseed", schedule::Amount::parts, 1}}, 2, material::Method::wipe);
    return {{"bare control", {}},
            {"waterborne", {coat_step("waterborne-acrylic", 2)}},
            {"oil varnish", {coat_step("oil-varnish", 3, 80)}},
            {"linseed", {oil}},
            {"honey dye, waterborne", {dye_step("honey-dye", 15), coat_step("waterborne-acrylic", 2, 20)}},
            {"strong raven dye, varnish", {dye_step("raven-dye", 3), coat_step("oil-varnish", 2)}},
            {"wash coat, umber dye, varnish", {wash_step(), dye_step("umber-dye", 9), coat_step("oil-varnish", 2, 40)}},
            {"umber dye alone", {dye_step("umber-dye", 9)}},
            {"linseed, shellac", {oil, coat_step("garnet-shellac", 2)}}};
}

}  // namespace foretone::test
