// SPDX-License-Identifier: MIT
#include "ask/fast_nodes.hpp"

#include "caseload/heat.hpp"

#include <utility>

namespace caseload {

Row on_grid(const Grid& grid, const std::vector<double>& x, Row y) {
    const Curve curve(x, std::move(y));
    Row row;
    row.reserve(grid.y.size());
    for (std::size_t i = 0; i < grid.y.size(); ++i) row.push_back(curve(grid.x(i)));
    return row;
}

}  // namespace caseload
