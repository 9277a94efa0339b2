// SPDX-License-Identifier: MIT
// Cars compared on one ground: what a pace said of the first says of it is kept for the others.
#pragma once

#include "caseload/input.hpp"

#include <string>
#include <vector>

namespace caseload {

/// A change of the car or the case does not move the ground. Where a course is calculated and its
/// pace said, the severity solved on the first setup goes with every change of it, so that a
/// stronger car is faster and not on rougher ground. A change of the course itself, its pace or its
/// style leaves that leg to be solved anew.
class OnGround {
public:
    explicit OnGround(const ReadSetup& first);

    /// These and what keeps the ground.
    [[nodiscard]] std::vector<Change> with(std::vector<Change> changes) const;
    /// What keeps it under another setup that says the same of these legs; nothing for the others.
    [[nodiscard]] std::vector<Change> under(const ReadSetup& other) const;

private:
    struct Kept {
        std::string heading;  ///< "event" or "leg.NAME"
        std::string severity;
        std::vector<std::string> said;  ///< course, pace, distance, duration and style
    };
    std::vector<Kept> kept_;
};

}  // namespace caseload
