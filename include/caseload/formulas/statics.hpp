// SPDX-License-Identifier: MIT
// A stiff shaft on two bearings. x along the shaft, y and z across, right-handed.
#pragma once

#include <span>

namespace caseload::statics {

struct PointLoad {
    double x_mm;
    double F_y_N;
    double F_z_N;
};

/// Moments about y and z.
struct Couple {
    double M_y_Nmm;
    double M_z_Nmm;
};

struct Supports {
    double A_mm;
    double B_mm;
};

/// Forces of the bearings on the shaft.
struct Reactions {
    double A_y_N;
    double A_z_N;
    double B_y_N;
    double B_z_N;
};

/// Reactions that hold loads and couples in balance: sum of forces and of moments zero, moments
/// about A: M_y = -sum (x - A) F_z, M_z = sum (x - A) F_y.
/// Source   gear-statics, two-bearings
[[nodiscard]] Reactions reactions(const Supports& supports, std::span<const PointLoad> loads,
                                  const Couple& couple);

}  // namespace caseload::statics
