/// Work space lent to calls of several threads.

#include "foretone/base/spares.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <stdexcept>
#include <vector>

#include "foretone/base/parallel.hpp"

using foretone::base::Spares;

namespace {

struct Counted {
    static std::atomic<int> made, alive;
    Counted() { ++made, ++alive; }
    ~Counted() { --alive; }
    int uses = 0;
    std::atomic<bool> lent = false;
};
std::atomic<int> Counted::made{0}, Counted::alive{0};

}  // namespace

TEST_CASE("a spare is made once and lent again; all are gone with their owner") {
    Counted::made = 0;
    {
        Spares<Counted> spares;
        for (int i = 1; i <= 5; ++i) CHECK(spares.with([](Counted& c) { return ++c.uses; }) == i);
        CHECK(Counted::made == 1);
        CHECK(spares.with([&](Counted&) { return spares.with([](Counted& c) { return c.uses; }); }) == 0);
        CHECK(Counted::made == 2);
        CHECK(Counted::alive == 2);
        CHECK_THROWS_AS(spares.with([](Counted&) -> int { throw std::runtime_error("no"); }), std::runtime_error);
        CHECK(Counted::alive == 1);
    }
    CHECK(Counted::alive == 0);
}

TEST_CASE("no spare is lent to two calls at once") {
    Spares<Counted> spares;
    std::vector<int> shared(4000, 0);
    foretone::base::parallel_for(shared.size(), 4, [&](std::size_t i) {
        shared[i] = spares.with([](Counted& c) {
            const bool taken = c.lent.exchange(true);
            for (int turn = 0; turn < 20; ++turn) c.uses = (c.uses + turn) % 7;
            c.lent = false;
            return taken ? 1 : 0;
        });
    });
    for (const int taken : shared) REQUIRE(taken == 0);
}
