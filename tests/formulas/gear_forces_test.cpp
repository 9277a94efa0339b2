// SPDX-License-Identifier: MIT
#include "caseload/formulas/gear_forces.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::gear_forces {

TEST_CASE("gear-statics tooth-forces of textbook gears") {
    // Khurmi & Gupta 12.1: 120 kW at 650 r/min, 250 mm, 20 deg: total tooth load 15.01 kN.
    const Forces spur = forces({.torque_Nm = 120e3 / radps_from_rpm(650),
                                .d_w_mm = 250,
                                .alpha_wt_rad = rad_from_deg(20),
                                .beta_w_rad = 0});
    CHECK(within(spur.F_bt_N / 1000, 15.01, 0.005));
    CHECK(spur.F_a_N == 0);
    // Jindal 26-2: 5 kW, 1200 r/min, 25 teeth, m_n 4, 20 deg / 20 deg: 747.78, 272.2, 289.64 N.
    const double helix = rad_from_deg(20);
    const Forces helical = forces({.torque_Nm = 5e3 / radps_from_rpm(1200),
                                   .d_w_mm = 25 * 4 / std::cos(helix),
                                   .alpha_wt_rad = std::atan(std::tan(helix) / std::cos(helix)),
                                   .beta_w_rad = helix});
    CHECK(within(helical.F_t_N, 747.78, 0.005));
    CHECK(within(helical.F_a_N, 272.2, 0.05));
    CHECK(within(helical.F_r_N, 289.64, 0.005));
}

TEST_CASE("gear-statics tooth-forces F_bt is the resultant of F_t and F_r") {
    const Forces f =
        forces({.torque_Nm = 600, .d_w_mm = 180, .alpha_wt_rad = 0.35, .beta_w_rad = 0.2});
    CHECK(f.F_bt_N == rel(std::hypot(f.F_t_N, f.F_r_N), 1e-14));
    CHECK(f.F_a_N == rel(f.F_t_N * std::tan(0.2), 1e-14));
}

TEST_CASE("gear-statics tooth-forces bad input") {
    const Mesh good{.torque_Nm = 1, .d_w_mm = 1, .alpha_wt_rad = 0.3, .beta_w_rad = 0};
    Mesh bad = good;
    bad.torque_Nm = -1;
    CHECK_THROWS_AS((void)forces(bad), Error);
    bad = good;
    bad.d_w_mm = 0;
    CHECK_THROWS_AS((void)forces(bad), Error);
    bad = good;
    bad.alpha_wt_rad = rad_from_deg(60.1);
    CHECK_THROWS_AS((void)forces(bad), Error);
    bad = good;
    bad.alpha_wt_rad = rad_from_deg(59.9);
    CHECK_NOTHROW((void)forces(bad));
    bad = good;
    bad.beta_w_rad = -0.1;
    CHECK_THROWS_AS((void)forces(bad), Error);
}

}  // namespace caseload::gear_forces
