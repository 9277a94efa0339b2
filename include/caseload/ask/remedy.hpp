// SPDX-License-Identifier: MIT
// A setup that must not run, and the first thing tried that would make it run.
#pragma once

#include "caseload/ask/band.hpp"

#include <string>
#include <vector>

namespace caseload {

/// One thing tried on a setup that is at stop.
struct Attempt {
    std::string what{};      ///< pair | cooler_on | core | pace | colder_air
    std::string words{};     ///< "70 % of the pace on every leg"
    bool runs = false;       ///< it makes the setup run
    std::string verdict{};   ///< with it: fine | watch | stop
    std::string reason{};    ///< of that verdict
    Percentiles oil_degC{};  ///< event's oil peak with it
    double pace_share = 1;   ///< of every drive leg
};
CASELOAD_MEMBERS(Attempt, "attempt", what, words, runs, verdict, reason, oil_degC, pace_share);

struct Remedy {
    std::string do_not_run;      ///< the reason; "" when the verdict is not stop
    std::vector<Attempt> tried;  ///< in order; the last one makes it run, or none does
};
CASELOAD_MEMBERS(Remedy, "remedy", do_not_run, tried);

/// The attempt that makes it run; null when none does.
const Attempt* first_that_runs(const Remedy& remedy);

/// Nothing is calculated unless the verdict is stop. Then, in this order, up to the first that
/// makes the setup run: facing pairs that heat the oil by their preload set with end play; the
/// cooler on, where a core is entered and not fitted, else the smallest
/// core that holds within the usual box of `size_cooler`; the highest pace that holds, every drive
/// leg slower by the same share and driven as long; air 10 K cooler. A setup runs when its verdict
/// leaves stop; where the oil was above its stop limit, its likely value must also stay at or below
/// the watch limit, and a pace or a core must hold that 9 chances in 10. Judgement.
Remedy remedy(const Document& document, const Setup& setup, const Assessment& likely,
              const Band& band, const BandOptions& options);

}  // namespace caseload
