// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/duty/event.hpp"

#include <string>

namespace caseload {

/// What was read of a log, what was decided, and how far to trust the event made of it.
std::string duty_screen(const duty::DutyAnswer& answer);

/// The same as one line of JSON; event: the file it was written to.
std::string duty_json(const duty::DutyAnswer& answer, const std::string& event);

}  // namespace caseload
