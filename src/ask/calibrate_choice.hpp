// SPDX-License-Identifier: MIT
// Which factors the readings can separate, and the fit of those.
#pragma once

#include "ask/calibrate_fit.hpp"

#include <array>
#include <string>
#include <vector>

namespace caseload {

struct Choice {
    Fit fit;
    CaseRanges ranges;                           ///< as `drawn_factors`
    std::array<std::string, heat_factors> like;  ///< of one not found: what it may be confused with
};

/// A fitted factor's own prior is this many times as wide as the band's: it holds the fit together
/// and pulls a found factor by at most (0.5 / 10)^2 = 0.25 % of its distance.
inline constexpr double fitted_prior_width = 10;

/// Drops one factor at a time until the readings separate the rest, then fits those; the dropped
/// ones stay uncertain within the band. The model outlives it.
class FactorChoice {
public:
    FactorChoice(const ReadingModel& model, const CaseRanges& ranges);
    [[nodiscard]] Choice operator()(const std::vector<Observation>& seen) const;

private:
    const ReadingModel& model_;
    CaseRanges ranges_;
    Fit middle_;
};

}  // namespace caseload
