/// The fast engine against direct solves, recipe by recipe.

#include <catch2/catch.hpp>

#include "foretone/appearance/stages.hpp"
#include "foretone/appearance/uneven.hpp"
#include "search/small_space.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::vector<std::string> lights = {"D65", "A", "F11"};

// The recipe worked out stage by stage: what a preview shows.
spectral::Spectrum by_stages(const material::Materials& materials, const std::string& wood,
                             const schedule::Finish& finish, optics::Geometry geometry) {
    return appearance::stages(materials, wood, finish, geometry, appearance::two_flux_solver())
        .stages.back()
        .reading.total();
}

// Best lists by direct solves alone.
search::Best brute_force(const search::Space& space, const search::Setting& setting, const search::Aim& aim,
                         std::size_t room) {
    search::Best best(room);
    for (std::size_t w = 0; w < space.ways.size(); ++w)
        for (std::size_t m = 0; m < space.mixes_with(space.ways[w]); ++m) {
            const std::uint64_t number = w * space.mixes.size() + m;
            const auto effort = search::effort(space, number);
            best.offer(effort.steps, effort.colorants,
                       {search::worst_difference(aim, by_stages(setting.materials, setting.wood,
                                                                search::recipe(space, number), setting.geometry)),
                        number});
        }
    return best;
}

}  // namespace

TEST_CASE("engine colors equal direct stages within ΔE00 0.01, over woods, geometries and dyes up to full strength") {
    // Full-strength raven is the strongest stock of the library: absorbance about 20.
    auto choices = small_choices();
    choices.dye = search::DyeChoices{{"honey-dye", "raven-dye", "russet-dye"}, 3, 3, {0, 1, 4, 19, 99}, 70, false};
    choices.sealer->tint = {"solvent-red-24"};
    choices.sealer->tint_percent = {0.02};
    std::mt19937_64 random(20);
    double worst = 0;
    std::string worst_recipe;
    for (const std::string wood : {"hard-maple", "walnut", "pine"}) {
        const auto materials = materials_for(wood);
        const auto space = search::make_space(choices, materials);
        for (const auto geometry : {optics::Geometry::g45_0, optics::Geometry::d8_included}) {
            const auto solver = appearance::two_flux_solver();
            const search::Engine engine(space, {materials, wood, geometry, solver},
                                        search::aim_at(spectral::Spectrum::constant(0.3), lights, weights(lights)));
            for (int i = 0; i < 60; ++i) {
                const auto w = below(random, space.ways.size()), m = below(random, space.mixes_with(space.ways[w]));
                const std::uint64_t number = w * space.mixes.size() + m;
                const auto finish = search::recipe(space, number);
                const auto aim = search::aim_at(by_stages(materials, wood, finish, geometry), lights, weights(lights));
                const double off = search::worst_difference(aim, engine.reflectance(number));
                if (worse(off, worst)) worst_recipe = wood + " recipe " + std::to_string(number);
                worst = worst_of(worst, off);
            }
        }
    }
    INFO(worst_recipe);
    CHECK(worst < 0.01);
    CHECK(worst > 0);  // it does interpolate
}

TEST_CASE("the engine's best of every kind are those of brute force: nothing is lost") {
    const std::string wood = "hard-maple";
    const auto materials = materials_for(wood);
    const auto space = search::make_space(small_choices(), materials);
    REQUIRE(space.size() > 1000);
    const auto solver = appearance::two_flux_solver();
    const search::Setting setting{materials, wood, optics::Geometry::g45_0, solver};
    std::mt19937_64 random(21);
    for (int round = 0; round < 2; ++round) {
        auto target =
            search::finished(setting, search::recipe(space, below(random, space.ways.size()) * space.mixes.size()));
        for (auto& v : target) v = 0.9 * v + 0.01;  // no recipe hits it
        const auto aim = search::aim_at(target, lights, weights(lights));
        const auto fast = examined(search::Engine(space, setting, aim), space, 5),
                   slow = brute_force(space, setting, aim, 5);
        const auto f = fast.front(), s = slow.front();
        REQUIRE(f.size() == s.size());
        for (std::size_t i = 0; i < f.size(); ++i) {
            CHECK(f[i].number == s[i].number);
            CHECK_THAT(f[i].de00, Near(s[i].de00, 0.01));
        }
        const auto fc = fast.closest(20), sc = slow.closest(20);
        for (std::size_t i = 0; i < fc.size(); ++i) CHECK_THAT(fc[i].de00, Near(sc[i].de00, 0.01));
    }
}

TEST_CASE("most_uneven drops the recipes that are more uneven, and no other") {
    const std::string wood = "hard-maple";
    const auto materials = materials_for(wood);
    const auto space = search::make_space(small_choices(), materials);
    const auto solver = appearance::two_flux_solver();
    const search::Setting setting{materials, wood, optics::Geometry::g45_0, solver};
    const auto& maple = std::get<material::Wood>(materials.at(wood).data);
    const auto aim = search::aim_at(spectral::Spectrum::constant(0.2), lights, weights(lights));
    const double most = 3;
    const auto uneven = [&](std::uint64_t number) {
        const auto board = search::finished_board(setting, search::recipe(space, number));
        return appearance::uneven_de00(appearance::tenths(board, maple, setting.geometry, solver),
                                       weights(lights).front());
    };
    const std::size_t ways = 4;
    search::Best all(100000), even(100000);
    const search::Engine free(space, setting, aim), strict(space, setting, aim, {16, most});
    for (std::size_t w = 0; w < ways; ++w) {
        free.examine(w, all);
        strict.examine(w, even);
    }
    const auto kept = even.closest(100000), found = all.closest(100000);
    REQUIRE(!kept.empty());
    REQUIRE(kept.size() < found.size());
    std::size_t next = 0;
    for (std::size_t i = 0; i < found.size(); ++i) {
        const bool is_kept = next < kept.size() && kept[next].number == found[i].number;
        if (i % 17 == 0 || is_kept != (next < kept.size())) {
            const double direct = uneven(found[i].number);
            if (std::abs(direct - most) > 0.02) CHECK(is_kept == (direct < most));  // interpolated within 0.01 each
        }
        next += is_kept ? 1 : 0;
    }
    CHECK(next == kept.size());
}

TEST_CASE("the order in which ways are examined, and by how many, does not show in the result") {
    const std::string wood = "ash";
    const auto materials = materials_for(wood);
    const auto space = search::make_space(small_choices(), materials);
    const auto solver = appearance::two_flux_solver();
    const search::Setting setting{materials, wood, optics::Geometry::g45_0, solver};
    const search::Engine engine(space, setting,
                                search::aim_at(spectral::Spectrum::constant(0.25), lights, weights(lights)));
    const auto forward = examined(engine, space, 10);
    search::Best parts[3] = {search::Best(10), search::Best(10), search::Best(10)};
    for (std::size_t w = space.ways.size(); w-- > 0;) engine.examine(w, parts[w % 3]);
    search::Best merged(10);
    for (const auto& p : parts) merged.merge(p);
    CHECK(merged.closest(100) == forward.closest(100));
    CHECK(merged.front() == forward.front());
}

TEST_CASE("examining stops where it is told to and says how far it came") {
    const std::string wood = "ash";
    const auto materials = materials_for(wood);
    const auto space = search::make_space(small_choices(), materials);
    const auto solver = appearance::two_flux_solver();
    const search::Engine engine(space, {materials, wood, optics::Geometry::g45_0, solver},
                                search::aim_at(spectral::Spectrum::constant(0.25), {"D65"}, weights({"D65"})));
    search::Best best(10);
    int asked = 0;
    CHECK(engine.examine(0, space.ways.size(), best, [&] { return ++asked <= 3; }) == 3);
    for (const auto& f : best.closest(1000)) CHECK(f.number < 3 * space.mixes.size());
}

TEST_CASE("an engine refuses an aim without lights and node counts it cannot use") {
    const auto materials = materials_for("ash");
    const auto space = search::make_space(small_choices(), materials);
    const auto solver = appearance::two_flux_solver();
    const search::Setting setting{materials, "ash", optics::Geometry::g45_0, solver};
    CHECK_THROWS_AS(search::Engine(space, setting, {}), std::invalid_argument);
    CHECK_THROWS_AS(search::Engine(space, setting,
                                   search::aim_at(spectral::Spectrum::constant(0.25), {"D65"}, weights({"D65"})), {1}),
                    std::invalid_argument);
}

TEST_CASE("an engine has 2 to 64 nodes") {
    const auto materials = materials_for("hard-maple");
    const auto space = search::make_space(small_choices(), materials);
    const auto solver = appearance::two_flux_solver();
    const auto with_nodes = [&](int nodes) {
        search::EngineOptions options;
        options.nodes = nodes;
        const search::Engine engine(space, {materials, "hard-maple", optics::Geometry::g45_0, solver},
                                    search::aim_at(spectral::Spectrum::constant(0.3), lights, weights(lights)),
                                    options);
    };
    for (const int none : {1, 65, -1}) CHECK_THROWS_AS(with_nodes(none), std::invalid_argument);
    CHECK_NOTHROW(with_nodes(2));
}
