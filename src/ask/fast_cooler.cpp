// SPDX-License-Identifier: MIT
#include "ask/fast_cooler.hpp"

#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace caseload {
namespace {

// How little and how much of the pump's flow may go through a core: beyond what is drawn. Where
// less does, heat is in proportion to the flow.
constexpr double least_share = 0.015;
constexpr double most_share = 1.9;

}  // namespace

CoolerTables::Inputs CoolerTables::inputs_of(const Grid& grid, const FastNodes& nodes,
                                             const Prepared& prepared, std::vector<bool> in_run) {
    Inputs inputs;
    inputs.grid = grid;
    inputs.nodes = nodes;
    if (!prepared.setup->cooler.fit) return inputs;
    inputs.in_run = std::move(in_run);
    inputs.basis = cooler_basis(prepared);
    Prepared faced = prepared;
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
    : inputs_(std::move(inputs)),
      flows_({std::log(least_share), std::log(most_share)}),
      temps_({inputs_.grid.first, oil_ceiling_degC}),
      legs_(inputs_.in_run.size()) {
    if (legs_.empty()) return;
    const Prepared prepared = whole(inputs_.basis);
    for (std::size_t i = 0; i < inputs_.grid.y.size(); ++i)
        most_Lpmin_.push_back(most_core_flow_Lpmin(prepared, inputs_.grid.x(i)));
    for (std::size_t leg = 0; leg < legs_.size(); ++leg)
        for (const std::size_t fan : {std::size_t{1}, std::size_t{0}}) {
            if (!inputs_.in_run[leg]) continue;
            Leg& made = legs_[leg][fan];
            made.bins = inputs_.bins.back()[leg][fan];
            for (const CoreBin& bin : made.bins) {
                made.cools = made.cools || (bin.face_mps > 0 && bin.pump_Lpmin > 0);
                made.mean_Lpmin += bin.share * bin.pump_Lpmin;
                made.fastest_Lpmin = std::max(made.fastest_Lpmin, bin.pump_Lpmin);
            }
            if (made.cools) made.share_by_heat = CoolerTable(flows * temps);
        }
}

void CoolerTables::make(std::size_t face) {
    Prepared prepared = whole(inputs_.basis);
    const double conductance_WpK = prepared.cooler.conductance_rating_WpK;
    for (std::size_t c = 0; c < FastNodes::conductances; ++c) {
        prepared.cooler.conductance_rating_WpK =
            conductance_WpK * std::exp(inputs_.nodes.conductance[c]);
        // Bins of all legs, fan running or not, at the same air and oil flow are one.
        std::map<std::pair<double, double>, Row> heat_WpK;
        const auto heat_of = [&](const CoreBin& bin) -> const Row& {
            Row& row = heat_WpK[{bin.face_mps, bin.pump_Lpmin}];
            if (row.empty())
                for (std::size_t t = 0; t < temps; ++t)
                    for (std::size_t f = 0; f < flows; ++f)
                        row.push_back(core_heat_WpK(
                            prepared, {bin.face_mps, std::exp(flows_[f]) * bin.pump_Lpmin},
                            temps_[t]));
            return row;
        };
        for (std::size_t leg = 0; leg < legs_.size(); ++leg)
            for (const std::size_t fan : {std::size_t{1}, std::size_t{0}}) {
                Leg& made = legs_[leg][fan];
                if (!made.cools) continue;
                Row mean_WpK(flows * temps);
                for (const CoreBin& bin : inputs_.bins[face][leg][fan]) {
                    const Row& row = heat_of(bin);
                    for (std::size_t i = 0; i < row.size(); ++i) mean_WpK[i] += bin.share * row[i];
                }
                for (std::size_t i = 0; i < mean_WpK.size(); ++i)
                    mean_WpK[i] = std::exp(flows_[i % flows]) / mean_WpK[i];
                made.share_by_heat.set(face * FastNodes::conductances + c, mean_WpK);
            }
    }
}

DrawnCooler::DrawnCooler(const CoolerTables& tables, const CoolerTables::Leg& leg,
                         const CoolerTable::Weights& weights, const Factors& factors, double pumped,
                         FourStore& store) {
    if (!leg.cools) return;
    tables_ = &tables;
    leg_ = &leg;
    air_degC_ = tables.air_degC() + factors.air_K;
    pump_flow_ = factors.pump_flow * pumped;
    opens_degC_ = tables.inputs().basis.setup.cooler.thermostat_opens_degC;
    if (opens_degC_) *opens_degC_ += factors.thermostat_K;
    share_by_heat_ = store.take(leg.share_by_heat.blocks());
    for (std::size_t block = 0; block < leg.share_by_heat.blocks(); ++block)
        share_by_heat_[block] = leg.share_by_heat.blend(weights, block);
}

double DrawnCooler::core_share(std::size_t point, double oil_degC) const {
    const double share = pump_flow_ * thermostat_share(opens_degC_, oil_degC);
    const double most_Lpmin = tables_->most_Lpmin()[point];
    if (share * leg_->fastest_Lpmin <= most_Lpmin) return share;
    // Heat of all bins is taken at their mean flow through the core.
    double through_Lpmin = 0;
    for (const CoreBin& bin : leg_->bins)
        through_Lpmin += bin.share * std::min(share * bin.pump_Lpmin, most_Lpmin);
    return through_Lpmin / leg_->mean_Lpmin;
}

double DrawnCooler::at_W(std::size_t point) {
    const double oil_degC = tables_->inputs().grid.x(point);
    const double share = core_share(point, oil_degC);
    if (share != last_share_) {
        last_share_ = share;
        const auto w = tables_->flow_nodes().weights(std::log(share));
        for (std::size_t block = 0; block < blocks; ++block)
            flow_weights_[block] = Four::at(&w[block * at_once]);
    }
    const auto by_temp = tables_->temp_nodes().weights(oil_degC);
    double share_by_heat_KpW = 0;
    for (std::size_t t = 0; t < CoolerTables::temps; ++t) {
        Four sum{};
        for (std::size_t block = 0; block < blocks; ++block)
            sum += flow_weights_[block] * share_by_heat_[t * blocks + block];
        share_by_heat_KpW += by_temp[t] * (sum[0] + sum[1] + sum[2] + sum[3]);
    }
    return (oil_degC - air_degC_) * share / share_by_heat_KpW;
}

}  // namespace caseload
