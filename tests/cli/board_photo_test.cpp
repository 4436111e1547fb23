#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <random>

#include "cli/program.hpp"
#include "support/pictures/photo_maker.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string stool = FORETONE_SCENES "/stool-maple.toml ";

std::string text_of(const Bytes& bytes) { return {bytes.begin(), bytes.end()}; }

// A bench, a board of the scene's bare wood as `preview` has it, somewhat uneven, and a white card of 0.90 at
// 10,10,40,40.
Codes photograph() {
    const auto r = run("preview " + stool + "--json - --no-pictures");
    REQUIRE(r.status == 0);
    const auto color = json::parse(r.out).at("finishes").at(0).at("stages").at(0).at("colors").at(0);
    REQUIRE(color.at("light") == "D65");
    const std::vector<double> wood = color.at("sRGB");
    Codes out{240, 180, 3, 8, std::vector<std::uint16_t>(3 * 240 * 180)};
    std::mt19937 random(3);
    for (int y = 0; y < 180; ++y) {
        for (int x = 0; x < 240; ++x) {
            const bool card = x >= 5 && x < 55 && y >= 5 && y < 55, board = x >= 30 && x < 210 && y >= 30 && y < 160;
            const double streak = board ? -6 + 4 * (y / 9 % 4) : 0;
            for (int c = 0; c < 3; ++c) {
                const double v = card ? 243 : board ? 255 * wood[std::size_t(c)] + streak : 120;
                out.at(x, y, c) = std::uint16_t(v + double(random() % 3) - 0.5);
            }
        }
    }
    return out;
}

}  // namespace

TEST_CASE("board --photo puts every finish of the scene on the user's board, with pairs, a page and figures") {
    fresh_folder();
    write("board.png", text_of(png_of(photograph())));
    const auto r = run("board " + stool + "--photo board.png --card 10,10,40,40 --json board.json");
    INFO(r.err);
    REQUIRE(r.status == 0);
    CHECK(r.out.find("Screens and prints are not the sample") != std::string::npos);
    for (const auto* name : {"bare", "dye-shellac-waterborne", "dye-shellac-waterborne-pair"})
        CHECK(exists("out/stool-maple-photo-" + std::string(name) + ".png"));
    CHECK(exists("out/stool-maple-photo.png"));
    CHECK(r.err.find("picture-no-profile") != std::string::npos);

    const auto again = run("board " + stool + "--photo board.png --card 10,10,40,40 --json -");
    const auto j = json::parse(again.out);
    CHECK(j.at("promise") == true);
    CHECK(j.at("finishes").size() == 3);
    CHECK(j.at("before").at("dE00_to_prediction") < 1.5);
    for (const auto& f : j.at("finishes")) {
        CHECK(f.at("dE00_to_prediction") < 2);
        CHECK(f.at("dE00_from_bare") > 3);
        CHECK(f.at("board").at("Lab").size() == 3);
    }
    const auto& shares = j.at("shares");
    CHECK(double(shares.at("wood")) == Approx(180.0 * 130 / (240 * 180) - 25.0 * 25 / (240 * 180)).margin(0.02));
    CHECK(double(shares.at("wood")) + double(shares.at("untouched")) == Approx(1));
    CHECK(j.at("pictures").size() == 8);  // bare, three finishes, three pairs, the page
    CHECK(j.at("card").at("reflectance") == 0.9);
}

TEST_CASE("board --photo without a card is refused with how to photograph, unless no promise is asked for") {
    fresh_folder();
    write("board.png", text_of(png_of(photograph())));
    const auto r = run("board " + stool + "--photo board.png");
    CHECK(r.status == 1);
    CHECK(r.err.find("board.png: ") != std::string::npos);
    CHECK(r.err.find("without one no color can be promised") != std::string::npos);
    CHECK(r.err.find("[card-missing]") != std::string::npos);
    CHECK_FALSE(exists("out"));
    const auto relative =
        run("board " + stool + "--photo board.png --no-card --finish 'dye, shellac, waterborne' --json -");
    REQUIRE(relative.status == 0);
    const auto j = json::parse(relative.out);
    CHECK(j.at("promise") == false);
    CHECK(j.at("card").is_null());
    CHECK(j.at("finishes").size() == 1);
    CHECK(j.at("warnings").dump().find("\"no-card\"") != std::string::npos);
    // No color, nor what was got by giving the board the prediction's: differences alone.
    for (const auto& shown : {j.at("before"), j.at("finishes").at(0)})
        for (const auto* color : {"board", "prediction", "dE00_to_prediction"}) CHECK(shown.at(color).is_null());
    CHECK(j.at("finishes").at(0).at("Lab_from_bare").at(0) < -5);
    const auto words = run("board " + stool + "--photo board.png --no-card --finish 'dye, shellac, waterborne'");
    CHECK(words.out.find("than bare dL*  da*  db*") != std::string::npos);
    CHECK(words.out.find("prediction") == std::string::npos);
}

TEST_CASE("board --photo says what it assumes of the light, and how it knows what the wood drinks") {
    fresh_folder();
    write("board.png", text_of(png_of(photograph())));
    const std::string dyed =
        "board " + stool + "--photo board.png --card 10,10,40,40 --finish 'dye, shellac, waterborne' ";
    const auto assumed = run(dyed), said = run(dyed + "--photo-light D65");
    CHECK(assumed.out.find("photographed under a light taken to be D65; name the light with --photo-light\n") !=
          std::string::npos);
    CHECK(said.out.find("photographed under D65\n") != std::string::npos);
    CHECK(said.err.find("Say how much of the board a pixel shows with --mm-per-px [photo-scale]") != std::string::npos);
    CHECK(said.err.find("drawn as such wood has them, not where this board's will lie [photo-blotches]") !=
          std::string::npos);
    CHECK(run(dyed + "--mm-per-px 0.8").err.find("photo-scale") == std::string::npos);
    CHECK(json::parse(run(dyed + "--json -").out).at("photo").at("light_assumed") == true);
    const auto clear = run("board " + stool + "--photo board.png --card 10,10,40,40 --finish 'clear only'");
    CHECK(clear.err.find("photo-scale") == std::string::npos);
    CHECK(clear.err.find("photo-blotches") == std::string::npos);
}

TEST_CASE("board --photo takes out uneven light and says so; marked parts alone are finished") {
    fresh_folder();
    auto codes = photograph();
    const auto linear = [](double code) { return std::pow(code / 255, 2.2); };  // near enough to sRGB's curve
    for (int y = 0; y < 180; ++y)
        for (int x = 0; x < 240; ++x)
            for (int c = 0; c < 3; ++c)
                codes.at(x, y, c) =
                    std::uint16_t(255 * std::pow(linear(codes.at(x, y, c)) * (0.95 - 0.4 * x / 240.0), 1 / 2.2) + 0.5);
    write("fall.png", text_of(png_of(codes)));
    const std::string ask = "board " + stool + "--photo fall.png --card 10,10,40,40 --finish 'clear only' ";
    const auto told = run(ask);
    INFO(told.err);
    REQUIRE(told.status == 0);
    CHECK(told.err.find("taken out before the finish and put back after") != std::string::npos);
    CHECK(told.err.find("[card-gradient]") == std::string::npos);
    const auto j = json::parse(run(ask + "--json -").out);
    CHECK(j.at("light").at("taken_out") == true);
    CHECK(double(j.at("light").at("fall")) == Approx(0.33).margin(0.08));  // 0.9 to 0.6 over the board
    CHECK(json::parse(run(ask + "--second-light A --json -").out).at("photo").at("second_light") == "A");
    const auto even = json::parse(run(ask + "--light-even --json -").out);
    CHECK(even.at("light").at("taken_out") == false);
    CHECK(even.at("light").at("judged") == false);
    CHECK(even.at("light").at("fall").is_null());
    CHECK(j.at("light").at("judged") == true);
    CHECK(run(ask + "--light-even --card 90000,90000,40,40").err.find("[card-outside]") != std::string::npos);
    CHECK(told.err.find("more cards (--card again) would make it surer [light-uneven]") != std::string::npos);
    CHECK(even.at("before").at("dE00_to_prediction") > j.at("before").at("dE00_to_prediction"));

    const auto part = json::parse(run(ask + "--board 80,60,100,60 --board '30,120 70,120 70,150' --json -").out);
    CHECK(double(part.at("shares").at("wood")) == Approx((100.0 * 60 + 40 * 30 / 2) / (240 * 180)).margin(0.01));
    CHECK(run(ask + "--board 80,60,100").status == 2);
    CHECK(run(ask + "--board '80,60 90,60'").status == 2);
    CHECK(run(ask + "--board 80,60,1000,60").err.find("[board-outside]") != std::string::npos);
    CHECK(run(ask + "--card 12,12,20,20").err.find("judged from the wood itself and 2 cards") != std::string::npos);
}

TEST_CASE("board --photo refuses a shadow's edge and names the option for wood that is like that") {
    fresh_folder();
    auto codes = photograph();
    for (int y = 0; y < 180; ++y)
        for (int x = 0; x < 240; ++x)
            for (int c = 0; c < 3 && x + 0.2 * y > 150; ++c)
                codes.at(x, y, c) = std::uint16_t(codes.at(x, y, c) * std::pow(0.55, 1 / 2.2));
    write("shadow.png", text_of(png_of(codes)));
    const std::string ask = "board " + stool + "--photo shadow.png --card 10,10,40,40 --finish 'clear only' ";
    const auto r = run(ask);
    CHECK(r.status == 1);
    CHECK(r.err.find("say so with --light-even [light-edge]") != std::string::npos);
    CHECK(run(ask + "--light-even").status == 0);
}

TEST_CASE("board --photo does not call light even that it could not judge") {
    fresh_folder();
    write("board.png", text_of(png_of(photograph())));
    const std::string ask = "board " + stool + "--photo board.png --card 10,10,40,40 --finish 'clear only' ";
    const auto j = json::parse(run(ask + "--board 80,60,36,24 --json -").out);
    CHECK(j.at("light").at("judged") == false);
    CHECK(j.at("light").at("fall").is_null());
    CHECK(j.at("light").at("color_change").is_null());
    CHECK(j.at("warnings").dump().find("\"light-not-judged\"") != std::string::npos);
}

TEST_CASE("board --photo leads with a doubt where what it found is far from the wood") {
    fresh_folder();
    auto codes = photograph();
    for (int y = 30; y < 160; ++y)
        for (int x = y < 55 ? 55 : 30; x < 210; ++x)  // all of the board: not the card
            for (int c = 0; c < 3; ++c) codes.at(x, y, c) = std::uint16_t(codes.at(x, y, c) * 0.62);
    write("dark.png", text_of(png_of(codes)));
    const auto r = run("board " + stool + "--photo dark.png --card 10,10,40,40 --finish 'clear only'");
    INFO(r.out);
    CHECK(r.status == 0);
    CHECK(r.out.find("warning: What was found is") == 0);
    const auto j =
        json::parse(run("board " + stool + "--photo dark.png --card 10,10,40,40 --finish 'clear only' --json -").out);
    CHECK(j.at("warnings").at(0).at("id") == "photo-other-wood");
}

TEST_CASE("what is wrong with a photograph is told with its name and an id, and nothing is written") {
    fresh_folder();
    const auto codes = photograph();
    const Bytes whole = jpeg_of(codes);
    write("half.jpg", text_of({whole.begin(), whole.begin() + std::ptrdiff_t(whole.size() / 2)}));
    write("press.jpg", text_of(jpeg_of(example(60, 60, 4), {.cmyk = true})));
    write("grey.png", text_of(png_of(example(60, 60, 1))));
    write("big.png", text_of(png_that_says(30000, 20000)));
    write("empty.jpg", "");
    write("phone.heic", std::string("\0\0\0\x18"
                                    "ftypheic\0\0\0\0mif1",
                                    20));
    write("board.png", text_of(png_of(codes)));
    const std::pair<const char*, const char*> cases[] = {
        {"half.jpg --card 10,10,40,40", "picture-truncated"},
        {"press.jpg --card 10,10,40,40", "picture-cmyk"},
        {"grey.png --card 10,10,40,40", "picture-grey"},
        {"big.png --card 10,10,40,40", "picture-size"},
        {"empty.jpg --card 10,10,40,40", "picture-empty"},
        {"phone.heic --card 10,10,40,40", "picture-kind"},
        {"none.jpg --card 10,10,40,40", "picture-missing"},
        {". --card 10,10,40,40", "picture-directory"},
        {"board.png --card 230,10,40,40", "card-outside"},
        {"board.png --card 10,10,4,4", "card-small"},
        {"board.png --card 40,10,40,40", "card-uneven"},
        {"board.png --card 10,10,40,40 --finish oak", "finish-unknown"},
        {"board.png --card 10,10,40,40 --photo-light D66", "light-unknown"},
        {"board.png --card 10,10,40,40 --second-light warm", "light-unknown"}};
    for (const auto& [arguments, id] : cases) {
        const auto r = run("board " + stool + "--photo " + arguments);
        CAPTURE(arguments, r.err);
        CHECK(r.status == 1);
        CHECK(r.err.find("[" + std::string(id) + "]") != std::string::npos);
        CHECK_FALSE(exists("out"));
    }
    CHECK(run("board " + stool + "--photo board.png --card 10,10,40").status == 2);
    CHECK(run("board " + stool + "--photo board.png --card 10,10,40,40 --no-card").status == 2);
    CHECK(run("board " + stool + "--photo board.png --card 10,10,40,40 --card-reflectance 90").status == 2);
    CHECK(run("board " + stool + "--card 10,10,40,40").status == 2);
    CHECK(run("board " + stool + "--photo board.png --card 10,10,40,40 --cut rift").status == 2);
}

TEST_CASE("board --photo squares up what lies between four corners, and finishes marked parts along their own grain") {
    fresh_folder();
    write("board.png", text_of(png_of(photograph())));
    const std::string one = stool + "--photo board.png --card 10,10,40,40 --finish \"clear only\" --json - ";
    const auto r = run("board " + one + "--corners \"5,5 230,20 210,170 20,165\" --corners-mm 300x200");
    INFO(r.err);
    REQUIRE(r.status == 0);
    const auto j = json::parse(r.out);
    const double width = j.at("photo").at("squared").at("width"), height = j.at("photo").at("squared").at("height");
    CHECK(std::abs(width / height - 1.5) < 0.02);
    CHECK(std::abs(j.at("mm_per_px").get<double>() - 300 / width) < 1e-9);
    CHECK(r.err.find("photo-sides") == std::string::npos);
    const auto unsaid = run("board " + one + "--corners \"5,5 230,20 210,170 20,165\"");
    CHECK(unsaid.err.find("photo-sides") != std::string::npos);
    const auto parts = run("board " + one + "--board \"60,60 120,60 120,120 60,120 grain 90\" --board 130,60,60,60");
    CHECK(parts.status == 0);
    CHECK(std::abs(json::parse(parts.out).at("shares").at("wood").get<double>() - 2 * 3600.0 / (240 * 180)) < 0.01);

    for (const auto* wrong :
         {"--corners \"5,5 230,20 210,170\"", "--corners 5,5,30,30", "--corners-mm 300x200",
          "--board \"60,60 120,60 120,120 grain north\"", "--corners \"5,5 230,20 210,170 20,165\" --corners-mm 300"}) {
        CAPTURE(wrong);
        CHECK(run("board " + one + wrong).status == 2);
    }
    const auto mirrored = run("board " + one + "--corners \"230,20 5,5 20,165 210,170\"");
    CHECK(mirrored.status == 1);
    CHECK(mirrored.err.find("corners-order") != std::string::npos);
}

TEST_CASE("the color chart is made, and read where it is photographed: here its own picture") {
    fresh_folder();
    const auto made = run("chart");
    INFO(made.err);
    REQUIRE(made.status == 0);
    for (const auto* name : {"out/chart.png", "out/chart.html", "out/chart-plan.txt"}) CHECK(exists(name));
    CHECK(made.out.find("line of 100 mm") != std::string::npos);
    // 11.8 dots a millimetre; the field C6 lies at 119, 57.
    const auto read = run("chart --photo out/chart.png --patch dyed=1375,640,60,60 --photo-light D65 --json -");
    INFO(read.err);
    CHECK(read.status == 0);
    CHECK(exists("out/chart-readings.txt"));
    const auto j = json::parse(read.out);
    CHECK(j.at("camera").at("fields") >= 39);  // bare paper is as bright as the page can say
    CHECK(j.at("readings").at(0).at("name") == "dyed");
    CHECK(j.at("readings").at(0).at("spread_dE") > 6);
    CHECK(run("chart --photo out/chart.png --patch dyed").status == 2);
    CHECK(run("chart --patch dyed=1,1,9,9").status == 2);
}
