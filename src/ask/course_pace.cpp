// SPDX-License-Identifier: MIT
#include "caseload/ask/course_pace.hpp"

#include "caseload/units.hpp"

#include <algorithm>

namespace caseload {
namespace {

Percentiles range_of(const LegInput& leg, double CourseDuty::* member) {
    std::vector<double> all;
    all.reserve(leg.calculated.size());
    for (const CourseDuty& duty : leg.calculated) all.push_back(duty.*member);
    Percentiles range = percentiles(std::move(all));
    range.p50 = leg.calculated[place_of_drawn(likely_duty)].*member;
    range.p10 = std::min(range.p10, range.p50);
    range.p90 = std::max(range.p90, range.p50);
    return range;
}

std::string words_of(Fastest by) {
    switch (by) {
        case Fastest::limiter:
            return "limiter";
        case Fastest::cap:
            return "cap";
        case Fastest::ride:
            return "ride";
        case Fastest::power:
            return "power";
    }
    return {};
}

CoursePace pace_of(const LegInput& leg) {
    const CourseDuty& likely = leg.calculated[place_of_drawn(likely_duty)];
    CoursePace pace;
    pace.leg = leg.name;
    pace.course = leg.course;
    pace.pace_said = leg.pace_said;
    pace.pace_mps = range_of(leg, &CourseDuty::pace_mps);
    pace.fast_mps = range_of(leg, &CourseDuty::fast_mps);
    pace.crank_W = range_of(leg, &CourseDuty::crank_W);
    pace.fuel_Lp100km = range_of(leg, &CourseDuty::fuel_Lp100km);
    pace.fuel_Lph = range_of(leg, &CourseDuty::fuel_Lph);
    pace.torque_mean_Nm = range_of(leg, &CourseDuty::torque_mean_Nm);
    pace.torque_cube_Nm = range_of(leg, &CourseDuty::torque_cube_Nm);
    pace.torque_874_Nm = range_of(leg, &CourseDuty::torque_874_Nm);
    pace.duration_h = h_from_s(leg.duration_s);
    pace.distance_m = leg.distance_m;
    pace.style = likely.style;
    pace.severity = likely.severity;
    pace.traffic = likely.traffic;
    pace.highest_mps = likely.highest_mps;
    pace.highest_by = words_of(likely.highest_by);
    pace.engine_share = likely.engine_share;
    pace.grip_share = likely.grip_share;
    pace.ride_share = likely.ride_share;
    pace.brake_share = likely.brake_share;
    pace.open_throttle_share = likely.open_throttle_share;
    return pace;
}

}  // namespace

std::vector<CoursePace> course_paces(const Setup& setup) {
    std::vector<CoursePace> all;
    for (const LegInput& leg : setup.event.legs)
        if (!leg.calculated.empty()) all.push_back(pace_of(leg));
    return all;
}

}  // namespace caseload
