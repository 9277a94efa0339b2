// SPDX-License-Identifier: MIT
#include "caseload/formulas/wheel_inertia.hpp"

#include "caseload/error.hpp"

#include <cmath>

namespace caseload::wheel_inertia {
namespace {

constexpr Limits tyres_m{0.3, 1.5};

}  // namespace

double mass_kg(double tyre_m) {
    require_within(tyre_m, tyres_m, "tyre_m");
    return 55 * std::pow(tyre_m / 0.94, 2.5);
}

double inertia_kgm2(const Wheel& wheel) {
    require_positive(wheel.mass_kg, "mass_kg");
    require_within(wheel.tyre_m, tyres_m, "tyre_m");
    const double radius_m = wheel.tyre_m / 2;
    return 0.55 * wheel.mass_kg * radius_m * radius_m;
}

}  // namespace caseload::wheel_inertia
