// What a search keeps: against plain sorting of everything, over seeded offers in any order and from any number of
// threads.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "foretone/search/aim.hpp"
#include "foretone/search/best.hpp"
#include "foretone/search/coats.hpp"
#include "search/small_space.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using search::Best;
using search::Found;

namespace {

struct Offer {
    int steps, colorants;
    Found found;
};

std::vector<Offer> seeded_offers(std::uint64_t seed, std::size_t count) {
    std::mt19937_64 random(seed);
    std::vector<Offer> out;
    for (std::size_t i = 0; i < count; ++i)
        out.push_back({static_cast<int>(random() % 5),
                       static_cast<int>(random() % 6),
                       {static_cast<double>(random() % 40) / 8, i}});  // few values: many are equal
    return out;
}

std::vector<std::uint64_t> numbers_of(const std::vector<Found>& all) {
    std::vector<std::uint64_t> out;
    for (const auto& f : all) out.push_back(f.number);
    return out;
}

// Each kind sorted and cut to `room`, all together.
std::vector<Offer> kept_plainly(std::vector<Offer> offers, std::size_t room) {
    std::sort(offers.begin(), offers.end(),
              [](const Offer& a, const Offer& b) { return search::closer(a.found, b.found); });
    std::map<std::pair<int, int>, std::size_t> kept;
    std::vector<Offer> out;
    for (const auto& o : offers)
        if (kept[{o.steps, o.colorants}]++ < room) out.push_back(o);
    return out;
}

Best kept_of(const std::vector<Offer>& offers, std::size_t room) {
    Best best(room);
    for (const auto& o : offers) best.offer(o.steps, o.colorants, o.found);
    return best;
}

}  // namespace

TEST_CASE("of every kind the closest are kept, among equals the lowest numbers, in whatever order they come") {
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
        auto offers = seeded_offers(seed, 300);
        const std::size_t room = 1 + seed % 4;
        std::vector<std::uint64_t> due;
        for (const auto& o : kept_plainly(offers, room)) due.push_back(o.found.number);
        std::mt19937_64 random(seed + 100);
        std::shuffle(offers.begin(), offers.end(), random);
        CHECK(numbers_of(kept_of(offers, room).closest(1000)) == due);
        due.resize(7);
        CHECK(numbers_of(kept_of(offers, room).closest(7)) == due);
    }
}

TEST_CASE("parts of the work merged keep what the whole keeps") {
    for (std::uint64_t seed = 0; seed < 10; ++seed) {
        const auto offers = seeded_offers(seed, 200);
        Best merged(3);
        for (std::size_t part = 0; part < 4; ++part) {
            Best own(3);
            for (std::size_t i = part; i < offers.size(); i += 4)
                own.offer(offers[i].steps, offers[i].colorants, offers[i].found);
            merged.merge(own);
        }
        const auto whole = kept_of(offers, 3);
        CHECK(merged.closest(1000) == whole.closest(1000));
        CHECK(merged.front() == whole.front());
    }
}

TEST_CASE("the limit of a kind is its farthest once there is no more room, and the front is what nothing beats") {
    for (std::uint64_t seed = 0; seed < 10; ++seed) {
        const auto offers = seeded_offers(seed, 60);
        const auto best = kept_of(offers, 2);
        const auto kept = kept_plainly(offers, 2);
        std::vector<Found> front;
        for (int s = 0; s < 5; ++s)
            for (int c = 0; c < 6; ++c) {
                std::vector<Found> kind;
                for (const auto& o : kept)
                    if (o.steps == s && o.colorants == c) kind.push_back(o.found);
                CHECK(best.limit(s, c) == (kind.size() < 2 ? INFINITY : kind.back().de00));
                if (kind.empty()) continue;
                const bool beaten = std::any_of(kept.begin(), kept.end(), [&](const Offer& o) {
                    return (o.steps != s || o.colorants != c) && o.steps <= s && o.colorants <= c &&
                           o.found.de00 <= kind.front().de00;
                });
                if (!beaten) front.push_back(kind.front());
            }
        std::sort(front.begin(), front.end(), search::closer);
        CHECK(best.front() == front);
    }
}

TEST_CASE("an aim is a color under each light, and a reflectance is as far off as under the worst") {
    const auto lights = weights({"D65", "A"});
    auto one = spectral::Spectrum::constant(0.4), other = spectral::Spectrum::constant(0.2);
    for (std::size_t i = 0; i < one.size(); ++i) one[i] = 0.1 + 0.005 * static_cast<double>(i);
    const auto aim = search::aim_at(one, {"D65", "A"}, lights);
    REQUIRE(aim.lights.size() == 2);
    CHECK((aim.lights[0].light == "D65" && aim.lights[1].light == "A"));
    CHECK(search::worst_difference(aim, one) == 0);
    const auto off = search::differences(aim, other);
    for (std::size_t l = 0; l < 2; ++l) {
        const auto lab = color::to_lab(color::xyz(other, lights[l]), lights[l].white);
        CHECK_THAT(off[l], Near(color::delta_e_00(aim.lights[l].lab, lab), identity));
    }
    CHECK(off[0] != off[1]);
    CHECK(search::worst_difference(aim, other) == std::max(off[0], off[1]));
}

TEST_CASE("more coats no longer show from the first that none of them is told from") {
    using search::CoatsStep;
    std::mt19937_64 random(3);
    for (int i = 0; i < 200; ++i) {
        std::vector<CoatsStep> row;
        for (std::uint64_t n = 1 + random() % 6; n > 0; --n) {
            std::vector<double> apart(row.size());
            for (double& a : apart) a = static_cast<double>(random() % 6) / 4;
            row.push_back({apart, static_cast<double>(random() % 12) / 4, static_cast<double>(random() % 8) / 4});
        }
        const auto v = search::coats_verdict(row);
        // By the words of the header, place by place.
        std::optional<int> settled, nearest, within;
        for (int k = static_cast<int>(row.size()) - 1; k >= 0; --k) {
            bool quiet = k + 1 < static_cast<int>(row.size());
            for (std::size_t m = static_cast<std::size_t>(k) + 1; m < row.size(); ++m)
                quiet = quiet && row[m].apart[static_cast<std::size_t>(k)] < search::coat_seen_de00;
            if (quiet) settled = k;
            if (!nearest ||
                *row[static_cast<std::size_t>(k)].to_target <= *row[static_cast<std::size_t>(*nearest)].to_target)
                nearest = k;
            if (*row[static_cast<std::size_t>(k)].to_target <= row[static_cast<std::size_t>(k)].spread) within = k;
        }
        CHECK(v.settled == settled);
        CHECK(v.nearest == nearest);
        CHECK(v.within == within);
    }
}
