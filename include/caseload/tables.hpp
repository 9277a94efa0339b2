// SPDX-License-Identifier: MIT
// The files of tables/, embedded at build time.
#pragma once

#include <span>
#include <string_view>

namespace caseload {

struct EmbeddedTable {
    std::string_view path;  ///< relative to tables/, for example "patterns/two-gear-185mm.toml"
    std::string_view text;
};

/// Every file of tables/, in the order of their paths.
std::span<const EmbeddedTable> embedded_tables();

/// The text of one table. Throws std::out_of_range if there is none: our bug, not the user's.
std::string_view embedded_table(std::string_view path);

}  // namespace caseload
