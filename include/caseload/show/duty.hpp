// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/duty/event.hpp"

#include <string>

namespace caseload {

/// What was read of a log, what was decided, and how far to trust the event made of it.
std::string duty_screen(const duty::DutyAnswer& answer);

}  // namespace caseload
