// SPDX-License-Identifier: MIT
#include "loads/pairs.hpp"

#include "caseload/formulas/thermal_play.hpp"
#include "caseload/housing_metal.hpp"
#include "caseload/units.hpp"
#include "loads/seat_fit.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

constexpr double reference_degC = thick_ring::reference_degC;

facing_pair::Spring spring_of(const BearingData& bearing) {
    return facing_pair::spring({element_stiffness::contact_of(bearing.kind), bearing.elements,
                                bearing.element_stiffness_N, bearing.contact_angle_deg});
}

double middle_from_centre_mm(const BearingData& bearing) {
    return bearing.d_m_mm / 2 * std::tan(rad_from_deg(bearing.contact_angle_deg));
}

/// Force at which the pair turns this hard: f_1 of balls hangs on it a little.
double preload_of_torque_N(const Loads& loads, const PairPlace& pair, double torque_Nm) {
    double F_N = 100;
    constexpr int rounds = 40;
    for (int i = 0; i < rounds; ++i) {
        double Nmm_per_N = 0;
        for (const std::size_t b : {pair.front, pair.rear}) {
            const BearingData& bearing = loads.bearings[b];
            Nmm_per_N += facing_pair::torque_Nmm_per_N(
                facing_pair::turned_under(bearing.for_load(), bearing.d_m_mm, F_N));
        }
        F_N = std::max(1000 * torque_Nm / Nmm_per_N, 1e-6);
    }
    return F_N;
}

}  // namespace

facing_pair::Pair springs_of(const Setup& setup, std::size_t a, std::size_t b,
                             const std::vector<BearingData>& bearings) {
    return {spring_of(bearings[a]), spring_of(bearings[b]),
            setup.transfer_case.structure_Npum.value_or(facing_pair::usual_structure_Npum)};
}

std::vector<PairPlace> facing_pairs(const Setup& setup, const Loads& loads) {
    std::vector<PairPlace> all;
    for (std::size_t s = 0; s < loads.train.shafts.size(); ++s) {
        const ShaftPlace& shaft = loads.train.shafts[s];
        if (shaft.thrust_bearing >= 0) continue;
        const auto front = static_cast<std::size_t>(shaft.bearings.front());
        const auto rear = static_cast<std::size_t>(shaft.bearings.back());
        const auto& big_end = setup.bearings[front].big_end;
        const bool out = big_end && *big_end == Facing::front;
        const double centres_mm = loads.bearings[rear].at_mm - loads.bearings[front].at_mm;
        const double inside_mm = middle_from_centre_mm(loads.bearings[front]) +
                                 middle_from_centre_mm(loads.bearings[rear]);
        all.push_back({s, front, rear, out,
                       std::max(out ? centres_mm - inside_mm : centres_mm + inside_mm, 0.0),
                       springs_of(setup, front, rear, loads.bearings)});
    }
    return all;
}

double cold_over_mm(const Setup& setup, const Loads& loads, const PairPlace& pair) {
    const ShaftInput& shaft = setup.shafts.at(loads.train.shafts[pair.shaft].name);
    if (shaft.end_play_mm) return -*shaft.end_play_mm;
    const double preload_N = shaft.preload_N ? *shaft.preload_N
                             : shaft.turning_torque_Nm.value_or(0) > 0
                                 ? preload_of_torque_N(loads, pair, *shaft.turning_torque_Nm)
                                 : 0;
    return facing_pair::over_mm(pair.springs, preload_N);
}

double tightening_mm(const Setup& setup, const Loads& loads, const PairPlace& pair,
                     const PairTemps& temps) {
    const thermal_play::Expansion expansion{
        .housing_pK = metal_of(setup.housing.material).elastic.expansion_pK,
        .steel_pK = thick_ring::steel.expansion_pK,
        .housing_degC = temps.housing_degC,
        .steel_degC = temps.steel_degC};
    const auto kind = pair.thick_ends_out ? thermal_play::Pair::thick_ends_out
                                          : thermal_play::Pair::thick_ends_in;
    double sum_mm = -thermal_play::end_play_change_mm(expansion, kind, pair.span_mm);
    for (const std::size_t b : {pair.front, pair.rear}) {
        const BearingData& bearing = loads.bearings[b];
        const facing_pair::Rings rings{bearing.d_m_mm, bearing.contact_angle_deg};
        sum_mm += facing_pair::warm_cone_mm(rings, facing_pair::cone_warmer_K);
        if (!has_ring_fit(setup.bearings[b])) continue;
        const auto shrink_mm = [&](double temp_degC) {
            return raceway_shrink_mm(setup, setup.bearings[b], bearing, temp_degC);
        };
        sum_mm -= facing_pair::squeeze_lost_mm(
            rings, shrink_mm(reference_degC) - shrink_mm(temps.housing_degC));
    }
    return sum_mm;
}

}  // namespace caseload
