// SPDX-License-Identifier: MIT
#include "caseload/formulas/astm_d2270.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::astm_d2270 {

namespace {

struct Row {
    double Y;
    double L;
    double H;
};

}  // namespace

TEST_CASE("astm-d2270 table1-L basic values, interpolated and above the table") {
    for (const Row& row : {Row{2, 7.994, 6.394}, Row{8, 100.0, 59.60}, Row{13.5, 247.4, 128.4},
                           Row{24, 683.9, 301.8}, Row{70, 4905, 1558}})
        CHECK(L_mm2ps(row.Y) == rel(row.L, 1e-12));
    // First example of the standard: 119.94, between 119.4 (at 8.8 or 8.9) and the next row.
    CHECK(within(L_mm2ps(8.86), 119.94, 0.005));
    // Above 70 by the formula: 4903.9 at 70, 9604 at 100; the step at 70 is 0.03 %.
    CHECK(L_mm2ps(100) == rel(8353 + 1467 - 216, 1e-12));
    CHECK(L_mm2ps(70.0001) == rel(4905, 3e-4));
    CHECK(L_mm2ps(70.5) == rel(0.8353 * 4970.25 + 14.67 * 70.5 - 216, 1e-12));
    CHECK_NOTHROW((void)L_mm2ps(9999));
    CHECK_THROWS_AS((void)L_mm2ps(10001), Error);
}

TEST_CASE("astm-d2270 table1-H basic values, interpolated and above the table") {
    for (const Row& row : {Row{2, 7.994, 6.394}, Row{5, 40.23, 28.49}, Row{18.5, 429.0, 204.3},
                           Row{40, 1730, 651.8}, Row{70, 4905, 1558}})
        CHECK(H_mm2ps(row.Y) == rel(row.H, 1e-12));
    // The three examples of the standard.
    CHECK(within(H_mm2ps(8.86), 69.48, 0.005));
    CHECK(within(H_mm2ps(5.05), 28.975, 0.0005));
    CHECK(within(H_mm2ps(7.80), 57.31, 0.005));
    CHECK(H_mm2ps(100) == rel(1684 + 1185 - 97, 1e-12));
    CHECK(H_mm2ps(70.0001) == rel(1558, 3e-4));
    for (double Y = 2; Y < 90; Y += 0.07) {
        CHECK(L_mm2ps(Y) > H_mm2ps(Y));
        CHECK(L_mm2ps(Y + 0.07) > L_mm2ps(Y));
        CHECK(H_mm2ps(Y + 0.07) > H_mm2ps(Y));
        // The table is smooth: second differences under 1 % of the value find a wrong digit.
        CHECK(L_mm2ps(Y + 0.2) + L_mm2ps(Y + 0.6) == rel(2 * L_mm2ps(Y + 0.4), 0.01));
        CHECK(H_mm2ps(Y + 0.2) + H_mm2ps(Y + 0.6) == rel(2 * H_mm2ps(Y + 0.4), 0.01));
    }
    CHECK_THROWS_AS((void)L_mm2ps(1.99), Error);
    CHECK_THROWS_AS((void)H_mm2ps(1.99), Error);
}

TEST_CASE("astm-d2270 index the three examples of the standard") {
    CHECK(rounded_index(viscosity_index({.nu_40C_mm2ps = 73.30, .nu_100C_mm2ps = 8.86})) == 92);
    CHECK(rounded_index(viscosity_index({.nu_40C_mm2ps = 22.83, .nu_100C_mm2ps = 5.05})) == 156);
    CHECK(rounded_index(viscosity_index({.nu_40C_mm2ps = 53.47, .nu_100C_mm2ps = 7.80})) == 111);
    // Unrounded, recomputed by an independent library: 92.43, 156.42, 111.31; above 70 mm2/s
    // 192.998.
    CHECK(within(viscosity_index({.nu_40C_mm2ps = 73.30, .nu_100C_mm2ps = 8.86}), 92.43, 0.005));
    CHECK(within(viscosity_index({.nu_40C_mm2ps = 22.83, .nu_100C_mm2ps = 5.05}), 156.42, 0.006));
    CHECK(within(viscosity_index({.nu_40C_mm2ps = 53.47, .nu_100C_mm2ps = 7.80}), 111.31, 0.005));
    CHECK(within(viscosity_index({.nu_40C_mm2ps = 1000, .nu_100C_mm2ps = 100}), 192.998, 0.0005));
    // Both procedures give 100 at U = H and meet there.
    const double H = H_mm2ps(15);
    CHECK(within(viscosity_index({.nu_40C_mm2ps = H, .nu_100C_mm2ps = 15}), 100, 1e-12));
    CHECK(
        within(viscosity_index({.nu_40C_mm2ps = H * (1 - 1e-9), .nu_100C_mm2ps = 15}), 100, 1e-5));
    CHECK(within(viscosity_index({.nu_40C_mm2ps = L_mm2ps(15), .nu_100C_mm2ps = 15}), 0, 1e-12));
    CHECK_THROWS_AS((void)viscosity_index({.nu_40C_mm2ps = 10, .nu_100C_mm2ps = 1.9}), Error);
    CHECK_THROWS_AS((void)viscosity_index({.nu_40C_mm2ps = 9, .nu_100C_mm2ps = 10}), Error);
    CHECK_THROWS_AS((void)viscosity_index({.nu_40C_mm2ps = 1.001e7, .nu_100C_mm2ps = 10}), Error);
}

TEST_CASE("astm-d2270 report nearest integer, halves to even") {
    CHECK(rounded_index(89.5) == 90);
    CHECK(rounded_index(90.5) == 90);
    CHECK(rounded_index(91.5) == 92);
    CHECK(rounded_index(90.500001) == 91);
    CHECK(rounded_index(-0.5) == 0);
    CHECK(rounded_index(999999.6) == 1000000);
    CHECK_THROWS_AS((void)rounded_index(1000001), Error);
    CHECK_THROWS_AS((void)rounded_index(-1000001), Error);
}

TEST_CASE("astm-d2270 inverse gives the index back") {
    for (const double Y : {4.05, 9.3, 16.0, 26.5, 45.25, 80.0})
        for (const double index : {-20.0, 60.0, 99.99, 100.0, 100.01, 163.0, 250.0}) {
            const double U = nu_40C_mm2ps({.nu_100C_mm2ps = Y, .index = index});
            CHECK(within(viscosity_index({.nu_40C_mm2ps = U, .nu_100C_mm2ps = Y}), index, 1e-9));
        }
    // By hand: 14.6 and index 103: 140.39; 16 and 163: 105.19.
    CHECK(within(nu_40C_mm2ps({.nu_100C_mm2ps = 14.6, .index = 103}), 140.39, 0.005));
    CHECK(within(nu_40C_mm2ps({.nu_100C_mm2ps = 16, .index = 163}), 105.19, 0.005));
    CHECK_THROWS_AS((void)nu_40C_mm2ps({.nu_100C_mm2ps = 16, .index = 401}), Error);
    CHECK_THROWS_AS((void)nu_40C_mm2ps({.nu_100C_mm2ps = 16, .index = -100.5}), Error);
}

}  // namespace caseload::astm_d2270
