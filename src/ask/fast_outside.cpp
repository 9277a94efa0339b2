// SPDX-License-Identifier: MIT
#include "ask/fast_outside.hpp"

#include "heat/at_oil.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

namespace caseload {
namespace {

// Every so many points of the grid are calculated, and all where it bends: near the air's own
// temperature.
constexpr int outside_stride = 4;
constexpr double outside_bend_K = 16;

/// Speeds of the air along the housing between which heat is interpolated, and each leg's weights
/// of them.
void find_speeds(const FastNodes& nodes, const Prepared& prepared, OutsideTables::Inputs& inputs) {
    std::vector<OutsideTables::Leg>& legs = inputs.legs;
    // Speeds of the air in all bins at all nodes lie between a few speeds at which it is
    // calculated.
    std::vector<std::array<std::vector<double>, FastNodes::air_shares>> speeds_mps(legs.size());
    double slowest_mps = std::numeric_limits<double>::infinity();
    double fastest_mps = 0;
    Setup other = *prepared.setup;
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].in_run) continue;
        for (std::size_t s = 0; s < FastNodes::air_shares; ++s) {
            other.factors.air_share = std::exp(nodes.air_share[s]);
            for (const BinLoads& bin : prepared.loads.legs[leg].bins) {
                speeds_mps[leg][s].push_back(air_along_mps(other, bin.bin));
                slowest_mps = std::min(slowest_mps, speeds_mps[leg][s].back());
                fastest_mps = std::max(fastest_mps, speeds_mps[leg][s].back());
            }
        }
    }
    if (fastest_mps == 0) return;
    constexpr double least_span = 1.01;
    const AirSpeeds ln_speeds(
        {std::log(slowest_mps), std::log(std::max(fastest_mps, least_span * slowest_mps))});
    for (std::size_t k = 0; k < air_speeds; ++k) inputs.air_mps[k] = std::exp(ln_speeds[k]);
    for (std::size_t leg = 0; leg < legs.size(); ++leg)
        for (std::size_t s = 0; s < FastNodes::air_shares; ++s)
            for (std::size_t bin = 0; bin < speeds_mps[leg][s].size(); ++bin) {
                const auto w = ln_speeds.weights(std::log(speeds_mps[leg][s][bin]));
                for (std::size_t k = 0; k < air_speeds; ++k)
                    legs[leg].by_air_speed[s][k] +=
                        prepared.loads.legs[leg].bins[bin].bin.share * w[k];
            }
}

}  // namespace

OutsideTables::Inputs OutsideTables::inputs_of(
    const Grid& grid, const FastNodes& nodes,
    const std::array<const Prepared*, FastNodes::airs>& in_air, std::vector<Leg> legs) {
    Inputs inputs;
    inputs.grid = grid;
    inputs.legs = std::move(legs);
    for (std::size_t air = 0; air < FastNodes::airs; ++air)
        inputs.in_air[air] = outside_basis(*in_air[air]);
    find_speeds(nodes, *in_air.front(), inputs);
    return inputs;
}

OutsideTables::OutsideTables(Inputs inputs)
    : inputs_(std::move(inputs)), legs_(inputs_.legs.size()) {
    for (std::size_t leg = 0; leg < legs_.size(); ++leg)
        if (inputs_.legs[leg].in_run) legs_[leg] = OutsideTable(inputs_.grid.y.size());
}

void OutsideTables::make(std::size_t air) {
    const Prepared prepared = whole(inputs_.in_air[air]);
    const Grid& grid = inputs_.grid;
    const std::vector<double> above_K = wanted_points(grid, [&](std::size_t i) {
        return std::fabs(grid.x(i)) <= outside_bend_K || i % outside_stride == 0;
    });
    const auto heat_W = [&](double speed_mps, double above_air_K) {
        const OutsideParts out =
            outside_in_air(prepared, speed_mps, prepared.case_air_degC + above_air_K);
        return out.convection_W + out.radiation_W;
    };
    const bool driven = inputs_.air_mps[0] > 0;
    const bool standing = std::any_of(inputs_.legs.begin(), inputs_.legs.end(),
                                      [](const Leg& leg) { return leg.in_run && leg.stop; });
    std::vector<std::array<double, air_speeds>> by_speed_W(above_K.size());
    Row standing_W(above_K.size());
    for (std::size_t i = 0; i < above_K.size(); ++i) {
        for (std::size_t k = 0; driven && k < air_speeds; ++k)
            by_speed_W[i][k] = heat_W(inputs_.air_mps[k], above_K[i]);
        if (standing) standing_W[i] = heat_W(0, above_K[i]);
    }
    for (std::size_t leg = 0; leg < legs_.size(); ++leg) {
        const Leg& input = inputs_.legs[leg];
        if (!input.in_run) continue;
        for (std::size_t s = 0; s < FastNodes::air_shares; ++s) {
            Row row = standing_W;
            for (std::size_t i = 0; !input.stop && i < row.size(); ++i)
                row[i] = std::inner_product(by_speed_W[i].begin(), by_speed_W[i].end(),
                                            input.by_air_speed[s].begin(), 0.0);
            legs_[leg].set(air * FastNodes::air_shares + s, on_grid(grid, above_K, std::move(row)));
        }
    }
}

}  // namespace caseload
