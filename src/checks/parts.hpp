// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/checks.hpp"

#include <limits>
#include <vector>

namespace caseload {

/// Limits of one check: a value past `watch` is watch, past `stop` is stop. Equal limits: no watch.
inline constexpr double never = std::numeric_limits<double>::infinity();
struct CheckLimits {
    double watch;
    double stop;
};

/// Judges a value that must not fall below its limits.
Check at_least(Check check, const CheckLimits& limits);
/// Judges a value that must not rise above its limits.
Check at_most(Check check, const CheckLimits& limits);

/// Judged as it is; printed no higher than the ceiling allows.
void no_higher_than(double ceiling_degC, Check& check);

/// Fastest bin of a shaft.
double fastest_rpm(const Loads& loads, std::size_t shaft);

void check_bearings(const Prepared& prepared, const Damage& damage, std::vector<Check>& into);
void check_teeth(const Prepared& prepared, const Checked& found, std::vector<Check>& into);
void check_seats(const Checked& found, std::vector<Check>& into);
void check_seals(const Prepared& prepared, const EventHeat& heat, std::vector<Check>& into);
void check_prop_shaft(const Prepared& prepared, std::vector<Check>& into);

}  // namespace caseload
