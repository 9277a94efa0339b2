// SPDX-License-Identifier: MIT
// Oxidation life of a lubricating oil against temperature.
#pragma once

#include "caseload/units.hpp"

namespace caseload::booser {

/// k1 of an extreme-pressure mineral gear oil. Booser; from memory.
inline constexpr double k1_mineral = -9.31;
/// k1 of a synthetic gear oil: judgement, about three times the life of the mineral one.
inline constexpr double k1_synthetic = -8.8;

struct Dose {
    double k1;
    double temp_degC;
};

/// Hours to the end of the oil's oxidation life at one temperature.
///
///     log10 L = k1 + 4750 / T,   T in K
///
/// Range    temp_degC from -100 to 500.
/// Note     scatter is a factor of 3 either way; race oil is normally changed long before.
/// Source   booser-oxidation, life-law
[[nodiscard]] double oxidation_life_h(const Dose& dose);

/// log10 L of the same, unchecked, for what asks it many times.
/// Source   booser-oxidation, life-law
[[nodiscard]] inline double log10_oxidation_life(const Dose& dose) {
    return dose.k1 + 4750 / K_from_degC(dose.temp_degC);
}

}  // namespace caseload::booser
