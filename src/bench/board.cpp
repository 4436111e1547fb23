// A finished board of 2400 × 1600 pixels, beside a plain color transform of as many pixels through a 3-D table.

#include <benchmark/benchmark.h>
#include <lcms2.h>

#include "foretone/light/board.hpp"
#include "foretone/format/png.hpp"
#include "foretone/scene/library.hpp"

namespace {
using namespace foretone;

constexpr int width = 2400, height = 1600;

struct Board {
    Board() {
        for (const auto& id : library.ids()) materials[id] = library.material(id);
        schedule::Step dye, varnish;
        dye.mix = {{"umber-dye", schedule::Amount::parts, 1}, {"water", schedule::Amount::parts, 9}};
        dye.wet_g_per_m2 = 70;
        varnish.mix = {{"oil-varnish", schedule::Amount::parts, 1}};
        varnish.coats = 2;
        varnish.method = material::Method::brush;
        varnish.sheen_gu60 = 30;
        board = appearance::boards(materials, "cherry", {"dye, varnish", {dye, varnish}}).back();
    }
    const material::Wood& wood() const { return std::get<material::Wood>(materials.at("cherry").data); }
    grain::Maps maps() const { return grain::grain(wood(), grain::Cut::flat, width, height, 0.15, 1); }
    appearance::ToneTable tones(const grain::Maps& m) const {
        return {
            appearance::ToneSpectra(board, appearance::centred(wood(), m.shade), optics::Geometry::g45_0,
                                    appearance::two_flux_solver(), appearance::ToneRange::covering(m.shade, m.uptake)),
            color::make_weights(library.illuminant("D65"), library.observer("2deg"))};
    }
    light::Finished finished(const appearance::ToneTable& tones) const {
        return {tones, light::sheen_of(board, wood()), light::fibres_of(wood())};
    }
    scene::Library library;
    material::Materials materials;
    appearance::Board board;
};

const Board& made() {
    static const Board b;
    return b;
}

format::PngOptions packed() {
    format::PngOptions o;
    o.photograph = true;
    return o;
}

void board_tables(benchmark::State& state) {
    const auto maps = made().maps();
    for (auto _ : state) benchmark::DoNotOptimize(made().tones(maps).white());
}

void board_light(benchmark::State& state, light::View view) {
    const auto maps = made().maps();
    const auto tones = made().tones(maps);
    for (auto _ : state)
        benchmark::DoNotOptimize(light::light_board(maps, made().finished(tones), {view, 0}).image.rgb.data());
}

void board_png(benchmark::State& state) {
    const auto maps = made().maps();
    const auto tones = made().tones(maps);
    const auto image = light::light_board(maps, made().finished(tones), {light::View::window, 0}).image;
    for (auto _ : state) benchmark::DoNotOptimize(format::encode_png(image, packed()).size());
}

// Grain, tables and light, with and without the file.
void board_whole(benchmark::State& state, bool png) {
    for (auto _ : state) {
        const auto maps = made().maps();
        const auto tones = made().tones(maps);
        const auto lit = light::light_board(maps, made().finished(tones), {light::View::window, 0});
        if (png) benchmark::DoNotOptimize(format::encode_png(lit.image, packed()).size());
    }
}

// The yardstick: sRGB to sRGB through a 33³ table, 8 bits, one thread (LittleCMS has no other).
void lcms_table(benchmark::State& state) {
    const auto maps = made().maps();
    const auto tones = made().tones(maps);
    const auto image = light::light_board(maps, made().finished(tones), {light::View::window, 0}).image;
    cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
    cmsStage* table = cmsStageAllocCLut16bit(nullptr, 33, 3, 3, nullptr);
    cmsStageSampleCLut16bit(
        table,
        [](const cmsUInt16Number* in, cmsUInt16Number* out, void*) {
            for (int c = 0; c < 3; ++c) out[c] = static_cast<cmsUInt16Number>(in[c] - in[c] / 8);
            return 1;
        },
        nullptr, 0);
    cmsPipelineInsertStage(pipeline, cmsAT_BEGIN, table);
    cmsHPROFILE link = cmsCreateProfilePlaceholder(nullptr);
    cmsSetProfileVersion(link, 4.3);
    cmsSetDeviceClass(link, cmsSigLinkClass);
    cmsSetColorSpace(link, cmsSigRgbData);
    cmsSetPCS(link, cmsSigRgbData);
    cmsWriteTag(link, cmsSigAToB0Tag, pipeline);
    cmsHTRANSFORM transform =
        cmsCreateMultiprofileTransform(&link, 1, TYPE_RGB_8, TYPE_RGB_8, INTENT_PERCEPTUAL, cmsFLAGS_NOCACHE);
    if (!transform) {
        state.SkipWithError("no transform");
        return;
    }
    std::vector<std::uint8_t> out(image.rgb.size());
    for (auto _ : state) {
        cmsDoTransform(transform, image.rgb.data(), out.data(), static_cast<cmsUInt32Number>(width) * height);
        benchmark::DoNotOptimize(out.data());
    }
    cmsDeleteTransform(transform);
    cmsCloseProfile(link);
    cmsPipelineFree(pipeline);
}

}  // namespace

BENCHMARK(board_tables)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(board_light, window, light::View::window)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(board_light, flat, light::View::flat)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(board_png)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(board_whole, without_png, false)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(board_whole, with_png, true)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(lcms_table)->Unit(benchmark::kMillisecond)->UseRealTime();
