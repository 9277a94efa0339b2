// SPDX-License-Identifier: MIT
// Draws of a measured case: its factors have the distribution the readings left, in place of that
// of band.toml.
#pragma once

#include "caseload/ask/band.hpp"
#include "caseload/factors.hpp"
#include "caseload/matrix.hpp"

#include <array>
#include <cstddef>

namespace caseload {

/// Scatter of a reading, one standard deviation. Judgement.
inline constexpr double line_reading_K = 2;   ///< a thermometer in the oil
inline constexpr double skin_reading_K = 4;   ///< on the housing below the oil level
inline constexpr double above_reading_K = 6;  ///< above it, where only splash heats the wall

/// Logarithms of the heat factors.
using FactorPlace = std::array<double, heat_factors>;
Factors factors_at(const FactorPlace& ln);

/// Of one row of the band.
double heat_factor(const Factors& factors, std::size_t row);

/// Mean and standard deviation of the logarithm of a row's factor.
struct LnBand {
    double middle;
    double spread;
};
LnBand ln_band(std::size_t row, const CaseRanges& ranges);

/// Draws factors of a case: the band's, and within what was measured on it.
class FactorDraws {
public:
    /// Throws Error{input} when the correlations of [measured] contradict each other.
    explicit FactorDraws(const Setup& setup);
    FactorDraws(const Setup& setup, const CaseRanges& ranges);
    Factors operator()(const std::array<double, band_factors>& point) const;

private:
    CaseRanges ranges_;
    bool measured_ = false;
    FactorPlace ln_middle_{};
    std::array<double, heat_factors> spread_{};
    Matrix lower_;  ///< triangle of the correlations
};

}  // namespace caseload
