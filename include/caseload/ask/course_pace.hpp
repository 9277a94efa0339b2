// SPDX-License-Identifier: MIT
// What the segment model says of each calculated course of an event.
#pragma once

#include "caseload/ask/band.hpp"

#include <string>
#include <vector>

namespace caseload {

/// Over driver and ground, each part of the range as likely; p50: the likely drive.
struct CoursePace {
    std::string leg;
    std::string course;
    bool pace_said = false;  ///< the ground was solved from it
    Percentiles pace_mps;
    Percentiles fast_mps;  ///< not exceeded for 95 % of the time
    Percentiles crank_W;   ///< mean
    Percentiles fuel_Lp100km;
    Percentiles fuel_Lph;
    Percentiles torque_mean_Nm;  ///< at the case input, over its turns with drive torque
    Percentiles torque_cube_Nm;
    Percentiles torque_874_Nm;
    double duration_h = 0;
    double distance_m = 0;
    // Of the likely drive.
    double style = 0;
    double severity = 1;
    double traffic = 1;
    double highest_mps = 0;
    std::string highest_by;  ///< limiter | cap | ride | power
    double engine_share = 0;
    double grip_share = 0;
    double ride_share = 0;
    double brake_share = 0;
    double open_throttle_share = 0;
};
CASELOAD_MEMBERS(CoursePace, "course_pace", leg, course, pace_said, pace_mps, fast_mps, crank_W,
                 fuel_Lp100km, fuel_Lph, torque_mean_Nm, torque_cube_Nm, torque_874_Nm, duration_h,
                 distance_m, style, severity, traffic, highest_mps, highest_by, engine_share,
                 grip_share, ride_share, brake_share, open_throttle_share);

/// In the order of the event's legs; none where no course is calculated.
std::vector<CoursePace> course_paces(const Setup& setup);

}  // namespace caseload
