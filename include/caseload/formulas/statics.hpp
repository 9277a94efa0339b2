// SPDX-License-Identifier: MIT
// A stiff shaft on two bearings.
//
// Axes, right-handed: x along the shaft, rearwards in the car; for an eye that looks forward from
// behind, y points right and z up. A turn or moment about +x is counter-clockwise for that eye; a
// moment about +y lifts what lies forward (-x) and lowers what lies rearward; a moment about +z
// swings what lies rearward to the right.
#pragma once

#include <span>

namespace caseload::statics {

/// A force on the shaft.
struct PointLoad {
    double x_mm;
    double F_y_N;
    double F_z_N;
};

/// A moment on the shaft; it may act anywhere along it.
struct Couple {
    double M_y_Nmm;
    double M_z_Nmm;
};

struct Supports {
    double A_mm;
    double B_mm;
};

/// Forces of the bearings on the shaft. The shaft loads the bearing with the opposite.
struct Reactions {
    double A_y_N;
    double A_z_N;
    double B_y_N;
    double B_z_N;
};

/// Reactions that hold loads and couple in balance. A force at x has the moments about A
/// M_y = -(x - A) F_z and M_z = (x - A) F_y; forces and moments of loads, couple and reactions sum
/// to zero:
///
///     B_y = -(M_z + sum (x - A) F_y) / (B - A)      A_y = -B_y - sum F_y
///     B_z =  (M_y - sum (x - A) F_z) / (B - A)      A_z = -B_z - sum F_z
///
/// Range    B > A; loads may lie between or beyond.
/// Source   gear-statics, two-bearings
[[nodiscard]] Reactions reactions(const Supports& supports, std::span<const PointLoad> loads,
                                  const Couple& couple);

}  // namespace caseload::statics
