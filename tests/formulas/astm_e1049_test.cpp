// SPDX-License-Identifier: MIT
#include "caseload/formulas/astm_e1049.hpp"

#include "support.hpp"

#include <cmath>
#include <map>
#include <vector>

namespace caseload::astm_e1049 {

namespace {

struct Cycle {
    double range;
    double mean;
    double count;
};

std::vector<Cycle> rainflow(const std::vector<double>& series) {
    std::vector<Cycle> cycles;
    Counter counter;
    const auto take = [&](double from, double to, double count) {
        cycles.push_back({std::fabs(to - from), (from + to) / 2, count});
    };
    for (const double x : series) counter.add(x, take);
    counter.finish(take);
    return cycles;
}

std::map<double, double> by_range(const std::vector<Cycle>& cycles) {
    std::map<double, double> counts;
    for (const Cycle& cycle : cycles) counts[cycle.range] += cycle.count;
    return counts;
}

// Both series and their counts: from memory of clause 5.4.4, not read in the standard itself.
const std::vector<double> first{-2, 1, -3, 5, -1, 3, -4, 4, -2};
const std::vector<double> second{-1.5, 1, -3, 10, -1, 3,   -8, 4, -2, 6, -1,  -4,
                                 -8,   2, 1,  -5, 0,  2.5, -4, 1, 0,  2, -0.5};

}  // namespace

TEST_CASE("astm-e1049 5.4.4: the short series cycle by cycle") {
    const std::vector<Cycle> cycles = rainflow(first);
    const double expected[][3] = {{3, -0.5, 0.5}, {4, -1, 0.5}, {4, 1, 1},  {8, 1, 0.5},
                                  {9, 0.5, 0.5},  {8, 0, 0.5},  {6, 1, 0.5}};
    REQUIRE(cycles.size() == 7);
    double cubes = 0;
    double fifths = 0;
    for (std::size_t i = 0; i < 7; ++i) {
        CHECK(cycles[i].range == expected[i][0]);
        CHECK(cycles[i].mean == expected[i][1]);
        CHECK(cycles[i].count == expected[i][2]);
        cubes += cycles[i].count * std::pow(cycles[i].range, 3);
        fifths += cycles[i].count * std::pow(cycles[i].range, 5);
    }
    CHECK(cubes == rel(1094, 1e-12));
    CHECK(fifths == rel(67838, 1e-12));
}

TEST_CASE("astm-e1049 5.4.4: the long series cycle by cycle, half a cycle between two turns") {
    const std::map<double, double> expected{{1, 1}, {2.5, 1},    {4, 1.5},  {6, 1.5}, {6.5, 0.5},
                                            {7, 1}, {10.5, 0.5}, {13, 0.5}, {14, 1},  {18, 0.5}};
    CHECK(by_range(rainflow(second)) == expected);
    double counted = 0;
    for (const Cycle& cycle : rainflow(second)) counted += cycle.count;
    CHECK(counted == (19 - 1) / 2);  // 19 of its 23 points turn it or end it
    CHECK(rainflow({3}).empty());
    // Equal neighbours and points on the way are no turns.
    CHECK(by_range(rainflow({1, 1, 2, 3, 3, 2, 2, 0, 5})) == by_range(rainflow({1, 3, 0, 5})));
}

}  // namespace caseload::astm_e1049
