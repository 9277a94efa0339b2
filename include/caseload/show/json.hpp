// SPDX-License-Identifier: MIT
// The answer as one JSON document, schema version 1.
#pragma once

#include "caseload/show/text.hpp"

#include <string>

namespace caseload {

std::string assessment_json(const Answer& answer);

}  // namespace caseload
