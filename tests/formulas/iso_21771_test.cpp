// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_21771.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace caseload::iso_21771 {
using Severity = Finding::Severity;

namespace {

/// Centre distance of a tooth sum with a given sum of shifts.
double inverse_involute(double wanted) {
    double angle = 0.5;
    for (int i = 0; i < 50; ++i) angle -= (involute(angle) - wanted) / std::pow(std::tan(angle), 2);
    return angle;
}

double distance_mm(const PairInput& in, double X) {
    const int sum = in.z_1 + in.z_2;
    const double alpha = in.pressure_angle_rad;
    const double alpha_w = inverse_involute(involute(alpha) + 2 * X * std::tan(alpha) / sum);
    return in.module_mm * sum / 2 * std::cos(alpha) / std::cos(alpha_w);
}

int count(const std::vector<Finding>& all, const std::string& id, Severity severity) {
    return static_cast<int>(std::count_if(all.begin(), all.end(), [&](const Finding& f) {
        return f.id == id && f.severity == severity;
    }));
}

}  // namespace

TEST_CASE("iso-21771 involute printed values") {
    // inv 20 deg to 12 digits is in every gear handbook (0.014904); the others recomputed with 40
    // digits.
    CHECK(involute(rad_from_deg(20)) == rel(0.014904383867, 1e-10));
    CHECK(involute(rad_from_deg(22.438830)) == rel(0.021331858809, 1e-8));
    CHECK(involute(rad_from_deg(14.5)) == rel(0.005544842817, 1e-9));
    CHECK(involute(0) == 0);
    CHECK_THROWS_AS((void)involute(-0.1), Error);
    CHECK_THROWS_AS((void)involute(1.6), Error);
}

TEST_CASE("iso-21771 pair 36/44 on its own centre distance, independent recomputation") {
    // Python with 15 digits; d_b, d_a and contact ratios also by hand from the definitions.
    const Pair p = pair(gear_pairs::spur_on(36, 44, 200));
    CHECK(within(p.x_sum, 0, 1e-13));
    CHECK(p.tip_shortening == 0);
    CHECK(p.d_1_mm == rel(180, 1e-14));
    CHECK(p.d_w1_mm == rel(180, 1e-14));
    CHECK(p.d_w2_mm == rel(220, 1e-14));
    CHECK(p.d_b1_mm == rel(169.1446717, 1e-9));
    CHECK(p.d_b2_mm == rel(206.7323766, 1e-9));
    CHECK(p.d_a1_mm == rel(190, 1e-13));
    CHECK(p.d_a2_mm == rel(230, 1e-13));
    CHECK(p.d_f1_mm == rel(167.5, 1e-13));
    CHECK(p.d_f2_mm == rel(207.5, 1e-13));
    CHECK(p.clearance_1_mm == rel(1.25, 1e-11));
    CHECK(p.clearance_2_mm == rel(1.25, 1e-11));
    CHECK(p.p_bt_mm == rel(14.76065717, 1e-9));
    CHECK(p.eps_1 == rel(0.8462232514, 1e-9));
    CHECK(p.eps_2 == rel(0.8658472105, 1e-9));
    CHECK(p.eps_alpha == rel(1.712070462, 1e-9));
    CHECK(p.eps_beta == 0);
    CHECK(p.rho_redC_mm == rel(16.92999709, 1e-9));
    CHECK(p.T1T2_mm == rel(68.40402867, 1e-9));
    CHECK(p.T1A_mm == rel(18.00133906, 1e-9));
    CHECK(p.T2E_mm == rel(25.13140446, 1e-9));
    CHECK(p.zeta_1 == rel(-1.291, 5e-4));
    CHECK(p.zeta_2 == rel(-1.104, 5e-4));
    CHECK(p.s_a1_mm == rel(3.763674375, 1e-9));
    CHECK(p.d_Nf1_mm == rel(2 * std::hypot(18.00133906, 169.1446717 / 2), 1e-9));
    CHECK(p.d_Nf2_mm == rel(2 * std::hypot(25.13140446, 206.7323766 / 2), 1e-9));
    // Fillet of the rack: its straight flank ends 1.25 - 0.38 (1 - sin 20 deg) = 0.99997 m below
    // the pitch line, so the involute starts 5/sin 20 deg before the pitch point on the line of
    // action.
    const double end = 90 * std::sin(rad_from_deg(20)) - 5 * 0.9999677 / std::sin(rad_from_deg(20));
    CHECK(p.d_Ff1_mm == rel(2 * std::hypot(end, 169.1446717 / 2), 1e-7));
    CHECK(p.alpha_wt_rad == rel(rad_from_deg(20), 1e-12));
    CHECK(p.beta_b_rad == 0);
    CHECK(p.beta_w_rad == 0);
}

TEST_CASE("iso-21771 pair sums of teeth that do not match the centre distance need shift") {
    // a 200, m 5: sum of shifts and working pressure angle for neighbouring sums, recomputed.
    const double table[][3] = {
        {78, 1.0892, 0}, {79, 0.5229, 21.883}, {81, -0.4756, 17.929}, {82, -0.8986, 0}};
    for (const auto& row : table) {
        const int sum = static_cast<int>(row[0]);
        const Pair p = pair(gear_pairs::spur_on(35, sum - 35, 200));
        CAPTURE(sum);
        CHECK(within(p.x_sum, row[1], 5e-5));
        if (row[2] > 0) CHECK(within(deg_from_rad(p.alpha_wt_rad), row[2], 5e-4));
        CHECK(p.x_1 == rel(p.x_sum / 2, 1e-12));
        CHECK(p.tip_shortening < 0);
        // Shortening exists to keep the clearance of the rack.
        CHECK(p.clearance_1_mm == rel(1.25, 1e-9));
        CHECK(p.clearance_2_mm == rel(1.25, 1e-9));
    }
}

TEST_CASE("iso-21771 pair 35/44 shared for equal specific sliding") {
    // Balanced at x_1 = 0.2851, recomputed: both -0.9327.
    PairInput in = gear_pairs::spur_on(35, 44, 200);
    in.shift_share_1 = 0.2851 / 0.522897542;
    const Pair p = pair(in);
    CHECK(p.x_2 == rel(0.2378, 1e-3));
    CHECK(p.zeta_1 == rel(-0.93273, 1e-4));
    CHECK(p.zeta_2 == rel(p.zeta_1, 2e-4));
    CHECK(p.eps_alpha == rel(1.5873633, 1e-7));
    CHECK(p.s_a1_mm == rel(3.5123291, 1e-6));
}

TEST_CASE("iso-21771 pair swapped: approach and recess change places") {
    for (const double helix_deg : {0.0, 18.0}) {
        PairInput in = gear_pairs::spur_on(33, 46, 199.2);
        in.helix_angle_rad = rad_from_deg(helix_deg);
        in.module_mm = helix_deg == 0 ? 5 : 4.75;
        PairInput back = in;
        std::swap(back.z_1, back.z_2);
        const Pair p = pair(in);
        const Pair q = pair(back);
        CHECK(q.eps_alpha == rel(p.eps_alpha, 1e-12));
        CHECK(q.eps_1 == rel(p.eps_2, 1e-12));
        CHECK(q.zeta_1 == rel(p.zeta_2, 1e-11));
        CHECK(q.s_a1_mm == rel(p.s_a2_mm, 1e-12));
        CHECK(q.d_Ff1_mm == rel(p.d_Ff2_mm, 1e-12));
        CHECK(q.d_Nf1_mm == rel(p.d_Nf2_mm, 1e-12));
        CHECK(q.clearance_1_mm == rel(p.clearance_2_mm, 1e-9));
        CHECK(q.rho_redC_mm == rel(p.rho_redC_mm, 1e-12));
        CHECK(within(q.beta_w_rad, p.beta_w_rad, 1e-14));
    }
}

TEST_CASE("iso-21771 pair helical: 36/44, module 4.75, 18 deg on 200 mm, recomputed") {
    PairInput in = gear_pairs::spur_on(36, 44, 200);
    in.module_mm = 4.75;
    in.helix_angle_rad = rad_from_deg(18);
    const Pair p = pair(in);
    CHECK(p.x_sum == rel(0.0469511317, 1e-7));
    CHECK(p.tip_shortening == rel(-0.00017694331, 1e-4));
    CHECK(p.d_a1_mm == rel(189.5213773, 1e-9));
    CHECK(p.eps_1 == rel(0.7862334169, 1e-8));
    CHECK(p.eps_2 == rel(0.7991300896, 1e-8));
    CHECK(p.rho_redC_mm == rel(18.62864365, 1e-8));
    CHECK(p.beta_b_rad == rel(0.2946249586, 1e-8));
    CHECK(std::tan(p.beta_w_rad) ==
          rel(180 / (36 * 4.75 / std::cos(rad_from_deg(18))) * std::tan(rad_from_deg(18)), 1e-12));
    CHECK(p.eps_beta == rel(45 * std::sin(rad_from_deg(18)) / (pi * 4.75), 1e-12));
}

TEST_CASE("iso-21771 overlap ratio") {
    // 45 mm, 15 deg, module 5: 45 x 0.258819 / 15.70796 = 0.741462.
    const auto overlap = [](double deg) {
        return overlap_ratio({.face_width_mm = 45, .angle_rad = rad_from_deg(deg), .module_mm = 5});
    };
    CHECK(overlap(15) == rel(0.741462, 1e-6));
    CHECK(overlap(0) == 0);
    CHECK_THROWS_AS((void)overlap(46), Error);
    CHECK_THROWS_AS((void)overlap(-1), Error);
}

TEST_CASE("iso-21771 pair refuses what cannot be built") {
    CHECK_THROWS_WITH_AS((void)pair(gear_pairs::spur_on(36, 48, 197)),
                         "36/48 teeth of module 5 mm do not go on a centre distance of 197 mm: at "
                         "197.34 mm their base circles already touch",
                         Error);
    CHECK_NOTHROW((void)pair(gear_pairs::spur_on(36, 48, 198)));
    CHECK_THROWS_AS((void)pair(gear_pairs::spur_on(4, 44, 120)), Error);
    PairInput in = gear_pairs::spur_on(36, 44, 200);
    in.shift_share_1 = 1.01;
    CHECK_THROWS_AS((void)pair(in), Error);
    in = gear_pairs::spur_on(36, 44, 200);
    in.module_mm = 0;
    CHECK_THROWS_AS((void)pair(in), Error);
    in = gear_pairs::spur_on(36, 44, 200);
    in.helix_angle_rad = -0.1;
    CHECK_THROWS_AS((void)pair(in), Error);
    in = gear_pairs::spur_on(36, 44, 200);
    for (const double refused_deg : {9.95, 35.1}) {
        in.pressure_angle_rad = rad_from_deg(refused_deg);
        CHECK_THROWS_AS((void)pair(in), Error);
    }
    in.pressure_angle_rad = rad_from_deg(10.05);
    CHECK_NOTHROW((void)pair(in));
    in.pressure_angle_rad = rad_from_deg(34.9);
    CHECK_NOTHROW((void)pair(in));
    in = gear_pairs::spur_on(20, 24, 155);
    in.helix_angle_rad = rad_from_deg(44.8);
    CHECK_NOTHROW((void)pair(in));
    in.helix_angle_rad = rad_from_deg(45.2);
    CHECK_THROWS_AS((void)pair(in), Error);
    // All of a large negative shift on a small gear: its tip sinks to the base circle.
    in = gear_pairs::spur_on(12, 60, 170);
    in.shift_share_1 = 1;
    CHECK_THROWS_WITH_AS((void)pair(in), doctest::Contains("12 tooth gear's tip diameter"), Error);
}

TEST_CASE("iso-21771 measured-tips replace calculated ones") {
    // Test gear type C of the gear rig, 16/24, m 4.5, a 91.5: tip diameters 82.46 and 118.36 are
    // its drawing (from memory); calculated tips agree with the drawing to a hundredth.
    PairInput in = gear_pairs::spur_on(16, 24, 91.5);
    in.module_mm = 4.5;
    in.face_width_mm = 14;
    in.shift_share_1 = 0.1817 / 0.3532;
    const Pair calculated = pair(in);
    CHECK(within(calculated.d_a1_mm, 82.46, 0.006));
    CHECK(within(calculated.d_a2_mm, 118.36, 0.006));
    const Pair measured = pair(in, {.d_a1_mm = 82.96, .d_a2_mm = 0});
    CHECK(measured.d_a1_mm == 82.96);
    CHECK(measured.d_a2_mm == calculated.d_a2_mm);
    CHECK(measured.eps_1 > calculated.eps_1);
    CHECK(measured.eps_2 == calculated.eps_2);
    CHECK(measured.clearance_1_mm ==
          rel(calculated.clearance_1_mm - 0.25 + (calculated.d_a1_mm - 82.46) / 2, 1e-9));
    CHECK(measured.s_a1_mm < calculated.s_a1_mm);
    // Tips so large that the contact would start beyond the base circle of the mate.
    const Pair beyond = pair(in, {.d_a1_mm = 0, .d_a2_mm = 130});
    CHECK(beyond.T1A_mm < 0);
    CHECK(beyond.zeta_1 < -1e300);
    CHECK(count(findings(in, beyond), "interference", Severity::stop) == 1);
    CHECK(count(findings(in, calculated), "interference", Severity::stop) == 0);
    CHECK_THROWS_AS((void)pair(in, {.d_a1_mm = -1, .d_a2_mm = 0}), Error);
}

TEST_CASE("iso-21771 cut: test gears of types C and A by the shifts of their drawings") {
    // 16/24, m 4.5, a 91.5. C: x 0.1817 and 0.1715, tips 82.46 and 118.36, eps_alpha 1.4375;
    // A: x 0.8532 and -0.5, tips 88.77 and 112.5, eps 1.111 and 0.250 (drawings from memory).
    PairInput in = gear_pairs::spur_on(16, 24, 91.5);
    in.module_mm = 4.5;
    in.face_width_mm = 14;
    const Pair c = pair(in, {.x_1 = 0.1817, .x_2 = 0.1715}, {.d_a1_mm = 0, .d_a2_mm = 0});
    CHECK(c.x_1 == 0.1817);
    CHECK(c.x_2 == 0.1715);
    CHECK(within(c.d_a1_mm, 82.46, 0.006));
    CHECK(within(c.d_a2_mm, 118.36, 0.006));
    CHECK(within(c.eps_alpha, 1.4375, 5e-4));
    const Pair a = pair(in, {.x_1 = 0.8532, .x_2 = -0.5}, {.d_a1_mm = 88.77, .d_a2_mm = 112.5});
    CHECK(within(a.eps_1, 1.111, 5e-4));
    CHECK(within(a.eps_2, 0.250, 5e-4));
    CHECK(a.d_a1_mm == 88.77);
    // The roots move with the shift alone, the tips with nothing else.
    CHECK(a.d_f1_mm == rel(72 - 9 * (1.25 - 0.8532), 1e-14));
    CHECK(a.d_f2_mm == rel(108 - 9 * (1.25 + 0.5), 1e-14));
    // One centre distance and one sum: no share of it moves how the pair meshes.
    CHECK(a.alpha_wt_rad == c.alpha_wt_rad);
    CHECK(a.x_sum == c.x_sum);
    CHECK(a.d_w1_mm == c.d_w1_mm);
    CHECK(within(a.x_1 + a.x_2, a.x_sum, 5e-5));
    CHECK(within(c.x_1 + c.x_2, c.x_sum, 5e-5));
}

TEST_CASE("iso-21771 cut: the shifts that are calculated, entered, change nothing at all") {
    for (const int z_1 : {33, 36, 44}) {
        PairInput in = gear_pairs::spur_on(z_1, 79 - z_1, 200);
        in.helix_angle_rad = z_1 == 36 ? rad_from_deg(8) : 0;
        const Pair calculated = pair(in);
        CHECK(pair(in, {calculated.x_1, calculated.x_2}, {.d_a1_mm = 0, .d_a2_mm = 0}) ==
              calculated);
    }
}

TEST_CASE("iso-21771 cut-from-tips: shifts of measured tips, topped or not") {
    // Test gear type C by its tips: the printed shifts, as near as tips printed to 0.01 mm say.
    PairInput c = gear_pairs::spur_on(16, 24, 91.5);
    c.module_mm = 4.5;
    const std::vector<double> x = shifts_of_tips({{c}, {82.46, 118.36}});
    CHECK(within(x[0], 0.1817, 6e-4));
    CHECK(within(x[1], 0.1715, 6e-4));
    // There and back, with the tips of both turned down alike; one alone gives half of it.
    PairInput in = gear_pairs::spur_on(35, 44, 200);
    in.helix_angle_rad = rad_from_deg(5);
    const Pair cut = pair(in, {.x_1 = 0.31, .x_2 = pair(in).x_sum - 0.31}, {0, 0});
    for (const double topped_mm : {0.0, 0.4}) {
        const std::vector<double> back =
            shifts_of_tips({{in}, {cut.d_a1_mm - topped_mm, cut.d_a2_mm - topped_mm}});
        CHECK(back[0] == rel(0.31, 1e-11));
        CHECK(back[1] == rel(cut.x_2, 1e-11));
    }
    const double t = 0.06;
    const std::vector<double> one =
        shifts_of_tips({{in}, {cut.d_a1_mm - 2 * t * in.module_mm, cut.d_a2_mm}});
    CHECK(one[0] == rel(0.31 - t / 2, 1e-11));
    // An idler between: its one tip, and both sums exactly.
    const PairInput a = gear_pairs::spur_on(28, 32, 150.8);
    const PairInput b = gear_pairs::spur_on(32, 30, 154.6);
    const double x_a = pair(a).x_sum;
    const double x_b = pair(b).x_sum;
    const Pair first = pair(a, {x_a - 0.11, 0.11}, {0, 0});
    const double mates_mm = first.d_a2_mm - first.tip_shortening * 2 * a.module_mm;
    const double out_mm = 30 * 5.0 + 10 * (1 + x_b - 0.11);
    const std::vector<double> three = shifts_of_tips(
        {{a, b}, {first.d_a1_mm - first.tip_shortening * 2 * a.module_mm, mates_mm, out_mm}});
    CHECK(three[1] == rel(0.11, 1e-11));
    CHECK(three[0] + three[1] == rel(x_a, 1e-12));
    CHECK(three[1] + three[2] == rel(x_b, 1e-12));
    CHECK_THROWS_AS((void)shifts_of_tips({{a, b}, {160, 170}}), Error);
    CHECK_THROWS_AS((void)shifts_of_tips({{a}, {160, 0}}), Error);
    CHECK_THROWS_AS((void)shifts_of_tips({{}, {160}}), Error);
}

TEST_CASE("iso-21771 undercut least shift") {
    // 1.25 - 0.38 (1 - sin 20 deg) - z sin^2 20 deg / 2 = 0 at 17.10 teeth; helical recomputed.
    const double alpha = rad_from_deg(20);
    const auto spur_17 = least_shift({.z = 17, .pressure_angle_rad = alpha, .helix_angle_rad = 0});
    const auto spur_18 = least_shift({.z = 18, .pressure_angle_rad = alpha, .helix_angle_rad = 0});
    CHECK(17 + spur_17 / (spur_17 - spur_18) == rel(17.0968, 1e-4));
    CHECK(
        least_shift({.z = 30, .pressure_angle_rad = alpha, .helix_angle_rad = rad_from_deg(14)}) ==
        rel(-0.9069659483, 1e-9));
    CHECK(
        least_shift({.z = 30, .pressure_angle_rad = alpha, .helix_angle_rad = rad_from_deg(18)}) ==
        rel(-1.0148934118, 1e-9));
}

TEST_CASE("iso-21771 findings both sides of every limit") {
    const PairInput in = gear_pairs::spur_on(37, 44, 202.5);
    const Pair good = pair(in);
    CHECK(findings(in, good).size() == 1);  // only which teeth meet again
    Pair p = good;
    const auto has = [&](const std::string& id, Severity severity) {
        return count(findings(in, p), id, severity);
    };
    p.clearance_1_mm = 0.201 * 5;
    CHECK(has("clearance", Severity::watch) == 0);
    p.clearance_1_mm = 0.199 * 5;
    CHECK(has("clearance", Severity::watch) == 1);
    p.clearance_2_mm = 0.1505 * 5;
    CHECK(has("clearance", Severity::watch) == 2);
    p.clearance_2_mm = 0.1495 * 5;
    CHECK(has("clearance", Severity::stop) == 1);
    p = good;
    p.s_a1_mm = 0.401 * 5;
    CHECK(has("tip_thickness", Severity::watch) == 0);
    p.s_a1_mm = 0.399 * 5;
    CHECK(has("tip_thickness", Severity::watch) == 1);
    p.s_a2_mm = 0.201 * 5;
    CHECK(has("tip_thickness", Severity::watch) == 2);
    p.s_a2_mm = 0.199 * 5;
    CHECK(has("tip_thickness", Severity::stop) == 1);
    p = good;
    p.eps_alpha = 1.101;
    CHECK(has("contact_ratio", Severity::watch) == 0);
    p.eps_alpha = 1.099;
    CHECK(has("contact_ratio", Severity::watch) == 1);
    p.eps_alpha = 1.001;
    CHECK(has("contact_ratio", Severity::watch) == 1);
    p.eps_alpha = 0.999;
    CHECK(has("contact_ratio", Severity::stop) == 1);
    p = good;
    const double x_min =
        least_shift({.z = 37, .pressure_angle_rad = in.pressure_angle_rad, .helix_angle_rad = 0});
    p.x_1 = x_min + 1e-6;
    CHECK(findings(in, p).size() == 1);
    p.x_1 = x_min - 0.0199;
    CHECK(has("undercut", Severity::note) == 1);
    p.x_1 = x_min - 0.0201;
    CHECK(has("undercut", Severity::watch) == 1);
    p = good;
    p.d_Nf2_mm = p.d_Ff2_mm + 1e-9;
    CHECK(has("interference", Severity::stop) == 0);
    p.d_Nf2_mm = p.d_Ff2_mm - 1e-9;
    CHECK(has("interference", Severity::stop) == 1);
    p = good;
    p.T1A_mm = -1e-9;
    CHECK(has("interference", Severity::stop) == 1);
}

TEST_CASE("iso-21771 findings which teeth meet again") {
    const auto text = [](int z_1, int z_2) {
        const PairInput in = gear_pairs::spur_on(z_1, z_2, (z_1 + z_2) * 2.5);
        return findings(in, pair(in)).back().text;
    };
    CHECK(text(36, 44) ==
          "36/44: the same teeth meet every 11 turns of the first gear; mark and re-pair them");
    CHECK(text(37, 44) == "37/44: every tooth meets every other; keep the pair together");
}

TEST_CASE("gear-practice rim both sides of every limit") {
    const auto severity = [](double modules) {
        const auto all = rim_findings(
            {.z = 36, .module_mm = 5, .d_f_mm = 167.5, .bore_mm = 167.5 - 10 * modules});
        return all.empty() ? -1 : static_cast<int>(all.front().severity);
    };
    CHECK(severity(3.51) == -1);
    CHECK(severity(3.49) == static_cast<int>(Severity::note));
    CHECK(severity(2.71) == static_cast<int>(Severity::note));
    CHECK(severity(2.69) == static_cast<int>(Severity::watch));
    CHECK(severity(0.01) == static_cast<int>(Severity::watch));
    CHECK(severity(-0.01) == static_cast<int>(Severity::stop));
    CHECK_THROWS_AS((void)rim_findings({.z = 36, .module_mm = 5, .d_f_mm = 0, .bore_mm = 1}),
                    Error);
}

TEST_CASE("iso-21771 sums of teeth that fit") {
    CHECK(fitting_tooth_sums(gear_pairs::spur_on(30, 50, 200)) ==
          std::vector<int>{78, 79, 80, 81, 82});
    CHECK(fitting_tooth_sums(gear_pairs::spur_on(36, 44, 203.2)) ==
          std::vector<int>{80, 81, 82, 83});
    // Both ends of the range of shift sums, within 0.5 %.
    const PairInput in = gear_pairs::spur_on(36, 44, 200);
    const auto fits = [&](double X) {
        PairInput moved = in;
        moved.centre_distance_mm = distance_mm(in, X);
        const auto sums = fitting_tooth_sums(moved);
        return std::find(sums.begin(), sums.end(), 80) != sums.end();
    };
    CHECK(fits(1.195));
    CHECK_FALSE(fits(1.205));
    CHECK(fits(-0.995));
    CHECK_FALSE(fits(-1.005));
}

}  // namespace caseload::iso_21771
