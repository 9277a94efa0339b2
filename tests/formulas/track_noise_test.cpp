// SPDX-License-Identifier: MIT
#include "caseload/formulas/track_noise.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::track_noise {

TEST_CASE("track-noise slope of 0.15 m/s at 1 Hz over one to five samples to each side") {
    // Printed to 0.001 m/s2.
    const double cases[][2] = {{1, 0.106}, {2, 0.047}, {3, 0.028}, {5, 0.014}};
    for (const auto& [half, sd_mps2] : cases)
        CHECK(slope_sd_mps2(0.15, 1, static_cast<int>(half)) == rel(sd_mps2, 0.0005 / sd_mps2));
    CHECK(slope_sd_mps2(0.15, 0.5, 1) == rel(2 * slope_sd_mps2(0.15, 1, 1), 1e-12));
    CHECK_THROWS_AS((void)slope_sd_mps2(-1, 1, 1), Error);
    CHECK_THROWS_AS((void)slope_sd_mps2(1, 0, 1), Error);
    CHECK_THROWS_AS((void)slope_sd_mps2(1, 1, 0), Error);
}

TEST_CASE("track-noise positive part of a power and its noise") {
    // Printed to 0.001.
    const double cases[][3] = {{0, 10, 3.989}, {10, 10, 10.833}, {50, 30, 50.595}};
    for (const auto& [power_W, sd_W, mean_W] : cases)
        CHECK(positive_mean_W(power_W, sd_W) == rel(mean_W, 0.0005 / mean_W));
    CHECK(positive_mean_W(7, 0) == 7);
    CHECK(positive_mean_W(-7, 0) == 0);
    CHECK_THROWS_AS((void)positive_mean_W(1, -1), Error);
}

}  // namespace caseload::track_noise
