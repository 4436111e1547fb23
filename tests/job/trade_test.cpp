/// What every finisher knows, asserted on the demo scenes.

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/base/number.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;
using appearance::StageKind;
using color::Lab;

namespace {

const Lab& lab(const job::SeenStage& s, std::size_t light = 0) { return s.colors[light].lab; }

const job::SeenFinish& finish(const job::Preview& p, const std::string& name) {
    for (const auto& f : p.finishes)
        if (f.name == name) return f;
    throw std::runtime_error("no finish " + name);
}

}  // namespace

TEST_CASE("on every dyed demo the damp board shows the coated color, the dry one does not") {
    // Common practice: dampen the dyed board to see it under its coat. Within ΔE00 4 of the finished color; a thin
    // first coat, which touches the wood in most places only, is less than half as far from damp as from dry.
    int seen = 0;
    for (const auto* file : demos)
        for (const auto& f : demo(file).finishes) {
            if (f.stages.size() < 4 || f.stages[1].stage.kind != StageKind::damp ||
                f.stages[3].stage.kind != StageKind::coated)
                continue;
            ++seen;
            for (std::size_t l = 0; l < f.stages[0].colors.size(); ++l) {
                const auto& damp = lab(f.stages[1], l);
                const auto& dry = lab(f.stages[2], l);
                const auto& first = lab(f.stages[3], l);
                const auto& last = lab(f.stages.back(), l);
                INFO(file << ", " << f.name << ", " << f.stages[0].colors[l].light << ": damp to first coat "
                          << color::delta_e_00(damp, first) << ", to finished " << color::delta_e_00(damp, last)
                          << ", dry to first coat " << color::delta_e_00(dry, first));
                CHECK(color::delta_e_00(damp, first) < 0.5 * color::delta_e_00(dry, first));
                CHECK(color::delta_e_00(damp, last) <= 4);
                CHECK(color::delta_e_00(dry, damp) > 2 * color::delta_e_00(damp, first));
                CHECK(color::delta_e_00(dry, last) > 2 * color::delta_e_00(damp, last));
            }
        }
    CHECK(seen >= 2);
}

TEST_CASE("each amber coat raises b* and lowers L*, each by less than the one before") {
    const auto p = demo("shelf-pine.toml");
    const auto& f = finish(p, "six coats of garnet");
    REQUIRE(f.stages.size() == 7);
    for (std::size_t l = 0; l < f.stages[0].colors.size(); ++l)
        for (std::size_t i = 1; i < f.stages.size(); ++i) {
            const double up = lab(f.stages[i], l).b - lab(f.stages[i - 1], l).b;
            const double down = lab(f.stages[i - 1], l).l - lab(f.stages[i], l).l;
            INFO("coat " << i << " under " << f.stages[i].colors[l].light);
            CHECK(up > 0);
            CHECK(down > 0);
            if (i == 1) continue;
            CHECK(up < lab(f.stages[i - 1], l).b - lab(f.stages[i - 2], l).b);
            CHECK(down < lab(f.stages[i - 2], l).l - lab(f.stages[i - 1], l).l);
        }
}

TEST_CASE("a blonde shellac ambers far less than a garnet") {
    const auto p = demo("shelf-pine.toml");
    const auto& garnet = finish(p, "six coats of garnet").stages.back();
    const auto& blonde = finish(p, "six coats of blonde").stages.back();
    CHECK(lab(blonde).l > lab(garnet).l + 10);
    // Under so deep a garnet b* no longer grows; its amber shows in a*.
    CHECK(lab(blonde).b < lab(garnet).b);
    CHECK(lab(blonde).a < lab(garnet).a - 5);
}

TEST_CASE("waterborne leaves walnut cooler than oil varnish does, under every light") {
    const auto p = demo("desk-walnut.toml");
    const auto& oil = finish(p, "oil varnish").stages.back();
    const auto& water = finish(p, "waterborne").stages.back();
    for (std::size_t l = 0; l < oil.colors.size(); ++l) {
        CHECK(lab(water, l).b < lab(oil, l).b - 0.5);
        CHECK(lab(oil, l).l < lab(p.finishes[0].stages[0], l).l - 8);  // and both darken it
    }
}

TEST_CASE("doubling a dye does less than double its change in lightness") {
    const auto of = [](double parts) {
        return worked(
            "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nmix = [ { use = "
            "\"umber-dye\", parts = " +
            base::shortest(parts) + " }, { use = \"water\", parts = 20 } ]\nwet_g_per_m2 = 70\n");
    };
    double before = 0;
    for (const double parts : {0.5, 1.0, 2.0, 4.0, 8.0}) {
        const auto p = of(parts);
        const auto& s = p.finishes[0].stages;
        const double change = lab(s[0]).l - lab(s[2]).l;
        INFO(parts << " parts in 20: dL " << change);
        CHECK(change > before);
        if (before > 0) CHECK(change < 2 * before);
        before = change;
    }
}

TEST_CASE("clear finishes darken every wood of the library and warm the pale ones") {
    for (const auto& id : library().ids(material::Kind::wood)) {
        const auto p =
            worked("format = 1\n[wood]\nuse = \"" + id +
                   "\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"super-blonde-shellac\"\ncoats = 2\n");
        const auto& bare = lab(p.finishes[0].stages.front());
        const auto& done = lab(p.finishes[0].stages.back());
        INFO(id);
        CHECK(done.l < bare.l - 5);
        if (bare.l > 60) CHECK(done.b > bare.b);
    }
}
