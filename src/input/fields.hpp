// SPDX-License-Identifier: MIT
// The field table: every key of a setup file, once.
#pragma once

#include "input/quantity.hpp"

#include <span>
#include <string>
#include <string_view>

namespace caseload::input {

enum class FieldKind {
    quantity,
    number,
    integer,
    text,
    word,
    flag,
    size,
    integers,
    numbers,
    texts,
    bins,
    peaks,
    torque_points
};

struct Field {
    std::string_view key;  ///< "*" stands for a name: "bearing.*.at"
    FieldKind kind;
    Measure measure;  ///< of a quantity
    double low;       ///< accepted range, in the measure's own unit
    double high;
    std::string_view fallback;  ///< TOML text of the standard value; "" = none
    std::string_view accepted;  ///< of a word: "open | behind-skid-plate | tunnel"
    std::string_view words;     ///< what it means
    std::string_view source;    ///< of the standard value
};

std::span<const Field> fields();

/// The field of a dotted key, or nullptr.
const Field* find_field(std::string_view key);

/// True if the key matches the pattern, "*" standing for one name.
bool matches(std::string_view pattern, std::string_view key);

/// The known key nearest to a wrong one, or "" if none is near.
std::string nearest_key(std::string_view key);

/// The nearest of the accepted words, or "".
std::string nearest_word(std::string_view accepted, std::string_view word);

/// True if the word is one of "a | b | c".
bool is_accepted(std::string_view accepted, std::string_view word);

}  // namespace caseload::input
