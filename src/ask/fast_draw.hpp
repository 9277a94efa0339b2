// SPDX-License-Identifier: MIT
// One draw of the fast case: what its legs are made of, blended once for both of its sides.
#pragma once

#include "ask/fast_leg.hpp"
#include "caseload/units.hpp"
#include "heat/event_walk.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace caseload {

class DrawLegs {
public:
    /// All it makes lies in `store`.
    DrawLegs(const FastTables& tables, const Factors& factors, FourStore& store)
        : t_(tables),
          store_(store),
          factors_(factors),
          ln_load_(std::log(factors.load)),
          churning_(tables.nodes.churning_ratio.weights(
              std::log(factors.churning_fast / factors.churning))),
          driving_(tables.driving) {
        driving_.oil_housing_WpK =
            1 / (t_.wall_resistance_KpW + t_.film_resistance_KpW / factors.oil_film);
        const FastNodes& nodes = tables.nodes;
        const auto air = nodes.air.weights(factors.air_K);
        // A core notices of warmer air, beside what it is warmed by, that less of it flows.
        const double cooler_air_K = K_from_degC(t_.cooler_tables->air_degC());
        const double ln_thinner = std::log(cooler_air_K / (cooler_air_K + factors.air_K));
        weights_ = {by_both(nodes.load.weights(ln_load_),
                            nodes.friction.weights(std::log(factors.bearing_friction))),
                    by_both(air, nodes.air_share.weights(std::log(factors.air_share))),
                    by_both(nodes.face.weights(std::log(factors.face_speed) + ln_thinner),
                            nodes.conductance.weights(std::log(factors.cooler_conductance)))};
        made_.resize(states_a_leg * t_.legs.size());
        own_Kps_.resize(2 * t_.legs.size());
        lives_.resize(t_.legs.size());
    }
    // Its legs point to its weights.
    DrawLegs(const DrawLegs&) = delete;
    DrawLegs& operator=(const DrawLegs&) = delete;

    [[nodiscard]] const Factors& factors() const { return factors_; }
    [[nodiscard]] double start_degC() const {
        return t_.start_degC + (t_.setup.event.oil_at_start_entered ? 0 : factors_.air_K);
    }
    [[nodiscard]] BoltedTo neighbour() const {
        const HousingInput& housing = t_.setup.housing;
        const double ambient_degC = t_.setup.event.ambient_degC + factors_.air_K;
        return {housing.neighbour_temp_degC.value_or(ambient_degC + housing.neighbour_warmer_K) +
                    factors_.neighbour_K,
                ambient_degC};
    }
    [[nodiscard]] double exhaust_W(std::size_t leg) const {
        return caseload::exhaust_W(t_.setup.housing.exhaust_heat_W + factors_.exhaust_W,
                                   t_.legs[leg].drive_power_W * factors_.load);
    }
    [[nodiscard]] std::vector<ToothSide> teeth() const {
        std::vector<ToothSide> used;
        used.reserve(t_.teeth.size());
        for (const FastTables::ToothGrids& gear : t_.teeth)
            used.push_back(
                {std::max(gear.flank.at(ln_load_), 0.0), std::max(gear.root.at(ln_load_), 0.0)});
        return used;
    }
    DrawnLeg& leg(std::size_t leg, bool cooler, const Switches& on) {
        const LegTables& table = t_.legs[leg];
        const bool cooled = cooler && on.pump;
        std::optional<DrawnLeg>& made =
            made_[states_a_leg * leg + (cooled ? 4 : 0) + (on.pump ? 2 : 0) + (on.fan ? 1 : 0)];
        Four*& own_Kps = own_Kps_[2 * leg + (on.pump ? 1 : 0)];
        if (own_Kps == nullptr) own_Kps = make_losses(leg, on.pump);
        if (!made)
            made.emplace(
                t_, table.stop ? in_stop(driving_) : driving_, t_.case_air_degC + factors_.air_K,
                own_Kps,
                BlendedRow<OutsideTable>(t_.outside_tables->leg(leg), weights_.outside, store_),
                cooled ? DrawnCooler(*t_.cooler_tables, t_.cooler_tables->leg(leg)[on.fan ? 1 : 0],
                                     weights_.cooler, factors_, store_)
                       : DrawnCooler(),
                store_);
        return *made;
    }
    LegLives& lives(std::size_t leg) {
        if (!lives_[leg]) lives_[leg].emplace(t_, leg, factors_, weights_.loaded, store_);
        return *lives_[leg];
    }

private:
    [[nodiscard]] Four* make_losses(std::size_t number, bool pump) const {
        const LegTables& leg = t_.legs[number];
        const LossTables& table = leg.losses[pump ? 1 : 0].value();
        ByLoss<double> factor{};
        for (std::size_t k = 0; k < loss_rows.size(); ++k)
            factor[k] = factors_.*loss_rows[k].factor;
        factor[loss_row(&LossLedger::thrown_W)] *= factors_.pump_flow;
        factor[loss_row(&LossLedger::mesh_W)] *= leg.stop ? 0 : leg.mesh_ratio.at(ln_load_);
        const Row bearings_W = t_.loaded_tables->leg_W(number).blend(weights_.loaded);
        Four* const made_Kps = store_.take(t_.coarse.y.size());
        for (std::size_t i = 0; i < t_.coarse.y.size(); ++i) {
            LossLedger ledger;
            for (std::size_t k = 0; k < loss_rows.size(); ++k)
                ledger.*loss_rows[k].power_W = factor[k] * table.by_source[k][i];
            // These two are more than a factor makes of one row.
            ledger.bearings_W = leg.stop ? 0 : bearings_W[i];
            ledger.churning_W = 0;
            for (std::size_t k = 0; k < FastNodes::churnings && !table.churning[k].empty(); ++k)
                ledger.churning_W += factors_.churning * churning_[k] * table.churning[k][i];
            const HeatSplit made = split(ledger);
            made_Kps[i] = {made.oil_W / t_.capacities.oil_JpK,
                           made.housing_W / t_.capacities.housing_JpK,
                           made.steel_W / t_.capacities.steel_JpK, 0};
        }
        return made_Kps;
    }

    static constexpr std::size_t states_a_leg = 8;  // cooled or not, pump and fan running or not

    const FastTables& t_;
    FourStore& store_;
    Factors factors_;
    double ln_load_;
    std::array<double, FastNodes::churnings> churning_;
    Conductances driving_;
    DrawWeights weights_{};
    std::vector<std::optional<DrawnLeg>> made_;   ///< [leg][cooled][pump][fan]
    std::vector<Four*> own_Kps_;                  ///< by heat made, on the coarse grid; [leg][pump]
    std::vector<std::optional<LegLives>> lives_;  ///< [leg]
};

}  // namespace caseload
