// SPDX-License-Identifier: MIT
// Tables of what gears, seals and pump lose, and of how far gears are used.
#include "ask/fast_tables.hpp"

#include <cmath>
#include <vector>

namespace caseload {
namespace {

// Points over the logarithm of the load factor, for what bends or climbs steeply with it.
constexpr double load_step = 0.02;
constexpr int load_steps = 23;

/// Losses of one leg beside its bearings at every temperature of a grid.
template <class Into>
void at_temperatures(const Grid& grid, const Prepared& prepared, std::size_t leg, bool pump,
                     const Into& into) {
    PreparedLosses losses = prepared.losses[leg];
    for (auto& bin : losses.bins) bin.bearings.clear();
    for (std::size_t i = 0; i < grid.y.size(); ++i)
        into(i, losses_at(*prepared.setup, prepared.loads, prepared.oil, losses,
                          {.temp_degC = grid.x(i), .pump_runs = pump}));
}

}  // namespace

bool FastTables::pump_may_stand(std::size_t leg) const {
    const auto& pump = setup.lubrication.pump;
    return !pump || pump->on_above_degC || (legs[leg].stop && !setup.event.legs[leg].pump_on);
}

void FastTables::tabulate_losses(const Prepared& nominal) {
    const std::size_t n = coarse.y.size();
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].driven) continue;
        for (const bool pump : {false, true}) {
            if (!pump && !pump_may_stand(leg)) continue;
            LossTables& t = legs[leg].losses[pump ? 1 : 0].emplace();
            for (Row& row : t.by_source) row.resize(n);
            at_temperatures(coarse, nominal, leg, pump, [&t](std::size_t i, const LossesAt& l) {
                for (std::size_t k = 0; k < loss_rows.size(); ++k)
                    t.by_source[k][i] = l.ledger.*loss_rows[k].power_W;
            });
        }
    }
    mesh_ratios(nominal);
    tabulate_churning(nominal);
}

void FastTables::mesh_ratios(const Prepared& nominal) {
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].driven || legs[leg].stop) continue;
        const auto mesh_W = [&](double load) {
            PreparedLosses scaled = nominal.losses[leg];
            for (auto& bin : scaled.bins) {
                bin.bearings.clear();
                for (auto& mesh : bin.meshes) {
                    mesh.power_W *= load;
                    mesh.F_bt_Npmm *= load;
                }
            }
            return losses_at(setup, nominal.loads, nominal.oil, scaled, {start_degC, true})
                .ledger.mesh_W;
        };
        const double at_one_W = mesh_W(1);
        Grid& ratio = legs[leg].mesh_ratio;
        ratio = {-load_step * load_steps, load_step, {}};
        for (int i = -load_steps; i <= load_steps; ++i)
            ratio.y.push_back(at_one_W > 0 ? mesh_W(std::exp(load_step * i)) / at_one_W : 1);
    }
}

void FastTables::tabulate_churning(const Prepared& nominal) {
    if (setup.lubrication.method != Method::dip) return;
    for (std::size_t k = 0; k < FastNodes::churnings; ++k) {
        Setup faster = setup;
        faster.factors.churning_fast = std::exp(nodes.churning_ratio[k]);
        for (std::size_t leg = 0; leg < legs.size(); ++leg) {
            PreparedLosses churned = nominal.losses[leg];
            for (auto& bin : churned.bins) {
                bin.bearings.clear();
                bin.meshes.clear();
            }
            for (auto& table : legs[leg].losses) {
                if (!table) continue;
                Row& row = table->churning.at(k);
                for (std::size_t i = 0; i < coarse.y.size(); ++i)
                    row.push_back(
                        losses_at(faster, nominal.loads, nominal.oil, churned, {coarse.x(i), true})
                            .ledger.churning_W);
            }
        }
    }
}

void FastTables::tabulate_teeth(const Prepared& nominal) {
    teeth.resize(gear_damage(setup, nominal.loads).size());
    for (ToothGrids& gear : teeth) {
        gear.flank = {-load_step * load_steps, load_step, {}};
        gear.root = gear.flank;
    }
    for (int i = -load_steps; i <= load_steps; ++i) {
        const std::vector<GearDamage> gears =
            gear_damage(setup, nominal.loads, std::exp(load_step * i));
        for (std::size_t g = 0; g < gears.size(); ++g) {
            const ToothSide side = worst(gears[g]);
            teeth[g].flank.y.push_back(side.flank_share);
            teeth[g].root.y.push_back(side.root_share);
        }
    }
}

}  // namespace caseload
