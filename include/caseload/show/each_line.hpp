// SPDX-License-Identifier: MIT
// One answer a line: flat JSON, units in the names, one line feed at the end.
#pragma once

#include "caseload/ask/band.hpp"

#include <cstddef>
#include <string>

namespace caseload {

/// `name` is what the caller calls the setup.
std::string each_line(std::size_t number, const std::string& name, const Setup& setup,
                      const Assessment& likely, const Band& band);

/// The same for a row that cannot be calculated: its problems in words.
std::string each_error_line(std::size_t number, const std::string& setup, const Error& error);

}  // namespace caseload
