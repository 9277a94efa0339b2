// SPDX-License-Identifier: MIT
#include "ask/pace.hpp"

#include "caseload/ask/failure.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>

namespace caseload {
namespace {

constexpr double pace_step = 0.05;
constexpr double pace_tolerance = 1e-4;

}  // namespace

void slow_down(LegInput& leg, double share) {
    leg.course_pace_mps *= share;
    leg.pace_ends.reset();  // a pace that is asked for is known
    leg.distance_m *= share;
    const auto slower = [share](std::vector<Bin>& bins) {
        for (Bin& bin : bins) {
            bin.speed_rpm *= share;
            bin.road_speed_mps *= share;
        }
    };
    slower(leg.bins);
    for (CourseDuty& duty : leg.calculated) {
        duty.pace_mps *= share;
        duty.drive_power_W *= share;
        slower(duty.bins);
    }
}

double highest_pace(const std::function<double(double share)>& above) {
    double high = 1;
    double above_high = above(high);
    if (above_high <= 0) return 1;
    while (high > least_pace_share + pace_step / 2) {
        const double low = high - pace_step;
        const double above_low = above(low);
        if (above_low > 0) {
            high = low;
            above_high = above_low;
            continue;
        }
        std::uintmax_t most = 100;
        return boost::math::tools::toms748_solve(
                   above, low, high, above_low, above_high,
                   [](double a, double b) { return std::fabs(b - a) < pace_tolerance; }, most)
            .first;
    }
    return 0;
}

}  // namespace caseload
