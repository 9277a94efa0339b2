// SPDX-License-Identifier: MIT
// Times of bins changed a little so that the sums over a leg are right.
#pragma once

#include <cstddef>
#include <vector>

namespace caseload::bins {

/// One sum that is to be 1: what each bin gives of it, and how close it has to come.
struct WantedSum {
    std::vector<double> of_bins;
    double tolerance = 0;
};

/// A factor for each bin's time: least squares of the sums' errors over their tolerances and of the
/// changes. No factor is below a fifth.
[[nodiscard]] std::vector<double> time_factors(const std::vector<WantedSum>& sums,
                                               std::size_t bins);

}  // namespace caseload::bins
