// Symbols: ρ density, g/mL · w weight of a US gallon, lb · s volume solids, % · c coverage, ft²/gal, of a film that is
// 1 mil thick when dry.
//
//   ρ = w · 453.59237/3785.411784        ρ = 0.9982 · specific gravity        s = 100 · c/1604.17
//
// A US gallon is 231 cubic inches: one mil of it covers 231 · 1000/144 = 1604.17 ft². Specific gravity is against
// water, 0.9982 g/mL at 20 °C.

#include "data_sheet.hpp"

#include <array>

#include <fmt/core.h>

#include "foretone/base/number.hpp"

namespace foretone::scene {
namespace {

struct Convertible {
    const char* key;
    const char* into;
    double factor, low, high;  ///< range of what is written
    const char* unit;
};
constexpr std::array<Convertible, 3> convertible = {
    {{"lb_per_gal", "density_g_per_ml", 453.59237 / 3785.411784, 5, 16, "lb/gal"},
     {"specific_gravity", "density_g_per_ml", 0.9982, 0.6, 2, ""},
     {"coverage_ft2_per_gal_1_mil_dry", "solids_volume_percent", 100 * 144.0 / 231000, 16, 1604, "ft2/gal"}}};

struct Kept {
    const char* key;
    const char* why;
};
constexpr std::array<Kept, 11> kept = {
    {{"solids_weight_percent", "films are worked out from volume solids: look for solids_volume_percent on the sheet"},
     {"apha", "pale colors are not read from APHA or Hazen yet; gardner is"},
     {"hazen", "pale colors are not read from APHA or Hazen yet; gardner is"},
     {"viscosity_cup_seconds", "flow is not modelled"},
     {"viscosity_cup", "flow is not modelled"},
     {"viscosity_cps", "flow is not modelled"},
     {"flash_point_c", "it changes no color"},
     {"flash_point_f", "it changes no color"},
     {"shelf_life_months", "it changes no color"},
     {"recoat_hours", "waits go by recoat_early_h and recoat_late_h under [material.NAME.order]"},
     {"dry_to_touch_hours", "waits go by recoat_early_h and recoat_late_h under [material.NAME.order]"}}};

class Sheet {
public:
    Sheet(toml::table& table, const std::string& name, const std::string& file, Problems& problems,
          std::vector<Problem>& notes)
        : table_(table), name_(name), file_(file), problems_(problems), notes_(notes) {}

    void run() {
        for (const auto& c : convertible) convert(c);
        for (const auto& k : kept) keep(k);
        take("pot_life_hours", 0.1, 1000, "hours", 1, can_.pot_life_h);
        if (table_.contains("voc_g_per_l") && table_.contains("voc_lb_per_gal"))
            problems_.add("key-conflict", place_of("voc_lb_per_gal"),
                          "voc_lb_per_gal and voc_g_per_l say the same: keep one of the two");
        take("voc_g_per_l", 0, 1000, "g/L", 1, can_.voc_g_per_l);
        take("voc_lb_per_gal", 0, 8.4, "lb/gal", 1000 * 453.59237 / 3785.411784, can_.voc_g_per_l);
    }

    const Can& can() const { return can_; }

private:
    Place place_of(const char* key) const { return Keys(table_, file_, name_, problems_).place_of(key); }

    void convert(const Convertible& c) {
        if (!table_.contains(c.key)) return;
        const auto place = place_of(c.key);
        const auto value = Keys(table_, file_, name_, problems_).number(c.key, c.low, c.high, c.unit);
        table_.erase(c.key);
        if (!value) return;
        if (table_.contains(c.into)) {
            problems_.add("key-conflict", place,
                          fmt::format("{} says {} once more: keep one of the two", c.key, c.into));
            return;
        }
        const double stored = *value * c.factor;
        table_.insert(c.into, stored);
        notes_.push_back(
            {"sheet-converted", place,
             fmt::format("{} = {} is {} {}", c.key, base::shortest(*value), c.into, base::at_most(stored, 3))});
    }

    void keep(const Kept& k) {
        if (!table_.contains(k.key)) return;
        notes_.push_back({"sheet-unused", place_of(k.key),
                          fmt::format("{} of {} is kept in the file and not used: {}", k.key, name_, k.why)});
        table_.erase(k.key);
    }

    void take(const char* key, double low, double high, const char* unit, double factor, std::optional<double>& into) {
        if (!table_.contains(key)) return;
        if (const auto value = Keys(table_, file_, name_, problems_).number(key, low, high, unit))
            into = *value * factor;
        table_.erase(key);
    }

    toml::table& table_;
    const std::string& name_;
    const std::string& file_;
    Problems& problems_;
    std::vector<Problem>& notes_;
    Can can_;
};

}  // namespace

std::vector<Problem> apply_data_sheets(toml::table& root, const std::string& file, Problems& problems, Cans& cans) {
    std::vector<Problem> notes;
    auto* materials = root["material"].as_table();
    if (!materials) return notes;
    for (auto&& [key, node] : *materials)
        if (auto* table = node.as_table()) {
            const std::string name = "[material." + std::string(key.str()) + "]";
            Sheet sheet(*table, name, file, problems, notes);
            sheet.run();
            cans[std::string(key.str())] = sheet.can();
        }
    return notes;
}

}  // namespace foretone::scene
