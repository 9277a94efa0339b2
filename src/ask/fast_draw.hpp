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
          bearing_paths_(tables.bearing_paths.at(factors.seat_heat)) {
        Conductances direct = tables.direct;
        direct.oil_housing_WpK =
            1 / (t_.wall_resistance_KpW + t_.film_resistance_KpW / factors.oil_film);
        direct.neighbour_WpK += factors.neighbour_WpK;
        if (t_.coat_area_m2 > 0)
            coat_KpW_ = (factors.dirt - 1) * m_from_mm(t_.setup.housing.dirt_thickness_mm) /
                        (dirt_conductivity_WpmK * t_.coat_area_m2);
        driving_ = with_bearings(direct, bearing_paths_);
        stopped_ = with_bearings(direct_in_stop(direct), bearing_paths_in_stop(bearing_paths_));
        // One for all legs, unless the pace of one is varied.
        const bool paced = t_.paced_leg && factors.pace_rank;
        const std::size_t own = paced ? t_.legs.size() : 1;
        pace_.resize(own, {0, 1, 0});
        ln_pace_.resize(own);
        weights_.reserve(own);
        bearings_.reserve(own);
        for (std::size_t leg = 0; leg < own; ++leg) {
            weights_.push_back(weights_of(leg, paced));
            bearings_.push_back(bearings_of(leg));
        }
        made_.resize(states_a_leg * t_.legs.size());
        own_Kps_.resize(2 * t_.legs.size());
        lives_.resize(t_.legs.size());
        films_.resize(t_.legs.size());
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
        const LegTables& table = t_.legs[leg];
        double power_W = table.drive_power_W;
        if (table.pace) power_W = blended(pace(leg), table.pace->drive_power_W);
        return caseload::exhaust_W(t_.setup.housing.exhaust_heat_W + factors_.exhaust_W,
                                   power_W * factors_.load);
    }
    [[nodiscard]] std::vector<ToothSide> teeth() const {
        std::vector<ToothSide> used;
        used.reserve(t_.teeth.size());
        const auto at_pace = [this](const std::array<double, FastNodes::paces - 1>& ln) {
            if (!t_.paced_leg) return 1.0;
            const PaceWeights& w = pace(*t_.paced_leg);
            double sum = 0;
            for (std::size_t other = 0; other < ln.size(); ++other)
                sum += w[PaceTables::beside(other)] * ln[other];
            return std::exp(sum);
        };
        for (const FastTables::ToothGrids& gear : t_.teeth)
            used.push_back({std::max(gear.flank.at(ln_load_), 0.0) * at_pace(gear.ln_flank_at_pace),
                            std::max(gear.root.at(ln_load_), 0.0) * at_pace(gear.ln_root_at_pace)});
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
                t_, table.stop ? stopped_ : driving_, t_.case_air_degC + factors_.air_K, own_Kps,
                films(leg),
                BlendedRow<OutsideTable>(t_.outside_tables->leg(leg), weights(leg).outside, store_),
                coat_KpW_,
                cooled ? DrawnCooler(*t_.cooler_tables, t_.cooler_tables->leg(leg)[on.fan ? 1 : 0],
                                     weights(leg).cooler[on.fan ? 1 : 0], factors_, pumped(leg),
                                     store_)
                       : DrawnCooler(),
                store_);
        return *made;
    }
    LegLives& lives(std::size_t leg) {
        if (!lives_[leg]) lives_[leg].emplace(t_, leg, factors_, bearings(leg), store_);
        return *lives_[leg];
    }

private:
    using PaceWeights = std::array<double, FastNodes::paces>;

    [[nodiscard]] const PaceWeights& pace(std::size_t leg) const {
        return pace_[pace_.size() > 1 ? leg : 0];
    }
    [[nodiscard]] const DrawWeights& weights(std::size_t leg) const {
        return weights_[weights_.size() > 1 ? leg : 0];
    }
    [[nodiscard]] const std::vector<DrawnBearing>& bearings(std::size_t leg) const {
        return bearings_[bearings_.size() > 1 ? leg : 0];
    }
    static double blended(const PaceWeights& w, const PaceWeights& values) {
        double sum = 0;
        for (std::size_t i = 0; i < w.size(); ++i) sum += w[i] * values[i];
        return sum;
    }
    /// Flow of the pump over that at the likely pace.
    [[nodiscard]] double pumped(std::size_t leg) const {
        const auto& pump = t_.setup.lubrication.pump;
        if (!pump || pump->drive == PumpDrive::electric) return 1;
        const auto& table = t_.legs[leg].pace;
        if (table && table->calculated) return std::exp(blended(pace(leg), table->ln_pump));
        return std::exp(ln_pace_[ln_pace_.size() > 1 ? leg : 0]);
    }
    /// Notes the leg's pace on the way.
    [[nodiscard]] DrawWeights weights_of(std::size_t leg, bool paced) {
        const FastNodes& nodes = t_.nodes;
        std::array<double, 2> ln_face{};
        if (paced && t_.legs[leg].pace) {
            const PaceTables& table = *t_.legs[leg].pace;
            if (table.calculated) {
                pace_[leg] = PaceTables::weights_of_duty(drawn_duty(factors_));
                ln_pace_[leg] = blended(pace_[leg], table.ln_air);
            } else {
                const double mps = pace_mps(t_.setup.event.legs[leg], factors_);
                pace_[leg] = table.weights(mps);
                ln_pace_[leg] = std::log(mps / table.mps[PaceTables::likely]);
            }
            for (std::size_t fan = 0; fan < ln_face.size(); ++fan)
                ln_face[fan] = blended(pace_[leg], table.ln_face[fan]);
        }
        DrawWeights weights;
        weights.outside =
            by_both(nodes.air.weights(factors_.air_K),
                    nodes.air_share.weights(std::log(factors_.air_share) + ln_pace_[leg]));
        // A core notices of warmer air, beside what it is warmed by, that less of it flows.
        const double cooler_air_K = K_from_degC(t_.cooler_tables->air_degC());
        const double ln_thinner = std::log(cooler_air_K / (cooler_air_K + factors_.air_K));
        const auto conductance = nodes.conductance.weights(std::log(factors_.cooler_conductance));
        for (std::size_t fan = 0; fan < ln_face.size(); ++fan)
            weights.cooler[fan] = by_both(
                nodes.face.weights(std::log(factors_.face_speed) + ln_thinner + ln_face[fan]),
                conductance);
        return weights;
    }

    /// Of least and largest play, by the parabola through them and the middle of the class.
    [[nodiscard]] std::array<double, FastNodes::plays> play_weights() const {
        if (!t_.plays) return {0, 0};
        const double p = factors_.play;
        return {(2 * p - 1) * (p - 1), p * (2 * p - 1)};
    }
    /// With the leg's pace, noted already.
    [[nodiscard]] std::vector<DrawnBearing> bearings_of(std::size_t leg) const {
        const FastNodes& nodes = t_.nodes;
        const auto load = nodes.load.weights(ln_load_);
        const std::vector<BearingPaths>& nominal = t_.bearing_paths.at_one();
        std::vector<DrawnBearing> all;
        all.reserve(nominal.size());
        for (std::size_t b = 0; b < nominal.size(); ++b) {
            const double wider =
                bearing_heat::all_WpK(bearing_paths_[b]) / bearing_heat::all_WpK(nominal[b]);
            if (b > 0 && wider == all.back().wider) {
                all.push_back(all.back());
            } else {
                DrawnBearing& one = all.emplace_back();
                one.wider = wider;
                // A film rises as with so much less friction at the nominal paths.
                const auto loaded = by_both(
                    load, nodes.friction.weights(std::log(factors_.bearing_friction / wider)));
                std::copy(loaded.begin(), loaded.end(), one.weights.begin());
                // Likely pace, those beside it, least and largest play.
                const auto [least, largest] = play_weights();
                one.weights[loaded.size()] = pace_[leg][PaceTables::likely] - 1 - least - largest;
                for (std::size_t other = 0; other + 1 < FastNodes::paces; ++other)
                    one.weights[loaded.size() + 1 + other] = pace_[leg][PaceTables::beside(other)];
                one.weights[loaded.size() + FastNodes::paces] = least;
                one.weights[loaded.size() + FastNodes::paces + 1] = largest;
            }
            all.back().shares = bearing_heat::shares(bearing_paths_[b]);
        }
        return all;
    }

    [[nodiscard]] Four* make_losses(std::size_t number, bool pump) const {
        const LegTables& leg = t_.legs[number];
        const LossTables& table = leg.losses[pump ? 1 : 0].value();
        ByLoss<double> factor{};
        for (std::size_t k = 0; k < loss_rows.size(); ++k)
            factor[k] = factors_.*loss_rows[k].factor;
        factor[loss_row(&LossLedger::thrown_W)] *= factors_.pump_flow * factors_.rehit;
        factor[loss_row(&LossLedger::mesh_W)] *= leg.stop ? 0 : leg.mesh_ratio.at(ln_load_);
        const PaceWeights& at_pace = pace(number);
        const bool paced = pace_.size() == t_.legs.size() && !table.at_pace.front().front().empty();
        std::array<double, FastNodes::mists> mist{};
        const bool misty = t_.mist_nodes && !table.windage.front().empty();
        if (misty) mist = t_.mist_nodes->weights(t_.mist_place(factors_.mist));
        // At one temperature of the table.
        const auto at_its_pace = [&](std::size_t loss, std::size_t i) {
            PaceWeights each{};
            each[PaceTables::likely] = table.by_source[loss][i];
            for (std::size_t other = 0; other < table.at_pace.size(); ++other)
                if (!table.at_pace[other][loss].empty())
                    each[PaceTables::beside(other)] = table.at_pace[other][loss][i];
            return blended(at_pace, each);
        };
        constexpr std::size_t churned = loss_row(&LossLedger::churning_W);
        double faster = 1;
        if (paced && !leg.churning_by_pace.y.empty())
            faster = leg.churning_by_pace.at(std::exp(ln_pace_[number]) *
                                             leg.pace->mps[PaceTables::likely]);
        Four* const made_Kps = store_.take(t_.coarse.y.size());
        for (std::size_t i = 0; i < t_.coarse.y.size(); ++i) {
            ByLoss<double> likely_W{};
            for (std::size_t k = 0; k < loss_rows.size(); ++k) likely_W[k] = table.by_source[k][i];
            LossLedger ledger;
            for (std::size_t k = 0; k < loss_rows.size(); ++k)
                ledger.*loss_rows[k].power_W =
                    factor[k] * (paced ? at_its_pace(k, i) : likely_W[k]);
            if (paced && leg.pace->calculated && likely_W[churned] > 0)
                faster = at_its_pace(churned, i) / likely_W[churned];
            if (misty) {
                const auto thicker = [&](const std::array<Row, FastNodes::mists>& rows,
                                         double LossLedger::* power_W) {
                    double at_W = 0;
                    for (std::size_t k = 0; k < mist.size(); ++k) at_W += mist[k] * rows[k][i];
                    const double of_W = likely_W[loss_row(power_W)];
                    if (of_W > 0) ledger.*power_W *= at_W / of_W;
                };
                thicker(table.windage, &LossLedger::windage_W);
                thicker(table.pocketing, &LossLedger::pocketing_W);
            }
            // More than a factor makes of one row; bearings are apart.
            ledger.churning_W = 0;
            for (std::size_t k = 0; k < FastNodes::churnings && !table.churning[k].empty(); ++k)
                ledger.churning_W +=
                    faster * factors_.churning * churning_[k] * table.churning[k][i];
            const HeatSplit made = split(ledger);
            made_Kps[i] = {made.oil_W / t_.capacities.oil_JpK,
                           made.housing_W / t_.capacities.housing_JpK,
                           made.steel_W / t_.capacities.steel_JpK, 0};
        }
        return made_Kps;
    }

    /// Of a leg; none in a stop.
    [[nodiscard]] const std::vector<DrawnFilms>& films(std::size_t number) {
        std::vector<DrawnFilms>& films = films_[number];
        if (!films.empty() || t_.legs[number].stop) return films;
        const std::vector<LoadedTable>& leg_ln_W = t_.loaded_tables->leg_ln_W(number);
        for (const FastTables::Alike& group : t_.films) {
            DrawnFilms& one = films.emplace_back();
            one = {0, 0, store_.take(at_once * leg_ln_W.front().blocks())};
            std::fill_n(one.coarse_Kps, at_once * leg_ln_W.front().blocks(), Four{});
            for (std::size_t i = 0; i < group.bearings.size(); ++i) {
                const std::size_t b = group.bearings[i];
                const DrawnBearing& bearing = bearings(number)[b];
                one.housing += group.weights[i] * bearing.shares.housing;
                one.steel += group.weights[i] * bearing.shares.steel;
                const double friction = factors_.bearing_friction;
                const Four each_KpJ(friction * bearing.shares.oil / t_.capacities.oil_JpK,
                                    friction * bearing.shares.housing / t_.capacities.housing_JpK,
                                    friction * bearing.shares.steel / t_.capacities.steel_JpK, 0);
                for (std::size_t block = 0; block < leg_ln_W[b].blocks(); ++block) {
                    const Four lost_W = fast_exp(leg_ln_W[b].blend(bearing.weights, block));
                    for (std::size_t k = 0; k < at_once; ++k)
                        one.coarse_Kps[at_once * block + k] += lost_W[k] * each_KpJ;
                }
            }
        }
        return films;
    }

    static constexpr std::size_t states_a_leg = 8;  // cooled or not, pump and fan running or not

    const FastTables& t_;
    FourStore& store_;
    Factors factors_;
    double ln_load_;
    std::array<double, FastNodes::churnings> churning_;
    std::vector<BearingPaths> bearing_paths_;
    Conductances driving_;
    Conductances stopped_;
    std::vector<PaceWeights> pace_;  ///< as PaceTables; of all legs, or each
    std::vector<double> ln_pace_;    ///< over the likely one: of the air along the housing
    std::vector<DrawWeights> weights_;
    std::vector<std::vector<DrawnBearing>> bearings_;  ///< of all legs, or each
    double coat_KpW_ = 0;                              ///< of more dirt than the likely
    std::vector<std::vector<DrawnFilms>> films_;       ///< [leg][group]
    std::vector<std::optional<DrawnLeg>> made_;        ///< [leg][cooled][pump][fan]
    std::vector<Four*> own_Kps_;                  ///< by heat made, on the coarse grid; [leg][pump]
    std::vector<std::optional<LegLives>> lives_;  ///< [leg]
};

}  // namespace caseload
