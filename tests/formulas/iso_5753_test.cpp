// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_5753.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <array>
#include <cstddef>
#include <iterator>

namespace caseload::iso_5753 {

namespace {

constexpr std::array classes{Class::C2, Class::CN, Class::C3, Class::C4, Class::C5};

struct Row {
    double bore_mm;  // up to and including
    double limits_um[5][2];
};

void check(BearingKind kind, const Row& row, double bore_mm) {
    CAPTURE(bore_mm);
    for (std::size_t i = 0; i < classes.size(); ++i) {
        CAPTURE(i);
        const auto held = radial_clearance_mm(kind, classes[i], bore_mm);
        REQUIRE(held.has_value());
        CHECK(within(1000 * held->least_mm, row.limits_um[i][0], 1e-9));
        CHECK(within(1000 * held->largest_mm, row.limits_um[i][1], 1e-9));
    }
}

}  // namespace

TEST_CASE("iso-5753-1-2009 radial-clearance as tabulated, second write-up from memory") {
    const Row ball[] = {{40, {{1, 11}, {6, 20}, {15, 33}, {28, 46}, {40, 64}}},
                        {50, {{1, 11}, {6, 23}, {18, 36}, {30, 51}, {45, 73}}},
                        {65, {{1, 15}, {8, 28}, {23, 43}, {38, 61}, {55, 90}}},
                        {80, {{1, 15}, {10, 30}, {25, 51}, {46, 71}, {65, 105}}},
                        {100, {{1, 18}, {12, 36}, {30, 58}, {53, 84}, {75, 120}}},
                        {120, {{2, 20}, {15, 41}, {36, 66}, {61, 97}, {90, 140}}},
                        {140, {{2, 23}, {18, 48}, {41, 81}, {71, 114}, {105, 160}}},
                        {160, {{2, 23}, {18, 53}, {46, 91}, {81, 130}, {120, 180}}},
                        {180, {{2, 25}, {20, 61}, {53, 102}, {91, 147}, {135, 200}}},
                        {200, {{2, 30}, {25, 71}, {63, 117}, {107, 163}, {150, 230}}}};
    const Row roller[] = {{40, {{5, 30}, {25, 50}, {45, 70}, {60, 85}, {80, 105}}},
                          {50, {{5, 35}, {30, 60}, {50, 80}, {70, 100}, {95, 125}}},
                          {65, {{10, 40}, {40, 70}, {60, 90}, {80, 110}, {110, 140}}},
                          {80, {{10, 45}, {40, 75}, {65, 100}, {90, 125}, {130, 165}}},
                          {100, {{15, 50}, {50, 85}, {75, 110}, {105, 140}, {155, 190}}},
                          {120, {{15, 55}, {50, 90}, {85, 125}, {125, 165}, {180, 220}}},
                          {140, {{15, 60}, {60, 105}, {100, 145}, {145, 190}, {200, 245}}},
                          {160, {{20, 70}, {70, 120}, {115, 165}, {165, 215}, {225, 275}}},
                          {180, {{25, 75}, {75, 125}, {120, 170}, {170, 220}, {250, 300}}},
                          {200, {{35, 90}, {90, 145}, {140, 195}, {195, 250}, {275, 330}}}};
    double over_mm = 30;
    for (std::size_t i = 0; i < std::size(ball); ++i) {
        check(BearingKind::deep_groove_ball, ball[i], ball[i].bore_mm);
        check(BearingKind::deep_groove_ball, ball[i], over_mm + 0.001);
        check(BearingKind::cylindrical_roller, roller[i], roller[i].bore_mm);
        check(BearingKind::cylindrical_roller, roller[i], over_mm + 0.001);
        over_mm = ball[i].bore_mm;
    }
}

TEST_CASE("iso-5753-1-2009 radial-clearance grows with class and bore") {
    for (const BearingKind kind :
         {BearingKind::deep_groove_ball, BearingKind::cylindrical_roller}) {
        std::array<Clearance, 5> smaller{};
        for (const double bore_mm : {30.001, 40.001, 50.001, 65.001, 80.001, 100.001, 120.001,
                                     140.001, 160.001, 180.001}) {
            CAPTURE(bore_mm);
            for (std::size_t i = 0; i < classes.size(); ++i) {
                const Clearance here = radial_clearance_mm(kind, classes[i], bore_mm).value();
                CHECK(here.least_mm < here.largest_mm);
                CHECK(here.least_mm >= smaller[i].least_mm);
                CHECK(here.largest_mm >= smaller[i].largest_mm);
                if (i > 0)
                    CHECK(here.least_mm >
                          radial_clearance_mm(kind, classes[i - 1], bore_mm)->least_mm);
                smaller[i] = here;
            }
        }
        CHECK_THROWS_WITH_AS((void)radial_clearance_mm(kind, Class::CN, 30),
                             "bore_mm = 30 mm: must be over 30", Error);
        CHECK_THROWS_WITH_AS((void)radial_clearance_mm(kind, Class::CN, 201),
                             "bore_mm = 201 mm: must be from 30 to 200", Error);
        CHECK_THROWS_AS((void)radial_clearance_mm(kind, Class::CN, 25), Error);
    }
    for (const BearingKind kind : {BearingKind::angular_contact_ball, BearingKind::four_point_ball,
                                   BearingKind::tapered_roller, BearingKind::spherical_roller})
        CHECK(!radial_clearance_mm(kind, Class::CN, 100).has_value());
}

}  // namespace caseload::iso_5753
