// SPDX-License-Identifier: MIT
// One value of a JSON document.
#pragma once

#include <string>
#include <string_view>

namespace caseload::json_value {

/// Quoted and escaped.
std::string text(std::string_view value);

/// Member that every document of an answer begins with, after its schema: what the answer is not.
std::string caution();

/// As many digits as the same double needs when read again; null when it is not finite.
std::string number(double value);

/// A temperature in degC; null above the ceiling (oil_ceiling_degC), where none is told.
std::string temp(double temp_degC);

}  // namespace caseload::json_value
