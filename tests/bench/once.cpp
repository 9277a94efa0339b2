// SPDX-License-Identifier: MIT
// Does one named piece of work a number of times, for counting instructions.
#include "ask/fast_case.hpp"
#include "caseload/assess.hpp"
#include "caseload/heat_curves.hpp"
#include "example.hpp"

#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace caseload;

int main(int argc, char** argv) {
    if (argc != 3) return 2;
    const std::string what = argv[1];
    const int times = std::atoi(argv[2]);
    const Document document = example("heavy.toml");
    const ReadSetup read = document.complete();
    const Prepared prepared = prepare(read.setup);
    CaseCurves curves(prepared);
    curves.at(1, {});
    const FastCase fast(read.setup);
    const auto points = sobol_points(static_cast<std::size_t>(times) + 1);
    std::vector<Factors> factors;
    for (const auto& point : points) factors.push_back(drawn_factors(point, ranges_of(read.setup)));
    std::vector<FastCase::AskedSide> asked;
    double sum = 0;
    for (int i = 0; i < times; ++i) {
        if (what == "network") {
            sum += total_W(losses_at(read.setup, prepared.loads, prepared.oil, prepared.losses[1],
                                     {.temp_degC = 90.0 + i})
                               .ledger);
            sum += outside_parts(prepared, 1, 85.0 + i).convection_W;
            sum += cooler_heat_W(prepared, 1, 90.0 + i, {});
        } else if (what == "lap") {
            sum += example_lap().pace_mps;
        } else if (what == "curves") {
            sum += leg_curves(prepared, 1, {}).oil_W(90.0 + i);
        } else if (what == "steady") {
            sum += steady(curves, 1, {}).nodes.oil_degC;
        } else if (what == "tables") {
            sum += FastCase(read.setup).run({}, true).peak_oil_degC;
        } else if (what == "effects") {
            sum += assumptions_by_worth(document, read).front().oil_high_K;
        } else if (what == "event") {
            asked.push_back({&factors[static_cast<std::size_t>(i)], true});
        } else {
            return 2;
        }
    }
    // Side by side, as a band has them.
    for (const DrawResult& draw : fast.run(asked)) sum += draw.peak_oil_degC;
    std::printf("%g\n", sum);
}
