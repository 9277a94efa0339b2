// SPDX-License-Identifier: MIT
#include "caseload/formulas/sae_j306.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace caseload::sae_j306 {

TEST_CASE("sae-j306-2019 table1 W grades, the ranges without W join without a gap") {
    struct Row {
        std::string_view name;
        double least;
        double limit_degC;
    };
    for (const Row& row : {Row{"70W", 3.8, -55}, Row{"75W", 3.8, -40}, Row{"80W", 8.5, -26},
                           Row{"85W", 11.0, -12}}) {
        const auto all = grades();
        const auto found = std::find_if(all.begin(), all.end(),
                                        [&](const Grade& g) { return g.name == row.name; });
        REQUIRE(found != all.end());
        CHECK(found->nu_100C_min_mm2ps == row.least);
        CHECK(std::isinf(found->nu_100C_max_mm2ps));
        CHECK(found->brookfield_limit_degC == row.limit_degC);
    }
    double joint = 3.8;
    int summer = 0;
    for (const Grade& grade : grades()) {
        if (grade.brookfield_limit_degC) continue;
        CHECK(grade.nu_100C_min_mm2ps == joint);
        joint = grade.nu_100C_max_mm2ps;
        ++summer;
    }
    CHECK(summer == 10);
    CHECK(std::isinf(joint));
}

TEST_CASE("sae-j306-2019 table1-summer both sides of every limit") {
    struct Row {
        double from;
        std::string_view name;
    };
    const Row rows[] = {{3.8, "65"},  {5.0, "70"},   {6.5, "75"},   {8.5, "80"},   {11.0, "85"},
                        {13.5, "90"}, {18.5, "110"}, {24.0, "140"}, {32.5, "190"}, {41.0, "250"}};
    std::string_view below;
    for (const Row& row : rows) {
        CHECK(summer_grade(row.from) == row.name);
        CHECK(summer_grade(row.from * (1 - 1e-9)) == below);
        below = row.name;
    }
    CHECK(summer_grade(500) == "250");
    CHECK_THROWS_AS((void)summer_grade(0), Error);
}

}  // namespace caseload::sae_j306
