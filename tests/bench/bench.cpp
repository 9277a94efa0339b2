// SPDX-License-Identifier: MIT
// Times of the parts, on the larger example. For people; the gate counts instructions instead.
#include "ask/fast_case.hpp"
#include "caseload/assess.hpp"
#include "caseload/heat_curves.hpp"
#include "example.hpp"

#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdint>
#include <thread>
#include <vector>

using namespace caseload;

namespace {

const ReadSetup& heavy() {
    static const ReadSetup read = read_example("heavy.toml");
    return read;
}

void read_a_setup(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(read_example("heavy.toml"));
}
BENCHMARK(read_a_setup)->Unit(benchmark::kMicrosecond);

/// At most 0.6 ms.
void one_lap(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(example_lap());
}
BENCHMARK(one_lap)->Unit(benchmark::kMicrosecond);

void bins_of_a_lap(benchmark::State& state) {
    const pace::Lap lap = example_lap();
    for (auto _ : state) benchmark::DoNotOptimize(pace::bins_of(lap));
}
BENCHMARK(bins_of_a_lap)->Unit(benchmark::kMicrosecond);

void prepare_a_case(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(prepare(heavy().setup));
}
BENCHMARK(prepare_a_case)->Unit(benchmark::kMicrosecond);

/// Every loss and every path out at one temperature: one evaluation of the network.
void one_network_evaluation(benchmark::State& state) {
    const Prepared prepared = prepare(heavy().setup);
    for (auto _ : state) {
        const LossesAt losses = losses_at(heavy().setup, prepared.loads, prepared.oil,
                                          prepared.losses[1], {.temp_degC = 95});
        const OutsideParts out = outside_parts(prepared, 1, 88);
        benchmark::DoNotOptimize(total_W(losses.ledger) - out.convection_W - out.radiation_W -
                                 cooler_heat_W(prepared, 1, 95, {}));
    }
}
BENCHMARK(one_network_evaluation)->Unit(benchmark::kMicrosecond);

void curves_of_a_leg(benchmark::State& state) {
    const Prepared prepared = prepare(heavy().setup);
    for (auto _ : state) benchmark::DoNotOptimize(leg_curves(prepared, 1, {}));
}
BENCHMARK(curves_of_a_leg)->Unit(benchmark::kMicrosecond);

void one_steady_leg(benchmark::State& state) {
    const Prepared prepared = prepare(heavy().setup);
    CaseCurves curves(prepared);
    for (auto _ : state) benchmark::DoNotOptimize(steady(curves, 1, {}));
}
BENCHMARK(one_steady_leg)->Unit(benchmark::kMicrosecond);

void one_event_direct(benchmark::State& state) {
    const Prepared prepared = prepare(heavy().setup);
    for (auto _ : state) benchmark::DoNotOptimize(event_heat(prepared, {}));
}
BENCHMARK(one_event_direct)->Unit(benchmark::kMillisecond);

void tables_of_the_fast_case(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(FastCase(heavy().setup));
}
BENCHMARK(tables_of_the_fast_case)->Unit(benchmark::kMillisecond);

/// Events of the fast case, damage included.
void events_drawn(benchmark::State& state) {
    const FastCase fast(heavy().setup);
    std::vector<Factors> factors;
    for (const auto& point : sobol_points(static_cast<std::size_t>(state.range(0))))
        factors.push_back(drawn_factors(point, false));
    const auto threads = static_cast<std::size_t>(state.range(1));
    for (auto _ : state) {
        std::vector<std::vector<DrawResult>> drawn(threads);
        std::vector<std::thread> running;
        for (std::size_t k = 0; k < threads; ++k)
            running.emplace_back([&, k] {
                std::vector<FastCase::AskedSide> asked;
                for (std::size_t i = k; i < factors.size(); i += threads)
                    asked.push_back({&factors[i], true});
                drawn[k] = fast.run(asked);
            });
        for (auto& thread : running) thread.join();
        benchmark::DoNotOptimize(drawn);
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(events_drawn)
    ->Args({1023, 1})
    ->Args({10000, 1})
    ->Args({10000, 2})
    ->Args({100000, 1})
    ->Args({100000, 2})
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

/// Both sides of 1023 draws of light.toml: by vectors every processor of this kind has, and by the
/// widest.
void sides_of_light(benchmark::State& state) {
    const Setup setup = read_example("light.toml").setup;
    const FastCase fast(setup);
    std::vector<Factors> factors;
    for (const auto& point : sobol_points(1023))
        factors.push_back(drawn_factors(point, ranges_of(setup)));
    std::vector<FastCase::AskedSide> asked;
    for (const Factors& draw : factors)
        for (const bool cooler : {true, false}) asked.push_back({&draw, cooler});
    const auto vectors = state.range(0) == 0 ? FastCase::Vectors::plain : FastCase::Vectors::widest;
    for (auto _ : state) benchmark::DoNotOptimize(fast.run(asked, one_by_one, vectors));
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(asked.size()));
}
BENCHMARK(sides_of_light)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

/// The exponentials one drawn event cannot do without: its life rates over the temperature grid.
void exponentials_of_one_event(benchmark::State& state) {
    constexpr int grid_points = 265;  // half kelvins from 30 to 160 degC
    constexpr int bearings = 4;
    constexpr int legs = 2;
    double x = -5;
    for (auto _ : state) {
        double sum = 0;
        for (int i = 0; i < grid_points * bearings * legs; ++i) sum += std::exp(x - 1e-3 * i);
        benchmark::DoNotOptimize(sum);
        benchmark::DoNotOptimize(x);
    }
}
BENCHMARK(exponentials_of_one_event)->Unit(benchmark::kMicrosecond);

void the_band(benchmark::State& state) {
    const Assessment likely = assess(heavy().setup);
    for (auto _ : state) benchmark::DoNotOptimize(band(heavy().setup, likely, {}));
}
BENCHMARK(the_band)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
