// Each rule of order by itself, on materials with round facts: what sets it off, what silences it, each bound from both
// sides, and what its mend does.

#include "foretone/schedule/order_rules.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "schedule/small_materials.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {
using material::Method;
using material::Sure;

material::YesNo fact(bool value = true, Sure sure = Sure::practice) { return {value, sure, "a made-up source"}; }

material::Words lifts(std::vector<std::string> liquids, Sure sure = Sure::practice) {
    return {std::move(liquids), sure, "a made-up source"};
}

// A film "varnish" that nothing lifts, an "oil" that cures in ten days, a "resin" lifted by alcohol that ties.
material::Materials ruled_shelf() {
    auto materials = small_materials();
    put(materials, "wax", "wax", film(30));
    materials["wax"].order.holds_wax = fact();
    auto& film = materials["varnish"].order;
    film.redissolved_by = lifts({});
    film.recoat_early_h = figure(2), film.recoat_late_h = figure(24), film.cure_days = figure(7);
    auto& oil = materials["oil"].order;
    oil.holds_wax = fact(false);
    oil.recoat_early_h = figure(24), oil.cure_days = figure(10);
    auto& resin = materials["resin"].order;
    resin.redissolved_by = lifts({"alcohol"});
    resin.ties = fact();
    return materials;
}

Step laid(const std::string& id, Method method = Method::brush) {
    Step s;
    s.mix = {{id, Amount::parts, 1}};
    s.method = method;
    s.wet_um = 60;
    return s;
}

Step laid_after(const std::string& id, double days) {
    auto s = laid(id);
    s.after_days = days;
    return s;
}

// "wax-below:failure leave_out+seal" of each finding.
std::string judged_as(const material::Materials& materials, std::vector<Step> steps, bool wet_place = false) {
    constexpr const char* kinds[] = {"spray", "wait", "scuff", "seal", "swap", "leave_out", "coat"};
    std::string out;
    for (const auto& f : check_order({"x", std::move(steps), wet_place}, materials)) {
        out += (out.empty() ? "" : " | ") + f.id + ":" + std::string(word(f.severity));
        for (const auto& m : f.mends) out += std::string(" ") + kinds[static_cast<std::size_t>(m.kind)];
    }
    return out.empty() ? "none" : out;
}

}  // namespace

TEST_CASE(
    "color bleeds into a coat that dissolves it, less when sprayed, and not when another liquid carries the coat") {
    const auto materials = ruled_shelf();
    auto thin = laid("varnish");  // carried by water, as the dye is
    CHECK(judged_as(materials, {laid("stock", Method::wipe), thin}) == "bleeds:warning spray seal");
    thin.method = Method::spray;
    CHECK(judged_as(materials, {laid("stock", Method::wipe), thin}) == "bleeds:note seal");
    CHECK(judged_as(materials, {laid("stock", Method::wipe), laid("resin")}) == "none");
    CHECK(judged_as(materials, {laid("water", Method::wipe), laid("varnish")}) ==
          "none");  // no color, nothing to bleed
    auto disputed = materials;
    disputed["resin"].order.redissolved_by = lifts({"alcohol"}, Sure::conflicting);
    std::get<material::Dye>(disputed.at("dye").data).carriers.push_back("alcohol");
    auto tinted = laid("resin");
    tinted.mix.push_back({"dye", Amount::g_per_l, 2});
    CHECK(judged_as(disputed, {tinted, laid("resin")}) == "bleeds:warning spray");  // the tie itself would lift it
}

TEST_CASE("a second coat of a tinted film that lifts itself bleeds, one coat does not") {
    auto materials = ruled_shelf();
    std::get<material::Dye>(materials.at("dye").data).carriers.push_back("alcohol");
    auto tinted = laid("resin");
    tinted.mix.push_back({"dye", Amount::g_per_l, 2});
    CHECK(judged_as(materials, {tinted}) == "none");
    tinted.coats = 2;
    CHECK(judged_as(materials, {tinted}) == "bleeds:warning spray");
    tinted.mix.pop_back();
    CHECK(judged_as(materials, {tinted}) == "none");
}

TEST_CASE("what does not stick to wax fails on wax, and may fail on a film with wax in it") {
    auto materials = ruled_shelf();
    CHECK(judged_as(materials, {laid("wax"), laid("varnish")}) == "none");  // nothing is known of the varnish
    materials["varnish"].order.sticks_not_to["wax"] = fact();
    CHECK(judged_as(materials, {laid("wax"), laid("varnish")}) == "wax-below:failure leave_out");
    CHECK(judged_as(materials, {laid("resin"), laid("varnish")}) == "none");
    materials["resin"].order.holds_wax = fact();
    CHECK(judged_as(materials, {laid("resin"), laid("varnish")}) == "none");  // wax and waxed films are two things
    materials["varnish"].order.sticks_not_to["waxed-film"] = fact();
    CHECK(judged_as(materials, {laid("resin"), laid("varnish")}) == "wax-below:warning swap");
    materials["varnish"].order.sticks_not_to["waxed-film"].value = false;
    CHECK(judged_as(materials, {laid("resin"), laid("varnish")}) == "none");
    materials["varnish"].order.sticks_not_to["wax"].sure = Sure::conflicting;
    CHECK(judged_as(materials, {laid("wax"), laid("varnish")}) == "wax-below:warning leave_out");
}

TEST_CASE(
    "an oil is to cure below what does not hold on to it: told where no days are said, failing where too few are") {
    auto materials = ruled_shelf();
    CHECK(judged_as(materials, {laid("oil", Method::wipe), laid_after("varnish", 3)}) == "none");
    materials["varnish"].order.sticks_not_to["uncured-oil"] = fact();
    CHECK(judged_as(materials, {laid("oil", Method::wipe), laid("varnish")}) == "uncured-below:note wait seal");
    CHECK(judged_as(materials, {laid("oil", Method::wipe), laid_after("varnish", 9.99)}) ==
          "uncured-below:failure wait seal");
    CHECK(judged_as(materials, {laid("oil", Method::wipe), laid_after("varnish", 10)}) == "none");
    CHECK(judged_as(materials, {laid("resin"), laid_after("varnish", 1)}) == "none");  // a film is no oil
}

TEST_CASE("nothing goes on before the layer below is dry") {
    const auto materials = ruled_shelf();
    CHECK(judged_as(materials, {laid("varnish"), laid_after("resin", 1.9 / 24)}) == "too-early:warning wait");
    CHECK(judged_as(materials, {laid("varnish"), laid_after("resin", 2.0 / 24)}) == "none");
    const auto early = check_order({"x", {laid("varnish"), laid_after("resin", 0.01)}, false}, materials);
    CHECK(early.at(0).mends.at(0).days * 24 == Approx(2));
    auto unsaid = materials;
    unsaid["varnish"].order.recoat_early_h.reset();
    CHECK(judged_as(unsaid, {laid("varnish"), laid_after("resin", 0)}) == "none");
}

TEST_CASE("a film whose window has shut wants a scratch, unless it melts in or is scratched") {
    auto materials = ruled_shelf();
    materials["varnish"].order.needs_scuff = fact();
    CHECK(judged_as(materials, {laid("varnish"), laid_after("varnish", 1)}) == "none");
    CHECK(judged_as(materials, {laid("varnish"), laid_after("varnish", 1.01)}) == "needs-scratch:warning scuff");
    CHECK(judged_as(materials, {laid("varnish"), laid("varnish")}) == "none");  // its own usual wait
    CHECK(judged_as(materials, {laid("varnish"), laid("resin")}) ==
          "needs-scratch:note scuff");                                                 // another film, no days
    CHECK(judged_as(materials, {laid("varnish"), laid_after("resin", 1)}) == "none");  // within the window
    auto scratched = laid_after("varnish", 3);
    scratched.scuff = true;
    CHECK(judged_as(materials, {laid("varnish"), scratched}) == "none");
    scratched.scuff = false, scratched.sand = 320;
    CHECK(judged_as(materials, {laid("varnish"), scratched}) == "none");
    materials["varnish"].order.redissolved_by = lifts({"alcohol"});
    CHECK(judged_as(materials, {laid("varnish"), laid_after("resin", 3)}) == "none");
}

TEST_CASE("hot solvents wrinkle soft films, and a tie coat is a weak floor for what cures by a hardener") {
    auto materials = ruled_shelf();
    materials["resin"].order.hot_solvent = fact();
    CHECK(judged_as(materials, {laid("varnish"), laid("resin")}) == "none");
    materials["varnish"].order.wrinkles = fact();
    CHECK(judged_as(materials, {laid("varnish"), laid("resin")}) == "wrinkles:failure seal");
    materials["varnish"].order.wrinkles = fact(true, Sure::conflicting);
    CHECK(judged_as(materials, {laid("varnish"), laid("resin")}) == "wrinkles:warning seal");
    CHECK(judged_as(materials, {laid("resin"), laid("varnish")}) == "none");
    materials["varnish"].order.two_component = fact();
    CHECK(judged_as(materials, {laid("resin"), laid("varnish")}) == "tie-two-component:warning leave_out");
}

TEST_CASE("dye over what closes the wood is wiped off, or rubs off until a coat goes over it") {
    auto materials = ruled_shelf();
    materials["stock"].order.recoat_early_h = figure(1);
    const auto dye = [&](Method m) { return laid("stock", m); };
    CHECK(judged_as(materials, {laid("resin"), dye(Method::wipe)}) == "dye-wiped-off:warning spray leave_out");
    CHECK(judged_as(materials, {laid("resin"), dye(Method::spray)}) == "dye-rubs-off:warning coat");
    CHECK(judged_as(materials, {laid("resin"), dye(Method::spray), laid("resin")}) == "none");
    auto wash = laid("resin");
    wash.cut_lb = 0.25;
    wash.wet_um = 40;
    CHECK(judged_as(materials, {wash, dye(Method::wipe)}) == "none");  // open enough
}

TEST_CASE("a wet place and an unknown material are told of the step, once") {
    auto materials = ruled_shelf();
    CHECK(judged_as(materials, {laid("resin")}, true) == "none");
    materials["resin"].order.suits_wet_places = fact(false);
    CHECK(judged_as(materials, {laid("resin")}, true) == "tie-wet-place:warning leave_out");
    CHECK(judged_as(materials, {laid("resin")}, false) == "none");
    materials["varnish"].order = {};
    CHECK(judged_as(materials, {laid("varnish"), laid("varnish")}) == "order-unknown:note");
}

TEST_CASE("findings stand by step, the worst of a step first, and fail only by a failure") {
    auto materials = ruled_shelf();
    materials["varnish"].order.wrinkles = fact();
    materials["varnish"].order.needs_scuff = fact();
    materials["resin"].order.hot_solvent = fact();
    CHECK(judged_as(materials, {laid("varnish"), laid("resin"), laid("varnish"), laid("resin")}) ==
          "wrinkles:failure seal | needs-scratch:note scuff | wrinkles:failure seal | needs-scratch:note scuff");
    CHECK(fails(check_order({"x", {laid("varnish"), laid("resin")}, false}, materials)));
    CHECK_FALSE(fails(check_order({"x", {laid("resin"), laid("varnish")}, false}, materials)));
    CHECK_FALSE(fails({}));
}

TEST_CASE("a mend changes one thing: what it says, where it says") {
    const auto materials = ruled_shelf();
    const Finish f{"x", {laid("varnish"), laid_after("resin", 5)}, false};
    Finding finding;
    finding.step = 1;
    finding.under = "varnish";
    const auto after = [&](Mend::Kind kind, const std::string& material = "") {
        return mended(f, finding, {kind, 3, material, ""}, materials);
    };
    CHECK(after(Mend::Kind::spray).steps[1].method == Method::spray);
    CHECK(after(Mend::Kind::wait).steps[1].after_days == 3.0);
    CHECK(after(Mend::Kind::scuff).steps[1].scuff);
    CHECK(after(Mend::Kind::leave_out).steps[0].mix[0].use == "resin");
    const auto sealed = after(Mend::Kind::seal, "resin");
    REQUIRE(sealed.steps.size() == 3);
    CHECK((sealed.steps[1].mix[0].use == "resin" && sealed.steps[1].method == Method::spray));
    CHECK((sealed.steps[1].after_days == 5.0 && !sealed.steps[2].after_days));  // the wait is the seal's now
    const auto covered = after(Mend::Kind::coat, "varnish");
    CHECK((covered.steps.size() == 3 && covered.steps[2].mix[0].use == "varnish"));
    finding.under.clear();  // over bare wood it is the step itself that goes
    CHECK(after(Mend::Kind::leave_out).steps[0].mix[0].use == "varnish");
    CHECK_THROWS_AS(after(Mend::Kind::seal, "unheard-of"), std::invalid_argument);
    finding.step = 2;
    CHECK_THROWS_AS(after(Mend::Kind::scuff), std::invalid_argument);
}

TEST_CASE("only a mend that waits has days") {
    const auto materials = ruled_shelf();
    int waits = 0, others = 0;
    for (const auto& steps : {std::vector{laid("stock", Method::wipe), laid("varnish")},
                              std::vector{laid("oil"), laid_after("varnish", 0.5)},
                              std::vector{laid("varnish"), laid_after("varnish", 0.01)}})
        for (const auto& f : check_order({"x", steps, false}, materials))
            for (const auto& m : f.mends) {
                CHECK((m.kind == Mend::Kind::wait) == (m.days > 0));
                (m.kind == Mend::Kind::wait ? waits : others) += 1;
            }
    CHECK(waits > 0);
    CHECK(others > 0);
}
