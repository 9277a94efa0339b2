// SPDX-License-Identifier: MIT
// The built-in courses for the key reference: their ground, and how two cars go there.
#pragma once

#include <string>

namespace caseload::input {

/// As markdown; a second of laps.
[[nodiscard]] std::string course_tables();

}  // namespace caseload::input
