// SPDX-License-Identifier: MIT
// The chain in ten lines: setup in, answer out.
#pragma once

#include "caseload/input.hpp"
#include "caseload/intervals.hpp"

#include <string>
#include <vector>

namespace caseload {

struct Side {                  ///< with or without the cooler
    std::vector<Steady> legs;  ///< per leg; a stop has none and stays default
    EventHeat event;
    Damage damage;
    Intervals intervals;
};

struct Assessment {
    std::string verdict;  ///< fine | watch | stop
    std::string decides;  ///< one sentence
    bool has_cooler = false;
    Side fitted;          ///< as the setup says
    Side without;         ///< no cooler; equal to fitted when none is fitted
    double spread_K = 0;  ///< overall uncertainty of an unmeasured case, either way
    double driving_h = 0;
    double distance_m = 0;
    Notes notes;
};

/// Uncertainty of the oil temperature of a case nobody has measured: 8 K with a cooler that carries
/// most of the heat, 30 K without. From a sensitivity study of the heat balance; judgement.
inline constexpr double spread_with_cooler_K = 8;
inline constexpr double spread_without_K = 30;

Assessment assess(const Setup& setup);

/// What an assumed entry is worth: change of oil peak and of the largest life share when it alone
/// goes to each end of its credible range.
struct Worth {
    Entry entry;
    double oil_low_K = 0;
    double oil_high_K = 0;
    double life_low_share = 0;
    double life_high_share = 0;
};
std::vector<Worth> assumptions_by_worth(const Document& document, const ReadSetup& read);

}  // namespace caseload
