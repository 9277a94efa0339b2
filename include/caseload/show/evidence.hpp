// SPDX-License-Identifier: MIT
// Figures of others beside our own: for a terminal, as docs/validation.md, as JSON schema
// version 1. Never calculates.
#pragma once

#include "caseload/evidence.hpp"

#include <string>

namespace caseload {

/// The three numbers of the headline, without a full stop: README has the same words.
std::string evidence_counts(const Evidence& evidence);
std::string evidence_screen(const Evidence& evidence);
std::string evidence_markdown(const Evidence& evidence);
std::string evidence_json(const Evidence& evidence);

}  // namespace caseload
