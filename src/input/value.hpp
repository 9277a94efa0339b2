// SPDX-License-Identifier: MIT
// A setup file as leaves: dotted key, value, place. No meaning yet.
#pragma once

#include "caseload/error.hpp"
#include "input/scan.hpp"

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

struct Member;

struct Value {
    enum class Kind { text, number, integer, flag, list, table };
    Kind kind = Kind::text;
    std::string text;
    double number = 0;
    bool flag = false;
    std::vector<Value> items;     ///< of a list
    std::vector<Member> members;  ///< of a table in a list
    Where where;

    [[nodiscard]] bool is_number() const { return kind == Kind::number || kind == Kind::integer; }
};

struct Member {
    std::string key;
    Value value;
};

/// The value as TOML text.
[[nodiscard]] std::string toml_text(const Value& value);
/// A text as TOML: quoted.
[[nodiscard]] std::string quoted(std::string_view text);

/// "key = value" with its comment, if any, as every writer of files puts it, with its line end.
[[nodiscard]] std::string entry_line(std::string_view key, std::string_view value,
                                     std::string_view comment = {});
/// The same of a list with these members. Beyond the width of a screen it goes over several lines:
/// a row or pair on each, words and numbers as many as fit. So no list is too long to be read.
[[nodiscard]] std::string entry_lines(std::string_view key, std::span<const std::string> members,
                                      std::string_view comment = {});
/// Throws Error{input} if a file with this text would be too large to be read as a setup; `what`
/// it is, and what makes it smaller.
void require_readable(std::string_view text, std::string_view what, std::string_view cure);

/// The same, cut to fit one line of a message.
[[nodiscard]] std::string short_text(const Value& value);

struct Leaf {
    Value value;
    Where key_where;
};

/// Leaves by dotted key. An empty table is a leaf of kind table.
using Leaves = std::map<std::string, Leaf>;

/// Parses TOML text, in which a ratio of gears needs no quotes: 31/43. Throws Error{input} with one
/// problem, in our words, where the text is not TOML or passes a limit of scan.hpp.
[[nodiscard]] Leaves parse_leaves(std::string_view text, const std::string& name,
                                  std::size_t longest = longest_line);

/// What is wrong with the line caseload = 1 that `what` begins with, if anything.
[[nodiscard]] std::optional<Problem> wrong_version(const Leaves& leaves, const std::string& file,
                                                   std::string_view what);

/// TOML text of one value as given on the command line, as leaves under `key`. Their places are
/// empty. Throws Error{input}.
[[nodiscard]] Leaves parse_change(const std::string& key, std::string_view toml);

}  // namespace caseload::input
