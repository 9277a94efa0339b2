// SPDX-License-Identifier: MIT
// Life of the teeth that an event uses, and the load that breaks them at once. Part of the damage
// step. Teeth do not depend on the oil's temperature for their life; scuffing and film do.
#pragma once

#include "caseload/heat.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace caseload {

/// One flank and the root behind it, loaded when driving or when coasting.
struct ToothSide {
    double flank_share = 0;  ///< of the 1 % failing life, per event
    double root_share = 0;
};

struct GearDamage {
    std::string set;  ///< "" of the fitted teeth, else the other set they belong to
    std::string shaft;
    int teeth = 0;
    bool calculated = false;      ///< false: the pair is outside what the formulas cover
    ToothSide drive;              ///< idler: the flank its driver loads when driving
    ToothSide coast;              ///< idler: the flank that loads its mate when driving
    double S_H = 0;               ///< endurance limit over stress of the flanks, least of all bins
    double S_F = 0;               ///< the same of the roots
    double K_v = 0;               ///< dynamic factor in the most damaging bin
    double K_Hbeta = 0;           ///< uneven load over the face, flank, there
    double K_Halpha = 0;          ///< uneven load between the pairs in contact, flank, there
    double K_Falpha = 0;          ///< the same of the root
    double sigma_H_MPa = 0;       ///< flank stress where S_H is
    double sigma_F_MPa = 0;       ///< root stress where S_F is
    double bin_flank_share = 0;   ///< largest torque of a bin over what indents a flank at once
    double bin_root_share = 0;    ///< the same over what breaks a root at once
    double peak_flank_share = 0;  ///< largest torque peak over what indents a flank at once
    double peak_root_share = 0;   ///< the same over what breaks a root at once
};
CASELOAD_MEMBERS(ToothSide, "tooth_side", flank_share, root_share);

CASELOAD_MEMBERS(GearDamage, "gear_damage", set, shaft, teeth, calculated, drive, coast, S_H, S_F,
                 K_v, K_Hbeta, K_Halpha, K_Falpha, sigma_H_MPa, sigma_F_MPa, bin_flank_share,
                 bin_root_share, peak_flank_share, peak_root_share);

/// Worst flank and worst root of a gear, per event.
ToothSide worst(const GearDamage& gear);

/// Address of a gear: "gear.output", or "gear.output (set A)" when it is not fitted throughout.
std::string gear_address(const GearDamage& gear);

/// Every gear over the whole event, in train order, those of other sets behind. load multiplies
/// every torque, peaks included.
std::vector<GearDamage> gear_damage(const Setup& setup, const Loads& loads, double load = 1);

/// Where the formulas of the teeth are left.
Notes tooth_notes(const Setup& setup, const std::vector<GearDamage>& gears);

/// Teeth against scuffing and through their film, over one side's event.
struct FlankChecks {
    bool calculated = false;
    double S_B = 0;                 ///< least safety against scuffing, at most 100
    double flash_K = 0;             ///< there
    double mean_flash_K = 0;        ///< of the path of contact, there
    double tooth_degC = 0;          ///< behind the contact, there; the steel's where that is hotter
    double contact_degC = 0;        ///< there
    double scuffing_degC = 0;       ///< contact temperature at which this oil lets teeth scuff
    double film_ratio = 0;          ///< least, pitch-line speed above 3 m/s; 0: never that fast
    double film_tooth_degC = 0;     ///< teeth where the film is least
    bool above_ceiling = false;     ///< oil or steel passes 160 degC: both are those at 160
    double resonance_from_rpm = 0;  ///< of the input, main resonance of the first mesh
    double resonance_to_rpm = 0;    ///<
    double resonance_time_share = 0;  ///< of the driving time inside it
};
CASELOAD_MEMBERS(FlankChecks, "flank_checks", calculated, S_B, flash_K, mean_flash_K, tooth_degC,
                 contact_degC, scuffing_degC, film_ratio, film_tooth_degC, above_ceiling,
                 resonance_from_rpm, resonance_to_rpm, resonance_time_share);

FlankChecks flank_checks(const Prepared& prepared, const EventHeat& heat);

/// Hottest oil and hottest steel of a leg in the event, no hotter than they are followed.
struct LegHottest {
    double oil_degC = -oil_ceiling_degC;  ///< so cold: the leg is not run
    double steel_degC = -oil_ceiling_degC;
    bool above_ceiling = false;  ///< either was hotter
};
LegHottest leg_hottest(const Setup& setup, const EventHeat& heat, std::size_t leg);

/// What `flank_checks` finds on one leg with its oil and steel so hot; `load` multiplies every
/// torque. Empty where the tooth formulas do not cover a pair.
FlankChecks flanks_of_leg(const Prepared& prepared, std::size_t leg, const LegHottest& hot,
                          double load = 1);

}  // namespace caseload
