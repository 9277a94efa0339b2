// SPDX-License-Identifier: MIT
#include "cars.hpp"
#include "caseload/error.hpp"
#include "caseload/pace.hpp"
#include "support.hpp"

#include <cmath>
#include <functional>

namespace caseload::pace_segments_tests {

using namespace pace_cars;

TEST_CASE("pace: the first four segments of rough-desert and the length of all") {
    // Length, roughness, resistance, grade, slow speed; printed to six digits.
    const double printed[][5] = {{401.748, 0.00700000, 0.0650000, -0.000836519, 10},
                                 {1381.05, 0.00419307, 0.0815248, -0.0272073, 15.7033},
                                 {237.852, 0.0246849, 0.0980495, 0.0194546, 5.73739},
                                 {770.712, 0.0100269, 0.0445743, -0.00478490, 9.38953}};
    const std::vector<pace::Segment> all = pace::segments(ground("rough-desert"));
    REQUIRE(all.size() == 48);
    double way_m = 0;
    double rise_m = 0;
    for (const pace::Segment& one : all) {
        way_m += one.length_m;
        rise_m += one.length_m * one.grade;
    }
    CHECK(within(way_m, 29724.646, 0.00051));
    CHECK(std::fabs(rise_m) < 1e-9);
    for (std::size_t k = 0; k < 4; ++k) {
        CHECK(all[k].length_m == rel(printed[k][0], 4e-6));
        CHECK(all[k].roughness_m3 == rel(printed[k][1], 5.1e-6));
        CHECK(all[k].resistance == rel(printed[k][2], 4e-6));
        CHECK(all[k].grade == rel(printed[k][3], 4e-6));
        CHECK(all[k].slow_mps == rel(printed[k][4], 4e-6));
    }
}

TEST_CASE("pace: the longest segment is four times the mean, ends of the ranks are cut") {
    for (const std::string& course : courses) {
        CAPTURE(course);
        const pace::Ground& of = ground(course);
        for (const pace::Segment& one : pace::segments(of)) {
            CHECK(one.length_m <= 4.03 * 1000 / of.slow_spots_pkm * (1 + 1e-12));
            CHECK(one.length_m >= 0.03 * 1000 / of.slow_spots_pkm);
            CHECK(std::fabs(std::log(one.slow_mps / of.slow_speed_mps)) < 2.327 * of.slow_spread);
            CHECK(one.resistance >= of.resistance_low);
            CHECK(one.resistance <= of.resistance_high);
        }
    }
}

TEST_CASE("pace: ground that cannot be is refused") {
    using Change = std::function<void(pace::Ground&)>;
    const std::vector<Change> changes{
        [](pace::Ground& g) { g.roughness_m3 = 7000; },
        [](pace::Ground& g) { g.roughness_spread = -1; },
        [](pace::Ground& g) { g.resistance_low = -0.1; },
        [](pace::Ground& g) { g.resistance_high = 0.01; },
        [](pace::Ground& g) { g.grade = 1; },
        [](pace::Ground& g) { g.slow_spots_pkm = 0; },
        [](pace::Ground& g) { g.slow_speed_mps = 0; },
        [](pace::Ground& g) { g.slow_spread = 3; },
        [](pace::Ground& g) { g.grip = 0; },
        [](pace::Ground& g) { g.slip = 0.6; },
        [](pace::Ground& g) { g.cap_mps = 0; },
        [](pace::Ground& g) { g.throttle = 0; },
        [](pace::Ground& g) { g.unevenness = 3; },
        [](pace::Ground& g) { g.step = 2; },
    };
    for (std::size_t i = 0; i < changes.size(); ++i) {
        CAPTURE(i);
        pace::Ground of = ground("rock");
        changes[i](of);
        CHECK_THROWS_AS((void)pace::lap(truck(), of, {}), Error);
    }
}

TEST_CASE("pace: segments and drives that cannot be are refused") {
    const pace::Ground& of = ground("rough-desert");
    const pace::Segment good{400, 0.007, 0.06, 0, 10};
    CHECK_NOTHROW((void)pace::lap(truck(), of, {good}, {}));
    CHECK_THROWS_AS((void)pace::lap(truck(), of, std::vector<pace::Segment>{}, {}), Error);
    for (const pace::Segment& bad :
         {pace::Segment{0, 0.007, 0.06, 0, 10}, pace::Segment{400, 0, 0.06, 0, 10},
          pace::Segment{400, 0.007, -0.06, 0, 10}, pace::Segment{400, 0.007, 0.06, 2, 10},
          pace::Segment{400, 0.007, 0.06, 0, 0}})
        CHECK_THROWS_AS((void)pace::lap(truck(), of, {bad}, {}), Error);
    for (const pace::Drive& bad :
         {pace::Drive{2, 1, 1, 1}, pace::Drive{0, 0, 1, 1}, pace::Drive{0, 1, 0, 1},
          pace::Drive{0, 1, 1, 0}, pace::Drive{0, std::nan(""), 1, 1}})
        CHECK_THROWS_AS((void)pace::lap(truck(), of, bad), Error);
}

}  // namespace caseload::pace_segments_tests
