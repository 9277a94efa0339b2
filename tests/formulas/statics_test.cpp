// SPDX-License-Identifier: MIT
#include "caseload/formulas/statics.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <array>
#include <cmath>
#include <random>
#include <vector>

namespace caseload::statics {

TEST_CASE("gear-statics two-bearings signs of loads between and outside the bearings") {
    const Supports s{.A_mm = 0, .B_mm = 100};
    // 100 N down in the middle: 50 N up from each bearing.
    const std::array<PointLoad, 1> down{{{.x_mm = 50, .F_y_N = 0, .F_z_N = -100}}};
    const Reactions half = reactions(s, down, {.M_y_Nmm = 0, .M_z_Nmm = 0});
    CHECK(half.A_z_N == rel(50, 1e-14));
    CHECK(half.B_z_N == rel(50, 1e-14));
    // 100 N to the right, overhung 50 mm behind the rear bearing: rear -150, front +50.
    const std::array<PointLoad, 1> right{{{.x_mm = 150, .F_y_N = 100, .F_z_N = 0}}};
    const Reactions over = reactions(s, right, {.M_y_Nmm = 0, .M_z_Nmm = 0});
    CHECK(over.B_y_N == rel(-150, 1e-14));
    CHECK(over.A_y_N == rel(50, 1e-14));
    // Couple about +z swings the rear end right: the rear bearing pushes it left.
    const Reactions z = reactions(s, {}, {.M_y_Nmm = 0, .M_z_Nmm = 1000});
    CHECK(z.B_y_N == rel(-10, 1e-14));
    CHECK(z.A_y_N == rel(10, 1e-14));
    // Couple about +y lifts the front and lowers the rear: the rear bearing pushes up.
    const Reactions y = reactions(s, {}, {.M_y_Nmm = 1000, .M_z_Nmm = 0});
    CHECK(y.B_z_N == rel(10, 1e-14));
    CHECK(y.A_z_N == rel(-10, 1e-14));
}

TEST_CASE("gear-statics two-bearings random shafts are in balance about any point") {
    std::mt19937_64 random(20240611);
    const auto draw = [&](double low, double high) {
        return low + (high - low) * (static_cast<double>(random() >> 11) * 0x1p-53);
    };
    for (int i = 0; i < 300; ++i) {
        const double A_mm = draw(-100, 100);
        const Supports s{.A_mm = A_mm, .B_mm = A_mm + draw(10, 300)};
        std::vector<PointLoad> loads;
        for (int k = 0; k < 5; ++k)
            loads.push_back(
                {.x_mm = draw(-300, 300), .F_y_N = draw(-1e4, 1e4), .F_z_N = draw(-1e4, 1e4)});
        const Couple couple{.M_y_Nmm = draw(-1e6, 1e6), .M_z_Nmm = draw(-1e6, 1e6)};
        const Reactions r = reactions(s, loads, couple);
        const double about_mm = draw(-500, 500);
        loads.push_back({.x_mm = s.A_mm, .F_y_N = r.A_y_N, .F_z_N = r.A_z_N});
        loads.push_back({.x_mm = s.B_mm, .F_y_N = r.B_y_N, .F_z_N = r.B_z_N});
        double F_y = 0;
        double F_z = 0;
        double M_y = couple.M_y_Nmm;
        double M_z = couple.M_z_Nmm;
        for (const PointLoad& load : loads) {
            F_y += load.F_y_N;
            F_z += load.F_z_N;
            M_y += -(load.x_mm - about_mm) * load.F_z_N;
            M_z += (load.x_mm - about_mm) * load.F_y_N;
        }
        CHECK(std::fabs(F_y) < 1e-7);
        CHECK(std::fabs(F_z) < 1e-7);
        CHECK(std::fabs(M_y) < 1e-4);
        CHECK(std::fabs(M_z) < 1e-4);
    }
}

TEST_CASE("gear-statics two-bearings shaft of Sadhu Singh 6.4") {
    // 25 kW, 600 r/min; gear 300 mm midway in a 600 mm span, pulley 400 mm overhung 300 mm, belt
    // tensions 3:1; as there, radial tooth force and belt pull both in the vertical plane.
    // Reactions recomputed by hand: 1506.7 N and 6451.0 N. Its shaft, with 94.5 MPa and factors
    // of 1.5 on bending and twist, is printed as 46.7 mm.
    const double torque_Nm = 25e3 / radps_from_rpm(600);
    const double F_r_N = torque_Nm / 0.150 * std::tan(rad_from_deg(20));
    const double belts_N = 2 * torque_Nm / 0.200;  // T_1 + T_2 = 2 (T_1 - T_2)
    const std::array<PointLoad, 2> loads{
        {{.x_mm = 300, .F_y_N = 0, .F_z_N = -F_r_N}, {.x_mm = 900, .F_y_N = 0, .F_z_N = -belts_N}}};
    const Reactions r = reactions({.A_mm = 0, .B_mm = 600}, loads, {.M_y_Nmm = 0, .M_z_Nmm = 0});
    CHECK(within(r.A_z_N, -1506.7, 0.05));
    CHECK(within(r.B_z_N, 6451.0, 0.05));
    const double bending_Nmm = std::fabs(r.A_z_N * 600 - F_r_N * 300);
    const double d_mm =
        std::cbrt(16 / (pi * 94.5) * 1.5 * std::hypot(bending_Nmm, 1000 * torque_Nm));
    CHECK(within(d_mm, 46.7, 0.05));
}

TEST_CASE("gear-statics two-bearings B must lie behind A") {
    CHECK_THROWS_AS((void)reactions({.A_mm = 5, .B_mm = 5}, {}, {.M_y_Nmm = 0, .M_z_Nmm = 0}),
                    Error);
}

}  // namespace caseload::statics
