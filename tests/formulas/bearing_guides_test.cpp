// SPDX-License-Identifier: MIT
// Textbook guides from memory: the tests hold their order, no source confirms them.
#include "caseload/formulas/bearing_guides.hpp"

#include "support.hpp"

namespace caseload::bearing_guides {
using BK = BearingKind;

TEST_CASE("bearing-practice speed-parameter: rolling without sliding runs faster") {
    const auto limit = speed_parameter_mmrpm;
    CHECK(limit(BK::deep_groove_ball) > limit(BK::angular_contact_ball));
    CHECK(limit(BK::angular_contact_ball) == limit(BK::cylindrical_roller));
    CHECK(limit(BK::cylindrical_roller) > limit(BK::four_point_ball));
    CHECK(limit(BK::four_point_ball) > limit(BK::tapered_roller));
    CHECK(limit(BK::tapered_roller) > limit(BK::spherical_roller));
    // The jet's factor brings no kind above a million.
    CHECK(jet_factor * limit(BK::deep_groove_ball) < 1e6);
    CHECK(jet_factor > 1);
}

TEST_CASE("iso-76-2006 static-safety: lines of contact need twice that of points") {
    for (const BK line : {BK::cylindrical_roller, BK::tapered_roller, BK::spherical_roller})
        for (const BK point : {BK::deep_groove_ball, BK::angular_contact_ball, BK::four_point_ball})
            CHECK(static_safety(line) == 2 * static_safety(point));
}

TEST_CASE("bearing-practice minimum-load") {
    CHECK(least_load_share(BK::deep_groove_ball) == 0.01);
    CHECK(least_load_share(BK::cylindrical_roller) == 0.02);
}

}  // namespace caseload::bearing_guides
