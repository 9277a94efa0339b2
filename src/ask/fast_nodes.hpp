// SPDX-License-Identifier: MIT
// Points of the tables of the fast case: nodes over the factors and grids
// over temperature.
#pragma once

#include "ask/fast_grid.hpp"
#include "caseload/model.hpp"

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace caseload {

// How far the factors that are not simple multipliers may go: beyond what band.toml draws in 1e5
// draws and what a calibration may find. With these counts of nodes draws agree with the direct
// chain to 0.05 K where pace and dirt are at their likely values (tests/ask).
struct FastNodes {
    static constexpr std::size_t loads = 7;
    static constexpr std::size_t frictions = 4;
    static constexpr std::size_t air_shares = 7;
    static constexpr std::size_t face_speeds = 5;
    static constexpr std::size_t conductances = 5;
    static constexpr std::size_t airs = 3;
    static constexpr std::size_t churnings = 5;
    static constexpr std::size_t mists = 3;
    /// Beside load and friction at 1: likely, slowest and fastest pace; or the duties that are
    /// drawn of a calculated course.
    static constexpr std::size_t paces = drawn_duties;
    /// Beside the likely pace: least and largest play of the bearings' classes.
    static constexpr std::size_t plays = 2;
    static constexpr std::size_t loaded = loads * frictions + paces + plays;
    static constexpr std::size_t classes = 3;
    static constexpr double least_drawn_air_share = 0.3;
    static constexpr double most_drawn_air_share = 2.4;
    static constexpr double least_face = 0.4;
    static constexpr double most_face = 2.1;
    // Logarithms of the factors; kelvin for the air.
    FactorNodes<loads> load{{-0.45, 0.45}};
    /// On the friction over the heat paths of a bearing's film, which its rise hangs on.
    FactorNodes<frictions> friction{{std::log(0.4), std::log(2.2)}};
    FactorNodes<air_shares> air_share{
        {std::log(least_drawn_air_share), std::log(most_drawn_air_share)}};
    FactorNodes<face_speeds> face{{std::log(least_face), std::log(most_face)}};
    FactorNodes<conductances> conductance{{-1.3, 1.3}};
    FactorNodes<airs> air{{-6, 6}};
    /// Fast churning over slow: both ranges of a draw, -0.41 to 0.39, and beyond for a measured
    /// case.
    FactorNodes<churnings> churning_ratio{{-1, 1}};

    /// How far the logarithm of the load goes: by how many of its standard deviations, and at
    /// least.
    static constexpr double load_sds = 3.6;
    static constexpr double least_load_reach = 0.45;
    /// Ends for a case that was measured: its factors may lie beyond those drawn.
    static constexpr double least_friction = 0.25;
    static constexpr double most_friction = 4;
    static constexpr double least_air_share = 0.2;
    static constexpr double most_air_share = 5;
};

using Row = std::vector<double>;

/// Nodes of tables over two factors, those of the second one after the other; loaded ones then have
/// those of pace and play.
using LoadedTable = NodeTable<FastNodes::loaded>;
using OutsideTable = NodeTable<FastNodes::airs * FastNodes::air_shares>;
using CoolerTable = NodeTable<FastNodes::face_speeds * FastNodes::conductances>;

/// Speeds of the air along the housing, in logarithms, between which its heat is interpolated to
/// 1e-8 of itself (tests/ask).
inline constexpr std::size_t air_speeds = 14;
using AirSpeeds = FactorNodes<air_speeds>;

struct FastGrids {
    double case_air_degC = 0;
    Grid fine;
    Grid coarse;
    Grid outside;                  ///< over housing less air
    std::optional<Refine> refine;  ///< from coarse to fine points
};

/// Points of a grid at which something is calculated: where wanted and at both ends.
template <class Wanted>
std::vector<double> wanted_points(const Grid& grid, const Wanted& wanted) {
    std::vector<double> points;
    for (std::size_t i = 0; i < grid.y.size(); ++i)
        if (i == 0 || i + 1 == grid.y.size() || wanted(i)) points.push_back(grid.x(i));
    return points;
}

/// Values at every point of a grid, by a smooth curve through those that were calculated.
Row on_grid(const Grid& grid, const std::vector<double>& x, Row y);

}  // namespace caseload
