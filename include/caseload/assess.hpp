// SPDX-License-Identifier: MIT
// The chain in ten lines: setup in, answer out.
#pragma once

#include "caseload/for_each.hpp"
#include "caseload/input.hpp"
#include "caseload/parts.hpp"
#include "caseload/quantity.hpp"

#include <string>
#include <vector>

namespace caseload {

/// A drive leg with its settled temperatures: as if it never ended.
struct LegAnswer {
    std::string name;
    int leg = 0;  ///< index into event.legs
    Steady at_rest;
};
CASELOAD_MEMBERS(LegAnswer, "leg", name, leg, at_rest);

/// One side of the answer: with the cooler as the setup says, or without.
struct CoolerSide {
    std::vector<LegAnswer> legs;
    EventHeat event;
    Damage damage;
    Checked checked;
    Intervals intervals;
};
CASELOAD_MEMBERS(CoolerSide, "side", legs, event, damage, checked, intervals);

struct Assessment {
    std::string stopped_by;  ///< what stops this case whatever its range says; "" if none
    bool has_cooler = false;
    Loads loads;
    CoolerSide fitted;   ///< as the setup says
    CoolerSide without;  ///< no cooler; equal to fitted when none is fitted
    PumpDead pump_dead;
    std::vector<Part> parts;  ///< for the opening
    double driving_h = 0;
    double distance_m = 0;
    Notes notes;
};
CASELOAD_MEMBERS(Assessment, "assessment", stopped_by, has_cooler, loads, fitted, without,
                 pump_dead, parts, driving_h, distance_m, notes);

Assessment assess(const Setup& setup);

/// Quick answer for the live page: of the side without cooler only its event; no dead pump, no
/// parts for an opening.
Assessment first_answer(const Setup& setup);

/// The same as fitted only: `without` is left empty.
Assessment fitted_answer(const Setup& setup);

/// What a verdict and its reason need: the event as fitted, its wear and checks, and what stops the
/// case. The same bits; no settled legs, and all else left empty.
Assessment verdict_answer(const Setup& setup);

/// The driven leg with the hottest settled oil; null when nothing is driven.
const LegAnswer* hottest_leg(const Setup& setup, const CoolerSide& side);

/// Effect of an assumed entry: change of oil peak and of the largest life share when it alone
/// goes to each end of its plausible range.
struct Worth {
    Entry entry;
    double oil_low_K = 0;
    double oil_high_K = 0;
    double life_low_share = 0;
    double life_high_share = 0;
};

/// Where more legs than this assume the same key, such as their pace, they go to their ends
/// together, as the key leg.*.pace: nobody looks them up one by one. Judgement.
inline constexpr std::size_t most_legs_alone = 12;

/// The largest effect on the oil first. An entry with an end that contradicts the other entries, or
/// needs a further one, is left out.
std::vector<Worth> assumptions_by_worth(const Document& document, const ReadSetup& read,
                                        const ForEach& for_each = one_by_one);

}  // namespace caseload
