// SPDX-License-Identifier: MIT
// Values outside their range that a usual slip explains.
#pragma once

#include "input/fields.hpp"

#include <string>

namespace caseload::input {

/// The more likely value of a refused text, as a hint: a mark of thousands read as a decimal one
/// ("1.250 kg"), or one unit written for another ("33 mm").
/// "" where no slip makes the value fit the field's range.
[[nodiscard]] std::string slipped(const Field& field, const std::string& text);

}  // namespace caseload::input
