// Each rule of order by itself, on materials with round facts: what sets it off, what silences it, each bound from both
// sides, and what its mend does.

#include "foretone/schedule/judge.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "schedule/shelf.hpp"

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
material::Shelf ruled_shelf() {
    auto shelf = small_shelf();
    put(shelf, "wax", "wax", film(30));
    shelf["wax"].order.holds_wax = fact();
    auto& film = shelf["varnish"].order;
    film.redissolved_by = lifts({});
    film.recoat_early_h = figure(2), film.recoat_late_h = figure(24), film.cure_days = figure(7);
    auto& oil = shelf["oil"].order;
    oil.holds_wax = fact(false);
    oil.recoat_early_h = figure(24), oil.cure_days = figure(10);
    auto& resin = shelf["resin"].order;
    resin.redissolved_by = lifts({"alcohol"});
    resin.ties = fact();
    return shelf;
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
std::string judged_as(const material::Shelf& shelf, std::vector<Step> steps, bool wet_place = false) {
    constexpr const char* kinds[] = {"spray", "wait", "scuff", "seal", "swap", "leave_out", "coat"};
    std::string out;
    for (const auto& f : judge({"x", std::move(steps), wet_place}, shelf)) {
        out += (out.empty() ? "" : " | ") + f.id + ":" + std::string(word(f.severity));
        for (const auto& m : f.mends) out += std::string(" ") + kinds[static_cast<std::size_t>(m.kind)];
    }
    return out.empty() ? "none" : out;
}

}  // namespace

TEST_CASE(
    "color bleeds into a coat that dissolves it, less when sprayed, and not when another liquid carries the coat") {
    const auto shelf = ruled_shelf();
    auto thin = laid("varnish");  // carried by water, as the dye is
    CHECK(judged_as(shelf, {laid("stock", Method::wipe), thin}) == "bleeds:warning spray seal");
    thin.method = Method::spray;
    CHECK(judged_as(shelf, {laid("stock", Method::wipe), thin}) == "bleeds:note seal");
    CHECK(judged_as(shelf, {laid("stock", Method::wipe), laid("resin")}) == "none");
    CHECK(judged_as(shelf, {laid("water", Method::wipe), laid("varnish")}) == "none");  // no color, nothing to bleed
    auto disputed = shelf;
    disputed["resin"].order.redissolved_by = lifts({"alcohol"}, Sure::conflicting);
    auto tinted = laid("resin");
    tinted.mix.push_back({"dye", Amount::g_per_l, 2});
    CHECK(judged_as(disputed, {tinted, laid("resin")}) == "bleeds:warning spray");  // the tie itself would lift it
}

TEST_CASE("a second coat of a tinted film that lifts itself bleeds, one coat does not") {
    const auto shelf = ruled_shelf();
    auto tinted = laid("resin");
    tinted.mix.push_back({"dye", Amount::g_per_l, 2});
    CHECK(judged_as(shelf, {tinted}) == "none");
    tinted.coats = 2;
    CHECK(judged_as(shelf, {tinted}) == "bleeds:warning spray");
    tinted.mix.pop_back();
    CHECK(judged_as(shelf, {tinted}) == "none");
}

TEST_CASE("what does not stick to wax fails on wax, and may fail on a film with wax in it") {
    auto shelf = ruled_shelf();
    CHECK(judged_as(shelf, {laid("wax"), laid("varnish")}) == "none");  // nothing is known of the varnish
    shelf["varnish"].order.sticks_not_to["wax"] = fact();
    CHECK(judged_as(shelf, {laid("wax"), laid("varnish")}) == "wax-below:failure leave_out");
    CHECK(judged_as(shelf, {laid("resin"), laid("varnish")}) == "none");
    shelf["resin"].order.holds_wax = fact();
    CHECK(judged_as(shelf, {laid("resin"), laid("varnish")}) == "none");  // wax and waxed films are two things
    shelf["varnish"].order.sticks_not_to["waxed-film"] = fact();
    CHECK(judged_as(shelf, {laid("resin"), laid("varnish")}) == "wax-below:warning swap");
    shelf["varnish"].order.sticks_not_to["waxed-film"].value = false;
    CHECK(judged_as(shelf, {laid("resin"), laid("varnish")}) == "none");
    shelf["varnish"].order.sticks_not_to["wax"].sure = Sure::conflicting;
    CHECK(judged_as(shelf, {laid("wax"), laid("varnish")}) == "wax-below:warning leave_out");
}

TEST_CASE(
    "an oil is to cure below what does not hold on to it: told where no days are said, failing where too few are") {
    auto shelf = ruled_shelf();
    CHECK(judged_as(shelf, {laid("oil", Method::wipe), laid_after("varnish", 3)}) == "none");
    shelf["varnish"].order.sticks_not_to["uncured-oil"] = fact();
    CHECK(judged_as(shelf, {laid("oil", Method::wipe), laid("varnish")}) == "uncured-below:note wait seal");
    CHECK(judged_as(shelf, {laid("oil", Method::wipe), laid_after("varnish", 9.99)}) ==
          "uncured-below:failure wait seal");
    CHECK(judged_as(shelf, {laid("oil", Method::wipe), laid_after("varnish", 10)}) == "none");
    CHECK(judged_as(shelf, {laid("resin"), laid_after("varnish", 1)}) == "none");  // a film is no oil
}

TEST_CASE("nothing goes on before the layer below is dry") {
    const auto shelf = ruled_shelf();
    CHECK(judged_as(shelf, {laid("varnish"), laid_after("resin", 1.9 / 24)}) == "too-early:warning wait");
    CHECK(judged_as(shelf, {laid("varnish"), laid_after("resin", 2.0 / 24)}) == "none");
    const auto early = judge({"x", {laid("varnish"), laid_after("resin", 0.01)}, false}, shelf);
    CHECK(early.at(0).mends.at(0).days * 24 == Approx(2));
    auto unsaid = shelf;
    unsaid["varnish"].order.recoat_early_h.reset();
    CHECK(judged_as(unsaid, {laid("varnish"), laid_after("resin", 0)}) == "none");
}

TEST_CASE("a film whose window has shut wants a scratch, unless it melts in or is scratched") {
    auto shelf = ruled_shelf();
    shelf["varnish"].order.needs_scuff = fact();
    CHECK(judged_as(shelf, {laid("varnish"), laid_after("varnish", 1)}) == "none");
    CHECK(judged_as(shelf, {laid("varnish"), laid_after("varnish", 1.01)}) == "needs-scratch:warning scuff");
    CHECK(judged_as(shelf, {laid("varnish"), laid("varnish")}) == "none");                    // its own usual wait
    CHECK(judged_as(shelf, {laid("varnish"), laid("resin")}) == "needs-scratch:note scuff");  // another film, no days
    CHECK(judged_as(shelf, {laid("varnish"), laid_after("resin", 1)}) == "none");             // within the window
    auto scratched = laid_after("varnish", 3);
    scratched.scuff = true;
    CHECK(judged_as(shelf, {laid("varnish"), scratched}) == "none");
    scratched.scuff = false, scratched.sand = 320;
    CHECK(judged_as(shelf, {laid("varnish"), scratched}) == "none");
    shelf["varnish"].order.redissolved_by = lifts({"alcohol"});
    CHECK(judged_as(shelf, {laid("varnish"), laid_after("resin", 3)}) == "none");
}

TEST_CASE("hot solvents wrinkle soft films, and a tie coat is a weak floor for what cures by a hardener") {
    auto shelf = ruled_shelf();
    shelf["resin"].order.hot_solvent = fact();
    CHECK(judged_as(shelf, {laid("varnish"), laid("resin")}) == "none");
    shelf["varnish"].order.wrinkles = fact();
    CHECK(judged_as(shelf, {laid("varnish"), laid("resin")}) == "wrinkles:failure seal");
    shelf["varnish"].order.wrinkles = fact(true, Sure::conflicting);
    CHECK(judged_as(shelf, {laid("varnish"), laid("resin")}) == "wrinkles:warning seal");
    CHECK(judged_as(shelf, {laid("resin"), laid("varnish")}) == "none");
    shelf["varnish"].order.two_component = fact();
    CHECK(judged_as(shelf, {laid("resin"), laid("varnish")}) == "tie-two-component:warning leave_out");
}

TEST_CASE("dye over what closes the wood is wiped off, or rubs off until a coat goes over it") {
    auto shelf = ruled_shelf();
    shelf["stock"].order.recoat_early_h = figure(1);
    const auto dye = [&](Method m) { return laid("stock", m); };
    CHECK(judged_as(shelf, {laid("resin"), dye(Method::wipe)}) == "dye-wiped-off:warning spray leave_out");
    CHECK(judged_as(shelf, {laid("resin"), dye(Method::spray)}) == "dye-rubs-off:warning coat");
    CHECK(judged_as(shelf, {laid("resin"), dye(Method::spray), laid("resin")}) == "none");
    auto wash = laid("resin");
    wash.cut_lb = 0.25;
    wash.wet_um = 40;
    CHECK(judged_as(shelf, {wash, dye(Method::wipe)}) == "none");  // open enough
}

TEST_CASE("a wet place and an unknown material are told of the step, once") {
    auto shelf = ruled_shelf();
    CHECK(judged_as(shelf, {laid("resin")}, true) == "none");
    shelf["resin"].order.suits_wet_places = fact(false);
    CHECK(judged_as(shelf, {laid("resin")}, true) == "tie-wet-place:warning leave_out");
    CHECK(judged_as(shelf, {laid("resin")}, false) == "none");
    shelf["varnish"].order = {};
    CHECK(judged_as(shelf, {laid("varnish"), laid("varnish")}) == "order-unknown:note");
}

TEST_CASE("findings stand by step, the worst of a step first, and fail only by a failure") {
    auto shelf = ruled_shelf();
    shelf["varnish"].order.wrinkles = fact();
    shelf["varnish"].order.needs_scuff = fact();
    shelf["resin"].order.hot_solvent = fact();
    CHECK(judged_as(shelf, {laid("varnish"), laid("resin"), laid("varnish"), laid("resin")}) ==
          "wrinkles:failure seal | needs-scratch:note scuff | wrinkles:failure seal | needs-scratch:note scuff");
    CHECK(fails(judge({"x", {laid("varnish"), laid("resin")}, false}, shelf)));
    CHECK_FALSE(fails(judge({"x", {laid("resin"), laid("varnish")}, false}, shelf)));
    CHECK_FALSE(fails({}));
}

TEST_CASE("a mend changes one thing: what it says, where it says") {
    const auto shelf = ruled_shelf();
    const Finish f{"x", {laid("varnish"), laid_after("resin", 5)}, false};
    Finding finding;
    finding.step = 1;
    finding.under = "varnish";
    const auto after = [&](Mend::Kind kind, const std::string& material = "") {
        return mended(f, finding, {kind, 3, material, ""}, shelf);
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
