// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace caseload::input_test {

/// The shortest useful setup.
inline std::string shortest() {
    return R"(caseload = 1
base = "pattern:two-gear-185mm"
gears.fitted = [33, 41]
oil.grade = "75W-90 synthetic"
housing.place = "behind-skid-plate"
vehicle.mass = "2350 kg"
vehicle.tyre = "37 in"
vehicle.axle_ratio = 5.43
vehicle.engine_power = "650 hp"
event.ambient = "38 degC"
event.course = "rough-desert"
event.duration = "6 h"
)";
}

}  // namespace caseload::input_test
