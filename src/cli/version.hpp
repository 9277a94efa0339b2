// SPDX-License-Identifier: MIT
#pragma once

namespace caseload {
/// Of the project, from its CMakeLists.txt.
inline constexpr const char* program_version = CASELOAD_VERSION;
}  // namespace caseload
