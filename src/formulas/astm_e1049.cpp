// SPDX-License-Identifier: MIT
#include "caseload/formulas/astm_e1049.hpp"

#include <cmath>

namespace caseload::astm_e1049 {

std::vector<double> turning_points(std::span<const double> series) {
    std::vector<double> points;
    for (const double x : series) {
        if (!points.empty() && x == points.back()) continue;
        const std::size_t n = points.size();
        if (n >= 2 && (points[n - 1] > points[n - 2]) == (x > points[n - 1]))
            points.back() = x;
        else
            points.push_back(x);
    }
    return points;
}

std::vector<Cycle> rainflow(std::span<const double> series) {
    std::vector<Cycle> cycles;
    const auto sink = [&](double from, double to, double count) {
        cycles.push_back({std::fabs(to - from), (from + to) / 2, count});
    };
    Counter counter;
    for (const double x : series) counter.add(x, sink);
    counter.finish(sink);
    return cycles;
}

}  // namespace caseload::astm_e1049
