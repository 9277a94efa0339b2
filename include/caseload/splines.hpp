// SPDX-License-Identifier: MIT
// Wear and strength of the splines of an event.
#pragma once

#include "caseload/loads.hpp"

#include <string>
#include <vector>

namespace caseload {

/// Torque that a spline passes on, and how often it turns, in one bin of a leg.
struct SplineRun {
    double torque_Nm = 0;  ///< with the overload of its leg
    double turns = 0;      ///< in the event
};

struct SplineResult {
    std::string name;
    std::string shaft;
    double distribution = 0;  ///< K_m, load distribution by misalignment and length
    double S_c_MPa = 0;       ///< contact stress of the largest bin, overload with it
    double wear_share = 0;    ///< of its wear life, an event; 0 piloted
    double peak_share = 0;    ///< largest torque over what the teeth take, contact or shear
};
CASELOAD_MEMBERS(SplineResult, "spline", name, shaft, distribution, S_c_MPa, wear_share,
                 peak_share);

/// The joint behind a spline: of its name, on its shaft; nullptr without one.
const JointInput* joint_of(const Setup& setup, const SplineInput& spline);

/// Share of the shaft's torque that a spline passes on in a leg: that of its joint, which with
/// front drive off is none at the front of a driven shaft and all at its rear; else all.
double torque_share(const Setup& setup, const Train& train, const SplineInput& spline,
                    const LegInput& leg);

/// How the wear of a spline grows with the load: stress goes with the torque.
double wear_by_load(double load);

/// One bin of a leg as the spline takes it, all of the leg's runs together.
SplineRun spline_run(const Setup& setup, const Loads& loads, const SplineInput& spline,
                     std::size_t leg, std::size_t bin);

std::vector<SplineResult> spline_results(const Setup& setup, const Loads& loads);

}  // namespace caseload
