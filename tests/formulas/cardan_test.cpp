// SPDX-License-Identifier: MIT
#include "caseload/formulas/cardan.hpp"

#include "caseload/units.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::cardan {

TEST_CASE("cardan-statics driving-couple size") {
    // 1500 N m at 12 deg: peak 318.8, mean 159.4 N m (by hand: 1500 tan 12 deg).
    const double angle = rad_from_deg(12);
    const CoupleInPlane peak =
        driving_shaft_couple({.torque_Nm = 1500, .angle_rad = angle, .phase_rad = 0});
    CHECK(within(peak.in_plane_Nm, 318.8, 0.05));
    CHECK(peak.across_Nm == 0);
    double in_plane = 0;
    double across = 0;
    for (int i = 0; i < 64; ++i) {
        const CoupleInPlane c =
            driving_shaft_couple({.torque_Nm = 1500, .angle_rad = angle, .phase_rad = pi * i / 64});
        in_plane += c.in_plane_Nm / 64;
        across += c.across_Nm / 64;
        CHECK(std::hypot(c.in_plane_Nm, c.across_Nm) ==
              rel(1500 * std::tan(angle) * std::fabs(std::cos(pi * i / 64)), 1e-9));
    }
    CHECK(within(in_plane, 159.4, 0.05));
    CHECK(std::fabs(across) < 1e-10);
}

TEST_CASE("cardan-statics driving-couple agrees with the equilibrium of the cross in space") {
    // Independent of the formula: pins in three dimensions. Driving shaft along e1, driven along e2
    // in the plane of e1 and `in`; driving pin in the plane across e1, turned by phi from `across`;
    // the driven pin stands on both e2 and the driving pin; the couple runs along the cross's
    // normal.
    for (const double angle : {0.05, 0.3, 0.8})
        for (double phi = 0.1; phi < 6.2; phi += 0.37) {
            // Axes (e1, in, across): e2 = (cos b, sin b, 0); pin1 = (0, -sin phi, cos phi).
            const double e2[3] = {std::cos(angle), std::sin(angle), 0};
            const double p1[3] = {0, -std::sin(phi), std::cos(phi)};
            const double p2[3] = {e2[1] * p1[2] - e2[2] * p1[1], e2[2] * p1[0] - e2[0] * p1[2],
                                  e2[0] * p1[1] - e2[1] * p1[0]};
            const double n[3] = {p1[1] * p2[2] - p1[2] * p2[1], p1[2] * p2[0] - p1[0] * p2[2],
                                 p1[0] * p2[1] - p1[1] * p2[0]};
            const CoupleInPlane c =
                driving_shaft_couple({.torque_Nm = 100, .angle_rad = angle, .phase_rad = phi});
            CHECK(within(c.in_plane_Nm, 100 * n[1] / n[0], 1e-9));
            CHECK(within(std::fabs(c.across_Nm), std::fabs(100 * n[2] / n[0]), 1e-9));
            // Power in equals power out: the couple along the driven shaft times its speed.
            const double driven_Nm = 100 * (n[0] * e2[0] + n[1] * e2[1]) / n[0];
            // Its speed over that of the driving shaft, slowest at phase 0 (Cardan).
            const double ratio =
                std::cos(angle) / (1 - std::pow(std::sin(angle) * std::sin(phi), 2));
            CHECK(driven_Nm * ratio == rel(100, 1e-12));
        }
}

}  // namespace caseload::cardan
