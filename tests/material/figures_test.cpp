#include <catch2/catch.hpp>
#include <set>

#include "foretone/material/figures.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::material;
using namespace foretone::test;

namespace {

Material maple() {
    Material m;
    m.kind = Kind::wood;
    Wood w;
    w.reflectance.values = spectral::Spectrum::constant(0.5);
    w.reflectance.sd = 0.1;
    w.surface_k2 = {0.25, 0.08, {Mark::computed, "test"}};
    w.n = {1.55, 0.01, {Mark::memory, "test"}};
    w.density_g_per_cm3 = {0.65, 0.05, {Mark::memory, "test"}};
    m.data = w;
    return m;
}

}  // namespace

TEST_CASE("marks have one word each, and the words read back") {
    std::set<std::string> words;
    for (int i = 0; i <= static_cast<int>(Mark::memory); ++i) {
        const auto mark = static_cast<Mark>(i);
        CHECK(mark_from(word(mark)) == mark);
        words.emplace(word(mark));
    }
    CHECK(words.size() == 7);
    CHECK_FALSE(mark_from("guess").has_value());
    CHECK(weaker(Mark::measured, Mark::memory) == Mark::memory);
    CHECK(weaker(Mark::practice, Mark::published) == Mark::practice);
}

TEST_CASE("a figure is moved by its own spread and stays within its range") {
    auto m = maple();
    for (const auto& f : figures(m))
        if (f.key == "surface_k2") move(f, 1);
    CHECK_THAT(std::get<Wood>(m.data).surface_k2.value, Near(0.33, identity));
    for (const auto& f : figures(m))
        if (f.key == "surface_k2") move(f, 100);
    CHECK(std::get<Wood>(m.data).surface_k2.value == 0.7);
    for (const auto& f : figures(m))
        if (f.key == "reflectance") move(f, -1);
    CHECK_THAT(std::get<Wood>(m.data).reflectance.values[10], Near(0.45, identity));
}

TEST_CASE("only figures a color depends on count for what a material rests on") {
    auto m = maple();
    CHECK(weakest(m) == Mark::memory);
    auto& w = std::get<Wood>(m.data);
    for (auto* f : {&w.surface_k1, &w.surface_k2, &w.scattering_per_mm, &w.scattering_exponent, &w.n, &w.porosity,
                    &w.level_um, &w.absorbency})
        f->from.mark = Mark::measured;
    w.reflectance.from.mark = Mark::published;
    CHECK(weakest(m) == Mark::published);  // the density, from memory, colors nothing
}

TEST_CASE("an absent figure is not listed") {
    Material m;
    m.kind = Kind::film;
    m.data = Binder{};
    for (const auto& f : figures(m)) CHECK(f.key != "gardner");
    std::get<Binder>(m.data).gardner = Figure{7, 1, {}};
    bool found = false;
    for (const auto& f : figures(m)) found = found || f.key == "gardner";
    CHECK(found);
}

TEST_CASE("figures that may be lacking can be put in to be filled, and those not filled are taken out again") {
    Material m;
    m.kind = Kind::film;
    m.data = Binder{};
    std::set<std::string> lacking, present;
    for (const auto& f : figures(m)) present.insert(f.key);
    for (const auto& f : all_figures(m)) {
        if (f.may_lack) lacking.insert(f.key);
        if (f.key == "wet_um.brush") f.figure->value = 90;
    }
    CHECK(lacking.count("gardner") == 1);
    CHECK(lacking.count("wet_um.roll") == 1);
    CHECK(lacking.count("n") == 0);
    CHECK(figures(m).size() == present.size() + lacking.size());
    keep_figures(m, {"wet_um.brush"});
    CHECK(figures(m).size() == present.size() + 1);
    CHECK(std::get<Binder>(m.data).wet_um[1]->value == 90);
    CHECK_FALSE(std::get<Binder>(m.data).absorption_per_mm.has_value());
}

TEST_CASE("no figure can be moved out of its range, however far it is pushed, and zero moves nothing") {
    for (const auto& row : kinds()) {
        Material m{"x", row.kind, "x", "", blank(row.kind), {}};
        for (const auto& f : all_figures(m)) {
            INFO(row.word << " " << f.key);
            if (f.figure)
                f.figure->value = (f.low + f.high) / 2, f.figure->sd = f.high - f.low;
            else
                f.spectrum->values = spectral::Spectrum::constant((f.low + f.high) / 2), f.spectrum->sd = 0.5;
            const auto value = [&] { return f.figure ? f.figure->value : f.spectrum->values[7]; };
            const double before = value();
            move(f, 0);
            CHECK(value() == before);
            for (const double sigmas : {-40.0, 90.0, -3.0}) {
                move(f, sigmas);
                CHECK(value() >= f.low);
                CHECK(value() <= f.high);
            }
        }
    }
}

TEST_CASE("the weakest mark is that of the weakest figure, whichever it is") {
    for (const auto& row : kinds()) {
        Material m{"x", row.kind, "x", "", blank(row.kind), {}};
        auto all = all_figures(m);
        for (const auto& f : all) f.from().mark = Mark::measured;
        CHECK(weakest(m) == Mark::measured);
        for (const auto& f : all) {
            f.from().mark = Mark::fitted;
            INFO(row.word << " " << f.key);
            CHECK(weakest(m) == (f.optical ? Mark::fitted : Mark::measured));
            f.from().mark = Mark::measured;
        }
    }
}
