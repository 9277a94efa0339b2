// SPDX-License-Identifier: MIT
// The field table: every key of a setup file, once. It drives the reader, the completed file, the
// key reference and the hints.
#pragma once

#include "caseload/model.hpp"
#include "input/quantity.hpp"

#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

struct Item;

enum class FieldKind {
    quantity,    ///< text with a unit; or the one word in `accepted`
    quantities,  ///< a quantity or a list of them
    number,
    integer,
    text,
    word,   ///< one of `accepted`
    grade,  ///< a grade of tables/oils.toml
    flag,
    size,   ///< three lengths; `accepted` not empty: or the name of such a part of a library
    teeth,  ///< list of tooth counts; `accepted` not empty: or a name
    numbers,
    names,  ///< list of texts
    rows,   ///< list of inline tables; members are the fields KEY[].NAME
    part,   ///< name of a part of a library
    pairs,  ///< list of two-member lists; members are the fields KEY[].NAME
};

/// How a value is written in TOML.
enum class Form { quoted, quoted_or_list, bare, list };

/// What is the same for every field of a kind.
struct KindRow {
    FieldKind kind;
    Form form;
    std::string_view example;  ///< as TOML; "": the field's own in quotes
    std::string_view takes;    ///< in the key reference, behind its units or words
    std::string_view typed;    ///< in a box of the live page
};
[[nodiscard]] const KindRow& row_of(FieldKind kind);

/// What is accepted, in the measure's own unit.
struct Range {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
};

struct Field {
    std::string_view key;  ///< "*" stands for a name: "bearing.*.at"
    FieldKind kind = FieldKind::text;
    Measure measure = Measure::none;
    Range range = {};
    std::string_view accepted = {};  ///< words: "open | behind-skid-plate | tunnel"
    bool need = false;               ///< must be given when `when` is true
    /// When the key has a meaning: "K" (K or something under it is given), "K=A|B", "K!=A".
    std::string_view when = {};
    std::string_view fallback = {};  ///< standard value as TOML text
    std::string_view other_when =
        {};                         ///< where this is true, written as `when`, the standard value
    std::string_view other = {};    ///< is this one
    std::string_view example = {};  ///< a value of it, where its measure's would mislead
    std::string_view low = {};      ///< plausible ends of an assumed value, as TOML text
    std::string_view high = {};
    std::string_view words = {};                 ///< what it means
    std::string_view source = {};                ///< of the standard value
    void (*put)(Setup&, const Item&) = nullptr;  ///< the member it fills; none: used by build
};

/// All fields, in the order of the completed file.
[[nodiscard]] std::span<const Field> fields();

/// The field of a dotted key, or nullptr.
[[nodiscard]] const Field* find_field(std::string_view key);

/// The field with this very pattern; it must be in the table.
[[nodiscard]] const Field& field_of(std::string_view pattern);

/// True if the key matches the pattern, "*" standing for one name of letters, digits, - and _.
[[nodiscard]] bool matches(std::string_view pattern, std::string_view key);

/// `pattern` with its "*" replaced by the name that `key` has at that place.
[[nodiscard]] std::string with_name_of(std::string_view pattern, std::string_view key);

/// The name that stands for "*", or "".
[[nodiscard]] std::string name_in(std::string_view pattern, std::string_view key);

/// True if the key is the beginning of a key of the table: "bearing", "bearing.x", "cooler.rating".
[[nodiscard]] bool is_heading(std::string_view key);

/// A value the field could have, as written inside the quotes.
[[nodiscard]] std::string_view example_of(const Field& field);

/// Members of a row kind: the fields "KEY[].NAME".
[[nodiscard]] std::vector<const Field*> members_of(std::string_view pattern);

/// "a | b | c" as a list.
[[nodiscard]] std::vector<std::string> split_words(std::string_view accepted);

/// The parts of the table, one a file.
[[nodiscard]] std::span<const Field> case_fields();
[[nodiscard]] std::span<const Field> part_fields();
[[nodiscard]] std::span<const Field> oil_fields();
[[nodiscard]] std::span<const Field> heat_fields();
[[nodiscard]] std::span<const Field> shop_fields();
[[nodiscard]] std::span<const Field> event_fields();
[[nodiscard]] std::span<const Field> rule_fields();
[[nodiscard]] std::span<const Field> reading_fields();

inline constexpr std::string_view judgement = "judgement";
inline constexpr std::string_view common_practice = "common practice, no published source";

}  // namespace caseload::input
