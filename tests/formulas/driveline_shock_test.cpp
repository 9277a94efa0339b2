// SPDX-License-Identifier: MIT
// Figures derived apart from the code, of two cars: "heavy" with 5.43 axles, 40 in tyres and 40 mm
// half shafts, "light" with 4.86, 37 in and 36 mm. Stiffness of tyres, engine inertia and counts
// are judgement: nothing to test them against but that they are as documented.
#include "caseload/formulas/driveline_shock.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::driveline_shock {

namespace {

constexpr double heavy_ratio = 5.43;
constexpr double light_ratio = 4.86;
constexpr double heavy_case = 49.0 / 37;
constexpr double light_case = 41.0 / 31;
constexpr double heavy_wheel_kgm2 = 9.48129;
constexpr double light_wheel_kgm2 = 6.67583;

double radius_m(double tyre_in) {
    return 0.48 * m_from_mm(mm_from_in(tyre_in));
}

constexpr Shaft half_shaft(double outside_mm, double length_mm) {
    return {length_mm, outside_mm, 0};
}
constexpr Shaft tube(double outside_mm, double length_mm) {
    return {length_mm, outside_mm, outside_mm - 2 * 3.05};
}

/// Behind a prop shaft of that tube.
double axle_behind_Nmprad(const Shaft& prop_shaft, double half_Nmprad, double wheel_Nmprad,
                          double ratio) {
    return axle_Nmprad({half_Nmprad, wheel_Nmprad, stiffness_Nmprad(prop_shaft), ratio});
}

/// Prop shafts of 1.2 and 1.0 m.
double heavy_Nmprad(double wheel_Nmprad) {
    const double half_Nmprad = stiffness_Nmprad(half_shaft(40, 750));
    return axle_behind_Nmprad(tube(101.6, 1200), half_Nmprad, wheel_Nmprad, heavy_ratio) +
           axle_behind_Nmprad(tube(101.6, 1000), half_Nmprad, wheel_Nmprad, heavy_ratio);
}

Driveline heavy(double gear) {
    return {heavy_Nmprad(wind_up_Nmprad(200e3, radius_m(40))),
            engine_side_kgm2({0.35, 0, gear, heavy_case}),
            wheel_side_kgm2(4, heavy_wheel_kgm2, heavy_ratio)};
}

/// Both prop shafts of 1.0 m.
Driveline light(double gear) {
    const double k_Nmprad =
        2 * axle_behind_Nmprad(tube(76.2, 1000), stiffness_Nmprad(half_shaft(36, 700)),
                               wind_up_Nmprad(150e3, radius_m(37)), light_ratio);
    return {k_Nmprad, engine_side_kgm2({0.25, 0, gear, light_case}),
            wheel_side_kgm2(4, light_wheel_kgm2, light_ratio)};
}

Grip heavy_grip() {
    return {0.55, 2900 * g_mps2, radius_m(40), heavy_ratio};
}
Grip light_grip() {
    return {0.55, 1750 * g_mps2, radius_m(37), light_ratio};
}

/// Largest torque of the spring when wheels that turn too fast meet the ground: they slide until
/// they have the road's speed, and then stay with it as long as the ground takes the torque.
/// Integrated step by step, apart from the closed forms.
double integrated_Nm(const Driveline& line, double overspeed_radps, double ground_torque_Nm) {
    constexpr double step_s = 1e-5;
    double engine_radps = overspeed_radps;
    double wheel_radps = overspeed_radps;
    double twist_rad = 0;
    double largest_Nm = 0;
    for (int k = 0; k < 50000; ++k) {
        const double spring_Nm = line.stiffness_Nmprad * twist_rad;
        largest_Nm = std::max(largest_Nm, spring_Nm);
        engine_radps -= spring_Nm / line.engine_kgm2 * step_s;
        const bool stays = wheel_radps == 0 && std::fabs(spring_Nm) <= ground_torque_Nm;
        if (!stays) {
            const double ground_Nm = wheel_radps > 0 || (wheel_radps == 0 && spring_Nm > 0)
                                         ? ground_torque_Nm
                                         : -ground_torque_Nm;
            const double before_radps = wheel_radps;
            wheel_radps += (spring_Nm - ground_Nm) / line.wheel_kgm2 * step_s;
            if (before_radps * wheel_radps < 0) wheel_radps = 0;
        }
        twist_rad += (engine_radps - wheel_radps) * step_s;
    }
    return largest_Nm;
}

}  // namespace

TEST_CASE("beam-theory torsion-stiffness of tubes and half shafts") {
    // Derived, kN m/rad, printed to 0.1; half a unit of it is less than 1 % of each.
    const auto is = [](const Shaft& shaft, double kNmprad) {
        return within(stiffness_Nmprad(shaft) / 1000, kNmprad, 0.05);
    };
    CHECK(is(tube(101.6, 1200), 151.1));
    CHECK(is(tube(101.6, 1000), 181.3));
    CHECK(is(tube(76.2, 1000), 74.2));
    CHECK(is(half_shaft(40, 750), 26.5));
    CHECK(is(half_shaft(36, 700), 18.6));
    CHECK(is(half_shaft(44, 900), 32.3));
    // By hand: 79e9 x pi x 0.04^4 / (32 x 0.75).
    CHECK(stiffness_Nmprad(half_shaft(40, 750)) == rel(26473.4, 1e-5));
    CHECK_THROWS_AS((void)stiffness_Nmprad({0, 40, 0}), Error);
    CHECK_THROWS_AS((void)stiffness_Nmprad({750, 40, 40}), Error);
    CHECK_THROWS_AS((void)stiffness_Nmprad({750, 40, -1}), Error);
    CHECK_THROWS_AS((void)stiffness_Nmprad({750, 0, 0}), Error);
}

TEST_CASE("driveline-shock tyre: fore-and-aft stiffness by size, judgement") {
    const auto of_in = [](double tyre_in) { return tyre_stiffness_Npm(mm_from_in(tyre_in)); };
    for (const double tyre_in : {29.0, 33.0, 37.0}) CHECK(of_in(tyre_in) == rel(150e3, 1e-12));
    CHECK(of_in(38) == rel(175e3, 1e-12));
    for (const double tyre_in : {39.0, 40.0, 42.0}) CHECK(of_in(tyre_in) == rel(200e3, 1e-12));
    // Where the line begins and ends.
    CHECK(of_in(37.2) == rel(155e3, 1e-9));
    CHECK(of_in(38.8) == rel(195e3, 1e-9));
    CHECK_THROWS_AS((void)tyre_stiffness_Npm(0), Error);
}

TEST_CASE("driveline-shock wind-up of a 40 in wheel") {
    CHECK(wind_up_Nmprad(200e3, radius_m(40)) == rel(200e3 * 0.48768 * 0.48768, 1e-12));
    CHECK_THROWS_AS((void)wind_up_Nmprad(0, 0.5), Error);
    CHECK_THROWS_AS((void)wind_up_Nmprad(200e3, 0), Error);
}

TEST_CASE("driveline-shock axle: half shafts and tyres decide how stiff a driveline is") {
    // Derived, kN m/rad, printed to 0.01: less than 1 % of each.
    CHECK(within(heavy(1).stiffness_Nmprad / 1000, 2.29, 0.005));
    CHECK(within(light(1).stiffness_Nmprad / 1000, 1.93, 0.005));
    CHECK(within(heavy_Nmprad(1e15) / 1000, 3.55, 0.005));
    CHECK_THROWS_AS((void)axle_Nmprad({0, 1, 1, 1}), Error);
    CHECK_THROWS_AS((void)axle_Nmprad({1, 0, 1, 1}), Error);
    CHECK_THROWS_AS((void)axle_Nmprad({1, 1, 0, 1}), Error);
    CHECK_THROWS_AS((void)axle_Nmprad({1, 1, 1, 0}), Error);
}

TEST_CASE("driveline-shock engine: by power, judgement") {
    CHECK(engine_kgm2(W_from_hp(430)) == rel(0.25, 1e-12));
    CHECK(engine_kgm2(W_from_hp(850)) == rel(0.35, 1e-12));
    CHECK(engine_kgm2(W_from_hp(200)) == engine_kgm2(W_from_hp(430)));
    CHECK(engine_kgm2(W_from_hp(1000)) == engine_kgm2(W_from_hp(850)));
    CHECK(engine_kgm2(W_from_hp(472)) == rel(0.26, 1e-9));
    CHECK(engine_kgm2(W_from_hp(808)) == rel(0.34, 1e-9));
    CHECK_THROWS_AS((void)engine_kgm2(0), Error);
}

TEST_CASE("driveline-shock engine-side by gear") {
    // Derived, kg m2, printed to 0.001.
    CHECK(within(heavy(1.00).engine_kgm2, 0.614, 0.0005));
    CHECK(within(heavy(1.48).engine_kgm2, 1.345, 0.0005));
    CHECK(within(heavy(2.48).engine_kgm2, 3.775, 0.0005));
    CHECK(within(light(1.48).engine_kgm2, 0.958, 0.0005));
    // What turns with the gearbox's output is not geared up.
    CHECK(engine_side_kgm2({0.35, 0.05, 2, 1.5}) == rel((0.35 * 4 + 0.05) * 2.25, 1e-12));
    CHECK_THROWS_AS((void)engine_side_kgm2({0, 0, 1, 1}), Error);
    CHECK_THROWS_AS((void)engine_side_kgm2({0.35, -1, 1, 1}), Error);
    CHECK_THROWS_AS((void)engine_side_kgm2({0.35, 0, 0, 1}), Error);
    CHECK_THROWS_AS((void)engine_side_kgm2({0.35, 0, 1, 0}), Error);
}

TEST_CASE("driveline-shock wheel-side of four wheels") {
    CHECK(within(light(1).wheel_kgm2, 1.131, 0.0005));
    CHECK(wheel_side_kgm2(2, 9, 3) == rel(2, 1e-12));
    CHECK_THROWS_AS((void)wheel_side_kgm2(0, 9, 3), Error);
    CHECK_THROWS_AS((void)wheel_side_kgm2(4, 0, 3), Error);
    CHECK_THROWS_AS((void)wheel_side_kgm2(4, 9, 0), Error);
}

TEST_CASE("driveline-shock first-mode: engine against the ground, by gear") {
    // Derived, Hz, printed to 0.1.
    CHECK(within(first_mode_Hz(heavy(1.00)), 9.7, 0.05));
    CHECK(within(first_mode_Hz(heavy(1.48)), 6.6, 0.05));
    CHECK(within(first_mode_Hz(heavy(2.48)), 3.9, 0.05));
    CHECK(first_mode_Hz({4 * pi * pi, 1, 1}) == rel(1, 1e-12));
    CHECK_THROWS_AS((void)first_mode_Hz({0, 1, 1}), Error);
    CHECK_THROWS_AS((void)first_mode_Hz({1, 0, 1}), Error);
    CHECK_THROWS_AS((void)first_mode_Hz({1, 1, 0}), Error);
}

TEST_CASE("driveline-shock landing at 25 m per s, mu 0.55, n_z 2.5") {
    // Derived, N m at the case's output to 1 N m, and A to 0.01.
    struct Row {
        Driveline line;
        Grip grip;
        double share;
        double Nm;
        double ratio;
    };
    for (const Row& row : {Row{heavy(1.00), heavy_grip(), overspeed_lifted, 1044, 0.74},
                           {heavy(1.00), heavy_grip(), overspeed_usual, 2088, 1.49},
                           {heavy(1.00), heavy_grip(), overspeed_limiter, 2269, 1.62},
                           {heavy(1.48), heavy_grip(), overspeed_lifted, 1545, 1.10},
                           {heavy(1.48), heavy_grip(), overspeed_usual, 3090, 2.20},
                           {heavy(1.48), heavy_grip(), overspeed_limiter, 3590, 2.56},
                           {heavy(2.48), heavy_grip(), overspeed_lifted, 2589, 1.84},
                           {heavy(2.48), heavy_grip(), overspeed_usual, 5178, 3.69},
                           {heavy(2.48), heavy_grip(), overspeed_limiter, 5239, 3.73},
                           {light(1.48), light_grip(), overspeed_lifted, 1159, 1.32},
                           {light(1.48), light_grip(), overspeed_usual, 2009, 2.29},
                           {light(1.48), light_grip(), overspeed_limiter, 2009, 2.29}}) {
        CAPTURE(row.Nm);
        const double over_radps =
            overspeed_radps({row.share, 25, row.grip.axle_ratio, row.grip.rolling_radius_m});
        const double shock_Nm = landing_Nm(row.line, over_radps, ground_torque_Nm(row.grip, 2.5));
        CHECK(within(shock_Nm, row.Nm, 0.6));
        CHECK(within(shock_Nm / ground_torque_Nm(row.grip, 1), row.ratio, 0.005));
    }
}

TEST_CASE("driveline-shock elastic and sliding are what an integration over time finds") {
    for (const double gear : {1.0, 1.48, 2.48}) {
        CAPTURE(gear);
        const Driveline line = heavy(gear);
        const double grip_Nm = ground_torque_Nm(heavy_grip(), 2.5);
        // Wheels that the ground stops at once, and wheels that never come to the road's speed.
        // The step of 1e-5 s leaves less than 1e-3.
        CHECK(integrated_Nm(line, 20, 1e9) == rel(elastic_Nm(line, 20), 1e-3));
        CHECK(integrated_Nm(line, 1e4, grip_Nm) == rel(sliding_Nm(line, grip_Nm), 1e-3));
        // Between: never above the lesser, at most 11 % below.
        for (double over_radps = 10; over_radps < 150; over_radps += 10) {
            const double share =
                integrated_Nm(line, over_radps, grip_Nm) / landing_Nm(line, over_radps, grip_Nm);
            CHECK(share < 1.001);
            CHECK(share > 0.89);
        }
    }
}

TEST_CASE("driveline-shock elastic grows with speed") {
    const Driveline line{2000, 0.5, 1};
    CHECK(elastic_Nm(line, 30) == rel(30 * std::sqrt(1000.0), 1e-12));
    CHECK(elastic_Nm(line, 0) == 0);
    CHECK_THROWS_AS((void)elastic_Nm(line, -1), Error);
}

TEST_CASE("driveline-shock sliding: twice the ground's torque behind a heavy engine side") {
    CHECK(sliding_Nm({2000, 3, 1}, 1000) == rel(1500, 1e-12));
    // Rock in a low gear, n_z 1.3: A towards 2.6.
    CHECK(within(sliding_Nm({2000, 1e6, 1}, 1.3), 2.6, 1e-5));
    CHECK_THROWS_AS((void)sliding_Nm({2000, 3, 1}, 0), Error);
}

TEST_CASE("driveline-shock ground") {
    CHECK(ground_torque_Nm({0.5, 20e3, 0.5, 5}, 1) == rel(1000, 1e-12));
    CHECK(ground_torque_Nm({0.5, 20e3, 0.5, 5}, 2.5) == rel(2500, 1e-12));
    CHECK_THROWS_AS((void)ground_torque_Nm({0, 20e3, 0.5, 5}, 1), Error);
    CHECK_THROWS_AS((void)ground_torque_Nm({0.5, 0, 0.5, 5}, 1), Error);
    CHECK_THROWS_AS((void)ground_torque_Nm({0.5, 20e3, 0, 5}, 1), Error);
    CHECK_THROWS_AS((void)ground_torque_Nm({0.5, 20e3, 0.5, 0}, 1), Error);
    CHECK_THROWS_AS((void)ground_torque_Nm({0.5, 20e3, 0.5, 5}, 0), Error);
}

TEST_CASE("driveline-shock overspeed") {
    CHECK(overspeed_radps({0.2, 25, 5, 0.5}) == rel(50, 1e-12));
    CHECK(overspeed_radps({0, 25, 5, 0.5}) == 0);
    CHECK_THROWS_AS((void)overspeed_radps({-0.1, 25, 5, 0.5}), Error);
    CHECK_THROWS_AS((void)overspeed_radps({0.2, -1, 5, 0.5}), Error);
    CHECK_THROWS_AS((void)overspeed_radps({0.2, 25, 0, 0.5}), Error);
    CHECK_THROWS_AS((void)overspeed_radps({0.2, 25, 5, 0}), Error);
}

TEST_CASE("driveline-shock dump: a clutch dropped in first gear at 4000 per min") {
    // Derived: elastic 11.9 kN m, so grip limits it; A = 2 J_e/(J_e + J_w) = 1.49.
    const Driveline first = heavy(2.48);
    const double omega_radps = radps_from_rpm(4000);
    CHECK(within(elastic_Nm(first, omega_radps / (2.48 * heavy_case)) / 1000, 11.9, 0.05));
    const double static_Nm = ground_torque_Nm(heavy_grip(), 1);
    const auto dumped_Nm = [&](double engine_radps, double clutch_Nm) {
        return dump_Nm(first, {engine_radps, 2.48, heavy_case, clutch_Nm}, static_Nm);
    };
    const double engine_Nm = 1060;
    CHECK(within(dumped_Nm(omega_radps, clutch_factor * engine_Nm) / static_Nm, 1.49, 0.005));
    // A clutch that slips first, and an engine that hardly turns.
    CHECK(dumped_Nm(omega_radps, 300) == rel(300 * 2.48 * heavy_case, 1e-12));
    CHECK(dumped_Nm(10, 1590) == rel(elastic_Nm(first, 10 / (2.48 * heavy_case)), 1e-12));
    CHECK(clutch_factor == 1.5);  // judgement: nothing to test it against
    CHECK_THROWS_AS((void)dump_Nm(first, {400, 0, 1.3, 1500}, static_Nm), Error);
    CHECK_THROWS_AS((void)dump_Nm(first, {400, 2.5, 0, 1500}, static_Nm), Error);
    CHECK_THROWS_AS((void)dump_Nm(first, {400, 2.5, 1.3, 0}, static_Nm), Error);
}

TEST_CASE("driveline-shock spectrum of one hour in rough desert") {
    // Derived, printed to four digits.
    const Spectrum desert{40, 0.40, 3.5};
    CHECK(events_per_h(desert, 1) == 40);
    CHECK(within(events_per_h(desert, 1.5), 11.46, 0.005));
    CHECK(within(events_per_h(desert, 2), 3.283, 0.0005));
    CHECK(within(events_per_h(desert, 2.5), 0.941, 0.0005));
    CHECK(within(events_per_h(desert, 3), 0.270, 0.0005));
    CHECK(events_per_h(desert, 3.5) == 0);
    CHECK(events_per_h(desert, 3.499) > 0);
    for (double ratio = 1; ratio < 3.4; ratio += 0.1)
        CHECK(events_per_h(desert, ratio + 0.1) < events_per_h(desert, ratio));
    CHECK_THROWS_AS((void)events_per_h(desert, 0.9), Error);
    CHECK_THROWS_AS((void)events_per_h({-1, 0.4, 3}, 1), Error);
    // The range, both ends included.
    CHECK(events_per_h({40, 0.05, 4}, 1) == 40);
    CHECK(events_per_h({40, 1, 1}, 1) == 0);
    CHECK(events_per_h(desert, 100) == 0);
    CHECK_THROWS_AS((void)events_per_h(desert, 100.5), Error);
    CHECK_THROWS_AS((void)events_per_h({40, 0.0499, 3}, 1), Error);
    CHECK_THROWS_AS((void)events_per_h({40, 1.005, 3}, 1), Error);
    CHECK_THROWS_AS((void)events_per_h({40, 0.4, 0.999}, 1), Error);
    CHECK_THROWS_AS((void)events_per_h({40, 0.4, 4.01}, 1), Error);
}

TEST_CASE("driveline-shock once: in nine hours of rough desert") {
    // Derived: 3.35, so a largest of 3 rules.
    CHECK(within(reached_once({40, 0.40, 4}, 9), 3.35, 0.005));
    CHECK(reached_once({40, 0.40, 3}, 9) == 3);
    CHECK(reached_once({1, 0.40, 3}, 1) == rel(1, 1e-12));
    // Less than one shock: towards nothing, without a step.
    CHECK(reached_once({0.5, 0.20, 1.5}, 1) == rel(1 + 0.2 * std::log(0.5), 1e-12));
    CHECK(reached_once({1e-9, 0.20, 1.5}, 1) == 0);
    CHECK(reached_once({0, 0.20, 1.5}, 9) == 0);
    CHECK(reached_once({40, 0.20, 1.5}, 0) == 0);
    CHECK_THROWS_AS((void)reached_once({40, 0.20, 1.5}, -1), Error);
}

TEST_CASE("beam-theory torsion-stress of half shafts and tubes") {
    // Derived: 3182 N m on 40 mm, 253 MPa.
    CHECK(within(torsion_MPa(half_shaft(40, 750), 3182), 253, 0.5));
    CHECK(torsion_MPa(half_shaft(40, 750), 0) == 0);
    // A tube by its second moment: T (D/2) / (pi (D^4 - d^4)/32).
    const double d_mm = 101.6 - 6.1;
    const double area_moment_mm4 = pi * (std::pow(101.6, 4) - std::pow(d_mm, 4)) / 32;
    CHECK(torsion_MPa(tube(101.6, 1000), 4000) == rel(4e6 * 50.8 / area_moment_mm4, 1e-12));
    CHECK_THROWS_AS((void)torsion_MPa({0, 40, 40}, 1), Error);
    CHECK_THROWS_AS((void)torsion_MPa({0, 40, 0}, -1), Error);
}

TEST_CASE("beam-theory shear-yield: 1 over the square root of 3, rounded") {
    CHECK(strength_ratio(100, hardened_yield_MPa) == rel(5.22, 1e-12));
    CHECK(strength_ratio(1, 1) == rel(1 / std::sqrt(3.0), 0.005));
    CHECK_THROWS_AS((void)strength_ratio(0, 900), Error);
    CHECK_THROWS_AS((void)strength_ratio(100, 0), Error);
}

}  // namespace caseload::driveline_shock
