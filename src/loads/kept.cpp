// SPDX-License-Identifier: MIT
#include "loads/kept.hpp"

#include <utility>

namespace caseload {

Setup forces_basis(const Setup& setup) {
    Setup basis;
    basis.transfer_case = setup.transfer_case;
    GearsInput& gears = basis.gears = setup.gears;
    gears.flank_Ra_um = 0;
    gears.flank_Rz_um = 0;
    gears.ground = false;
    gears.accuracy = 0;
    gears.material.clear();
    gears.misalignment_um = 0;
    gears.face_load_factor.reset();
    gears.tip_relief_um = 0;
    basis.sets = setup.sets;
    basis.shafts = setup.shafts;
    for (const BearingInput& bearing : setup.bearings) {
        BearingInput& one = basis.bearings.emplace_back(bearing);
        one.fatigue_limit_N.reset();
        one.f0.reset();
        one.f1.reset();
        one.oil = {};
        one.oil_reaching_Lpmin = 0;
        one.clearance = {};
        one.has_seat = false;
        one.seat = {};
    }
    basis.joints = setup.joints;
    basis.vehicle = setup.vehicle;
    basis.event.ambient_degC = setup.event.ambient_degC;
    basis.event.altitude_m = setup.event.altitude_m;
    basis.factors = setup.factors;
    basis.factors.play = Factors{}.play;
    basis.pair_over_mm = setup.pair_over_mm;
    return basis;
}

Loads calculate_loads(const Setup& setup) {
    return loads_on(setup, forces_basis(setup), nullptr);
}

KeptLoads keep_loads(const Setup& setup) {
    Setup basis = forces_basis(setup);
    Loads loads = loads_on(setup, basis, nullptr);
    return {std::move(basis), setup.event.legs, std::move(loads)};
}

Loads loads_like(const Setup& setup, const KeptLoads& like) {
    return loads_on(setup, forces_basis(setup), &like);
}

}  // namespace caseload
