// SPDX-License-Identifier: MIT
// The answer as one JSON document, schema version 1.
#pragma once

#include "caseload/assess.hpp"

#include <string>

namespace caseload {

std::string assessment_json(const ReadSetup& read, const Assessment& answer,
                            const std::vector<Worth>& worth);

}  // namespace caseload
