// SPDX-License-Identifier: MIT
// Gear oils by grade: tables/oils.toml.
#pragma once

#include "input/value.hpp"

#include <map>
#include <string>
#include <vector>

namespace caseload::input {

/// Names of the grades, in the order of the table.
[[nodiscard]] const std::vector<std::string>& oil_grades();

/// A value and the ends of its plausible range, as TOML text.
struct RangedValue {
    Value value;
    std::string low;
    std::string high;
};

/// Values by key ("oil.viscosity_40C") of a grade that is in the table.
[[nodiscard]] const std::map<std::string, RangedValue>& oil_of_grade(const std::string& grade);

}  // namespace caseload::input
