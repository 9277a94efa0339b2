// SPDX-License-Identifier: MIT
// Textbook guides from memory: the tests pin them and their order, no source confirms them.
#include "caseload/formulas/bearing_guides.hpp"

#include "support.hpp"

namespace caseload::bearing_guides {
using BK = BearingKind;

TEST_CASE("bearing-practice speed-parameter") {
    const struct {
        BK kind;
        double grease[2];
        double bath[2];
    } rows[] = {{BK::deep_groove_ball, {350e3, 500e3}, {500e3, 650e3}},
                {BK::angular_contact_ball, {300e3, 400e3}, {450e3, 600e3}},
                {BK::four_point_ball, {250e3, 350e3}, {400e3, 500e3}},
                {BK::cylindrical_roller, {300e3, 400e3}, {450e3, 600e3}},
                {BK::tapered_roller, {200e3, 250e3}, {350e3, 400e3}},
                {BK::spherical_roller, {150e3, 200e3}, {250e3, 350e3}}};
    for (const auto& row : rows) {
        const SpeedRange grease = speed_parameter(row.kind, Lubrication::grease);
        const SpeedRange bath = speed_parameter(row.kind, Lubrication::oil_bath);
        CHECK(grease.low_mmrpm == row.grease[0]);
        CHECK(grease.high_mmrpm == row.grease[1]);
        CHECK(bath.low_mmrpm == row.bath[0]);
        CHECK(bath.high_mmrpm == row.bath[1]);
        CHECK(grease.high_mmrpm <= bath.low_mmrpm);
    }
    CHECK(jet_factor == 1.5);
}

TEST_CASE("iso-76-2006 static-safety") {
    CHECK(static_safety(BK::four_point_ball, Service::quiet) == 2);
    CHECK(static_safety(BK::four_point_ball, Service::normal) == 1);
    CHECK(static_safety(BK::four_point_ball, Service::shock) == 1.5);
    CHECK(static_safety(BK::tapered_roller, Service::quiet) == 3);
    CHECK(static_safety(BK::tapered_roller, Service::normal) == 1.5);
    CHECK(static_safety(BK::tapered_roller, Service::shock) == 3);
}

TEST_CASE("bearing-practice minimum-load") {
    CHECK(least_load_share(BK::deep_groove_ball) == 0.01);
    CHECK(least_load_share(BK::cylindrical_roller) == 0.02);
}

}  // namespace caseload::bearing_guides
