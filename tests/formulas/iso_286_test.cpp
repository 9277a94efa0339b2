// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_286.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>
#include <string>

namespace caseload::iso_286 {

namespace {

double lower_um(const std::string& name, double size_mm) {
    return 1000 * hole_band_mm(name, size_mm).lower_mm;
}
double upper_um(const std::string& name, double size_mm) {
    return 1000 * hole_band_mm(name, size_mm).upper_mm;
}

}  // namespace

TEST_CASE("iso-286-2-2010 hole-bands as tabulated, from memory") {
    // The standard's own tables of bores, upper and lower deviation in um, against the bands
    // composed from widths and shaft deviations.
    struct Row {
        const char* name;
        double band_um[4][2];  // up to 80, 120, 180, 250 mm
    };
    const Row table[] = {{"H6", {{19, 0}, {22, 0}, {25, 0}, {29, 0}}},
                         {"H7", {{30, 0}, {35, 0}, {40, 0}, {46, 0}}},
                         {"J6", {{13, -6}, {16, -6}, {18, -7}, {22, -7}}},
                         {"J7", {{18, -12}, {22, -13}, {26, -14}, {30, -16}}},
                         {"K6", {{4, -15}, {4, -18}, {4, -21}, {5, -24}}},
                         {"K7", {{9, -21}, {10, -25}, {12, -28}, {13, -33}}},
                         {"M6", {{-5, -24}, {-6, -28}, {-8, -33}, {-8, -37}}},
                         {"M7", {{0, -30}, {0, -35}, {0, -40}, {0, -46}}},
                         {"N6", {{-14, -33}, {-16, -38}, {-20, -45}, {-22, -51}}},
                         {"N7", {{-9, -39}, {-10, -45}, {-12, -52}, {-14, -60}}},
                         {"P6", {{-26, -45}, {-30, -52}, {-36, -61}, {-41, -70}}},
                         {"P7", {{-21, -51}, {-24, -59}, {-28, -68}, {-33, -79}}}};
    const double sizes_mm[4][2] = {{80, 80}, {80.001, 120}, {120.001, 180}, {180.001, 250}};
    for (const Row& row : table)
        for (int range = 0; range < 4; ++range)
            for (const double size_mm : sizes_mm[range]) {
                CAPTURE(row.name);
                CAPTURE(size_mm);
                CHECK(within(upper_um(row.name, size_mm), row.band_um[range][0], 1e-9));
                CHECK(within(lower_um(row.name, size_mm), row.band_um[range][1], 1e-9));
            }
}

TEST_CASE("iso-286-2-2010 hole-bands from the formulas behind the standard") {
    // i = 0.45 D^(1/3) + 0.001 D; IT6 = 10 i, IT7 = 16 i; k = 0.6 D^(1/3), n = 5 D^0.34, p from
    // IT7 to IT7 + 5; D the geometric mean of the range. The standard rounds to whole um.
    const double ranges_mm[4][2] = {{50, 80}, {80, 120}, {120, 180}, {180, 250}};
    for (const auto& range : ranges_mm) {
        CAPTURE(range[1]);
        const double D = std::sqrt(range[0] * range[1]);
        const double i = 0.45 * std::cbrt(D) + 0.001 * D;
        const double IT6 = upper_um("H6", range[1]);
        const double IT7 = upper_um("H7", range[1]);
        CHECK(within(IT6, 10 * i, 0.5));
        CHECK(within(IT7, 16 * i, 0.5));
        const double delta_7 = IT7 - IT6;
        CHECK(within(delta_7 - upper_um("K7", range[1]), 0.6 * std::cbrt(D), 0.5));
        CHECK(within(delta_7 - upper_um("N7", range[1]), 5 * std::pow(D, 0.34), 0.8));
        const double p = delta_7 - upper_um("P7", range[1]);
        CHECK(within(p, IT7 + 2.5, 2.5));
        // Delta of grade 6 is IT6 - IT5 with IT5 = 7 i.
        const double delta_6 = upper_um("N6", range[1]) - upper_um("N7", range[1]) + delta_7;
        CHECK(within(IT6 - delta_6, 7 * i, 0.5));
    }
}

TEST_CASE("iso-286-2-2010 hole-names and sizes that are known, others refused") {
    for (const char* name : {"H6", "H7", "J7", "K7", "M7", "N6", "N7", "P7"})
        CHECK(is_hole_class(name));
    for (const char* name : {"", "N", "N8", "N5", "n7", "R7", "N77", "7N"}) {
        CHECK(!is_hole_class(name));
        CHECK_THROWS_AS((void)hole_band_mm(name, 100), Error);
    }
    CHECK_THROWS_WITH_AS((void)hole_band_mm("R7", 100),
                         "R7: bores are known in H, J, K, M, N, P of grades 6 and 7", Error);
    CHECK_THROWS_WITH_AS((void)hole_band_mm("N7", 79.9),
                         "size_mm = 79.9 mm: must be from 80 to 250", Error);
    CHECK_THROWS_AS((void)hole_band_mm("N7", 250.1), Error);
    CHECK_THROWS_AS((void)hole_band_mm("N7", NAN), Error);
}

}  // namespace caseload::iso_286
