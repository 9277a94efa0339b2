// SPDX-License-Identifier: MIT
// Built-in duties: tables/courses.
#pragma once

#include "caseload/model.hpp"
#include "caseload/pace.hpp"
#include "caseload/shocks.hpp"
#include "input/oils.hpp"

#include <string>
#include <vector>

namespace caseload::input {

/// Shocks of a course: as taken, and at both ends of each number.
struct CourseShocks {
    pace::ShockSpectrum usual;
    pace::ShockSpectrum low;
    pace::ShockSpectrum high;
    double wheel_load = 1;  ///< while landing or bouncing, over that of standing wheels
};

struct Course {
    RangedValue pace;  ///< usual mean speed
    double overload = 1;
    double peaks_per_h = 0;
    std::vector<CourseLine> lines;
    std::string description;  ///< of the ground
    pace::Ground ground;
    CourseShocks shocks;
};

/// A course of the table; the name has been checked against the accepted words.
[[nodiscard]] const Course& course(const std::string& name);

}  // namespace caseload::input
