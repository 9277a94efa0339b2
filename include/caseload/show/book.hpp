// SPDX-License-Identifier: MIT
// The service book as JSON documents for other programs. Never calculates.
#pragma once

#include "caseload/book/state.hpp"

#include <span>
#include <string>

namespace caseload {

/// Cases with their parts and open findings, and the parts on the shelf; one case, if named.
std::string book_json(const book::State& state, const std::string& serial);
std::string due_json(std::span<const book::DueOfCase> due);
std::string fleet_json(const book::Fleet& fleet);

}  // namespace caseload
