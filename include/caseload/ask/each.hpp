// SPDX-License-Identifier: MIT
// Many variations of one setup from a table of changes.
#pragma once

#include "caseload/input.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// A table of changes: the head names keys of the setup, each row gives their values, written as in
/// a setup file but without the quotes round texts: "38 degC", 5.13, [33, 41], true.
struct EachTable {
    std::vector<std::string> keys;
    std::vector<std::vector<Change>> rows;
};

/// Comma-separated text with a head line; cells with commas are in double quotes. Throws
/// Error{input} with the line when a row has another number of cells than the head.
EachTable read_each_table(std::string_view text, const std::string& name);

/// A key that repeats another one: twice the same, or "cooler" beside "cooler.fit".
/// "" if there is none.
std::string said_twice(std::span<const std::string> keys);

/// The value of a cell as TOML text.
std::string cell_toml(std::string_view cell);

}  // namespace caseload
