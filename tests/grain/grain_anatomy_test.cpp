/// The figures of a grain, measured back from the maps. Expected values are the figures themselves.

#include <catch2/catch.hpp>
#include <numbers>

#include "foretone/grain/grain.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using grain::Cut;
using grain::Maps;
using test::Near;

namespace {

// A wood with nothing on its face: each test adds what it measures.
material::Wood blank_wood() {
    material::Wood w;
    w.reflectance.values = spectral::Spectrum::constant(0.5);
    w.surface_k1.value = 0.04;
    w.surface_k2.value = 0.25;
    material::Grain g = material::plain_grain();
    g.pores = material::Pores::none;
    for (auto* f : {&g.late_shade, &g.line_shade, &g.ray_per_mm, &g.fibre_shade, &g.streak_shade, &g.drift_shade,
                    &g.speck_per_dm2, &g.curl_deg, &g.ribbon_deg, &g.blotch, &g.ring_waver_mm, &g.slope_deg})
        f->value = 0;
    w.grain = g;
    return w;
}

// First peak of the mean autocorrelation down the columns, in mm: the lag at which the board repeats itself best
// between half and one and a half of `about`.
double repeat_mm(const Maps& maps, double about) {
    const int low = static_cast<int>(0.5 * about / maps.mm_per_px),
              high = static_cast<int>(1.5 * about / maps.mm_per_px);
    double mean = 0;
    for (const float s : maps.shade) mean += static_cast<double>(s);
    mean /= static_cast<double>(maps.shade.size());
    int best = low;
    double most = -1e30;
    for (int lag = low; lag <= high; ++lag) {
        double sum = 0;
        for (int y = 0; y + high < maps.height; ++y)
            for (int x = 0; x < maps.width; x += 25)
                sum += (static_cast<double>(maps.shade[maps.at(x, y)]) - mean) *
                       (static_cast<double>(maps.shade[maps.at(x, y + lag)]) - mean);
        if (sum > most) most = sum, best = lag;
    }
    return best * maps.mm_per_px;
}

// Patches of neighbouring pixels for which `in` holds.
template <class In>
int patches(const Maps& maps, In&& in) {
    std::vector<char> left(maps.shade.size());
    for (std::size_t i = 0; i < left.size(); ++i) left[i] = in(i);
    int count = 0;
    std::vector<std::size_t> open;
    for (std::size_t i = 0; i < left.size(); ++i) {
        if (!left[i]) continue;
        ++count;
        for (open = {i}, left[i] = 0; !open.empty();) {
            const std::size_t at = open.back();
            open.pop_back();
            const int x = static_cast<int>(at % static_cast<std::size_t>(maps.width)),
                      y = static_cast<int>(at / static_cast<std::size_t>(maps.width));
            for (int dy = -1; dy <= 1; ++dy)
                for (int dx = -1; dx <= 1; ++dx) {
                    if (x + dx < 0 || x + dx >= maps.width || y + dy < 0 || y + dy >= maps.height) continue;
                    const std::size_t n = maps.at(x + dx, y + dy);
                    if (left[n]) left[n] = 0, open.push_back(n);
                }
        }
    }
    return count;
}

double share_turned(const Maps& maps) {
    std::size_t turned = 0;
    for (const float t : maps.turn) turned += std::abs(t) > 0.5f;
    return static_cast<double>(turned) / static_cast<double>(maps.turn.size());
}

}  // namespace

TEST_CASE("rings are as far apart as the figure says, on a quarter-sawn board") {
    for (const double ring : {1.0, 2.5, 4.0}) {
        auto wood = blank_wood();
        wood.grain->ring_mm.value = ring;
        wood.grain->ring_variation.value = 0.08;
        wood.grain->late_shade.value = 0.8;
        double sum = 0;
        for (std::uint64_t seed = 1; seed <= 4; ++seed)
            sum += repeat_mm(grain::grain(wood, Cut::quarter, 100, 1500, 0.05 * ring, seed), ring);
        CHECK_THAT(sum / 4, Near(ring, 0.04 * ring));
    }
}

TEST_CASE("rings of uneven years keep their mean width") {
    auto wood = blank_wood();
    wood.grain->ring_mm.value = 2;
    wood.grain->ring_variation.value = 0.35;
    wood.grain->late_abrupt.value = 1;
    wood.grain->late_shade.value = 1;
    // Ring ends are sharp falls of shade down a column, outwards or inwards.
    double rings = 0, mm = 0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        const auto maps = grain::grain(wood, Cut::quarter, 4, 6000, 0.05, seed);
        for (int y = 3; y < maps.height; ++y) {
            const double before = static_cast<double>(maps.shade[maps.at(1, y - 3)]),
                         after = static_cast<double>(maps.shade[maps.at(1, y)]);
            const double step = std::abs(after - before);
            const double last = y > 3 ? std::abs(static_cast<double>(maps.shade[maps.at(1, y - 1)]) -
                                                 static_cast<double>(maps.shade[maps.at(1, y - 4)]))
                                      : 0;
            rings += (step > 0.45 && last <= 0.45) / 2.0;  // into latewood and out of it
        }
        mm += maps.height * maps.mm_per_px;
    }
    CHECK_THAT(mm / rings, Near(2.0, 0.1));  // of 1800 rings, neighbours alike: one standard error is about 1.3 %
}

TEST_CASE("pores on a face are as many as their number, width and length say") {
    auto wood = blank_wood();
    auto& g = *wood.grain;
    g.pores = material::Pores::diffuse;
    g.pore_um.value = 150, g.pore_per_mm2.value = 1.5, g.pore_mm.value = 4, g.pore_shade.value = 2,
    g.pore_uptake.value = 1;
    int found = 0;
    double open = 0, pixels = 0;
    constexpr int boards = 6;
    for (std::uint64_t seed = 1; seed <= boards; ++seed) {
        const auto maps = grain::grain(wood, Cut::quarter, 1600, 800, 0.05, seed);
        std::vector<float> sorted = maps.shade;
        std::nth_element(sorted.begin(), sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2), sorted.end());
        const float ground = sorted[sorted.size() / 2];
        found += patches(maps, [&](std::size_t i) { return maps.shade[i] > ground + 0.3f; });
        for (const float s : maps.shade) open += s > ground + 1.0f;
        pixels += static_cast<double>(maps.shade.size());
    }
    // N·d/L = 1.5 · 0.15/4 to the mm², times the mean chance over a diffuse ring, 1 − 0.55 · 0.25/2; those that overlap
    // or are cut by the edge make up for each other only roughly.
    const double area = boards * 80.0 * 40.0, due = 1.5 * 0.15 / 4 * (1 - 0.55 * 0.125) * area;
    CHECK_THAT(found / due, Near(1, 0.08));
    // And they cover N·π d²/4 of it, times the mean of chance and size.
    CHECK_THAT(open / pixels / (1.5 * std::numbers::pi / 4 * 0.15 * 0.15 * 0.84), Near(1, 0.12));
}

TEST_CASE("ring-porous wood has its large pores in rows, diffuse-porous wood has them everywhere") {
    const auto unevenness = [](material::Pores pores) {
        auto wood = blank_wood();
        auto& g = *wood.grain;
        g.pores = pores;
        g.ring_mm.value = 3, g.ring_variation.value = 0.1, g.pore_zone.value = 0.25;
        g.pore_um.value = 200, g.pore_per_mm2.value = 6, g.pore_mm.value = 4, g.pore_shade.value = 1.5;
        g.small_pore_per_mm2.value = 0;
        const auto maps = grain::grain(wood, Cut::quarter, 1500, 600, 0.1, 5);
        double sum = 0, squares = 0;  // of the mean shade of a row
        std::vector<double> rows(static_cast<std::size_t>(maps.height), 0.0);
        for (int y = 0; y < maps.height; ++y)
            for (int x = 0; x < maps.width; ++x)
                rows[static_cast<std::size_t>(y)] += static_cast<double>(maps.shade[maps.at(x, y)]) / maps.width;
        double least = 1e9;
        for (const double r : rows) least = test::least_of(least, r);
        for (const double r : rows) sum += r - least, squares += (r - least) * (r - least);
        const double mean = sum / maps.height;
        return std::sqrt(squares / maps.height - mean * mean) / mean;  // relative spread of how open the rows are
    };
    const double ring = unevenness(material::Pores::ring), semi = unevenness(material::Pores::semi_ring),
                 diffuse = unevenness(material::Pores::diffuse);
    CHECK(ring > 0.8);
    CHECK(semi < 0.7 * ring);
    CHECK(diffuse < 0.6 * ring);
}

TEST_CASE("flat-sawn boards show arches, quarter-sawn and rift boards straight lines") {
    auto wood = blank_wood();
    wood.grain->ring_mm.value = 2;
    wood.grain->late_shade.value = 0.8;
    wood.grain->ring_waver_mm.value = 0.3;
    wood.grain->slope_deg.value = 1;
    // How often a line along the middle of the board passes a ring's edge, on 300 mm.
    const auto crossings = [&](Cut cut) {
        int count = 0;
        for (std::uint64_t seed = 1; seed <= 6; ++seed) {
            const auto maps = grain::grain(wood, cut, 600, 160, 0.5, seed);
            float least = 1e9f, most = -1e9f;
            for (const float s : maps.shade) least = std::min(least, s), most = std::max(most, s);
            const float middle = 0.5f * (least + most);
            for (int y = 40; y < 120; y += 8)
                for (int x = 1; x < maps.width; ++x)
                    count += (maps.shade[maps.at(x, y)] > middle) != (maps.shade[maps.at(x - 1, y)] > middle);
        }
        return count / 60.0;
    };
    const double flat = crossings(Cut::flat), quarter = crossings(Cut::quarter), rift = crossings(Cut::rift);
    INFO("flat " << flat << ", quarter " << quarter << ", rift " << rift);
    CHECK(flat > 4);
    // A board whose fibres run out by 1° crosses a few rings as well: 300 mm · tan 1° is 5 mm.
    CHECK(quarter < 0.8 * flat);
    CHECK(rift < 0.8 * flat);
}

TEST_CASE("fleck lies on quarter-sawn faces only; its cells run across the board") {
    auto wood = blank_wood();
    auto& g = *wood.grain;
    g.ray_um.value = 300, g.ray_mm.value = 25, g.ray_per_mm.value = 0.6, g.ray_shade.value = -0.4,
    g.ray_end_shade.value = 0.4;
    double quarter = 0, flat = 0, rift = 0;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        quarter += share_turned(grain::grain(wood, Cut::quarter, 600, 300, 0.3, seed)) / 8;
        flat += share_turned(grain::grain(wood, Cut::flat, 600, 300, 0.3, seed)) / 8;
        rift += share_turned(grain::grain(wood, Cut::rift, 600, 300, 0.3, seed)) / 8;
    }
    // 0.6 rays of 0.3 mm to the millimetre, spindles that fill two thirds of their width and are counted where they are
    // over a third wide.
    CHECK_THAT(quarter, Near(0.6 * 0.3 * 2 / 3, 0.05));
    CHECK(flat < 0.2 * quarter);
    CHECK(rift < 0.1 * quarter);
}

TEST_CASE("curl raises and lowers the fibres by the figure, interlocked grain by its own") {
    const auto spread = [](const std::vector<float>& v) {
        double sum = 0, squares = 0;
        for (const float x : v)
            sum += static_cast<double>(x), squares += static_cast<double>(x) * static_cast<double>(x);
        const auto n = static_cast<double>(v.size());
        return std::sqrt(squares / n - sum / n * sum / n) * 180 / std::numbers::pi;
    };
    auto curly = blank_wood();
    curly.grain->curl_deg.value = 6;
    for (const Cut cut : {Cut::flat, Cut::quarter})
        CHECK_THAT(spread(grain::grain(curly, cut, 1500, 800, 0.3, 2).rise), Near(6, 0.6));
    auto ribbon = blank_wood();
    ribbon.grain->ribbon_deg.value = 6;
    ribbon.grain->ribbon_mm.value = 20;
    double rise = 0, turn = 0;
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        rise += spread(grain::grain(ribbon, Cut::quarter, 50, 1500, 0.4, seed).rise) / 6;
        turn += spread(grain::grain(ribbon, Cut::quarter, 50, 1500, 0.4, seed).turn) / 6;
    }
    CHECK_THAT(rise, Near(6, 0.9));
    CHECK(turn < 1);  // on a radial face the twist is all out of the face
}
