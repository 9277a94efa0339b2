// SPDX-License-Identifier: MIT
// Loads that one setup takes over from another one.
#pragma once

#include "caseload/loads.hpp"

namespace caseload {

/// A setup reduced to what the forces in its legs are calculated from, beside the legs themselves.
/// They are calculated from it and from nothing else, so what is missing here is missing in all
/// loads.
Setup forces_basis(const Setup& setup);

/// Loads with what those of the legs came from, for similar setups.
struct KeptLoads {
    Setup basis;
    std::vector<LegInput> legs;
    Loads loads;
};
KeptLoads keep_loads(const Setup& setup);

/// The same as calculate_loads. A leg is taken over where all its inputs are equal.
Loads loads_like(const Setup& setup, const KeptLoads& like);

/// The loads of a setup and its basis; `like` may be null.
Loads loads_on(const Setup& setup, const Setup& basis, const KeptLoads* like);

}  // namespace caseload
