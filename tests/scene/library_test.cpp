#include <catch2/catch.hpp>
#include <filesystem>

#include "foretone/material/figures.hpp"
#include "foretone/scene/library_check.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

TEST_CASE("every file of the library reads without a problem") {
    const auto result = scene::check_library(library());
    for (const auto& p : result.problems) UNSCOPED_INFO(p.place.text() << ": " << p.text);
    CHECK(result.problems.empty());
    CHECK(result.files >= 50);
    CHECK(result.figures >= 350);
}

TEST_CASE("the library holds what it promises") {
    const auto has = [](const std::string& kind, std::initializer_list<const char*> ids) {
        for (const char* id : ids) {
            INFO(id);
            const auto* entry = library().find(id);
            REQUIRE(entry != nullptr);
            CHECK(entry->kind == kind);
        }
    };
    has("wood", {"hard-maple", "soft-maple", "birch", "ash", "beech", "white-oak", "red-oak", "cherry", "walnut",
                 "mahogany", "pine", "spruce"});
    has("stock", {"honey-dye", "russet-dye", "umber-dye", "raven-dye"});
    has("pigment", {"red-iron-oxide"});
    has("oil", {"boiled-linseed", "tung", "oil-varnish-blend"});
    has("film", {"super-blonde-shellac", "blonde-shellac", "orange-shellac", "garnet-shellac", "oil-varnish",
                 "oil-polyurethane", "waterborne-acrylic", "waterborne-polyurethane", "nitrocellulose-lacquer"});
    has("wax", {"paste-wax"});
    has("illuminant", {"A", "C", "D50", "D55", "D65", "F2", "F7", "F11", "LED-2700", "LED-4000", "LED-5000"});
    has("observer", {"2deg", "10deg"});
    CHECK(library().ids("dye").size() >= 8);
}

TEST_CASE("every figure of every material has a mark, a source and a spread that is not negative") {
    for (const auto& id : library().ids()) {
        auto m = library().material(id);
        for (const auto& f : material::figures(m)) {
            INFO(id << " " << f.key);
            CHECK_FALSE(f.from().source.empty());
            CHECK(f.sd() >= 0);
            CHECK(f.from().mark != material::Mark::stated);
        }
    }
}

TEST_CASE("the compiled-in library is the folder's, file by file") {
    const scene::Library folder{std::filesystem::path(FORETONE_SPECTRA)};
    REQUIRE(folder.entries().size() == library().entries().size());
    for (const auto& e : folder.entries()) {
        INFO(e.path);
        const auto* built_in = library().find(e.id);
        REQUIRE(built_in != nullptr);
        CHECK(library().text(*built_in) == folder.text(e));
    }
}

TEST_CASE("lights say in their comments how they were made") {
    for (const auto& id : library().ids("illuminant")) {
        INFO(id);
        CHECK(library().comments(id).size() >= 3);
    }
}
