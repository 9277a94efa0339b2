// SPDX-License-Identifier: MIT
#include "ask/fast_nodes.hpp"

#include "caseload/heat.hpp"

#include <utility>

namespace caseload {
namespace {

bool same_points(const Grid& a, const Grid& b) {
    return a.first == b.first && a.step == b.step && a.y.size() == b.y.size();
}

}  // namespace

bool FastGrids::operator==(const FastGrids& other) const {
    return case_air_degC == other.case_air_degC && damage_stride == other.damage_stride &&
           same_points(fine, other.fine) && same_points(coarse, other.coarse) &&
           same_points(damage, other.damage) && same_points(outside, other.outside);
}

Row on_grid(const Grid& grid, const std::vector<double>& x, Row y) {
    const Curve curve(x, std::move(y));
    Row row;
    row.reserve(grid.y.size());
    for (std::size_t i = 0; i < grid.y.size(); ++i) row.push_back(curve(grid.x(i)));
    return row;
}

}  // namespace caseload
