// SPDX-License-Identifier: MIT
// What temperatures read on a case say of its factors: docs/calibrate.md.
#pragma once

#include "caseload/ask/measured.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace caseload {

/// Rows of the band that are fitted where the readings can tell them apart: windage and mist,
/// bearing friction, outside air, inside wall.
inline constexpr std::array<std::size_t, 4> fitted_rows{2, 5, 8, 9};

/// A factor counts as told apart when the readings alone leave at most this share of the band's
/// spread of it: the band's own range, left out of the fit, would then have carried a fifth of the
/// weight or less, 1 / (1 + 1 / 0.5^2).
inline constexpr double told_apart_share = 0.5;

struct FoundFactor {
    std::string name;  ///< row of the band
    std::string words;
    bool told_apart = false;
    Percentiles factor;      ///< after the readings
    double spread_left = 0;  ///< standard deviation of the logarithm over that of the band
    std::string like;        ///< not told apart: words of what it looks like; "": nothing
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

/// Throws Error{input} when there are no readings, Error{domain} when no believable factor explains
/// them.
Calibration calibrate(const Setup& setup, const std::string& date, const ForEach& for_each);

}  // namespace caseload
