// SPDX-License-Identifier: MIT
// Rows of numbers of an embedded table. The tables are our own: what does not fit is our bug and
// travels as such.
#pragma once

#include "third_party/toml.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace caseload {

template <std::size_t columns>
void add_number_rows(const toml::node& list, std::vector<std::array<double, columns>>& to) {
    for (const toml::node& item : *list.as_array()) {
        std::array<double, columns> row{};
        std::size_t column = 0;
        for (const toml::node& number : *item.as_array())
            row.at(column++) = number.value<double>().value();
        to.push_back(row);
    }
}

}  // namespace caseload
