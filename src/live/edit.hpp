// SPDX-License-Identifier: MIT
// One key of a setup text changed, everything else of the text left as it is. Every change is read
// again: a text in which anything but that key would mean something else is never returned.
#pragma once

#include "input/fields.hpp"

#include <string>
#include <string_view>

namespace caseload::live {

/// What was typed for a field, as TOML text: "2350 kg" gets its quotes, "33, 41" its brackets. What
/// cannot be a value of the field's kind becomes a text, so that the reader says what is wrong.
[[nodiscard]] std::string typed_toml(const input::Field& field, std::string_view typed);

/// A value as one types it: without quotes and brackets.
[[nodiscard]] std::string typed_form(const input::Field& field, std::string_view toml);

/// The text with `key = toml`, replaced in its place, else added under its heading or in its
/// inline table; a list too long for a line goes over several. Throws Error{input} when the text
/// cannot be read, or no such way changes it alone.
[[nodiscard]] std::string with_value(const std::string& text, const std::string& key,
                                     const std::string& toml);

/// The text without this key: without its lines, or taken out of its inline table. Throws as above.
[[nodiscard]] std::string without_value(const std::string& text, const std::string& key);

}  // namespace caseload::live
