// SPDX-License-Identifier: MIT
// Heat paths of every bearing's film.
#include "caseload/housing_metal.hpp"
#include "caseload/losses.hpp"
#include "caseload/units.hpp"
#include "loads/seat_fit.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace caseload {
namespace {

// The oil that passes takes its heat as at this temperature, as the capacities do: 4 % less than at
// 120 degC, below 0.1 K of a film. The paths are then the same at every temperature.
constexpr double passing_oil_degC = 80;
// The gap of a seat is that at this temperature of ring and case: between the housing of a cooled
// case and of one without cooler. Judgement.
constexpr double seat_gap_at_degC = 90;

// A shaft's bore is never so wide that nothing is left between it and the bearing. Judgement.
constexpr double most_bored_share = 0.9;

struct SeatGaps {
    double ring_mm;
    double retainer_mm;
};

SeatGaps seat_gaps(const Setup& setup, const BearingInput& input, const BearingData& data) {
    const BossedRing ring{input, data, metal_of(setup.housing.material).elastic};
    const double ring_mm = ring_interference(input).middle_mm();
    if (input.seat.carrier == Carrier::aluminium)
        return {thick_ring::joint(ring_in_boss(ring, ring_mm), {seat_gap_at_degC, seat_gap_at_degC})
                    .gap_mm,
                0};
    const thick_ring::NestJoints joints = thick_ring::joints(
        ring_in_retainer(ring, ring_mm), {seat_gap_at_degC, seat_gap_at_degC, seat_gap_at_degC});
    return {joints.ring.gap_mm, joints.retainer.gap_mm};
}

double to_housing_WpK(const Setup& setup, const BearingInput& input, const BearingData& data) {
    const SeatHeat seat = seat_heat(setup, input, data);
    const bearing_heat::OuterRing ring{
        .width_mm = input.width_mm,
        .raceway_mm = outer_raceway_mm(data),
        .outside_mm = input.outside_mm,
        .seat_film_Wpm2K = seat.film_Wpm2K,
        .boss_outside_mm = seat.boss_outside_mm,
        .boss_WpmK = metal_of(setup.housing.material).conductivity_WpmK};
    if (!seat.retainer) return bearing_heat::outer_path_WpK(ring);
    return bearing_heat::outer_path_WpK(
        ring, {.outside_mm = *input.seat.retainer_outside_mm,
               .seat_film_Wpm2K = bearing_heat::seat_film_Wpm2K(seat.retainer_gap_mm)});
}

double to_steel_WpK(const Setup& setup, const BearingInput& input, const BearingData& data) {
    const ShaftInput& shaft = setup.shafts.at(input.shaft);
    return bearing_heat::inner_path_WpK(
        {.width_mm = input.width_mm,
         .raceway_mm = inner_raceway_mm(data),
         .bore_mm = input.bore_mm,
         .shaft_bore_mm = std::min(shaft.bore_mm, most_bored_share * input.bore_mm),
         .along_mm = shaft_to_gear_mm(setup, input)});
}

}  // namespace

SeatHeat seat_heat(const Setup& setup, const BearingInput& input, const BearingData& data) {
    SeatHeat seat;
    seat.film_Wpm2K = bearing_heat::free_ring_Wpm2K;
    seat.boss_outside_mm = boss_outside_mm(input);
    if (!input.radial) return seat;
    if (!ring_fit_known(input)) {
        seat.film_Wpm2K = setup.factors.seat_heat * bearing_heat::unknown_seat_Wpm2K;
        return seat;
    }
    const SeatGaps gaps = seat_gaps(setup, input, data);
    seat.gap_mm = gaps.ring_mm;
    seat.film_Wpm2K = bearing_heat::seat_film_Wpm2K(gaps.ring_mm);
    seat.retainer = input.seat.carrier == Carrier::steel_retainer;
    seat.retainer_gap_mm = gaps.retainer_mm;
    return seat;
}

double shaft_to_gear_mm(const Setup& setup, const BearingInput& bearing) {
    const double middles_mm = std::fabs(bearing.at_mm - setup.shafts.at(bearing.shaft).gear_at_mm);
    return std::max(middles_mm - (bearing.width_mm + setup.gears.face_width_mm) / 2, 0.0);
}

std::vector<BearingPaths> bearing_paths(const Setup& setup, const Loads& loads, const Oil& oil) {
    std::vector<BearingPaths> all;
    all.reserve(setup.bearings.size());
    const double density_kgpm3 = oil_density_kgpm3(oil, passing_oil_degC);
    const double specific_heat_JpkgK = oil_specific_heat_JpkgK(oil, passing_oil_degC);
    for (std::size_t b = 0; b < setup.bearings.size(); ++b) {
        const BearingInput& input = setup.bearings[b];
        const BearingData& data = loads.bearings[b];
        all.push_back({to_housing_WpK(setup, input, data), to_steel_WpK(setup, input, data),
                       bearing_heat::oil_path_WpK(
                           {density_kgpm3, specific_heat_JpkgK, data.oil_reaching_Lpmin})});
    }
    return all;
}

double unheated_degC(const BearingPaths& paths, const Nodes& nodes) {
    return std::min(bearing_heat::unheated_film_degC(
                        paths, {nodes.housing_degC, nodes.steel_degC, nodes.oil_degC}),
                    oil_ceiling_degC);
}

HeatSplit split(const std::vector<double>& bearing_W, const std::vector<BearingPaths>& paths) {
    HeatSplit heat;
    for (std::size_t b = 0; b < bearing_W.size(); ++b) {
        const double a_path_W = bearing_W[b] / bearing_heat::all_WpK(paths[b]);
        heat.oil_W += paths[b].oil_WpK * a_path_W;
        heat.steel_W += paths[b].steel_WpK * a_path_W;
        heat.housing_W += paths[b].housing_WpK * a_path_W;
    }
    return heat;
}

BearingHeat bearing_heat_at(const BearingPaths& paths, const Nodes& nodes, double loss_W) {
    const double film_degC = bearing_heat::unheated_film_degC(
                                 paths, {nodes.housing_degC, nodes.steel_degC, nodes.oil_degC}) +
                             loss_W / bearing_heat::all_WpK(paths);
    return {paths.housing_WpK * (film_degC - nodes.housing_degC),
            paths.steel_WpK * (film_degC - nodes.steel_degC),
            paths.oil_WpK * (film_degC - nodes.oil_degC)};
}

}  // namespace caseload
