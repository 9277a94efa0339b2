// SPDX-License-Identifier: MIT
// The duties a car may have on a course: laps over what nobody knows, driver and ground.
#pragma once

#include "caseload/error.hpp"
#include "caseload/pace.hpp"

#include <optional>
#include <vector>

namespace caseload::pace {

/// How it is driven: triangular.
struct StyleLaw {
    double low = -1;
    double likely = 0;
    double high = 1;

    bool operator==(const StyleLaw&) const = default;
};

/// What is known of a drive before it.
struct Known {
    StyleLaw style;
    std::optional<double> pace_mps;  ///< the mean speed; the ground is solved from it
    /// Of the ground. With a pace it is the ground on which some other car had that pace: then
    /// this car's own pace there is what each driver has.
    std::optional<double> severity;

    bool operator==(const Known&) const = default;
};

/// Entered severities; what a pace asks beyond them is traffic or cannot be.
inline constexpr Limits severities{0.05, 10};

/// `course_duties` laps by rising mean drive power at the case input, the likely one in the middle,
/// all as likely: five styles (middles of the fifths of their law) with three severities, or three
/// soils where pace or severity is known (middles of the thirds of log-normal laws with deviations
/// of ln of 0.45 and 0.20; judgement). Those of `place_of_drawn` have bins.
///
/// A known pace is met by the severity of each. Where it hardly moves the pace (the car runs at the
/// course's highest speed), or the pace is slower than the roughest ground asks, traffic lowers
/// that highest speed (judgement). A driver who is too slow even where it is smooth drives harder.
/// None where the pace is beyond what this car can have, `fastest_pace_mps`. Throws Error{domain}
/// where a number is outside its range.
[[nodiscard]] std::optional<std::vector<CourseDuty>> duties(const Car& car, const Ground& ground,
                                                            const Known& known);

}  // namespace caseload::pace
