// SPDX-License-Identifier: MIT
// Built-in duties: tables/courses.
#pragma once

#include "caseload/model.hpp"
#include "caseload/pace.hpp"
#include "input/oils.hpp"

#include <string>
#include <vector>

namespace caseload::input {

struct Course {
    RangedValue pace;  ///< usual mean speed
    double overload = 1;
    double peaks_per_h = 0;
    std::vector<CourseLine> lines;
    std::string description;  ///< of the ground
    pace::Ground ground;
};

/// A course of the table; the name has been checked against the accepted words.
[[nodiscard]] const Course& course(const std::string& name);

}  // namespace caseload::input
