// SPDX-License-Identifier: MIT
// The few bins that keep what a leg's many cells do to bearings, teeth and oil.
#pragma once

#include "bins/cells.hpp"
#include "bins/measures.hpp"
#include "caseload/model.hpp"

#include <cstddef>
#include <vector>

namespace caseload::bins {

/// At most so many bins for a leg: every calculation of an event takes time for each.
inline constexpr std::size_t most_bins = 48;

struct BinnedLeg {
    std::vector<Bin> bins;
    std::vector<double> by_cells;  ///< each measure's sum over the leg
    std::vector<double> by_bins;
};

/// Coast is kept apart from drive.
[[nodiscard]] BinnedLeg bins_of(const std::vector<Cells::Taken>& cells, const Measures& measures);

}  // namespace caseload::bins
