// SPDX-License-Identifier: MIT
#include "caseload/formulas/road_roughness.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

namespace caseload::road_roughness {

TEST_CASE("iso-8608 velocity for each m/s and m3") {
    // (2 pi 0.1)^2 = 0.394784.
    CHECK(velocity_density_m(1) == rel(0.394784, 2e-6));
    CHECK(velocity_density_m(4096e-6) == rel(0.394784 * 4096e-6, 2e-6));
    CHECK_THROWS_AS((void)velocity_density_m(0), Error);
}

TEST_CASE("iso-8608 height of the classes A to G in inches") {
    // Geometric means of the classes, as open program texts have them; printed to 0.01 in.
    const double in[] = {0.07, 0.13, 0.27, 0.54, 1.08, 2.16, 4.31};
    double roughness_m3 = 16e-6;
    for (const double height_in : in) {
        CHECK(within(in_from_mm(1000 * rms_height_m(roughness_m3)), height_in, 0.0051));
        roughness_m3 *= 4;
    }
    CHECK(rms_height_m(65536e-6) == rel(4.31 * 0.0254, 2e-3));
    CHECK_THROWS_AS((void)rms_height_m(-1), Error);
}

}  // namespace caseload::road_roughness
