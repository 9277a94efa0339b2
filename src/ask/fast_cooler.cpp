// SPDX-License-Identifier: MIT
#include "ask/fast_cooler.hpp"

#include <cmath>
#include <map>
#include <utility>

namespace caseload {
namespace {

// Every so many points of the grid are calculated, and all where it bends: over the thermostat's
// range.
constexpr int cooler_stride = 4;
constexpr double cooler_bend_K = 2;

}  // namespace

CoolerTables::Inputs CoolerTables::inputs_of(
    const Grid& grid, const FastNodes& nodes,
    const std::array<const Prepared*, FastNodes::airs>& in_air, std::vector<bool> in_run) {
    Inputs inputs;
    inputs.grid = grid;
    if (!in_air.front()->setup->cooler.fit) return inputs;
    inputs.in_run = std::move(in_run);
    for (std::size_t air = 0; air < FastNodes::airs; ++air)
        inputs.in_air[air] = cooler_basis(*in_air[air]);
    Prepared faced = *in_air.front();
    Setup other = *faced.setup;
    faced.setup = &other;
    for (std::size_t s = 0; s < FastNodes::face_speeds; ++s) {
        other.factors.face_speed = std::exp(nodes.face[s]);
        inputs.bins[s].resize(inputs.in_run.size());
        for (std::size_t leg = 0; leg < inputs.in_run.size(); ++leg)
            for (const bool fan : {true, false})
                if (inputs.in_run[leg])
                    inputs.bins[s][leg][fan ? 1 : 0] =
                        core_bins(faced, leg, {.cooler = true, .pump = true, .fan = fan});
    }
    return inputs;
}

CoolerTables::CoolerTables(Inputs inputs)
    : inputs_(std::move(inputs)), legs_(inputs_.in_run.size()) {
    for (std::size_t leg = 0; leg < legs_.size(); ++leg)
        if (inputs_.in_run[leg]) legs_[leg].fill(CoolerTable(inputs_.grid.y.size()));
}

void CoolerTables::make(std::size_t air) {
    const Prepared prepared = whole(inputs_.in_air[air]);
    const Grid& fine = inputs_.grid;
    const std::vector<double> oil_degC = wanted_points(fine, [&](std::size_t i) {
        if (i % cooler_stride == 0) return true;
        const auto& opens_degC = prepared.setup->cooler.thermostat_opens_degC;
        return opens_degC && fine.x(i) >= *opens_degC - cooler_bend_K &&
               fine.x(i) <= *opens_degC + thermostat_range_K + cooler_bend_K;
    });
    for (std::size_t s = 0; s < FastNodes::face_speeds; ++s) {
        // Bins of all legs, fan running or not, at the same air and oil flow are one.
        std::map<std::pair<double, double>, Row> heat_W;
        const auto heat_of = [&](const CoreBin& bin) -> const Row& {
            Row& row = heat_W[{bin.face_mps, bin.pump_Lpmin}];
            if (row.empty())
                for (const double at_degC : oil_degC)
                    row.push_back(core_heat_W(prepared, bin, at_degC));
            return row;
        };
        for (std::size_t leg = 0; leg < legs_.size(); ++leg) {
            if (!inputs_.in_run[leg]) continue;
            for (const std::size_t fan : {std::size_t{1}, std::size_t{0}}) {
                Row mean_W(oil_degC.size());
                for (const CoreBin& bin : inputs_.bins[s][leg][fan]) {
                    const Row& row = heat_of(bin);
                    for (std::size_t i = 0; i < row.size(); ++i) mean_W[i] += bin.share * row[i];
                }
                legs_[leg][fan].set(air * FastNodes::face_speeds + s,
                                    on_grid(fine, oil_degC, std::move(mean_W)));
            }
        }
    }
}

}  // namespace caseload
