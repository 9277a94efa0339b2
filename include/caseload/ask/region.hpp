// SPDX-License-Identifier: MIT
// Limits of a case for its customers: the region of a few keys that stays fine.
#pragma once

#include "caseload/ask/compare.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// One key and the values it is tried at, as people write them.
struct Axis {
    std::string key;
    std::vector<std::string> values;
};

/// Reads "vehicle.mass,vehicle.tyre=33 in:40 in:4": keys, each with its range, else 80 to 130 % of
/// the setup's value in 5 steps. Throws Error{input}.
std::vector<Axis> read_axes(std::string_view text, const ReadSetup& read);

struct Cell {
    std::vector<std::size_t> at;  ///< index into each axis
    std::string verdict;          ///< fine | watch | stop | "" : not calculated
    std::string reason;           ///< of a verdict, or why it is not calculated
    double holds_share = 0;       ///< of the draws whose oil stays below its watch limit
};

struct Region {
    std::vector<Axis> axes;
    std::vector<Cell> cells;  ///< the last axis runs fastest
    /// The largest block of cells that are all fine: first and last index on each axis; empty:
    /// none.
    struct Bounds {
        std::size_t first = 0;
        std::size_t last = 0;
    };
    std::vector<Bounds> fine;
    EngineLimited engine;  ///< of the setup itself
    std::string decision;
};

Region fine_region(const Document& document, const std::vector<Axis>& axes,
                   const BandOptions& options);

}  // namespace caseload
