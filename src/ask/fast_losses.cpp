// SPDX-License-Identifier: MIT
// Tables of what gears, seals and pump lose, and of how far gears are used.
#include "ask/fast_tables.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace caseload {
namespace {

// Points over the logarithm of the load factor, for what bends or climbs steeply with it.
constexpr double load_step = 0.02;
constexpr int load_steps = 36;

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

void FastTables::tabulate_losses(const Prepared& nominal, const std::vector<Prepared>& paced) {
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
            for (std::size_t p = 0; p < paced.size() && legs[leg].pace; ++p) {
                ByLoss<Row>& rows = t.at_pace.at(p);
                for (Row& row : rows) row.resize(n);
                at_temperatures(coarse, paced[p], leg, pump, [&](std::size_t i, const LossesAt& l) {
                    for (std::size_t k = 0; k < loss_rows.size(); ++k)
                        rows[k][i] = l.ledger.*loss_rows[k].power_W;
                });
            }
        }
    }
    mesh_ratios(nominal);
    tabulate_churning(nominal);
    tabulate_mist(nominal);
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

void FastTables::churning_by_pace(const Prepared& nominal) {
    constexpr int steps = 32;
    constexpr double warm_degC = 90;
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].pace || !legs[leg].driven || legs[leg].pace->calculated) continue;
        const PaceTables& pace = *legs[leg].pace;
        const auto churned_W = [&](double mps) {
            PreparedLosses faster = nominal.losses[leg];
            for (auto& bin : faster.bins) {
                bin.bearings.clear();
                bin.meshes.clear();
                for (double& omega_radps : bin.shaft_omega_radps)
                    omega_radps *= mps / pace.mps[PaceTables::likely];
            }
            return losses_at(setup, nominal.loads, nominal.oil, faster, {warm_degC, true})
                .ledger.churning_W;
        };
        const double likely_W = churned_W(pace.mps[PaceTables::likely]);
        if (likely_W <= 0) continue;
        Grid& ratio = legs[leg].churning_by_pace;
        ratio = {pace.mps[0], (pace.mps[2] - pace.mps[0]) / steps, {}};
        for (int i = 0; i <= steps; ++i)
            ratio.y.push_back(churned_W(ratio.first + i * ratio.step) / likely_W);
    }
}

void FastTables::tabulate_churning(const Prepared& nominal) {
    if (setup.lubrication.method != Method::dip) return;
    churning_by_pace(nominal);
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

void FastTables::tabulate_mist(const Prepared& nominal) {
    const auto range = ranges_of(setup).mist;
    if (!range) return;
    mist_nodes.emplace(
        FactorNodes<FastNodes::mists>::Ends{mist_place(range->low), mist_place(range->high)});
    // The factor at a node: the place is one of a power.
    Setup misty = setup;
    for (std::size_t k = 0; k < FastNodes::mists; ++k) {
        double low = range->low;
        double high = range->high;
        constexpr int halvings = 50;
        for (int i = 0; i < halvings; ++i) {
            const double middle = (low + high) / 2;
            (mist_place(middle) < (*mist_nodes)[k] ? low : high) = middle;
        }
        misty.factors.mist = (low + high) / 2;
        for (std::size_t leg = 0; leg < legs.size(); ++leg) {
            if (!legs[leg].driven || legs[leg].stop) continue;
            PreparedLosses stirred = nominal.losses[leg];
            for (auto& bin : stirred.bins) bin.bearings.clear();
            for (auto& table : legs[leg].losses) {
                if (!table) continue;
                table->windage[k].resize(coarse.y.size());
                table->pocketing[k].resize(coarse.y.size());
                for (std::size_t i = 0; i < coarse.y.size(); ++i) {
                    const LossLedger ledger =
                        losses_at(misty, nominal.loads, nominal.oil, stirred, {coarse.x(i), true})
                            .ledger;
                    table->windage[k][i] = ledger.windage_W;
                    table->pocketing[k][i] = ledger.pocketing_W;
                }
            }
        }
    }
}

void FastTables::tabulate_teeth(const Prepared& nominal, const std::vector<Prepared>& paced) {
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
    constexpr double least_share = 1e-30;  // in place of 0 under a logarithm
    for (std::size_t p = 0; p < paced.size(); ++p) {
        const std::vector<GearDamage> gears = gear_damage(*paced[p].setup, paced[p].loads);
        for (std::size_t g = 0; g < gears.size(); ++g) {
            const ToothSide side = worst(gears[g]);
            const auto ln_ratio = [&](double share, double likely) {
                return std::log(std::max(share, least_share) / std::max(likely, least_share));
            };
            teeth[g].ln_flank_at_pace.at(p) = ln_ratio(side.flank_share, teeth[g].flank.at(0));
            teeth[g].ln_root_at_pace.at(p) = ln_ratio(side.root_share, teeth[g].root.at(0));
        }
    }
}

}  // namespace caseload
