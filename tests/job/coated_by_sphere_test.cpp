/// Coated against bare wood by the sphere.

#include <catch2/catch.hpp>

#include "support/demo.hpp"

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

TEST_CASE("a dark wood's b* falls under a clear coat when the sphere reads the specular too") {
    for (const std::string wood : {"walnut", "mahogany"})
        for (const std::string use : {"waterborne-acrylic", "super-blonde-shellac", "nitrocellulose-lacquer"}) {
            const auto s = stages(wood, use, "d/8-included", 2);
            INFO(wood << " under " << use);
            CHECK(s.back().b < s.front().b);
            CHECK(s.back().l < s.front().l);
        }
}
