// SPDX-License-Identifier: MIT
#include "caseload/formulas/weibull.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::weibull {

TEST_CASE("weibull-1951 two-parameter life") {
    for (const double slope : {1.17, 1.34, 1.5}) {
        const auto reach = [&](double life) {
            return std::exp(-std::pow(life / characteristic_life(slope), slope));
        };
        CHECK(reach(1) == rel(0.9, 1e-12));
        CHECK(reach(characteristic_life(slope)) == rel(std::exp(-1), 1e-12));
    }
    // Life at 95 to 99 %: slope 1.5 as in ISO 281:1990 and slope 1.17 of Indian textbooks,
    // recomputed.
    const double R[] = {0.95, 0.96, 0.97, 0.98, 0.99};
    const double iso_1990[] = {0.619, 0.531, 0.437, 0.333, 0.209};
    const double indian[] = {0.541, 0.445, 0.346, 0.244, 0.134};
    const auto life = [](double slope, double share) {
        return characteristic_life(slope) * std::pow(-std::log(share), 1 / slope);
    };
    for (int i = 0; i < 5; ++i) {
        CHECK(within(life(1.5, R[i]), iso_1990[i], 5e-4));
        CHECK(within(life(1.17, R[i]), indian[i], 5e-4));
    }
    CHECK_THROWS_AS((void)characteristic_life(0), Error);
}

}  // namespace caseload::weibull
