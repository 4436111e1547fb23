#include "foretone/base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <mutex>
#include <set>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include <catch2/catch.hpp>

using namespace foretone::base;

TEST_CASE("Every number is worked on once, for any number of threads", "[parallel]") {
    for (const unsigned threads : {0u, 1u, 2u, 7u})
        for (const std::size_t count : {std::size_t{0}, std::size_t{1}, std::size_t{2}, std::size_t{1000}}) {
            std::vector<std::atomic<int>> calls(count);
            parallel_for(count, threads, [&](std::size_t i) { ++calls[i]; });
            std::size_t once = 0;
            for (const auto& c : calls) once += c == 1;
            CAPTURE(threads, count);
            CHECK(once == count);
        }
}

TEST_CASE("Results stand in order and are the same for 1, 2 and 7 threads", "[parallel]") {
    const auto word = [](std::size_t i) { return std::to_string(i * i); };
    std::vector<std::string> plain;
    for (std::size_t i = 0; i < 500; ++i) plain.push_back(word(i));
    for (const unsigned threads : {0u, 1u, 2u, 7u}) CHECK(parallel_map(500, threads, word) == plain);
}

TEST_CASE("Work is begun in order", "[parallel]") {
    std::vector<std::size_t> begun;
    std::mutex guard;
    parallel_for(50, 1, [&](std::size_t i) { begun.push_back(i); });
    CHECK(std::is_sorted(begun.begin(), begun.end()));
    // With more threads: when i begins, all below it have begun, give or take one a thread on its way.
    std::vector<std::size_t> shared;
    parallel_for(500, 4, [&](std::size_t i) {
        const std::lock_guard lock(guard);
        shared.push_back(i);
    });
    REQUIRE(shared.size() == 500);
    for (std::size_t k = 0; k < shared.size(); ++k) CHECK(shared[k] < k + 4);
}

TEST_CASE("The exception thrown again is the one a plain loop would meet", "[parallel]") {
    for (const unsigned threads : {1u, 2u, 7u})
        for (int round = 0; round < 50; ++round) {
            std::string met;
            try {
                parallel_for(200, threads, [&](std::size_t i) {
                    if (i % 3 == 2 && i > 20) throw std::runtime_error(std::to_string(i));
                });
            } catch (const std::runtime_error& e) {
                met = e.what();
            }
            CHECK(met == "23");
        }
}

TEST_CASE("After an exception nothing new is begun, and what was begun ends before it is told", "[parallel]") {
    std::atomic<int> inside{0}, begun{0};
    CHECK_THROWS_AS(parallel_for(100000, 4,
                                 [&](std::size_t i) {
                                     ++inside;
                                     ++begun;
                                     if (i == 5) {
                                         --inside;
                                         throw std::invalid_argument("five");
                                     }
                                     std::this_thread::sleep_for(std::chrono::microseconds(50));
                                     --inside;
                                 }),
                    std::invalid_argument);
    CHECK(inside == 0);
    CHECK(begun < 100000);
}

TEST_CASE("An exception that is no std::exception comes through as it is", "[parallel]") {
    CHECK_THROWS_AS(parallel_for(10, 3, [](std::size_t) { throw 7; }), int);
}

TEST_CASE("It can be used again after an exception", "[parallel]") {
    CHECK_THROWS(parallel_for(10, 3, [](std::size_t) { throw std::runtime_error("once"); }));
    CHECK(parallel_map(3, 3, [](std::size_t i) { return static_cast<int>(i); }) == std::vector<int>{0, 1, 2});
}

TEST_CASE("Threads are as many as asked for, and nesting makes no more", "[parallel]") {
    std::set<std::thread::id> seen;
    std::mutex guard;
    std::atomic<int> inner{0};
    parallel_for(16, 3, [&](std::size_t) {
        const auto outer = std::this_thread::get_id();
        parallel_for(16, 5, [&](std::size_t) {
            if (std::this_thread::get_id() == outer) ++inner;
        });
        const std::lock_guard lock(guard);
        seen.insert(outer);
    });
    CHECK(inner == 16 * 16);
    CHECK(seen.size() <= 3);
}

TEST_CASE("An exception from a nested loop comes out of the outer one", "[parallel]") {
    std::string met;
    try {
        parallel_for(8, 4, [](std::size_t i) {
            parallel_for(8, 4, [i](std::size_t j) {
                if (i >= 2 && j >= 3) throw std::runtime_error(std::to_string(10 * i + j));
            });
        });
    } catch (const std::runtime_error& e) {
        met = e.what();
    }
    CHECK(met == "23");
}

TEST_CASE("Inside one thread a nested loop may have its own threads", "[parallel]") {
    // A gate that opens only when two are inside at once.
    std::atomic<int> waiting{0};
    parallel_for(1, 1, [&](std::size_t) {
        parallel_for(2, 2, [&](std::size_t) {
            ++waiting;
            while (waiting < 2) std::this_thread::yield();
        });
    });
    CHECK(waiting == 2);
}

TEST_CASE("Rows come in bands that meet without gap or overlap", "[parallel]") {
    for (const unsigned threads : {1u, 2u, 7u})
        for (const int rows : {0, 1, 63, 64, 65, 1000}) {
            std::vector<std::atomic<int>> calls(static_cast<std::size_t>(rows));
            std::atomic<bool> good{true};
            parallel_rows(rows, threads, [&](int first, int end) {
                if (first % 64 != 0 || end <= first || end - first > 64) good = false;
                for (int y = first; y < end; ++y) ++calls[static_cast<std::size_t>(y)];
            });
            CAPTURE(threads, rows);
            CHECK(good);
            CHECK(std::all_of(calls.begin(), calls.end(), [](const auto& c) { return c == 1; }));
        }
}

TEST_CASE("A machine has a thread", "[parallel]") { CHECK(machine_threads() >= 1); }
