// SPDX-License-Identifier: MIT
// Pairs of tests; tests/reference/teeth_values.py has the same.
#pragma once

#include "caseload/formulas/iso_21771.hpp"
#include "caseload/units.hpp"

namespace gear_pairs {

/// Module 5, 20 deg, face width 45 mm, on this centre distance.
inline caseload::iso_21771::PairInput spur_on(int z_1, int z_2, double a_mm) {
    return {.z_1 = z_1,
            .z_2 = z_2,
            .module_mm = 5,
            .pressure_angle_rad = caseload::rad_from_deg(20),
            .helix_angle_rad = 0,
            .centre_distance_mm = a_mm,
            .shift_share_1 = 0.5,
            .face_width_mm = 45};
}
inline caseload::iso_21771::PairInput spur(int z_1, int z_2, double face_width_mm) {
    caseload::iso_21771::PairInput in = spur_on(z_1, z_2, 2.5 * (z_1 + z_2));
    in.face_width_mm = face_width_mm;
    return in;
}

/// 36/44 teeth on 200 mm.
inline caseload::iso_21771::Pair reference() {
    return caseload::iso_21771::pair(spur(36, 44, 45));
}
/// The same, driven by the larger gear.
inline caseload::iso_21771::Pair turned_round() {
    return caseload::iso_21771::pair(spur(44, 36, 45));
}
/// 30/50 teeth on 200 mm.
inline caseload::iso_21771::Pair duty() {
    return caseload::iso_21771::pair(spur(30, 50, 40));
}
/// 31/50 teeth, module 4.75, 14 deg on 200 mm, overlap below 1.
inline caseload::iso_21771::Pair helical_14() {
    caseload::iso_21771::PairInput in = spur(31, 50, 45);
    in.module_mm = 4.75;
    in.helix_angle_rad = caseload::rad_from_deg(14);
    in.centre_distance_mm = 200;
    return caseload::iso_21771::pair(in);
}
/// 31/50 teeth, module 4.5, 25 deg on 202 mm, overlap above 1.
inline caseload::iso_21771::Pair helical_25() {
    caseload::iso_21771::PairInput in = spur(31, 50, 60);
    in.module_mm = 4.5;
    in.helix_angle_rad = caseload::rad_from_deg(25);
    in.centre_distance_mm = 202;
    return caseload::iso_21771::pair(in);
}
/// 60/60 teeth, module 3, 15 deg: contact ratio 2.14.
inline caseload::iso_21771::Pair high_contact() {
    caseload::iso_21771::PairInput in = spur(60, 60, 45);
    in.module_mm = 3;
    in.pressure_angle_rad = caseload::rad_from_deg(15);
    in.centre_distance_mm = 180;
    return caseload::iso_21771::pair(in);
}

}  // namespace gear_pairs
