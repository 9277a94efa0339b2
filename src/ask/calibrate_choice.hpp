// SPDX-License-Identifier: MIT
// Which factors the readings can tell apart, and the fit of those.
#pragma once

#include "ask/calibrate_fit.hpp"

#include <array>
#include <string>
#include <vector>

namespace caseload {

struct Choice {
    Fit fit;
    double helical = 0;                          ///< as `drawn_factors`
    std::array<std::string, heat_factors> like;  ///< of what is not told apart
};

/// A fitted factor's own prior is this many times as wide as the band's: it holds the fit together
/// and pulls a factor told apart by at most (0.5 / 10)^2 = 0.25 % of its distance.
inline constexpr double fitted_prior_width = 10;

/// Drops one factor at a time until the readings tell the others apart, then fits those; all others
/// stay uncertain within the band. The model outlives it.
class FactorChoice {
public:
    FactorChoice(const ReadingModel& model, double helical);
    [[nodiscard]] Choice operator()(const std::vector<Observation>& seen) const;

private:
    const ReadingModel& model_;
    double helical_;
    Fit middle_;
};

}  // namespace caseload
