// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_3448.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::iso_3448 {

TEST_CASE("iso-3448-1992 table1 limits of each class, gaps between") {
    struct Row {
        int name;
        double from;
        double to;
    };
    // Limits as printed in the standard's table, 2 to 1500; 2200 and 3200 from memory.
    const Row rows[] = {
        {2, 1.98, 2.42},   {3, 2.88, 3.52},    {5, 4.14, 5.06},    {7, 6.12, 7.48},
        {10, 9.0, 11.0},   {15, 13.5, 16.5},   {22, 19.8, 24.2},   {32, 28.8, 35.2},
        {46, 41.4, 50.6},  {68, 61.2, 74.8},   {100, 90, 110},     {150, 135, 165},
        {220, 198, 242},   {320, 288, 352},    {460, 414, 506},    {680, 612, 748},
        {1000, 900, 1100}, {1500, 1350, 1650}, {2200, 1980, 2420}, {3200, 2880, 3520},
    };
    for (const Row& row : rows) {
        CAPTURE(row.name);
        CHECK(viscosity_class(row.from) == row.name);
        CHECK(viscosity_class(row.to) == row.name);
        CHECK(viscosity_class(row.from * (1 - 1e-6)) == std::nullopt);
        CHECK(viscosity_class(row.to * (1 + 1e-6)) == std::nullopt);
    }
    CHECK_THROWS_AS((void)viscosity_class(-1), Error);
}

}  // namespace caseload::iso_3448
