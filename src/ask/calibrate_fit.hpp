// SPDX-License-Identifier: MIT
// Most likely factors behind temperatures, and how sure they are.
#pragma once

#include "ask/calibrate_model.hpp"
#include "caseload/matrix.hpp"

#include <array>
#include <vector>

namespace caseload {

/// What is fitted.
struct FitPlan {
    std::array<bool, heat_factors> fitted{};
    /// What is not free stays at 1.
    std::array<bool, heat_factors> free{};
    /// Prior standard deviation of a fitted factor over that of the band, both of the logarithm.
    double prior_width = 1;
    CaseRanges ranges;  ///< as `drawn_factors`
};

/// A normal distribution of the logarithms about the most likely ones.
struct Fit {
    bool found = false;
    FactorPlace ln{};
    std::array<bool, heat_factors> fitted{};
    std::vector<std::size_t> rows;  ///< of the band: the free ones, in order
    Matrix covariance;              ///< of them
    std::vector<double> calculated_degC;
    std::vector<std::vector<double>> slope_K;  ///< [observation][free]
    std::vector<double> weight_pK2;            ///< information of each observation, 1/K2
    double misfit = 0;  ///< sum of squares over scatter and prior at the most likely place; none
                        ///< for a temperature within its label's window
};

/// Fisher scoring on the logarithm of likelihood and prior; a window of a temperature label counts
/// by the chance of a temperature within it. Begins at `from`, of a fit with the same free factors.
Fit fit_factors(const ReadingModel& model, const std::vector<Observation>& seen,
                const FitPlan& plan, const Fit& from);
/// Temperatures and their slopes at the middle of the prior, independent of the readings.
Fit middle_of(const ReadingModel& model, const FitPlan& plan);

/// Logarithm of the likelihood of one observation at a calculated temperature, its slope, and what
/// its information (negative second derivative).
struct Likelihood {
    double log = 0;
    double slope_pK = 0;
    double information_pK2 = 0;
};
Likelihood likelihood(const Observation& seen, double calculated_degC);

}  // namespace caseload
