// SPDX-License-Identifier: MIT
#include "caseload/formulas/churning.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::churning {
using churning::Bath;
using churning::Gear;

namespace {

// Luke & Olver 1999: 72 teeth, module 3, 4500 r/min, 54 mm deep, 20W50. Their abstract gives
// neither oil temperature nor face width: 15 mm, 150 mm2/s (20W50 near 40 degC), 870 kg/m3 and 1.5
// L are assumed.
constexpr Gear luke_gear{.R_m = 0.108,
                         .b_m = 0.015,
                         .module_m = 0.003,
                         .z = 72,
                         .alpha_t_rad = rad_from_deg(20),
                         .beta_rad = 0};
constexpr Bath luke_bath{.omega_radps = radps_from_rpm(4500),
                         .depth_m = 0.054,
                         .oil_volume_m3 = 0.0015,
                         .density_kgpm3 = 870,
                         .nu_m2ps = 150e-6};
constexpr Gear wheel{.R_m = 0.110,
                     .b_m = 0.045,
                     .module_m = 0.005,
                     .z = 44,
                     .alpha_t_rad = rad_from_deg(20),
                     .beta_rad = 0};

Bath bath(double n_rpm) {
    return {.omega_radps = radps_from_rpm(n_rpm),
            .depth_m = 0.020,
            .oil_volume_m3 = 0.001,
            .density_kgpm3 = 830,
            .nu_m2ps = 15e-6};
}

}  // namespace

TEST_CASE("gear-practice immersion of a disc") {
    const auto half = churning::immersion({.R_m = 0.1, .depth_m = 0.1});
    CHECK(half.theta_rad == rel(pi / 2, 1e-14));
    CHECK(half.segment_m2 == rel(pi * 0.01 / 2, 1e-12));
    const auto whole = churning::immersion({.R_m = 0.1, .depth_m = 0.5});
    CHECK(whole.segment_m2 == rel(pi * 0.01, 1e-12));
    const auto third = churning::immersion({.R_m = 0.1, .depth_m = 0.05});
    CHECK(third.theta_rad == rel(pi / 3, 1e-14));
    const auto dry = churning::immersion({.R_m = 0.1, .depth_m = -0.01});
    CHECK(dry.theta_rad == 0);
    CHECK(dry.segment_m2 == 0);
    CHECK_THROWS_AS((void)churning::immersion({.R_m = 0, .depth_m = 0.1}), Error);
}

TEST_CASE("gear-practice dry-share of a gear that dips") {
    // Printed to three figures for a radius of 90 mm.
    const double printed[][2] = {{0, 1}, {0.1, 0.985}, {6, 0.883}, {20, 0.784}, {90, 0.5}};
    for (const auto& row : printed)
        CHECK(within(churning::dry_share({.R_m = 0.090, .depth_m = row[0] / 1000}), row[1], 5e-4));
    CHECK(churning::dry_share({.R_m = 0.090, .depth_m = -0.01}) == 1);
    CHECK(churning::dry_share({.R_m = 0.090, .depth_m = 0.18}) == 0);
    CHECK(churning::dry_share({.R_m = 0.090, .depth_m = 0.3}) == 0);
    double last = 1;
    for (double depth_m = 0.001; depth_m < 0.18; depth_m += 0.001) {
        const double dry = churning::dry_share({.R_m = 0.090, .depth_m = depth_m});
        CHECK(dry < last);
        last = dry;
    }
    CHECK_THROWS_AS((void)churning::dry_share({.R_m = 0, .depth_m = 0.1}), Error);
}

TEST_CASE("gear-practice churning-range widens with speed") {
    // Ends as tables/band.toml has them, 0.6..1.7 and 0.4..2.5; printed to three figures.
    const auto end = [](double v_mps, double slow, double fast) {
        const double w = changenet::fast_range_share(v_mps);
        return std::exp((1 - w) * std::log(slow) + w * std::log(fast));
    };
    CHECK(changenet::fast_range_share(0) == 0);
    CHECK(end(15, 0.6, 0.4) == rel(0.6, 1e-12));
    CHECK(end(15, 1.7, 2.5) == rel(1.7, 1e-12));
    CHECK(within(end(20, 0.6, 0.4), 0.563, 5e-4));
    CHECK(within(end(20, 1.7, 2.5), 1.81, 5e-3));
    CHECK(within(end(25, 0.6, 0.4), 0.490, 5e-4));
    CHECK(within(end(25, 1.7, 2.5), 2.06, 5e-3));
    CHECK(changenet::fast_range_share(changenet::tested_speed_mps) == rel(0.5, 1e-14));
    CHECK(end(35, 0.6, 0.4) == rel(0.4, 1e-12));
    CHECK(end(35, 1.7, 2.5) == rel(2.5, 1e-12));
    CHECK(changenet::fast_range_share(80) == 1);
    // No corner at either end.
    CHECK(changenet::fast_range_share(15.01) < 1e-6);
    CHECK(changenet::fast_range_share(34.99) > 1 - 1e-6);
}

TEST_CASE("changenet-2011 churning with the least volume ratio: recomputed") {
    CHECK(changenet::churning_torque_Nm(luke_gear, luke_bath) == rel(1.455222009, 1e-8));
    Gear wide = luke_gear;
    wide.b_m = 0.020;
    CHECK(within(changenet::churning_torque_Nm(wide, luke_bath), 2.09, 0.005));
    const double table[][2] = {{1000, 25.2}, {3000, 762.7}, {5727, 1700.5}};
    for (const auto& row : table)
        CHECK(within(changenet::churning_torque_Nm(wheel, bath(row[0])) * radps_from_rpm(row[0]),
                     row[1], 0.05));
}

TEST_CASE("changenet-2011 churning both sides of the least volume ratio") {
    Bath b = bath(1000);
    const double D3 = std::pow(0.22, 3);
    b.oil_volume_m3 = 0.2999 * D3;
    const double below = changenet::churning_torque_Nm(wheel, b);
    b.oil_volume_m3 = 0.1 * D3;
    CHECK(changenet::churning_torque_Nm(wheel, b) == below);
    b.oil_volume_m3 = 0.3 * D3 * 1.0001;
    CHECK(changenet::churning_torque_Nm(wheel, b) > below);
}

TEST_CASE("changenet-2011 churning branches of gamma") {
    // gamma = omega^2 (R b m)^(1/3): scaling with speed is omega^(2-1.2-0.21) below 750 m/s2 and
    // omega^(2-1.76) above 1250; halfway at 1000 the mean of both branches.
    const double root = std::cbrt(0.110 * 0.045 * 0.005);
    const auto torque = [&](double gamma) {
        Bath b = bath(1000);
        b.omega_radps = std::sqrt(gamma / root);
        return changenet::churning_torque_Nm(wheel, b);
    };
    const double low = torque(749);
    CHECK(torque(749.0 / 4) == rel(low * std::pow(2, -0.59), 1e-12));
    const double high = torque(1251);
    CHECK(torque(1251 * 4) == rel(high * std::pow(2, 0.24), 1e-12));
    const double mean =
        (low * std::pow(1000 / 749.0, 0.295) + high * std::pow(1000 / 1251.0, 0.12)) / 2;
    CHECK(torque(1000) == rel(mean, 1e-12));
    CHECK(torque(755) > low * std::pow(755 / 749.0, 0.295) * 1.01);
    CHECK(torque(1245) < high * std::pow(1245 / 1251.0, 0.12));
}

TEST_CASE("changenet-2011 churning dry or standing gears make none") {
    Bath b = bath(3000);
    b.depth_m = 0;
    CHECK(changenet::churning_torque_Nm(wheel, b) == 0);
    b.depth_m = -0.01;
    CHECK(changenet::churning_torque_Nm(wheel, b) == 0);
    CHECK(changenet::churning_torque_Nm(wheel, bath(0)) == 0);
    b = bath(3000);
    b.depth_m = 0.3;  // beyond the top of the gear: as covered
    const double covered = changenet::churning_torque_Nm(wheel, b);
    b.depth_m = 0.22;
    CHECK(changenet::churning_torque_Nm(wheel, b) == rel(covered, 1e-12));
    b.nu_m2ps = 0;
    CHECK_THROWS_AS((void)changenet::churning_torque_Nm(wheel, b), Error);
}

TEST_CASE("changenet-2011 churning helical teeth have more flank") {
    CHECK(changenet::tested_speed_mps == 25);  // limit of the tests, from memory
    Gear helical = wheel;
    helical.beta_rad = rad_from_deg(30);
    const double spur = changenet::churning_torque_Nm(wheel, bath(1000));
    CHECK(changenet::churning_torque_Nm(helical, bath(1000)) > spur);
}

TEST_CASE("changenet-2011 churning takes angles of teeth up to 60 degrees and no more") {
    for (double Gear::* angle : {&Gear::alpha_t_rad, &Gear::beta_rad}) {
        Gear steep = wheel;
        steep.*angle = rad_from_deg(60);
        CHECK(changenet::churning_torque_Nm(steep, bath(1000)) > 0);
        steep.*angle = rad_from_deg(60.01);
        CHECK_THROWS_AS((void)changenet::churning_torque_Nm(steep, bath(1000)), Error);
        steep.*angle = -0.001;
        CHECK_THROWS_AS((void)changenet::churning_torque_Nm(steep, bath(1000)), Error);
    }
}

TEST_CASE("changenet-2011 gamma omega squared times a length, by hand") {
    // 100 mm x 40 mm x 5 mm: the cube root of 2e-5 m3 is 27.144 mm; at 100 rad/s 271.44 m/s2.
    const churning::Gear gear{
        .R_m = 0.100, .b_m = 0.040, .module_m = 0.005, .z = 40, .alpha_t_rad = 0, .beta_rad = 0};
    CHECK(changenet::branch_acceleration_mps2(gear, 100) == rel(271.44, 2e-5));
    CHECK(changenet::branch_acceleration_mps2(gear, 200) == rel(4 * 271.44, 2e-5));
    CHECK(changenet::branch_acceleration_mps2(gear, 0) == 0);
    CHECK_THROWS_AS(static_cast<void>(changenet::branch_acceleration_mps2(gear, -1)), Error);
}

}  // namespace caseload::churning
