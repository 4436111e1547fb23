#pragma once
/// One finish of a scene as bench work: what to mix, buy and do, and when.

#include <optional>
#include <string>
#include <vector>

#include "foretone/job/clock.hpp"
#include "foretone/scene/scene.hpp"
#include "foretone/schedule/account.hpp"
#include "foretone/schedule/order_rules.hpp"
#include "foretone/schedule/pot.hpp"
#include "foretone/schedule/timeline.hpp"

namespace foretone::job {

struct PlanRequest {
    std::size_t finish = 0;
    double area_m2 = 1;
    schedule::Air air;
    schedule::Tools tools;
    std::string start;                                          ///< "2026-03-02 08:00", or empty: hours are counted
    ShopHours hours;                                            ///< when the shop is open
    schedule::UnitSystem units = schedule::UnitSystem::metric;  ///< of words and labels; figures are stored metric
};

/// What rounding a step's measures costs: see plan_rounding.hpp.
struct PlanRounding {
    std::optional<double> de00;          ///< largest over the lights; none: the measures make no such finish
    std::string light;                   ///< where it is that large
    std::optional<schedule::Pot> keeps;  ///< the smallest batch found that keeps the color, if this one does not
};

struct PlanStep {
    std::string action;  ///< "Orange shellac (dewaxed), 1-lb cut"
    material::Method method = material::Method::wipe;
    int coats = 1;
    double wet_um = 0, dry_um = 0;  ///< of one coat; `dry_um` is binder, soaked in or not
    double coverage_m2_per_l = 0;
    double loss = 0;  ///< share
    double ml = 0;    ///< all coats, loss included
    std::optional<double> sheen_gu60;
    std::optional<double> pot_life_h;       ///< how long what is mixed stays usable, as its can says
    std::optional<double> pot_life_here_h;  ///< at the shop's temperature
    schedule::Pot pot;
    std::optional<PlanRounding> rounding;
    std::vector<schedule::Account> accounts;  ///< of each coat, g/m², on the mean spot
};

/// All that the job takes of one material.
struct Purchase {
    std::string id, name;
    bool weighed = false;
    double amount = 0;  ///< g or mL
    int packs = 0;      ///< 0: no price is given
    double cost = 0;
};

struct Plan {
    std::string title, wood, finish, currency, code;  ///< `code`: see board_code.hpp
    std::string job_notes;                            ///< what its maker keeps for the job
    PlanRequest request;
    std::vector<PlanStep> steps;
    schedule::Timeline timeline;
    std::vector<std::string> when;  ///< for each coat: "day 1, 08:00" or a date
    std::string done;               ///< when the last coat is dry
    std::vector<Purchase> purchases;
    double cost = 0;       ///< of what has a price
    double solvent_g = 0;  ///< alcohol and thinners mixed in, which all evaporate; not what the cans themselves hold
    double can_voc_g = 0;  ///< what evaporates of cans that say their VOC
    std::vector<std::string> voc_unsaid;  ///< names of ready coats whose VOC is not said
    std::vector<std::string> notes, label;
    std::vector<schedule::Finding> findings;
    std::vector<std::string> cautions;
};

/// Works out the plan. Throws InputError: what `deposit` refuses, placed at its step; start-syntax; and, for a finish
/// that the order rules fail, each failure at its step with its mends.
Plan plan(const scene::Scene& scene, const PlanRequest& request);

}  // namespace foretone::job
