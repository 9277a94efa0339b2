// SPDX-License-Identifier: MIT
// One value of a JSON document.
#pragma once

#include "caseload/figures.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace caseload::json_value {

/// Quoted and escaped; bytes that are not UTF-8 as U+FFFD.
std::string text(std::string_view value);

/// Member that every document of an answer begins with, after its schema: what the answer is not.
std::string caution();

/// A whole document: its schema, the command that made it, the caution and these members.
std::string document(std::string_view command, std::string_view members);

/// As many digits as the same double needs when read again; null when it is not finite.
std::string number(double value);
std::string number_or_null(const std::optional<double>& value);

/// A temperature in degC; null above the ceiling (oil_ceiling_degC), where none is printed.
std::string temp(double temp_degC);

/// A list of what `one` makes of each item; an item it makes nothing of is left out.
template <class Items, class One>
std::string list(const Items& items, const One& one) {
    return '[' + joined(items, ",", one) + ']';
}

}  // namespace caseload::json_value
