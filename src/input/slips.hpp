// SPDX-License-Identifier: MIT
// Values outside their range that a usual slip explains.
#pragma once

#include "input/fields.hpp"

#include <string>

namespace caseload::input {

/// The value that was more likely meant by a text that cannot be taken, as a hint: a mark of
/// thousands read as a decimal one ("1.250 kg"), or a unit beside the one that was meant ("33 mm").
/// "" where no slip makes the value fit the field's range.
[[nodiscard]] std::string slipped(const Field& field, const std::string& text);

}  // namespace caseload::input
