// SPDX-License-Identifier: MIT
// One answer a line for many setups or many variations of one: a list in, flat JSON lines out.
#pragma once

#include "caseload/ask/band.hpp"

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

/// Comma-separated text with a head line; cells with commas stand in double quotes. Throws
/// Error{input} with the line when a row has another number of cells than the head.
EachTable read_each_table(std::string_view text, const std::string& name);

/// The value of a cell as TOML text.
std::string cell_toml(std::string_view cell);

/// One line of a list of answers: flat, units in the names, one line feed at the end.
std::string each_line(std::size_t number, const std::string& setup, const Assessment& likely,
                      const Band& band);

/// The same for a row that cannot be calculated: the first problem in words.
std::string each_error_line(std::size_t number, const std::string& setup, const Error& error);

}  // namespace caseload
