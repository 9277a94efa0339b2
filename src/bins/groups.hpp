// SPDX-License-Identifier: MIT
// Cells grouped so that every measure changes little.
#pragma once

#include "bins/cells.hpp"
#include "bins/measures.hpp"

#include <cstddef>
#include <vector>

namespace caseload::bins {

struct Group {
    CellSums sums;
    double torque_Nm = 0;  ///< signed, of all cells of the group
    double speed_rpm = 0;
};

struct Grouped {
    std::vector<Group> groups;
    std::vector<double> by_cells;  ///< each measure's sum over the leg
};

/// The group that loses most is split where its two parts lose least, until nothing changes or
/// there are `most` of them.
[[nodiscard]] Grouped grouped(const std::vector<Cells::Taken>& cells, const Measures& measures,
                              std::size_t most);

}  // namespace caseload::bins
