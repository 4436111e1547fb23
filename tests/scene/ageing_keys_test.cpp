/// Time and light in a scene: what is read, what is assumed, what is refused and where.

#include "scene/faults.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string look_with(const std::string& lines, const std::string& more = "") {
    return "format = 1\n[look]\n" + lines +
           "[wood]\nuse = \"cherry\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n" + more;
}

// What is told of the look: fresh cherry has a warning of its own.
std::vector<scene::Problem> told_of_look(const scene::Scene& s) {
    auto out = s.warnings;
    std::erase_if(out, [](const auto& w) { return w.id == "wood-fresh"; });
    return out;
}

}  // namespace

TEST_CASE("times are read in days, whatever their unit") {
    using scene::duration_from;
    CHECK(duration_from("1 year")->days == 365.25);
    CHECK_THAT(duration_from("12 months")->days, Near(365.25, identity * 400));
    CHECK(duration_from("18 Months")->text == "18 Months");
    CHECK(duration_from("2 weeks")->days == 14);
    CHECK(duration_from("0.5 years")->days == 182.625);
    CHECK(duration_from("0 days")->days == 0);
    for (const char* bad : {"", "year", "1", "-1 year", "1 yr", "101 years", "nan days", "1  year", "inf days"})
        CHECK_FALSE(duration_from(bad));
}

TEST_CASE("a look's times stand soonest first, each once") {
    const auto s =
        scene_from(look_with("after = [\"5 years\", \"1 month\", \"12 months\", \"1 year\"]\nexposure = \"window\"\n"));
    REQUIRE(s.look.after.size() == 3);
    CHECK(s.look.after[0].text == "1 month");
    CHECK(s.look.after[2].text == "5 years");
    CHECK(s.look.exposure == material::Stands::window);
    CHECK(told_of_look(s).empty());
    CHECK(scene_from(look_with("after = \"1 year\"\nexposure = \"dark\"\n")).look.after.size() == 1);
    CHECK(scene_from(look_with("")).look.after.empty());
}

TEST_CASE("where a piece stands is assumed, and told") {
    const auto s = scene_from(look_with("after = [\"1 year\"]\n"));
    const auto told = told_of_look(s);
    REQUIRE(told.size() == 1);
    CHECK(told[0].id == "exposure-assumed");
    CHECK(told[0].place.line == 3);
    CHECK(s.look.exposure == material::Stands::room);
}

TEST_CASE("outdoors is refused, with its place and what would be right") {
    for (const char* word : {"outdoors", "outside", "garden", "porch"})
        refuses(look_with("exposure = \"" + std::string(word) + "\"\n"), "exposure-outdoors",
                "\"" + std::string(word) + "\"", "indoors a piece stands dark, shade, room, window or sun");
}

TEST_CASE("what is no time and no place is refused at its place") {
    refuses(look_with("after = [\"1 month\", \"soon\"]\nexposure = \"room\"\n"), "duration-unknown", "\"soon\"",
            "18 months");
    refuses(look_with("after = \"1000 years\"\nexposure = \"room\"\n"), "duration-unknown", "\"1000 years\"",
            "at most 100");
    CHECK_FALSE(scene_faults(look_with("exposure = \"cellar\"\n")).empty());
    CHECK_FALSE(scene_faults(look_with("after = 5\n")).empty());
    std::string many = "after = [";
    for (int i = 1; i <= 13; ++i) many += (i > 1 ? ", " : "") + std::string("\"") + std::to_string(i) + " days\"";
    CHECK(scene_faults(look_with(many + "]\nexposure = \"room\"\n")).front().id == "times-many");
}

TEST_CASE("an aged target is a finish of the scene") {
    const auto s = scene_from(look_with("", "[target]\nfinish = \"x\"\naged = \"30 years\"\njudge_at = \"1 year\"\n"));
    REQUIRE(s.target);
    CHECK(s.target->aged->days == 30 * 365.25);
    CHECK(s.target->judge_at->text == "1 year");
    refuses(look_with("", "[target]\nsrgb = \"#aa7744\"\naged = \"30 years\"\n"), "key-conflict", "aged",
            "goes with finish");
    refuses(look_with("", "[target]\nfinish = \"x\"\njudge_at = \"later\"\n"), "duration-unknown", "\"later\"",
            "1 month");
}

TEST_CASE("a wood says how it ages, and one that is like another ages like it") {
    const auto class_of = [](const scene::Scene& s) {
        return std::get<material::Wood>(s.materials.at(s.wood).data).ages_as;
    };
    CHECK(class_of(scene_from(look_with(""))) == "cherry");
    const std::string own =
        "format = 1\n[wood]\nuse = \"mine\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = "
        "\"oil-varnish\"\n[material.mine]\nkind = \"wood\"\nlike = \"walnut\"\n";
    CHECK(class_of(scene_from(own)) == "walnut");
    CHECK(class_of(scene_from(own + "ages_as = \"pale\"\n")) == "pale");
    CHECK_FALSE(scene_faults(own + "ages_as = \"quickly\"\n").empty());
    for (const auto& id : library().ids(material::Kind::wood)) {
        INFO(id);
        CHECK_FALSE(std::get<material::Wood>(library().material(id).data).ages_as.empty());
    }
}

TEST_CASE("a film says what ultraviolet it keeps back, a dye how fast it is") {
    const std::string own =
        look_with("", "[material.sunproof]\nkind = \"film\"\nlike = \"waterborne-acrylic\"\nuv_absorbed = 0.9\n");
    const auto s = scene_from(own);
    CHECK(std::get<material::Binder>(s.materials.at("sunproof").data).uv_absorbed->value == 0.9);
    CHECK_FALSE(scene_faults(
                    look_with("", "[material.no]\nkind = \"film\"\nlike = \"waterborne-acrylic\"\nuv_absorbed = 1.2\n"))
                    .empty());
    for (const auto& id : library().ids(material::Kind::dye)) {
        INFO(id);
        CHECK(std::get<material::Dye>(library().material(id).data).lightfastness);
    }
}
