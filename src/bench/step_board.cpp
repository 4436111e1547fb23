// A step board of ordinary size, from its fields to the PNG file.
#include <benchmark/benchmark.h>

#include "foretone/format/sheet_png.hpp"
#include "foretone/layout/step_board.hpp"
#include "support/pictures/example_boards.hpp"

namespace foretone {
namespace {

void step_board(benchmark::State& state) {
    const layout::StepBoard board = test::example_step_board(8, 3);
    for (auto _ : state) benchmark::DoNotOptimize(format::sheet_png(layout::lay_out(board)));
}
BENCHMARK(step_board)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace foretone
