// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace caseload {
/// The day on this machine's clock, 2026-11-20.
std::string today();
/// The same, some days later.
std::string days_after_today(int days);
}  // namespace caseload
