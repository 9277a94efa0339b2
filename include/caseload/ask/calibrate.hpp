// SPDX-License-Identifier: MIT
// Factors of a case by temperatures read on it: docs/calibrate.md.
#pragma once

#include "caseload/ask/measured.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace caseload {

/// Rows of band.toml that are fitted where the readings can separate them: windage and mist,
/// bearing friction, outside air, inside wall.
inline constexpr std::array<std::size_t, 4> fitted_rows{2, 5, 8, 9};

/// A factor counts as found when the readings alone leave at most this share of the spread that
/// band.toml gives it: that range, left out of the fit, would then have had a fifth of the weight
/// or less, 1 / (1 + 1 / 0.5^2).
inline constexpr double told_apart_share = 0.5;

struct FoundFactor {
    std::string name;  ///< row of the band
    std::string words;
    bool told_apart = false;
    Percentiles factor;      ///< after the readings
    double spread_left = 0;  ///< standard deviation of the logarithm over that of the band
    std::string like;        ///< not found: the factor it may be confused with, in words; "": none
};

struct ComparedReading {
    std::string name;
    bool oil = true;
    double low_degC = 0;  ///< as read; low = high unless it is a temperature label
    double high_degC = 0;
    double before_degC = 0;  ///< calculated with every factor at its middle
    double after_degC = 0;
    double off_scatters = 0;  ///< calculated after less read, over the scatter
};

/// Oil peak of the event, by the band and within the readings.
struct OilPeak {
    bool cooler = false;
    Percentiles before_degC;
    Percentiles after_degC;
};

struct Calibration {
    std::vector<FoundFactor> factors;  ///< of fitted_rows
    std::vector<ComparedReading> readings;
    int rows = 0;        ///< temperatures, each row of a log one
    double misfit = 0;   ///< sum of squares over their expectation
    double chance = 1;   ///< of a misfit as large
    double widened = 1;  ///< what every spread was widened by for it
    std::vector<OilPeak> peaks;
    Measured measured;                      ///< for the setup
    std::vector<MeasuredFactor> following;  ///< factors that follow one of `measured`
};

/// Throws Error{input} when there are no readings, Error{domain} when only factors beyond their
/// limits explain them.
Calibration calibrate(const Setup& setup, const std::string& date, const ForEach& for_each);

}  // namespace caseload
