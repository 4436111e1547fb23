#include "foretone/grain/rows.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace foretone::grain {
namespace {

constexpr int band_rows = 64;  // small enough that threads end together, large enough that a band's set-up is nothing

int machine_threads() {
#if defined(__EMSCRIPTEN__) && !defined(__EMSCRIPTEN_PTHREADS__)
    return 1;
#else
    return static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
#endif
}

}  // namespace

void for_rows(int rows, int threads, const std::function<void(int, int)>& work) {
    const int bands = (rows + band_rows - 1) / band_rows;
    const int hands = std::min(threads > 0 ? threads : machine_threads(), bands);
    std::atomic<int> next{0};
    std::vector<std::exception_ptr> thrown(static_cast<std::size_t>(std::max(1, hands)));
    const auto take = [&](std::size_t hand) {
        try {
            for (int band = next++; band < bands; band = next++)
                work(band * band_rows, std::min(rows, (band + 1) * band_rows));
        } catch (...) {
            thrown[hand] = std::current_exception();
        }
    };
    std::vector<std::thread> others;
    for (int hand = 1; hand < hands; ++hand) others.emplace_back(take, static_cast<std::size_t>(hand));
    take(0);
    for (auto& t : others) t.join();
    for (const auto& e : thrown)
        if (e) std::rethrow_exception(e);
}

}  // namespace foretone::grain
