// SPDX-License-Identifier: MIT
// One event many times over, from tables made once. tests/ask holds the results against the direct
// chain.
#pragma once

#include "ask/fast_tables.hpp"
#include "caseload/ask/band.hpp"

#include <utility>
#include <vector>

namespace caseload {

/// Tables for the draws of a band.
inline FastOptions tables_for(FastUse use, const BandOptions& options) {
    return {use, options.for_tables ? options.for_tables : options.for_each, options.shared.get()};
}

/// Oil temperature of one draw at given moments of the event, ascending from 0.
struct OilTrace {
    std::vector<double> at_s;
    std::vector<double> oil_degC{};
};

class FastCase {
public:
    explicit FastCase(const Setup& setup, FastUse use = FastUse::everything,
                      const ForEach& for_each = one_by_one)
        : tables_(setup, {use, for_each}) {}
    FastCase(const Setup& setup, const FastOptions& options) : tables_(setup, options) {}
    /// The same case with another core and the same thermostat, at a fraction of the price of a new
    /// one.
    [[nodiscard]] FastCase with_core(const CoolerInput& cooler) const {
        return FastCase(tables_.with_core(cooler));
    }

    /// `trace` may be null; else the oil on the way is recorded, which changes nothing else.
    DrawResult run(const Factors& factors, bool cooler, OilTrace* trace = nullptr) const;
    struct BothSides {
        DrawResult with_cooler;
        DrawResult without;
    };
    /// Both at less than the price of two: same results as run(). Without the cooler nothing is
    /// used up unless `lives_without`.
    [[nodiscard]] BothSides run_both(const Factors& factors, OilTrace* with = nullptr,
                                     OilTrace* without = nullptr, bool lives_without = true) const;
    /// The event's oil peak in each draw of the band, or of what was measured.
    [[nodiscard]] std::vector<double> oil_peaks_degC(bool cooler, const BandOptions& draws) const;

private:
    explicit FastCase(FastTables tables) : tables_(std::move(tables)) {}

    FastTables tables_;
};

}  // namespace caseload
