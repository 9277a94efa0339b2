// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/checks.hpp"

#include <vector>

namespace caseload {

/// A check with its value, judged by its row of the class table and the limit of its part.
Check judged(Check check, double of_part = 1);

/// Judged as it is; printed no higher than the ceiling allows.
void no_higher_than(double ceiling_degC, Check& check);

/// Film over roughness that flanks want: ground ones run in. Judgement.
double film_limit(const Setup& setup);

/// Fastest bin of a shaft.
double fastest_rpm(const Loads& loads, std::size_t shaft);

/// Asks for cages that are unknown where one of polyamide would be too hot.
Notes cage_notes(const Setup& setup, const Damage& damage);

void check_bearings(const Prepared& prepared, const Damage& damage, std::vector<Check>& into);
void check_teeth(const Prepared& prepared, const Checked& found, std::vector<Check>& into);
void check_seats(const Checked& found, std::vector<Check>& into);
void check_seals(const Prepared& prepared, const EventHeat& heat, std::vector<Check>& into);
void check_prop_shaft(const Prepared& prepared, std::vector<Check>& into);

}  // namespace caseload
