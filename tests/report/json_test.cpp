#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "foretone/report/json.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

TEST_CASE("the JSON of every demo has the keys and shapes it promises") {
    for (const auto* file : demos) {
        INFO(file);
        const auto p = demo(file);
        const auto j = nlohmann::json::parse(report::preview_json(p));
        CHECK(j.at("tool").at("name") == "foretone");
        CHECK(j.at("tool").at("solver") == "two-flux");
        CHECK(j.at("scene") == p.scene.title);
        REQUIRE(j.at("finishes").size() == p.finishes.size());
        for (const auto& f : j["finishes"]) {
            const auto& stages = f.at("stages");
            CHECK(stages.front().at("stage") == "bare");
            CHECK(stages.back().at("stage") == "finished");
            for (const auto& s : stages) {
                CHECK(s.at("reflectance").at("start_nm") == 380);
                CHECK(s["reflectance"].at("step_nm") == 5);
                CHECK(s["reflectance"].at("values").size() == 81);
                CHECK((s.at("after_step").is_number_integer() && s.at("coat").is_number_integer()));
                REQUIRE(s.at("colors").size() == p.scene.look.lights.size());
                for (const auto& c : s["colors"]) {
                    for (const char* key : {"XYZ", "Lab", "sRGB"}) CHECK(c.at(key).size() == 3);
                    CHECK(c.at("hex").get<std::string>().size() == 7);
                    CHECK(c.at("in_gamut").is_boolean());
                    CHECK(c.at("spread_dE00").get<double>() > 0);
                    CHECK(c.at("range").at("dE00_90").get<double>() > c["spread_dE00"].get<double>());
                    CHECK(c["range"].at("mean_Lab").size() == 3);
                    CHECK((c["range"].at("covariance_Lab").size() == 3 && c["range"]["covariance_Lab"][2].size() == 3));
                    CHECK((c["range"].at("half_axes_Lab").size() == 3 &&
                           c["range"]["half_axes_Lab"][0].at("direction").size() == 3));
                    CHECK((c.contains("light") && c.contains("observer") && c.contains("geometry")));
                }
            }
            CHECK(f.at("warnings").is_array());
        }
        const std::size_t n = p.finishes.size();
        CHECK(j.at("differences").size() == n * (n - 1) / 2 * p.scene.look.lights.size());
        CHECK(j.at("warnings").is_array());
    }
}

TEST_CASE("the same scene gives the same bytes") {
    CHECK(report::preview_json(demo("stool-maple.toml")) == report::preview_json(demo("stool-maple.toml")));
}

TEST_CASE("what was filled in, out of gamut or assumed is told in the JSON") {
    const auto oak = nlohmann::json::parse(report::preview_json(demo("library-oak.toml")));
    // The house varnish: its color number's solids, a density beside stated solids, and all that is the library's.
    REQUIRE(oak["warnings"].size() == 3);
    CHECK(oak["warnings"][0]["id"] == "figure-companion");
    CHECK(oak["warnings"][1]["id"] == "figure-companion");
    CHECK(oak["warnings"][2]["id"] == "material-filled");
    for (const auto& w : oak["warnings"])
        CHECK(w["where"].get<std::string>().find("library-oak.toml:17:1") != std::string::npos);
    bool gamut = false;
    const auto pine = nlohmann::json::parse(report::preview_json(
        worked("format = 1\n[wood]\nuse = \"pine\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nmix "
               "= [ { use = \"honey-dye\", parts = 1 } ]\nwet_g_per_m2 = 100\n[[finish.step]]\nuse = "
               "\"oil-varnish\"\ncoats = 3\n")));
    for (const auto& f : pine["finishes"])
        for (const auto& w : f["warnings"]) gamut = gamut || w["id"] == "out-of-gamut";
    CHECK(gamut);
}
