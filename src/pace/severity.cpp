// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"
#include "caseload/pace.hpp"
#include "pace/road.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>

namespace caseload::pace {

std::optional<double> severity_at(const Car& car, const Ground& ground, const Drive& drive,
                                  double pace_mps) {
    require_within(pace_mps, {0.05, 150}, "pace_mps");
    const Road road(car, ground, segments(ground));
    // Pace falls with the severity.
    const auto above = [&](double ln_severity) {
        Drive at = drive;
        at.severity = std::exp(ln_severity);
        return road.lap(at).pace_mps / pace_mps - 1;
    };
    const double smooth = above(least_ln_severity);
    const double rough = above(most_ln_severity);
    if (smooth < 0 || rough > 0) return std::nullopt;
    if (smooth == 0) return std::exp(least_ln_severity);
    if (rough == 0) return std::exp(most_ln_severity);
    constexpr double tolerance = 1e-5;
    std::uintmax_t most = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(
        above, least_ln_severity, most_ln_severity, smooth, rough,
        [](double a, double b) { return std::fabs(b - a) < tolerance; }, most);
    return std::exp((low + high) / 2);
}

double fastest_pace_mps(const Car& car, const Ground& ground) {
    return lap(car, ground, {.style = 1, .severity = std::exp(least_ln_severity)}).pace_mps;
}

}  // namespace caseload::pace
