// SPDX-License-Identifier: MIT
// The two cars of most checks, and the courses.
#pragma once

#include "caseload/pace.hpp"
#include "caseload/units.hpp"
#include "input/courses.hpp"

#include <string>
#include <vector>

namespace caseload::pace_cars {

inline pace::Car car(double power_hp, double mass_kg, double tyre_in, double travel_m) {
    pace::Car car;
    car.mass_kg = mass_kg;
    car.tyre_m = m_from_mm(mm_from_in(tyre_in));
    car.wheel_travel_m = travel_m;
    car.engine_power_W = W_from_hp(power_hp);
    car.axle_ratio = 4.86;
    car.case_ratio = 1.25;
    return car;
}

inline pace::Car light() {
    return car(430, 1750, 37, 0.50);
}
inline pace::Car truck() {
    return car(850, 2900, 40, 0.70);
}
/// The truck with an automatic of three speeds and its own ratios.
inline pace::Car geared() {
    pace::Car geared = truck();
    geared.axle_ratio = 5.43;
    geared.case_ratio = 49.0 / 37;
    pace::Gearbox gearbox;
    gearbox.ratios = {2.48, 1.48, 1.00};
    gearbox.converter = true;
    gearbox.limiter_rpm = 6800;
    gearbox.rated_rpm = 6500;
    geared.gearbox = gearbox;
    return geared;
}

inline const std::vector<std::string> courses{"hard-road", "graded", "rough-desert",
                                              "sand",      "rock",   "forest"};

inline const pace::Ground& ground(const std::string& course) {
    return input::course(course).ground;
}

inline double kmph(double mps) {
    return kmph_from_mps(mps);
}

}  // namespace caseload::pace_cars
