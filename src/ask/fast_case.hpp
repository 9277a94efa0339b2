// SPDX-License-Identifier: MIT
// One event many times over, from tables made once. tests/ask holds the results against the direct
// chain.
#pragma once

#include "ask/fast_tables.hpp"
#include "caseload/ask/band.hpp"

#include <vector>

namespace caseload {

/// Oil temperature of one draw at given moments of the event, ascending from 0.
struct OilTrace {
    std::vector<double> at_s;
    std::vector<double> oil_degC{};
};

class FastCase {
public:
    explicit FastCase(const Setup& setup, FastUse use = FastUse::everything)
        : tables_(setup, use) {}

    [[nodiscard]] DrawResult run(const Factors& factors, bool cooler) const;
    /// The same, and the oil on the way.
    DrawResult follow(const Factors& factors, bool cooler, OilTrace& trace) const;

private:
    FastTables tables_;
};

}  // namespace caseload
