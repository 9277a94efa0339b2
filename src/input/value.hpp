// SPDX-License-Identifier: MIT
// A setup file as leaves: dotted key, value, place. No meaning yet.
#pragma once

#include "caseload/error.hpp"

#include <map>
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
};

struct Member {
    std::string key;
    Value value;
};

/// The value as TOML text.
std::string toml_text(const Value& value);

struct Leaf {
    Value value;
    Where key_where;
};

/// Leaves by dotted key.
using Leaves = std::map<std::string, Leaf>;

/// Parses TOML text. Throws Error{input} with one problem, in our words, where the text is not TOML
/// or passes a limit (1 MiB, 4096 characters a line, 32 levels).
Leaves parse_leaves(std::string_view text, const std::string& name);

/// One TOML value, as given on the command line. Throws Error{input}.
Value parse_value(std::string_view toml, const std::string& name);

}  // namespace caseload::input
