// SPDX-License-Identifier: MIT
#include "caseload/tables.hpp"

#include <stdexcept>
#include <string>

namespace caseload {

std::string_view embedded_table(std::string_view path) {
    for (const EmbeddedTable& table : embedded_tables())
        if (table.path == path) return table.text;
    throw std::out_of_range("no embedded table " + std::string(path));
}

}  // namespace caseload
