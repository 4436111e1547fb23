/// Fitted materials, written as a file: every kind comes back as it went.

#include "foretone/material/figures.hpp"
#include "foretone/scene/boards.hpp"
#include "scene/faults.hpp"
#include "support/folder.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

/// A boards file that brings along `ids` of the library, and a fit that changed all of them.
struct WrittenFit {
    scene::BoardsFile boards;
    learn::FitResult result;

    explicit WrittenFit(const std::vector<std::string>& ids) {
        boards.title = "Plank \"A\"\\";
        boards.by = "the bench";
        for (const auto& id : ids) {
            result.changed.push_back(id);
            put(id);
        }
        boards.question.materials = result.materials;
    }
    void put(const std::string& id) {
        result.materials[id] = library().material(id);
        if (const auto* stock = std::get_if<material::Stock>(&result.materials[id].data))
            for (const auto& load : stock->mix) put(load.use);
    }
    material::Materials read_again(const std::string& wood) const {
        const Folder f("fitted-again");
        f.write("own.toml", scene::fitted_toml(boards, result));
        return scene_from("format = 1\nmaterials = [\"own.toml\"]\n[wood]\nuse = \"" + wood +
                              "\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"tung\"\n",
                          f / "")
            .materials;
    }
};

}  // namespace

TEST_CASE("materials of every kind come back from their file as they went: figures, spreads, marks and sources") {
    const std::vector<std::string> ids = {"white-oak",      "acid-black-1",  "red-iron-oxide", "tung",
                                          "orange-shellac", "paste-wax",     "water",          "walnut-stain",
                                          "natural-filler", "iron-solution", "two-part-bleach"};
    const WrittenFit w(ids);
    const auto materials = w.read_again("my-white-oak");
    for (const auto& id : ids) {
        auto before = library().material(id);
        const std::string written = id == "water" ? "water" : "my-" + id;
        REQUIRE(materials.count(written) == 1);
        auto after = materials.at(written);
        const auto a = material::figures(before), b = material::figures(after);
        REQUIRE(a.size() == b.size());
        for (std::size_t i = 0; i < a.size(); ++i) {
            INFO(id << " " << a[i].key);
            CHECK(a[i].key == b[i].key);
            CHECK(a[i].from().mark == b[i].from().mark);
            CHECK(a[i].from().source == b[i].from().source);
            CHECK_THAT(b[i].sd(), Near(a[i].sd(), 1e-5 * a[i].sd()));  // six written digits
            if (a[i].figure) {
                CHECK_THAT(b[i].figure->value, Near(a[i].figure->value, 1e-5 * std::abs(a[i].figure->value)));
            } else {
                for (std::size_t k = 0; k < spectral::grid_size; ++k)
                    CHECK_THAT(b[i].spectrum->values[k],
                               Near(a[i].spectrum->values[k], 1e-5 * std::abs(a[i].spectrum->values[k])));
            }
        }
        CHECK(after.order.cautions == before.order.cautions);
        CHECK(after.order.redissolved_by.has_value() == before.order.redissolved_by.has_value());
    }
    const auto& oak = std::get<material::Wood>(materials.at("my-white-oak").data);
    const auto& first = std::get<material::Wood>(w.result.materials.at("white-oak").data);
    CHECK(oak.geometry == first.geometry);
    CHECK(oak.grain->pores == first.grain->pores);
    CHECK(oak.grain->pores_from.source == first.grain->pores_from.source);
    CHECK(std::get<material::Binder>(materials.at("my-orange-shellac").data).carrier == "alcohol");
    const auto& stain = std::get<material::Colored>(materials.at("my-walnut-stain").data);
    const auto& as_sold = std::get<material::Colored>(w.result.materials.at("walnut-stain").data);
    CHECK(stain.binder == "stain-oil");
    CHECK(stain.carrier == "mineral-spirits");
    REQUIRE(stain.mix.size() == as_sold.mix.size());
    CHECK(stain.mix.front().use == as_sold.mix.front().use);
    CHECK(stain.mix.front().g_per_l == as_sold.mix.front().g_per_l);
    const auto& iron = std::get<material::Treatment>(materials.at("my-iron-solution").data);
    CHECK(iron.needs == material::Needs::tannin);
    CHECK(iron.leaves_iron);
    CHECK(std::get<material::Treatment>(materials.at("my-two-part-bleach").data).neutralize.size() > 10);
    CHECK(std::get<material::Dye>(materials.at("my-acid-black-1").data).carriers ==
          std::get<material::Dye>(w.result.materials.at("acid-black-1").data).carriers);
}

TEST_CASE("a stock takes its powders along without a spread of their own, which is in its strength already") {
    const WrittenFit w({"honey-dye", "ash"});
    const auto materials = w.read_again("my-ash");
    const auto& stock = std::get<material::Stock>(materials.at("my-honey-dye").data);
    const auto& before = std::get<material::Stock>(w.result.materials.at("honey-dye").data);
    REQUIRE(stock.mix.size() == before.mix.size());
    CHECK(stock.carrier == before.carrier);
    for (std::size_t i = 0; i < stock.mix.size(); ++i) {
        CHECK(stock.mix[i].use == "my-honey-dye-" + before.mix[i].use);
        CHECK(stock.mix[i].g_per_l == before.mix[i].g_per_l);
        const auto& dye = std::get<material::Dye>(materials.at(stock.mix[i].use).data);
        CHECK(dye.purity.sd == 0);
        CHECK(dye.molar_absorptivity.sd == 0);
        CHECK(dye.purity.from.source.find("it is in the strength of my-honey-dye") != std::string::npos);
    }
}

TEST_CASE("a fitted figure names the boards and whose they are; names are those that the file asks for") {
    WrittenFit w({"tung", "ash"});
    auto& tung = std::get<material::Binder>(w.result.materials.at("tung").data);
    tung.n = {1.487654321, 0.00123456789, {material::Mark::fitted, ""}};
    w.boards.names["tung"] = "march-tung";
    w.boards.question.readings.resize(3);
    const auto materials = w.read_again("my-ash");
    REQUIRE(materials.count("march-tung") == 1);
    const auto& n = std::get<material::Binder>(materials.at("march-tung").data).n;
    CHECK(n.from.mark == material::Mark::fitted);
    CHECK(n.from.source.find("fitted to 3 readings of step boards (the bench)") == 0);
    CHECK(n.value == 1.48765);
    CHECK(n.sd == 0.00123457);
    CHECK(materials.at("march-tung").name == library().material("tung").name + ", own boards");
    CHECK(w.boards.written_as("tung") == "march-tung");
    CHECK(w.boards.written_as("ash") == "my-ash");
}

TEST_CASE("titles with quotes and line breaks make a file that can be read") {
    WrittenFit w({"ash"});
    w.boards.title = "two\nlines \"and\" \\ a \x01 control";
    CHECK_NOTHROW(w.read_again("my-ash"));
}

TEST_CASE("a state of a board is named by step and coat, coats only where there are several") {
    scene::BoardsFile b;
    schedule::Step one, two;
    two.coats = 2;
    b.question.boards.push_back({"A", "ash", {"A", {one, two}}});
    const auto reading = [&](int step, int coat) {
        learn::BoardReading r;
        r.step = step, r.coat = coat;
        b.question.readings.push_back(r);
    };
    reading(0, 0), reading(1, 1), reading(2, 1), reading(2, 2);
    CHECK(b.state(0) == "bare");
    CHECK(b.state(1) == "step 1");
    CHECK(b.state(2) == "step 2, coat 1");
    CHECK(b.state(3) == "step 2, coat 2");
}
