// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_6336_6.hpp"

#include "caseload/error.hpp"

#include <cmath>
#include <cstddef>
#include <limits>

namespace caseload::iso_6336_6 {
namespace {

void check(LifeCurve curve) {
    if (curve.size() < 2)
        throw Error(Error::Kind::domain, "a life curve needs at least two points");
}

/// Slope d log cycles / d log factor up to point i of a curve, negative.
double slope(LifeCurve curve, std::size_t i) {
    const LifePoint& from = curve[i - 1];
    const LifePoint& to = curve[i];
    return std::log(to.cycles / from.cycles) / std::log(to.factor / from.factor);
}

}  // namespace

double allowed_cycles(LifeCurve curve, double stress_ratio) {
    check(curve);
    require_not_negative(stress_ratio, "stress_ratio");
    if (stress_ratio > curve.front().factor) return 1;
    for (std::size_t i = 1; i < curve.size(); ++i)
        if (stress_ratio >= curve[i].factor)
            return curve[i].cycles * std::pow(stress_ratio / curve[i].factor, slope(curve, i));
    return std::numeric_limits<double>::infinity();
}

double damage_per_cycle(LifeCurve curve, double stress_ratio) {
    return 1 / allowed_cycles(curve, stress_ratio);
}

}  // namespace caseload::iso_6336_6
