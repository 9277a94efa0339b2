// SPDX-License-Identifier: MIT
// One value of a JSON document.
#pragma once

#include <string>
#include <string_view>

namespace caseload::json_value {

/// Quoted and escaped; bytes that are not UTF-8 as U+FFFD.
std::string text(std::string_view value);

/// Member that every document of an answer begins with, after its schema: what the answer is not.
std::string caution();

/// As many digits as the same double needs when read again; null when it is not finite.
std::string number(double value);

/// A temperature in degC; null above the ceiling (oil_ceiling_degC), where none is told.
std::string temp(double temp_degC);

/// A list of what `one` makes of each item; an item it makes nothing of is left out.
template <class Items, class One>
std::string list(const Items& items, const One& one) {
    std::string out;
    for (const auto& item : items) {
        const std::string value = one(item);
        if (!value.empty()) out += (out.empty() ? "" : ",") + value;
    }
    return '[' + out + ']';
}

}  // namespace caseload::json_value
