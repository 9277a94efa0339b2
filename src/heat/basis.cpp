// SPDX-License-Identifier: MIT
#include "heat/basis.hpp"

namespace caseload {
namespace {

/// A train without its weight.
Train weightless(Train train) {
    for (ShaftPlace& shaft : train.shafts) shaft.weight_N = 0;
    train.steel_mass_kg = 0;
    train.findings.clear();
    return train;
}

Oil fresh_only(Oil oil) {
    oil.sheared = {};
    return oil;
}

/// A leg's bins by their speeds.
LegLoads speeds_only(const LegLoads& leg) {
    LegLoads speeds;
    for (const BinLoads& bin : leg.bins) {
        Bin& speed = speeds.bins.emplace_back().bin;
        speed = bin.bin;
        speed.torque_Nm = 0;
    }
    return speeds;
}

}  // namespace

Prepared whole(const Basis& basis) {
    Prepared prepared = basis.prepared;
    prepared.setup = &basis.setup;
    return prepared;
}

Basis losses_basis(const Prepared& prepared, std::size_t leg) {
    const Setup& setup = *prepared.setup;
    Basis basis;
    GearsInput& gears = basis.setup.gears = setup.gears;
    gears.material.clear();
    gears.misalignment_um = 0;
    gears.face_load_factor.reset();
    gears.tip_relief_um = 0;
    gears.accuracy = 0;
    basis.setup.seals = setup.seals;
    OilInput& oil = basis.setup.oil = setup.oil;
    oil.shear_loss = 0;
    oil.scuffing_stage = 0;
    oil.code_6um = 0;
    oil.code_14um = 0;
    oil.filter = {};
    basis.setup.lubrication = setup.lubrication;
    basis.setup.event.altitude_m = setup.event.altitude_m;
    basis.setup.factors = setup.factors;
    basis.prepared.oil = fresh_only(prepared.oil);
    basis.prepared.losses = {prepared.losses[leg]};
    basis.prepared.films = prepared.films;
    Loads& loads = basis.prepared.loads;
    loads.train = weightless(prepared.loads.train);
    const int train = prepared.losses[leg].train;
    if (train != 0) loads.others = {weightless(train_of(prepared.loads, train))};
    basis.prepared.losses.front().train = train == 0 ? 0 : 1;
    loads.bearings.resize(prepared.loads.bearings.size());
    return basis;
}

Basis outside_basis(const Prepared& prepared, std::size_t leg) {
    Basis basis = outside_basis(prepared);
    basis.prepared.loads.legs = {speeds_only(prepared.loads.legs[leg])};
    return basis;
}

Basis outside_basis(const Prepared& prepared) {
    const Setup& setup = *prepared.setup;
    Basis basis;
    HousingInput& housing = basis.setup.housing = setup.housing;
    housing.material = {};
    housing.wall_mm = 0;
    housing.mass_kg.reset();
    housing.dirt_assumed = false;
    housing.air_warmer_by_K = 0;
    housing.exhaust_heat_W = 0;
    housing.neighbour_WpK = 0;
    housing.neighbour_warmer_K = 0;
    housing.neighbour_temp_degC.reset();
    housing.oil_film_coefficient_Wpm2K = 0;
    housing.oil_wetted_share = 0;
    basis.setup.factors = setup.factors;
    basis.prepared.case_air_degC = prepared.case_air_degC;
    basis.prepared.pressure_Pa = prepared.pressure_Pa;
    return basis;
}

Basis cooler_basis(const Prepared& prepared, std::size_t leg) {
    Basis basis = cooler_basis(prepared);
    basis.prepared.loads.legs = {speeds_only(prepared.loads.legs[leg])};
    return basis;
}

Basis cooler_basis(const Prepared& prepared) {
    const Setup& setup = *prepared.setup;
    Basis basis;
    basis.setup.cooler = setup.cooler;
    basis.setup.cooler.fan_on_above_degC.reset();
    basis.setup.cooler.air_warmer_by_K = 0;
    if (setup.lubrication.pump) {
        PumpInput& pump = basis.setup.lubrication.pump.emplace(*setup.lubrication.pump);
        pump.pressure_Pa = 0;
        pump.efficiency = 0;
        pump.on_above_degC.reset();
    }
    basis.setup.factors = setup.factors;
    basis.prepared.oil = fresh_only(prepared.oil);
    basis.prepared.cooler = prepared.cooler;
    basis.prepared.cooler_air_degC = prepared.cooler_air_degC;
    basis.prepared.pressure_Pa = prepared.pressure_Pa;
    return basis;
}

Basis film_basis(const Prepared& prepared) {
    Basis basis;
    basis.setup.oil = prepared.setup->oil;
    basis.setup.oil.scuffing_stage = 0;
    basis.setup.factors = prepared.setup->factors;
    basis.prepared.oil = prepared.oil;
    return basis;
}

EventBasis event_basis(const Prepared& prepared, const Switches& allowed, const EventStart& start) {
    const Setup& setup = *prepared.setup;
    EventBasis basis;
    basis.allowed = allowed;
    basis.start = start;
    Setup& common = basis.common.setup;
    common.event.run = setup.event.run;
    common.limits = setup.limits;
    common.lubrication = setup.lubrication;
    common.cooler = setup.cooler;
    basis.common.prepared.capacities = prepared.capacities;
    basis.common.prepared.bearing_paths = prepared.bearing_paths;
    basis.common.prepared.films = prepared.films;
    basis.common.prepared.direct = prepared.direct;
    basis.common.prepared.driving = prepared.driving;
    basis.common.prepared.case_air_degC = prepared.case_air_degC;
    basis.common.prepared.cooler_air_degC = prepared.cooler_air_degC;
    basis.common.prepared.ambient_degC = prepared.ambient_degC;
    basis.common.prepared.neighbour_degC = prepared.neighbour_degC;
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
        EventBasis::Leg& one = basis.legs.emplace_back();
        LegInput& input = one.input = setup.event.legs[leg];
        if (input.kind == LegKind::drive) one.exhaust_driving_W = exhaust_driving_W(prepared, leg);
        // Enters through the curves.
        input.name.clear();
        input.distance_m = 0;
        input.bins.clear();
        input.course.clear();
        input.course_lines.clear();
        input.course_pace_mps = 0;
        input.pace_ends.reset();
        input.calculated.clear();
        input.pace_said = false;
        input.load_source = {};
        input.course_peaks_per_h = 0;
        input.overload = 1;
        input.peaks.clear();
    }
    return basis;
}

}  // namespace caseload
