// SPDX-License-Identifier: MIT
// Curves that remember the piece they were on, against the same curves asked anew.
#include "caseload/heat_curves.hpp"
#include "heat/leg_drives.hpp"
#include "support.hpp"

#include <cmath>
#include <limits>
#include <random>
#include <vector>

namespace caseload::heat_followed_tests {

namespace {

const std::vector<double> points{10, 18, 26, 26.5, 27, 34, 42, 50};
const Curve bent(points, {5, 7, 9, 20, 20.5, 21, 3, 2});
const Curve other(points, {-1, 2, -3, 4, -5, 6, -7, 8});

bool same(double a, double b) {
    return a == b || (std::isnan(a) && std::isnan(b));
}

}  // namespace

TEST_CASE("curves followed: a follower gives the bits of a new look-up, wherever it was before") {
    CurvesFollowed<2> followed({bent.made(), other.made()});
    const auto check = [&](double x) {
        CAPTURE(x);
        const auto [first, second] = followed(x);
        CHECK(same(first, bent(x)));
        CHECK(same(second, other(x)));
    };
    std::mt19937_64 random(3);
    std::uniform_real_distribution<double> anywhere(0, 60);
    std::normal_distribution<double> step(0, 2);
    double x = 30;
    for (int i = 0; i < 5000; ++i) {
        x = i % 50 == 0 ? anywhere(random) : x + step(random);
        check(x);
    }
    // At points, beside them, beyond both ends, and not a number: each after a place elsewhere.
    for (const double point : points)
        for (const double from : {12.0, 26.2, 49.0, 80.0})
            for (const double at :
                 {point, std::nextafter(point, 0), std::nextafter(point, 100), point - 40}) {
                check(from);
                check(at);
            }
    check(std::numeric_limits<double>::quiet_NaN());
    check(20);
}

TEST_CASE("curves followed: beyond the hottest path heat grows with the difference to the air") {
    const std::vector<double> oil{0, 40, 80, 120, 160};
    const std::vector<double> path{0, 100, 200, 300, hottest_path_degC};
    LegCurves curves;
    curves.oil_W = {oil, {100, 90, 80, 70, 60}};
    curves.steel_W = {oil, {50, 40, 30, 20, 10}};
    curves.housing_W = {oil, {5, 4, 3, 2, 1}};
    curves.outside_W = {path, {-500, 1000, 3000, 5500, 9000}};
    curves.cooler_W = {path, {-100, 2000, 5000, 9000, 16000}};
    Prepared prepared;
    prepared.case_air_degC = 20;
    prepared.cooler_air_degC = 30;
    LegDrives followed(prepared, curves);
    for (const double degC : {70.0, 71.0, 460.0, 700.0, 69.0, 460.5}) {
        CAPTURE(degC);
        const Drives drives = followed.at({{degC, degC + 3, degC}, {12, 0}, {1, 2, 3}});
        CHECK(drives.made.oil_W == curves.oil_W(degC));
        CHECK(drives.made.steel_W == curves.steel_W(degC));
        CHECK(drives.made.housing_W == curves.housing_W(degC));
        const double outside_W = degC + 3 <= hottest_path_degC
                                     ? curves.outside_W(degC + 3)
                                     : 9000 * (degC + 3 - 20) / (hottest_path_degC - 20);
        const double cooler_W = degC <= hottest_path_degC
                                    ? curves.cooler_W(degC)
                                    : 16000 * (degC - 30) / (hottest_path_degC - 30);
        CHECK(drives.outside_W == outside_W);
        CHECK(drives.cooler_W == cooler_W);
        CHECK(drives.exhaust_W == 12);
        CHECK(drives.paths == Conductances{1, 2, 3});
    }
}

}  // namespace caseload::heat_followed_tests
