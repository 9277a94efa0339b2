// SPDX-License-Identifier: MIT
// What warming does to a shaft's end play and to the backlash of its gears: rigid parts, linear
// expansion from 20 degC.
#pragma once

namespace caseload::thermal_play {

struct Expansion {
    double housing_pK;
    double steel_pK;
    double housing_degC;
    double steel_degC;
};

/// What the housing outgrows shafts and gears by, a share of any length in it:
/// alpha_h (T_h - 20) - alpha_s (T_s - 20).
/// Range    temperatures from -100 to 300 degC.
/// Source   linear-expansion, difference
[[nodiscard]] double outgrowth(const Expansion& expansion);

/// Way a free bearing must be able to move along: outgrowth x span between the seats that hold
/// shaft and housing together. Positive: the housing grows away.
/// Source   linear-expansion, axial
[[nodiscard]] double axial_travel_mm(const Expansion& expansion, double span_mm);

/// Two angular contact or tapered bearings that hold a shaft between them, by where the thick ends
/// of their rollers point: outwards (back to back) or inwards (face to face).
enum class Pair { thick_ends_out, thick_ends_in };

/// Change of such a pair's end play from the span between its outer rings: a growing housing
/// loosens thick ends in and tightens thick ends out.
/// Source   linear-expansion, pair
[[nodiscard]] double end_play_change_mm(const Expansion& expansion, Pair pair, double span_mm);

struct Mesh {
    double centre_distance_mm;
    double alpha_w_deg;  ///< transverse, working
};
/// Change of circumferential backlash on the working pitch circles, transverse:
/// 2 a tan(alpha_w) x outgrowth.
///
/// Range    angle from 5 to 45 deg.
/// Note     first order; exact involute geometry is within 1 % of it up to an outgrowth of 0.002.
/// Source   linear-expansion, backlash
[[nodiscard]] double backlash_change_mm(const Expansion& expansion, const Mesh& mesh);

}  // namespace caseload::thermal_play
