#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "appearance/finishes.hpp"
#include "foretone/appearance/mean_matched.hpp"
#include "foretone/light/board.hpp"
#include "foretone/light/rows.hpp"
#include "foretone/grain/contrast.hpp"
#include "foretone/format/png.hpp"
#include "foretone/layout/tilt.hpp"
#include "support/pictures/png_reader.hpp"
#include "support/sanitized.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::light;
using namespace foretone::grain;
using namespace foretone::format;
using namespace foretone::layout;
using namespace foretone::test;

namespace {

const color::Weights& d65() {
    static const color::Weights w = color::make_weights(test::light("D65"), observer("2deg"));
    return w;
}

constexpr auto reading = optics::Geometry::g45_0;

// A finish on the grain of a wood.
struct Made {
    Made(const std::string& wood_id, const schedule::Finish& finish, const Maps& maps)
        : wood(wood_of(wood_id)),
          spots(centred(wood, maps.shade)),
          board(boards(whole_library(), wood_id, finish).back()),
          state(mean_matched(
              spots, board,
              ToneSpectra(board, spots, reading, two_flux_solver(), ToneRange::covering(maps.shade, maps.uptake)),
              render(board, wood, reading, two_flux_solver()).total(), maps.shade, maps.uptake)),
          spectra(state.board, state.spots, reading, two_flux_solver(), ToneRange::covering(maps.shade, maps.uptake)),
          tones(spectra, d65()) {}
    Finished finished() const { return {tones, sheen_of(board, wood), fibres_of(wood)}; }

    const material::Wood& wood;
    material::Wood spots;
    Board board;
    MeanMatched state;
    ToneSpectra spectra;
    ToneTable tones;
};

// An even board: one shade, straight fibres.
Maps even(int width, int height) {
    const auto n = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    return {width, height, 0.5, std::vector<float>(n, 0.0F), std::vector<float>(n, 1.0F), {}, {}};
}

double mean_code(const Image& image, int x0, int x1, int y0, int y1) {
    double sum = 0;
    for (int y = y0; y < y1; ++y)
        for (int x = x0; x < x1; ++x) sum += image.at(x, y)[1];
    return sum / ((x1 - x0) * (y1 - y0));
}

bool softwood(const material::Wood& wood) {
    return wood.grain->pores == material::Pores::resin || wood.grain->pores == material::Pores::none;
}

double difference(const color::Xyz& a, const color::Xyz& b) {
    return color::delta_e_00(color::to_lab(a, d65().white), color::to_lab(b, d65().white));
}

}  // namespace

TEST_CASE("the mean of a board is the reading of its wood, over all woods and finishes") {
    // Settled on the state's own reading; before that, centred on the bare one, the mean of spots is off by Jensen's
    // inequality.
    double worst = 0, worst_bare = 0, worst_hardwood = 0, worst_softwood = 0;  // the last two unsettled
    std::string where, where_hardwood, where_softwood;
    for (const auto& id : library().ids(material::Kind::wood)) {
        if (sanitized() && id != "pine" && id != "teak") continue;
        const auto maps = grain::grain(wood_of(id), Cut::flat, 400, 267, 0.6, 7);
        for (const auto& finish : finishes()) {
            const Made made(id, finish, maps);
            const auto due = color::xyz(render(made.board, made.wood, reading, two_flux_solver()).total(), d65());
            const auto lit = light_board(maps, made.finished(), {View::flat, 0});
            const double off = difference(lit.mean, due);
            const ToneSpectra before(made.board, made.spots, reading, two_flux_solver(),
                                     ToneRange::covering(maps.shade, maps.uptake));
            const double unsettled = difference(color::xyz(before.mean(maps.shade, maps.uptake).total(), d65()), due);
            double& worst_unsettled = softwood(made.wood) ? worst_softwood : worst_hardwood;
            if (!(unsettled <= worst_unsettled))
                (softwood(made.wood) ? where_softwood : where_hardwood) =
                    id + ", " + finish.name + ": ΔE00 " + std::to_string(unsettled);
            worst_unsettled = worst_of(worst_unsettled, unsettled);
            if (finish.steps.empty()) worst_bare = worst_of(worst_bare, off);
            if (!(off <= worst)) where = id + ", " + finish.name + ": ΔE00 " + std::to_string(off);
            worst = worst_of(worst, off);
        }
    }
    CAPTURE(where, where_hardwood, where_softwood);
    CHECK(worst_bare < 0.01);
    CHECK(worst < 0.1);           // due: 0.3
    CHECK(worst_hardwood < 0.5);  // what appearance/mean_matched.hpp says, both
    CHECK(worst_softwood < 0.7);
}

TEST_CASE("an unsettled mean is off by the spots themselves: each solved directly, they read paler by as much") {
    const auto finish = finishes()[5];  // strong raven dye, varnish
    for (const std::string id : {"maritime-pine", "douglas-fir"}) {
        const auto maps = grain::grain(wood_of(id), Cut::flat, 400, 267, 0.6, 7);
        const Made made(id, finish, maps);
        std::vector<float> shade, uptake;
        spectral::Spectrum direct{};
        for (std::size_t i = 0; i < maps.shade.size(); i += 211) {
            shade.push_back(maps.shade[i]);
            uptake.push_back(maps.uptake[i]);
            const auto spot = render(at_uptake(made.board, static_cast<double>(uptake.back())),
                                     shaded(made.spots, static_cast<double>(shade.back())), reading, two_flux_solver())
                                  .total();
            for (std::size_t k = 0; k < direct.size(); ++k) direct[k] += spot[k];
        }
        for (std::size_t k = 0; k < direct.size(); ++k) direct[k] /= static_cast<double>(shade.size());
        const ToneSpectra table(made.board, made.spots, reading, two_flux_solver(),
                                ToneRange::covering(maps.shade, maps.uptake));
        const auto due = color::xyz(render(made.board, made.wood, reading, two_flux_solver()).total(), d65());
        const auto solved = color::xyz(direct, d65());
        CAPTURE(id, difference(solved, due));
        CHECK(difference(color::xyz(table.mean(shade, uptake).total(), d65()), solved) < 0.1);  // as every pixel is
        CHECK(solved.y > due.y);
        CHECK(difference(solved, due) > 0.3);  // more than the table can be off by
    }
}

TEST_CASE("every pixel of a board is within ΔE00 0.1 of solving it directly") {
    std::mt19937_64 random(11);
    double worst = 0;
    std::string where;
    for (const std::string id : {"pine", "white-oak", "mahogany"}) {
        const auto maps = grain::grain(wood_of(id), Cut::flat, 300, 200, 0.25, 3);
        for (const auto& finish : finishes()) {
            const Made made(id, finish, maps);
            for (int p = 0; p < 30; ++p) {
                const std::size_t i = random() % maps.shade.size();
                const double shade = maps.shade[i], uptake = maps.uptake[i];
                const auto direct = render(at_uptake(made.state.board, uptake), shaded(made.state.spots, shade),
                                           reading, two_flux_solver())
                                        .total();
                const double off = difference(made.tones.reading(shade, uptake), color::xyz(direct, d65()));
                if (worse(off, worst)) {
                    worst = off;
                    where = id + ", " + finish.name + ", pixel " + std::to_string(i % 300) + ", " +
                            std::to_string(i / 300) + " (shade " + std::to_string(shade) + ", uptake " +
                            std::to_string(uptake) + ")";
                }
            }
        }
    }
    CAPTURE(where, worst);
    CHECK(worst < 0.1);
}

TEST_CASE("a coat lifts the contrast of early and late wood in every wood, and dye drawn unevenly adds to it") {
    std::string where;
    for (const auto& id : library().ids(material::Kind::wood)) {
        const auto maps = grain::grain(wood_of(id), Cut::flat, 300, 200, 0.6, 7);
        const Made bare(id, finishes()[0], maps), coated(id, finishes()[1], maps);
        if (!(contrast(maps, coated.tones, maps.shade).ratio > contrast(maps, bare.tones, maps.shade).ratio))
            where += id + " ";
    }
    CAPTURE(where);
    CHECK(where.empty());
}

TEST_CASE(
    "dye darkens the tenth that takes up most more than the one that takes up least, and a wash coat takes a part of "
    "that back") {
    for (const std::string id : {"pine", "ash"}) {
        const auto maps = grain::grain(wood_of(id), Cut::flat, 300, 200, 0.6, 7);
        // How many times brighter is the tenth that drinks least than the tenth that drinks most?
        const auto ratio = [&](const schedule::Finish& finish) {
            const Made made(id, finish, maps);
            return std::log(contrast(maps, made.tones, maps.uptake).ratio);
        };
        const schedule::Finish varnished{"varnish", {coat_step("oil-varnish", 2)}};
        const schedule::Finish dyed{"dye", {dye_step("umber-dye", 9), coat_step("oil-varnish", 2)}};
        const schedule::Finish washed{"washed", {wash_step(), dye_step("umber-dye", 9), coat_step("oil-varnish", 2)}};
        // Dye compresses what contrast the bare wood had; compare with the same dye drunk evenly.
        Maps evenly = maps;
        evenly.uptake.assign(maps.uptake.size(), 1.0F);
        const auto even_ratio = [&](const schedule::Finish& finish) {
            const Made made(id, finish, maps);
            return std::log(contrast(evenly, made.tones, maps.uptake).ratio);
        };
        const double by_dye = ratio(dyed) - even_ratio(dyed), after_wash = ratio(washed) - even_ratio(washed);
        CAPTURE(id, ratio(varnished), ratio(dyed), even_ratio(dyed), ratio(washed), even_ratio(washed));
        CHECK(by_dye > 0.05);
        CHECK(after_wash < 0.8 * by_dye);
        CHECK(after_wash > 0);
    }
}

TEST_CASE("a picture is the same bytes for any number of threads") {
    const auto maps = grain::grain(wood_of("cherry"), Cut::flat, 260, 200, 0.5, 1);
    const Made made("cherry", finishes()[4], maps);
    for (const View view : {View::flat, View::window, View::lamp}) {
        const auto one = light_board(maps, made.finished(), {view, 0}, 1),
                   three = light_board(maps, made.finished(), {view, 0}, 3);
        CHECK(one.image.rgb == three.image.rgb);
        CHECK(one.mean == three.mean);
        CHECK(one.tally.reduced == three.tally.reduced);
    }
}

TEST_CASE("gloss mirrors the window in a corner and is deep elsewhere; satin spreads it over the board") {
    const auto maps = even(300, 200);
    const Made gloss("walnut", {"gloss", {coat_step("oil-varnish", 3, 90)}}, maps),
        satin("walnut", {"satin", {coat_step("oil-varnish", 3, 20)}}, maps);
    const auto g = light_board(maps, gloss.finished(), {View::window, 0}).image,
               s = light_board(maps, satin.finished(), {View::window, 0}).image;
    CHECK(mean_code(g, 0, 20, 0, 10) > mean_code(s, 0, 20, 0, 10) + 20);
    CHECK(mean_code(g, 200, 300, 100, 200) < mean_code(s, 200, 300, 100, 200) - 2);
    // Where nothing is mirrored, gloss under a light is the flat view's color but for the light's fall over the board
    // and the fibres.
    const auto flat = light_board(maps, gloss.finished(), {View::flat, 0}).image;
    CHECK(std::abs(mean_code(g, 150, 300, 100, 200) - mean_code(flat, 150, 300, 100, 200)) < 14);
}

TEST_CASE("curl flashes: crests that are bright with the light at one end are dull with it at the other") {
    auto maps = even(320, 60);
    maps.turn.assign(maps.shade.size(), 0.0F);
    maps.rise.resize(maps.shade.size());
    for (std::size_t i = 0; i < maps.rise.size(); ++i)
        maps.rise[i] = static_cast<float>(0.15 * std::sin(2 * std::numbers::pi * static_cast<double>(i % 320) / 20));
    const auto slopes = [&](const schedule::Finish& finish, double tilt) {
        const Made made("hard-maple", finish, maps);
        const auto image = light_board(maps, made.finished(), {View::passing, tilt}).image;
        double with_rise = 0, rise2 = 0, mean = mean_code(image, 0, 320, 0, 60);
        for (int y = 0; y < 60; ++y)
            for (int x = 0; x < 320; ++x) {
                const double r = maps.rise[maps.at(x, y)];
                with_rise += r * (image.at(x, y)[1] - mean);
                rise2 += r * r;
            }
        return with_rise / rise2;  // codes per radian of rise
    };
    const schedule::Finish varnish{"varnish", {coat_step("oil-varnish", 3, 80)}};
    const double left = slopes(varnish, -30), right = slopes(varnish, 30);
    CAPTURE(left, right);
    CHECK(left * right < 0);
    CHECK(std::abs(left) > 10);
    CHECK(std::abs(slopes({"bare", {}}, -30)) < 0.5 * std::abs(left));  // dry wood hardly shimmers
}

TEST_CASE("a white card stays white: the light's color is taken out") {
    // The whitest wood there can be, bare and without its surface, in the middle of the board.
    auto maps = even(101, 67);
    material::Wood card = wood_of("hard-maple");
    card.reflectance.values = spectral::Spectrum::constant(0.85);
    card.surface_k1.value = 0;
    for (const std::string id : {"D65", "A"}) {
        const auto weights = color::make_weights(test::light(id), observer("2deg"));
        const ToneSpectra spectra({}, card, reading, two_flux_solver());
        const ToneTable tones(spectra, weights);
        auto fibres = fibres_of(card);
        fibres.share.value = 0;
        const auto lit = light_board(maps, {tones, sheen_of({}, card), fibres}, {View::lamp, 0});
        const auto middle = lit.image.at(50, 33);
        CHECK(std::abs(int{middle[0]} - int{middle[1]}) <= 1);
        CHECK(std::abs(int{middle[2]} - int{middle[1]}) <= 1);
        CHECK(std::abs(int{middle[1]} - 236) <= 2);  // 0.85 encoded: 255 (1.055 · 0.85^(1/2.4) − 0.055) = 237
    }
}

TEST_CASE("a tilt strip has seven labelled steps") {
    const auto maps = grain::grain(wood_of("mahogany"), Cut::quarter, 300, 200, 0.5, 1);
    const Made made("mahogany", finishes()[2], maps);
    const auto strip = tilt_strip(maps, made.finished());
    CHECK(strip.width == 300 + 150 + 8);
    CHECK(strip.height == 8 + 7 * (34 + 8));
    CHECK(strip.rgb == tilt_strip(maps, made.finished(), 1).rgb);
}

TEST_CASE("maps that disagree and lights swung too far are refused") {
    auto maps = even(40, 40);
    const Made made("birch", finishes()[1], maps);
    CHECK_THROWS_AS(light_board(maps, made.finished(), {View::passing, 80}), std::invalid_argument);
    maps.uptake.pop_back();
    CHECK_THROWS_AS(light_board(maps, made.finished(), {View::flat, 0}), std::invalid_argument);
    CHECK_THROWS_AS(contrast(maps, made.tones, {}), std::invalid_argument);
}

TEST_CASE("a picture packed as a photograph reads back the same, whatever its height") {
    for (const int height : {32, 64, 65, 200}) {
        const auto maps = grain::grain(wood_of("ash"), Cut::flat, 90, height, 0.5, 1);
        const Made made("ash", finishes()[1], maps);
        const auto image = light_board(maps, made.finished(), {View::window, 0}).image;
        PngOptions options{200, "title", ""};
        options.photograph = true;
        CHECK(read_png(encode_png(image, options)).image.rgb == image.rgb);
    }
}

TEST_CASE("the even view is the reading, shimmer and all: no mirrored light, no falloff") {
    // On straight fibres every pixel is the flat view's; on real ones the mean is, within ΔE00 0.5 (a choice: half of
    // what is just seen), and left and right are alike where a window veils one of them.
    const auto plain = even(60, 40);
    const Made made("hard-maple", finishes()[4], plain);
    const auto flat = light_board(plain, made.finished(), {View::flat, 0}).image;
    CHECK(light_board(plain, made.finished(), {View::even, 0}).image.rgb == flat.rgb);
    const auto maps = grain::grain(wood_of("hard-maple"), Cut::flat, 96, 64, 1, 3);
    const Made real("hard-maple", finishes()[4], maps);
    const auto mean = [&](View view) {
        const auto lit = light_board(maps, real.finished(), {view, 0});
        return color::to_lab(lit.mean, real.tones.white());
    };
    CHECK(color::delta_e_00(mean(View::even), mean(View::flat)) < 0.5);
    CHECK(word(View::even) == "even");
    // It goes by means over the board, which no piece of it has.
    light::BoardPicture pieces(96, 128, 1, real.finished(), {View::even, 0});
    std::vector<std::uint8_t> rgb(std::size_t{3} * 96 * 64);
    CHECK_THROWS_AS(pieces.draw(maps, 0, 0, 64, rgb), std::invalid_argument);
}

TEST_CASE("a picture drawn row by row is the picture drawn at once") {
    const auto maps = grain::grain(wood_of("red-oak"), Cut::quarter, 150, 90, 0.3, 1);
    const Made made("red-oak", finishes()[4], maps);
    for (const View view : {View::flat, View::window}) {
        const auto whole = light_board(maps, made.finished(), {view, 0});
        light::BoardPicture picture(150, 90, 0.3, made.finished(), {view, 0}, 2);
        std::vector<std::uint8_t> all;
        for (int from = 0; from < 90; from += 37) {
            const int end = std::min(90, from + 37), first = std::max(0, from - 1), last = std::min(90, end + 1);
            grain::Maps rows{150, last - first, 0.3, {}, {}, {}, {}, {}};
            for (const auto map : {&grain::Maps::shade, &grain::Maps::uptake, &grain::Maps::rise, &grain::Maps::turn,
                                   &grain::Maps::pore})
                (rows.*map).assign((maps.*map).begin() + 150 * first, (maps.*map).begin() + 150 * last);
            std::vector<std::uint8_t> rgb(std::size_t{450} * static_cast<std::size_t>(end - from));
            picture.draw(rows, first, from, end, rgb);
            all.insert(all.end(), rgb.begin(), rgb.end());
            CHECK_THROWS_AS(picture.draw(rows, first, from, end + 2, rgb), std::invalid_argument);
        }
        CHECK(all == whole.image.rgb);
        CHECK(picture.mean() == whole.mean);
        CHECK(picture.reduced_share() == whole.reduced_share());
        CHECK(picture.white_share() == whole.white_share());
    }
    CHECK_THROWS_AS(light::BoardPicture(9, 9, 1, made.finished(), {View::passing, 80}), std::invalid_argument);
}
