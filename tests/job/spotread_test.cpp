// What spotread 2.3.1 prints (texts of the installed program), cut into what matters.

#include <catch2/catch.hpp>

#include "foretone/job/spotread.hpp"

namespace foretone::job {
namespace {

const std::string spot_prompt =
    "\nPlace instrument on spot to be measured,\nand hit [A-Z] to read white and setup FWA compensation (keyed to "
    "letter)\nHit ESC or Q to exit, instrument switch or any other key to take a reading: ";
const std::string spot_result =
    "\nSpectrum from 400.000 to 700.000 nm in 4 steps\n1.00, 2.00,\n3.00, 4.00\n\n Result is XYZ: "
    "1.0 2.0 3.0, D50 Lab: 50.0 1.0 2.0\n";

std::vector<Heard> heard_in(SpotreadEar& ear, const std::string& text, std::size_t piece) {
    std::vector<Heard> out;
    for (std::size_t at = 0; at < text.size(); at += piece)
        for (auto& h : ear.hear(text.substr(at, piece))) out.push_back(std::move(h));
    return out;
}

}  // namespace

TEST_CASE("prompts, readings and misreads are heard in order, whatever pieces they come in") {
    const std::string text = spot_prompt + spot_result + spot_prompt +
                             "\nSpot read failed due to the sensor being in the wrong position\n(Attached)\nHit Esc or "
                             "Q to give up, any other key to retry:";
    for (const std::size_t piece : {1, 7, 4096}) {
        SpotreadEar ear;
        const auto heard = heard_in(ear, text, piece);
        REQUIRE(heard.size() == 4);
        CHECK(heard[0].kind == Heard::Kind::ready);
        CHECK(heard[1].kind == Heard::Kind::reading);
        CHECK(heard[1].text ==
              "Spectrum from 400.000 to 700.000 nm in 4 steps\n1.00, 2.00,\n3.00, 4.00\n"
              "Result is XYZ: 1.0 2.0 3.0, D50 Lab: 50.0 1.0 2.0\n");
        CHECK(heard[2].kind == Heard::Kind::ready);
        CHECK(heard[3].kind == Heard::Kind::misread);
        CHECK(heard[3].text == "Spot read failed due to the sensor being in the wrong position (Attached)");
    }
}

TEST_CASE("where the instrument wants to be set is said without its keys") {
    SpotreadEar ear;
    const auto heard = ear.hear(
        "Place the instrument on light trap, or in the dark,\n and then hit any key to continue,\n or hit Esc or Q to "
        "abort: ");
    REQUIRE(heard.size() == 1);
    CHECK(heard[0].kind == Heard::Kind::tile);
    CHECK(heard[0].text == "Place the instrument on light trap, or in the dark");
}

TEST_CASE("a question that is not known is handed on after a silence, and talk is not") {
    SpotreadEar ear;
    CHECK(ear.hear("Connecting to the instrument ..\n").empty());
    CHECK_FALSE(ear.silence());
    CHECK(ear.last_words() == "Connecting to the instrument ..");
    CHECK(ear.hear("Press the switch now:").empty());
    const auto asked = ear.silence();
    REQUIRE(asked);
    CHECK(asked->kind == Heard::Kind::waits);
    CHECK(asked->text == "Connecting to the instrument .. Press the switch now:");
    CHECK_FALSE(ear.silence());
}

TEST_CASE("a result's line that is not whole yet is waited for") {
    SpotreadEar ear;
    CHECK(ear.hear(" Result is XYZ: 1.0 2.0").empty());
    const auto heard = ear.hear(" 3.0, D50 Lab: 50.0 1.0 2.0\n");
    REQUIRE(heard.size() == 1);
    CHECK(heard[0].text == "Result is XYZ: 1.0 2.0 3.0, D50 Lab: 50.0 1.0 2.0\n");
}

}  // namespace foretone::job
