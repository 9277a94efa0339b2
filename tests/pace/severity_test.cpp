// SPDX-License-Identifier: MIT
// Ground whose severity is found from a pace, and what nobody knows, over 63 laps.
#include "cars.hpp"
#include "caseload/error.hpp"
#include "caseload/pace.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::pace_severity_tests {

using namespace pace_cars;

TEST_CASE("pace: 94 km/h on rough desert, and other cars on that ground") {
    const pace::Ground& desert = ground("rough-desert");
    const std::optional<double> severity = pace::severity_at(truck(), desert, {}, 94 / 3.6);
    REQUIRE(severity);
    CHECK(within(*severity, 0.899, 0.00051));
    // hp, kg, km/h, N m: printed to the last digit.
    const double printed[][4] = {{300, 2900, 83.6, 547},
                                 {850, 2900, 94.0, 867},
                                 {1000, 2900, 94.4, 906},
                                 {850, 3500, 93.4, 975}};
    for (const auto& [hp, kg, pace_kmph, cube_Nm] : printed) {
        const pace::Lap lap = pace::lap(car(hp, kg, 40, 0.70), desert, {.severity = *severity});
        CHECK(within(kmph(lap.pace_mps), pace_kmph, 0.051));
        CHECK(within(lap.torque_cube_Nm, cube_Nm, 0.51));
    }
}

TEST_CASE("pace: a lap at the severity found has the pace that was asked for") {
    for (const std::string& course : courses)
        for (const double s : {-0.7, 0.0, 0.7}) {
            if (course == "hard-road") continue;  // smooth enough for its cap at any severity
            CAPTURE(course);
            pace::Drive drive{.style = s, .resistance_factor = 1.1};
            const double asked_mps = 0.97 * pace::lap(light(), ground(course), drive).pace_mps;
            const std::optional<double> severity =
                pace::severity_at(light(), ground(course), drive, asked_mps);
            REQUIRE(severity);
            drive.severity = *severity;
            CHECK(pace::lap(light(), ground(course), drive).pace_mps == rel(asked_mps, 1e-4));
        }
}

TEST_CASE("pace: a pace out of reach has no severity, and the fastest is said") {
    const pace::Car weak = car(250, 2900, 40, 0.70);
    CHECK(within(kmph(pace::fastest_pace_mps(weak, ground("rough-desert"))), 94, 0.51));
    CHECK_FALSE(pace::severity_at(weak, ground("rough-desert"), {.style = 1}, 200 / 3.6));
    CHECK_FALSE(pace::severity_at(weak, ground("rough-desert"), {}, 1));
    CHECK_THROWS_AS((void)pace::severity_at(weak, ground("rough-desert"), {}, 0), Error);
    CHECK_THROWS_AS((void)pace::severity_at(weak, ground("rough-desert"), {}, 400), Error);
}

TEST_CASE("pace: what two cars do on six courses over driver, ground, soil and engine") {
    struct Row {
        const char* course;
        bool heavy;
        double pace_kmph[3];
        double fast_kmph[3];
        double crank_kW[3];
        double fuel_Lp100km[3];
        double cube_Nm[3];
        double high_Nm[3];
    };
    const Row rows[] = {
        {"hard-road",
         false,
         {81, 90, 96},
         {83, 94, 99},
         {30, 39, 46},
         {21, 23, 26},
         {126, 147, 161},
         {207, 236, 257}},
        {"hard-road",
         true,
         {81, 90, 96},
         {83, 94, 99},
         {37, 49, 58},
         {31, 35, 39},
         {205, 239, 261},
         {360, 420, 460}},
        {"graded",
         false,
         {95, 107, 115},
         {144, 162, 172},
         {97, 133, 159},
         {45, 52, 59},
         {438, 484, 507},
         {562, 576, 579}},
        {"graded",
         true,
         {99, 111, 118},
         {144, 162, 172},
         {155, 201, 245},
         {70, 81, 92},
         {809, 877, 917},
         {1042, 1064, 1071}},
        {"rough-desert",
         false,
         {50, 78, 102},
         {117, 159, 170},
         {51, 95, 145},
         {48, 54, 62},
         {368, 441, 491},
         {548, 584, 603}},
        {"rough-desert",
         true,
         {60, 89, 112},
         {140, 177, 194},
         {103, 180, 259},
         {80, 91, 103},
         {713, 850, 945},
         {1028, 1094, 1128}},
        {"sand",
         false,
         {41, 62, 78},
         {92, 122, 136},
         {69, 114, 149},
         {68, 78, 91},
         {472, 552, 603},
         {601, 642, 662}},
        {"sand",
         true,
         {49, 68, 83},
         {102, 137, 151},
         {135, 210, 265},
         {114, 131, 152},
         {886, 1031, 1120},
         {1112, 1182, 1221}},
        {"rock",
         false,
         {8, 10, 12},
         {13, 14, 15},
         {10, 12, 14},
         {96, 114, 147},
         {378, 405, 450},
         {543, 583, 621}},
        {"rock",
         true,
         {9, 11, 12},
         {13, 14, 15},
         {17, 21, 24},
         {173, 205, 253},
         {674, 728, 803},
         {973, 1044, 1112}},
        {"forest",
         false,
         {73, 82, 88},
         {133, 145, 155},
         {82, 109, 130},
         {51, 58, 67},
         {503, 555, 584},
         {601, 619, 626}},
        {"forest",
         true,
         {76, 84, 90},
         {139, 153, 167},
         {139, 178, 214},
         {85, 97, 110},
         {941, 1032, 1075},
         {1104, 1135, 1146}},
    };
    // Printed to the last digit; the fast speed is from classes of 0.5 km/h.
    const auto as_printed = [](const pace::Spread& spread, const double(&printed)[3], double times,
                               double off) {
        CHECK(within(spread.low * times, printed[0], off));
        CHECK(within(spread.likely * times, printed[1], off));
        CHECK(within(spread.high * times, printed[2], off));
    };
    for (const Row& row : rows) {
        CAPTURE(row.course);
        CAPTURE(row.heavy);
        const pace::Outlook outlook =
            pace::outlook(row.heavy ? truck() : light(), ground(row.course));
        as_printed(outlook.pace_mps, row.pace_kmph, 3.6, 0.51);
        as_printed(outlook.fast_mps, row.fast_kmph, 3.6, 1.0);
        as_printed(outlook.crank_W, row.crank_kW, 1e-3, 0.51);
        as_printed(outlook.fuel_Lp100km, row.fuel_Lp100km, 1, 0.51);
        as_printed(outlook.torque_cube_Nm, row.cube_Nm, 1, 0.51);
        as_printed(outlook.torque_874_Nm, row.high_Nm, 1, 0.51);
    }
}

}  // namespace caseload::pace_severity_tests
