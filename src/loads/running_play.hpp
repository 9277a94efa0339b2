// SPDX-License-Identifier: MIT
// Radial play of a bearing that turns in a hot case.
#pragma once

#include "caseload/loads.hpp"

#include <optional>

namespace caseload {

/// All on diameter.
struct RunningPlay {
    double least_mm;  ///< delivered, by its class
    double largest_mm;
    double inner_fit_mm;  ///< entered, or the usual one
    double inner_mm;      ///< what the fit on the shaft takes
    double outer_mm;      ///< what the hot seat takes
    double warmer_mm;     ///< what an inner ring warmer than the outer takes

    /// At this place in the class, 0 least, 1 largest.
    [[nodiscard]] double at_mm(double place) const {
        return least_mm + place * (largest_mm - least_mm) - inner_mm - outer_mm - warmer_mm;
    }
};

/// None: its kind, its bore or its having no radial load leave it without one.
std::optional<RunningPlay> running_play(const Setup& setup, const BearingInput& input,
                                        const BearingData& data);

/// The same before it has turned: ring, case and shaft at this temperature.
std::optional<RunningPlay> cold_play(const Setup& setup, const BearingInput& input,
                                     const BearingData& data, double temp_degC);

}  // namespace caseload
