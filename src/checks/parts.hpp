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

/// Speed that a shaft has or passes for this share of the driving time, and the bin it is of.
struct PassedSpeed {
    double rpm = 0;
    std::size_t leg = 0;
    std::size_t bin = 0;
};
PassedSpeed passed_speed(const Prepared& prepared, std::size_t shaft, double share);
/// Fast: passed for this share of the driving time; and for so long that a cage suffers. Judgement.
inline constexpr double fast_share = 0.05;
inline constexpr double lasting_share = 0.2;

/// Speed of the output at the engine's limiter in the tallest gear; 0 where one is not known.
double limiter_rpm(const Setup& setup, const Loads& loads);

/// Asks for cages that are unknown where one of polyamide would be too hot.
Notes cage_notes(const Setup& setup, const Damage& damage);

void check_bearings(const Prepared& prepared, const Damage& damage, std::vector<Check>& into);
void check_teeth(const Prepared& prepared, const Checked& found, std::vector<Check>& into);
void check_seats(const Checked& found, std::vector<Check>& into);
/// Each facing pair in the drive leg it is tightest in, followed through the event.
std::vector<PairState> tightest_pairs(const Prepared& prepared, const EventHeat& event);
void check_pairs(const Checked& found, std::vector<Check>& into);
void check_splines(const Checked& found, std::vector<Check>& into);
void check_seals(const Prepared& prepared, const EventHeat& heat, std::vector<Check>& into);
void check_prop_shaft(const Prepared& prepared, std::vector<Check>& into);

}  // namespace caseload
