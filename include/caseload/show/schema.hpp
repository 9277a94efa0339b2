// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace caseload {

/// JSON Schema (draft 7) of a setup file, from the field table: names, kinds, words, examples. What
/// only the reader can tell (units, ranges, what needs what) is left to it.
std::string setup_schema();

}  // namespace caseload
