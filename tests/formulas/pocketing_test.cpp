// SPDX-License-Identifier: MIT
#include "caseload/formulas/pocketing.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::pocketing {

namespace {
constexpr Squeeze ref{.z_1 = 36,
                      .n_1_rpm = 7000,
                      .module_mm = 5,
                      .face_width_mm = 45,
                      .pitch_speed_mps = 65.973,
                      .density_kgpm3 = 2.7};
}

TEST_CASE("pocketing-estimate derived power, by hand") {
    // v_ex = 0.143 x 9 x 65.973 = 84.907 m/s; Q = 8400/s x 3.15e-6 m3 = 0.02646 m3/s;
    // P = 0.02646 x 2.7 / 2 x 84.907^2 = 257.5 W.
    CHECK(power_W(ref) == rel(257.52, 1e-4));
}

TEST_CASE("pocketing-estimate derived power on both sides of its limits") {
    Squeeze s = ref;
    s.face_width_mm = 25;  // 5 modules
    CHECK(power_W(s) == 0);
    s.face_width_mm = 25.1;
    CHECK(power_W(s) > 0);
    CHECK(power_W(s) < 1);
    // 6 modules: half of all. v_ex = 0.143 x 6 x 65.973 = 56.605 m/s; Q = 8400/s x 2.1e-6 m3;
    // P = 0.01764 x 2.7 / 2 x 56.605^2 = 76.30 W.
    s.face_width_mm = 30;
    CHECK(power_W(s) == rel(76.30 / 2, 1e-4));
    const double just_below = [&] {
        Squeeze narrow = ref;
        narrow.face_width_mm = 34.999;
        return power_W(narrow);
    }();
    s.face_width_mm = 35;  // 7 modules: from here on all
    CHECK(power_W(s) == rel(76.30 * 7 * 7 * 7 / (6 * 6 * 6), 1e-4));
    CHECK(power_W(s) == rel(just_below, 1e-3));
    // The exit speed stops at 250 m/s; then only the flow grows.
    s = ref;
    s.pitch_speed_mps = 250 / (0.143 * 9);
    const double at_limit = power_W(s);
    s.pitch_speed_mps *= 0.999;
    CHECK(power_W(s) < at_limit);
    s.pitch_speed_mps *= 3;
    CHECK(power_W(s) == rel(at_limit, 1e-12));
    CHECK(at_limit == rel(8400 * 3.15e-6 * 2.7 / 2 * 62500, 1e-9));
    s.n_1_rpm *= 2;
    CHECK(power_W(s) == rel(2 * at_limit, 1e-12));
    s.n_1_rpm = 0;
    CHECK(power_W(s) == 0);
    s = ref;
    const double spur_W = power_W(s);
    s.overlap_ratio = 0.25;
    CHECK(power_W(s) == rel(0.75 * spur_W, 1e-12));
    s.overlap_ratio = 1;
    CHECK(power_W(s) == 0);
    s.overlap_ratio = 1.5;
    CHECK(power_W(s) == 0);
    s.overlap_ratio = -0.1;
    CHECK_THROWS_AS((void)power_W(s), Error);
    s = ref;
    s.density_kgpm3 = 0;
    CHECK_THROWS_AS((void)power_W(s), Error);
}

}  // namespace caseload::pocketing
