// SPDX-License-Identifier: MIT
#include "caseload/splines.hpp"

#include "caseload/spline_data.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

const ShaftPlace& shaft_of(const Train& train, const SplineInput& spline) {
    return *std::find_if(train.shafts.begin(), train.shafts.end(),
                         [&](const ShaftPlace& shaft) { return shaft.name == spline.shaft; });
}

/// Torque of a spline over that of the case input, in one leg.
double torque_of_input(const Setup& setup, const Loads& loads, const SplineInput& spline,
                       std::size_t leg) {
    const Train& train = train_of(loads, loads.legs[leg].train);
    return shaft_of(train, spline).torque_ratio *
           torque_share(setup, train, spline, setup.event.legs[leg]);
}

/// A torque over what contact and shear take once or a thousand times.
double blow_share(const SplineInput& spline, double torque_Nm, double K_m) {
    using namespace spline_strength;
    const Teeth teeth = teeth_of(spline);
    const double contact = contact_MPa(teeth, torque_Nm, K_m) /
                           (fixed_factor * blow_factor * allowed_contact_MPa(hardness_of(spline)));
    const double shear = shear_MPa({root_diameter_mm(teeth), spline.bore_mm}, torque_Nm) /
                         (blow_factor * allowed_shear_MPa(hardness_of(spline)));
    return std::max(contact, shear);
}

SplineResult result_of(const Setup& setup, const Loads& loads, const SplineInput& spline) {
    using namespace spline_strength;
    SplineResult out;
    out.name = spline.name;
    out.shaft = spline.shaft;
    const Teeth teeth = teeth_of(spline);
    out.distribution = distribution_factor({misalignment_mmpm(spline), spline.length_mm});
    const double S_w_MPa = allowed_contact_MPa(hardness_of(spline));
    const double dry = spline.oiled ? 1 : dry_factor;
    for (std::size_t leg = 0; leg < loads.legs.size(); ++leg) {
        const LegLoads& of_leg = loads.legs[leg];
        const auto& run = setup.event.run;
        if (std::find(run.begin(), run.end(), static_cast<int>(leg)) == run.end()) continue;
        for (std::size_t bin = 0; bin < of_leg.bins.size(); ++bin) {
            const SplineRun at = spline_run(setup, loads, spline, leg, bin);
            if (at.torque_Nm <= 0) continue;
            out.peak_share =
                std::max(out.peak_share, blow_share(spline, at.torque_Nm, out.distribution));
            const double S_c_MPa = contact_MPa(teeth, at.torque_Nm, out.distribution);
            out.S_c_MPa = std::max(out.S_c_MPa, S_c_MPa);
            if (spline.fit != SplineFit::piloted)
                out.wear_share += dry * at.turns / wear_life_rev(S_c_MPa, S_w_MPa);
        }
        for (const PeakLoads& peak : of_leg.peaks)
            out.peak_share = std::max(
                out.peak_share,
                blow_share(spline,
                           std::fabs(peak.torque_Nm) * torque_of_input(setup, loads, spline, leg),
                           out.distribution));
    }
    return out;
}

}  // namespace

const JointInput* joint_of(const Setup& setup, const SplineInput& spline) {
    for (const JointInput& joint : setup.joints)
        if (joint.name == spline.name && joint.shaft == spline.shaft) return &joint;
    return nullptr;
}

double torque_share(const Setup& setup, const Train& train, const SplineInput& spline,
                    const LegInput& leg) {
    const JointInput* joint = joint_of(setup, spline);
    if (joint == nullptr) return 1;
    if (leg.front_drive || shaft_of(train, spline).takes_torque_in) return joint->torque_share;
    return joint->end == End::front ? 0 : 1;
}

double wear_by_load(double load) {
    return std::pow(load, spline_strength::wear_exponent);
}

SplineRun spline_run(const Setup& setup, const Loads& loads, const SplineInput& spline,
                     std::size_t leg, std::size_t bin) {
    const LegInput& input = setup.event.legs[leg];
    const Train& train = train_of(loads, loads.legs[leg].train);
    const Bin& of = loads.legs[leg].bins[bin].bin;
    const auto runs = static_cast<double>(
        std::count(setup.event.run.begin(), setup.event.run.end(), static_cast<int>(leg)));
    return {std::fabs(of.torque_Nm) * torque_of_input(setup, loads, spline, leg) * input.overload,
            runs * of.share * of.speed_rpm * std::fabs(shaft_of(train, spline).speed_ratio) *
                min_from_s(input.duration_s)};
}

std::vector<SplineResult> spline_results(const Setup& setup, const Loads& loads) {
    std::vector<SplineResult> all;
    all.reserve(setup.splines.size());
    for (const SplineInput& spline : setup.splines) all.push_back(result_of(setup, loads, spline));
    return all;
}

}  // namespace caseload
