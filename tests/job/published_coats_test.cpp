/// Coated against bare wood as published.

#include <catch2/catch.hpp>

#include "support/demo.hpp"
#include "support/table.hpp"

using namespace foretone;
using namespace foretone::test;
using color::Lab;

namespace {

std::vector<Lab> stages(const std::string& wood, const std::string& use, const std::string& geometry, int coats) {
    const auto p = worked("format = 1\n[look]\nobserver = \"10deg\"\ngeometry = \"" + geometry +
                          "\"\n[wood]\nuse = \"" + wood + "\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"" +
                          use + "\"\nmethod = \"brush\"\ncoats = " + std::to_string(coats) + "\n");
    std::vector<Lab> out;
    for (const auto& s : p.finishes[0].stages) out.push_back(s.colors[0].lab);
    return out;
}

}  // namespace

TEST_CASE("waxed cherry and white oak move as published: darker, redder, yellower, by a dE*ab of 5 to 13") {
    // Ayata 2024 (cherry) and Ayata & Ayata 2024 (white oak): brushed wax, one to three coats, ΔE*ab 8.41, 11.29, 11.59
    // and 5.62, 11.96, 10.57; ΔL* −, Δa* +, Δb* +. Their geometry is not stated; the likely one here is d/8 with the
    // specular excluded, D65, 10°: with it included the model's b* of cherry falls a little (to −0.1) where the papers'
    // rises.
    for (const auto& row : table("coated_wood_difference.csv")) {
        const bool cherry = row.text("species").find("cherry") != std::string::npos;
        const int coats = static_cast<int>(row.number("coats"));
        const auto s = stages(cherry ? "cherry" : "white-oak", "paste-wax", "d/8-excluded", 3);
        const auto& bare = s.front();
        const auto& done = s.at(static_cast<std::size_t>(coats));
        const double de = color::delta_e_ab(bare, done);
        INFO(row.text("species") << ", " << coats << " coats: dE*ab " << de << ", published " << row.text("deltaE_ab"));
        CHECK(done.l < bare.l);
        CHECK(done.a > bare.a);
        CHECK(done.b > bare.b);
        CHECK(de >= 5);
        CHECK(de <= 13);
        CHECK(std::abs(de - row.number("deltaE_ab")) <
              2.5);  // found: worst 1.8 (white oak, two coats, where the paper's second coat exceeds its third)
    }
}

TEST_CASE("a dark wood's b* falls under a clear coat when the sphere reads the specular too") {
    for (const std::string wood : {"walnut", "mahogany"})
        for (const std::string use : {"waterborne-acrylic", "super-blonde-shellac", "nitrocellulose-lacquer"}) {
            const auto s = stages(wood, use, "d/8-included", 2);
            INFO(wood << " under " << use);
            CHECK(s.back().b < s.front().b);
            CHECK(s.back().l < s.front().l);
        }
}
