// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_492.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::iso_492 {

TEST_CASE("iso-492-2014 outside-diameter limits as tabulated, from memory") {
    const double table[][2] = {{80, -13},      {80.001, -15},  {120, -15},
                               {120.001, -18}, {150, -18},     {150.001, -25},
                               {180, -25},     {180.001, -30}, {250, -30}};
    for (const auto& row : table) {
        CAPTURE(row[0]);
        const iso_286::Band band = outside_band_mm(row[0]);
        CHECK(within(1000 * band.lower_mm, row[1], 1e-9));
        CHECK(band.upper_mm == 0);
    }
    CHECK_THROWS_AS((void)outside_band_mm(79.9), Error);
    CHECK_THROWS_AS((void)outside_band_mm(250.1), Error);
}

TEST_CASE("iso-286-1-2010 interference of a ring in its seat") {
    // 170 mm in N7: bore -52 to -12 um, ring -25 to 0: 52 um tight to 13 um loose.
    const Interference N7 = seat_interference_mm("N7", 170);
    CHECK(within(1000 * N7.largest_mm, 52, 1e-9));
    CHECK(within(1000 * N7.least_mm, -13, 1e-9));
    // H7 always has room, up to the size itself.
    const Interference H7 = seat_interference_mm("H7", 140);
    CHECK(H7.largest_mm == 0);
    CHECK(within(1000 * H7.least_mm, -58, 1e-9));
    // Tighter letters, tighter seats.
    double before = -1;
    for (const char* name : {"H7", "J7", "K7", "M7", "N7", "P7"}) {
        const Interference here = seat_interference_mm(name, 140);
        CHECK(here.least_mm > before);
        CHECK(here.largest_mm > here.least_mm);
        before = here.least_mm;
    }
    CHECK_THROWS_AS((void)seat_interference_mm("N7", 72), Error);
    CHECK_THROWS_AS((void)seat_interference_mm("X7", 140), Error);
}

}  // namespace caseload::iso_492
