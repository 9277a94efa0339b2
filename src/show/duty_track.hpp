// SPDX-License-Identifier: MIT
// Lines of the screen of a track, where they are not those of a log.
#pragma once

#include "caseload/duty/event.hpp"

#include <string>

namespace caseload {

/// What makes it a track; its time.
std::string track_head_lines(const duty::DutyAnswer& answer);
/// The ground, and what is beyond the car.
std::string track_ground_lines(const duty::DutyAnswer& answer);
/// How far to trust it.
std::string track_trust_lines(const duty::DutyAnswer& answer);

/// As JSON.
std::string track_json(const duty::TrackFacts& track);

}  // namespace caseload
