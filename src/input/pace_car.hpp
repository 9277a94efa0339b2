// SPDX-License-Identifier: MIT
// The car of a setup as the segment model and a track see it.
#pragma once

#include "caseload/model.hpp"
#include "caseload/pace_car.hpp"

namespace caseload::input {

/// case_ratio: input over output speed of the train. What a setup cannot say yet is usual: a race
/// car's wheel travel, all wheels driven, petrol.
[[nodiscard]] pace::Car pace_car(const VehicleInput& vehicle, double case_ratio,
                                 double air_density_kgpm3);

}  // namespace caseload::input
