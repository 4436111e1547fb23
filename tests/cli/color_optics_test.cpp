/// color and optics: against closed forms, and what they refuse.

#include <cmath>

#include "cli/answers.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

std::string grey_file(double value, int first, int last, int step) {
    std::string text = "wavelength_nm,reflectance\n";
    for (int nm = first; nm <= last; nm += step) text += std::to_string(nm) + "," + std::to_string(value) + "\n";
    return text;
}
json solved(const std::string& stack, const std::string& more = "") {
    write("stack.toml", stack);
    return json_answer("optics stack.toml" + more);
}

}  // namespace

TEST_CASE("greys are grey under every light and to both observers") {
    fresh_folder();
    write("grey.csv", grey_file(0.184187, 380, 780, 5));  // L* 50: Y = ((50 + 16)/116)^3
    for (const std::string observer : {"2deg", "10deg"}) {
        const auto j = json_answer(
            "color grey.csv --light D65 --light A --light D50 --light F11 --light LED-2700 "
            "--observer " +
            observer);
        REQUIRE(j.at("colors").size() == 5);
        for (const auto& c : j.at("colors")) {
            INFO(c.dump());
            CHECK(c.at("Lab").at(0).get<double>() == Approx(50).margin(2e-4));
            CHECK(c.at("Lab").at(1).get<double>() == Approx(0).margin(1e-6));
            CHECK(c.at("Lab").at(2).get<double>() == Approx(0).margin(1e-6));
            CHECK(c.at("hex") == "#777777");  // IEC 61966-2-1 of Y = 0.184187
        }
    }
}

TEST_CASE("color says what it resampled and held, and is silent where it did neither") {
    fresh_folder();
    write("whole.csv", grey_file(0.5, 380, 780, 5));
    write("short.csv", grey_file(0.5, 400, 700, 10));
    CHECK(run("color whole.csv").err.empty());
    const auto r = run("color short.csv");
    CHECK(r.err.find("[spectrum-resampled]") != std::string::npos);
    CHECK(r.err.find("from 400 to 700 nm: end values were held") != std::string::npos);
    CHECK(run("color short.csv --quiet").err.empty());
    CHECK(json_answer("color short.csv").at("warnings").size() == 2);
}

TEST_CASE("a color that no screen has is marked, noted, and kept whole in its Lab") {
    fresh_folder();
    std::string text = "wavelength_nm,reflectance\n";
    for (int nm = 380; nm <= 780; nm += 5) text += std::to_string(nm) + (nm >= 500 && nm <= 530 ? ",0.9\n" : ",0.0\n");
    write("green.csv", text);
    const auto r = run("color green.csv");
    CHECK(r.err.find("beyond sRGB") != std::string::npos);
    CHECK(r.err.find("[out-of-gamut]") != std::string::npos);
    const auto c = json_answer("color green.csv").at("colors").at(0);
    CHECK(c.at("in_gamut") == false);
    CHECK(c.at("Lab").at(1) < -80);
    CHECK(r.out.find(c.at("hex").get<std::string>() + "*") != std::string::npos);
}

TEST_CASE("color refuses files, lights, observers and samples that are none") {
    fresh_folder();
    write("percent.csv", grey_file(50, 380, 780, 5));
    write("coarse.csv", grey_file(0.5, 400, 700, 30));
    write("grey.csv", grey_file(0.5, 380, 780, 5));
    refused_with("color none.csv", "file-missing", "none.csv");
    refused_with("color percent.csv", "spectrum-percent", "percent.csv:2:1: reflectance 50 looks like percent");
    refused_with("color coarse.csv", "spectrum-coarse", "coarse.csv:3:1:");
    refused_with("color grey.csv --light D66", "light-unknown", "Did you mean D65");
    refused_with("color grey.csv --light ash", "light-unknown", "no light 'ash'");
    refused_with("color grey.csv --observer 5deg", "observer-unknown", "10deg or 2deg");
    write("several.csv",
          "name,400,420,440,460,480,500,520,540,560,580,600,620,640,660,680,700\n"
          "a,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1\nb,0.4,0.4,0.4,0.4,0.4,0.4,0.4,0.4,0.4,0."
          "4,0.4,0.4,0.4,0.4,0.4,0.4\n");
    refused_with("color several.csv", "readings-several", "sample names one of: a, b");
    refused_with("color several.csv --sample c", "sample-unknown", "Valid: a or b.");
    const double y = json_answer("color several.csv --sample b").at("colors").at(0).at("XYZ").at(1);
    CHECK(y == Approx(40).margin(1e-6));
}

TEST_CASE("a bare surface mirrors what Fresnel says, both solvers alike") {
    fresh_folder();
    const std::string black =
        "wavelengths_nm = [550]\n[[layer]]\nn = 1.5\nabsorption_per_mm = 1000\nthickness_mm = 10\n"
        "[base]\nblack = true\n";
    for (const std::string solver : {"two-flux", "angular"}) {
        const auto j = solved(black, " --solver " + solver);
        CHECK(j.at("solver") == solver);
        CHECK(j.at("reflectance").at(0).get<double>() == Approx(0.04).margin(1e-6));  // ((1.5 - 1)/(1.5 + 1))^2
        CHECK(j.at("surface_reflectance").at(0).get<double>() == Approx(0.04).margin(1e-9));
        CHECK(j.at("transmittance").at(0).get<double>() == Approx(0).margin(1e-9));
    }
}

TEST_CASE("a clear slab in air loses nothing: what it does not send back goes through") {
    fresh_folder();
    const auto j = solved("wavelengths_nm = [450, 650]\n[[layer]]\nn = 1.5\nthickness_mm = 0.1\n");
    for (std::size_t i = 0; i < 2; ++i) {
        const double r = j.at("reflectance").at(i), t = j.at("transmittance").at(i);
        CHECK(r + t == Approx(1).margin(1e-9));
        CHECK(r == Approx(2 * 0.04 / 1.04).margin(1e-9));  // two surfaces of 0.04, every echo: 2 R/(1 + R)
    }
}

TEST_CASE("absorption takes light by its exponential, and more of it always takes more") {
    fresh_folder();
    const auto j = solved(
        "wavelengths_nm = [400, 500, 600]\n[[layer]]\nn = 1\nabsorption_per_mm = [0, 1, 2]\n"
        "thickness_mm = 0.5\n");
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(j.at("transmittance").at(i).get<double>() ==
              Approx(std::exp(-0.5 * static_cast<double>(i))).margin(1e-9));
    CHECK(j.at("reflectance").at(1).get<double>() == Approx(0).margin(1e-12));
    const auto base = solved("wavelengths_nm = [550]\n[base]\nreflectance = 0.42\n");
    CHECK(base.at("reflectance").at(0).get<double>() == Approx(0.42).margin(1e-12));
}

TEST_CASE("the table of optics is its JSON to six decimals, and streams are said for the angular solver alone") {
    fresh_folder();
    write("stack.toml", "wavelengths_nm = [550]\n[base]\nreflectance = 0.5\n");
    const auto r = run("optics stack.toml");
    CHECK(r.out.find("solver two-flux\n") == 0);
    CHECK(r.out.find("550     0.500000       0.000000       0.000000") != std::string::npos);
    CHECK(run("optics stack.toml --solver angular --streams 4").out.find("solver angular, 4 streams\n") == 0);
    for (const char* streams : {"3", "65", "many", "-8"})
        CHECK(run("optics stack.toml --solver angular --streams " + std::string(streams)).status == 2);
    CHECK(run("optics stack.toml --solver guess").status == 2);
}

TEST_CASE("optics says where a stack leaves the range that two-flux states its errors for") {
    fresh_folder();
    const auto answer = [](const std::string& light, const std::string& layer, const std::string& more = "") {
        write("range.toml", "wavelengths_nm = [550]\n" + light + "[[layer]]\n" + layer + "[base]\nreflectance = 0.5\n");
        return run("optics range.toml" + more);
    };
    const std::string wood = "n = 1.5\nthickness_mm = 0.1\nscattering_per_mm = 8\nabsorption_per_mm = 1\n";
    CHECK(answer("", wood).err.empty());
    // The limits of the header's tables, and a step beyond each.
    CHECK(answer("", wood + "anisotropy = -0.3\n").err.empty());
    const auto backward = answer("", wood + "anisotropy = -0.99\n");
    CHECK(backward.status == 0);
    CHECK(backward.err.find("layer 1 scatters backward (anisotropy -0.99)") != std::string::npos);
    CHECK(backward.err.find("--solver angular [two-flux-range]") != std::string::npos);
    CHECK(answer("", wood + "anisotropy = -0.99\n", " --solver angular --streams 8").err.empty());
    const auto pale = answer("[light]\ndiffuse = true\n",
                             "n = 1.5\nthickness_mm = 0.1\nscattering_per_mm = 0.5\nabsorption_per_mm = 0\n");
    CHECK(pale.err.find("hardly scatters and lies under diffuse light") != std::string::npos);
    const auto strong = answer("", "n = 1.5\nthickness_mm = 2\nscattering_per_mm = 21\nabsorption_per_mm = 21\n");
    CHECK(strong.err.find("reduced scattering of 21 /mm; errors are stated for 0.05 to 20") != std::string::npos);
    CHECK(strong.err.find("absorption of 21 /mm; errors are stated up to 20") != std::string::npos);
    CHECK(strong.err.find("is 2 mm thick; errors are stated for 0.02 to 1") != std::string::npos);
    std::string films;
    for (int i = 0; i < 6; ++i) films += (i ? "[[layer]]\n" : std::string()) + "n = 1.5\nthickness_mm = 0.1\n";
    CHECK(answer("", films).err.find("6 clear films; errors are stated for up to 5") != std::string::npos);
    const auto told = json_answer("optics range.toml");
    REQUIRE(told["warnings"].size() == 1);
    CHECK(told["warnings"][0]["id"] == "two-flux-range");
}

TEST_CASE("optics refuses stacks that cannot be, each at its place") {
    fresh_folder();
    write("stack.toml", "wavelengths_nm = [550]\n[[layer]]\nn = 0.5\nthickness_mm = 1\nalbedo = 1\n");
    const auto r = run("optics stack.toml");
    CHECK(r.status == 1);
    CHECK(lines_of(r.err).size() == 2);
    CHECK(r.err.find("stack.toml:3:5: n = 0.5 is outside 1 to 3 [value-range]") != std::string::npos);
    CHECK(r.err.find("stack.toml:5:1:") != std::string::npos);
    refused_with("optics none.toml", "file-missing", "none.toml");
    write("stack.toml", "wavelengths_nm = [550]\n");
    refused_with("optics stack.toml", "key-missing", "there is nothing here");
}
