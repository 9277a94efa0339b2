// SPDX-License-Identifier: MIT
// Shocks of a drive: how many come, how large they are, what breaks first outside the case. They
// are torque peaks for bearings, teeth and splines, never heat, and only for where no torque was
// measured. Everything is over the static grip torque, which is at the case's input.
#pragma once

#include "caseload/formulas/driveline_shock.hpp"
#include "caseload/model.hpp"

#include <optional>
#include <string>
#include <vector>

namespace caseload::pace {

using ShockSpectrum = driveline_shock::Spectrum;

/// Standard deviation of ln N_1, common to a car: judgement.
inline constexpr double shocks_ln_sd = 0.6;

/// As a driver of that style has it: N_1 times exp(0.7 s), judgement.
///
/// Range    style -1.3 to 1.3: -1 to finish, 0 quick, 1 flat out.
[[nodiscard]] ShockSpectrum shocks_of_style(ShockSpectrum spectrum, double style);

struct ShockLevel {
    double ratio;  ///< over the static grip torque
    double times;  ///< events from here to the next level
};
/// Levels 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5 below the spectrum's largest; the last has all above.
/// Their sum is N_1 h; none where nothing comes.
[[nodiscard]] std::vector<ShockLevel> shock_levels(const ShockSpectrum& spectrum,
                                                   double duration_h);

/// The levels as torque peaks at the case's input. The largest is not below the largest bin with
/// overload: a blow is no less than what the engine does all day.
[[nodiscard]] std::vector<Peak> shock_peaks(const std::vector<ShockLevel>& levels,
                                            double grip_torque_Nm, double largest_bin_Nm);

/// Torque at the case's input that is reached once in the event: for what one blow marks, dents and
/// rings that creep under it. 0 where hardly any comes.
[[nodiscard]] double shock_once_Nm(const ShockSpectrum& spectrum, double duration_h,
                                   double grip_torque_Nm);

/// Shafts of one driven axle.
struct ShockAxle {
    std::string name;  ///< as printed: "front", "rear"
    driveline_shock::Shaft prop_shaft;
    driveline_shock::Shaft half_shaft;
    double torque_share;  ///< of the case's output; 1 with the other axle in the air
};

/// What turns between the engine and the ground.
struct ShockCar {
    driveline_shock::Grip grip;  ///< weight on the driven wheels
    double tyre_mm;
    double wheel_kgm2;
    double rated_power_W;
    std::optional<double> engine_kgm2;  ///< with clutch or converter; left out: by power
    double gearbox_kgm2;
    double case_ratio;
    std::vector<ShockAxle> axles;  ///< driven ones, at least one
};

/// Spring and both inertias in that gear, at the case's output. Throws Error{domain} without axles.
[[nodiscard]] driveline_shock::Driveline shock_driveline(const ShockCar& car, double gear);

/// First torsional mode in that gear, engine against the ground: 4 to 10 Hz for cars as tested
/// here.
[[nodiscard]] double shock_mode_Hz(const ShockCar& car, double gear);

/// Torque of a landing at the case's output over the static grip torque there.
struct Landing {
    double gear;
    double road_mps;
    double overspeed;   ///< of the wheels, share of the road speed
    double wheel_load;  ///< n_z, over that of standing wheels
};
[[nodiscard]] double landing_ratio(const ShockCar& car, const Landing& landing);

/// The same of a clutch dropped, or a converter put into gear, at that engine speed.
struct ClutchDump {
    double gear;
    double engine_rpm;
    double clutch_Nm;  ///< clutch_factor times the engine's peak; stall torque of a converter
};
[[nodiscard]] double dump_ratio(const ShockCar& car, const ClutchDump& dump);

/// A of the largest shock of a car whose shafts are known: a landing in its lowest gear with the
/// engine on the limiter, the wheels 0.4 over the road. Between 1.3 and 4, judgement.
struct HardestLanding {
    double lowest_gear;
    double limiter_rpm;
    double wheel_load;
};
[[nodiscard]] double shock_max(const ShockCar& car, const HardestLanding& hardest);

/// A shaft outside the case under a shock.
struct ShockedShaft {
    std::string name;  ///< "rear half shaft"
    double torque_Nm;
    double torsion_MPa;
    double ratio;  ///< what it bears over what it has; below 1 it yields
};
/// Prop shaft and half shafts of every axle, wheels of an axle alike.
[[nodiscard]] std::vector<ShockedShaft> shocked_shafts(
    const ShockCar& car, double output_Nm, double yield_MPa = driveline_shock::hardened_yield_MPa);

/// The one with the smallest ratio: it breaks first. The first of equal ones; at least one is
/// needed.
[[nodiscard]] const ShockedShaft& breaks_first(const std::vector<ShockedShaft>& shafts);

}  // namespace caseload::pace
