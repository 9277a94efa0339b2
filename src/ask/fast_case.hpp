// SPDX-License-Identifier: MIT
// One event many times over, from tables made once. tests/ask compares the results with the direct
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

/// Whether draws are calculated by vectors wider than every processor of this kind has.
bool has_wide_vectors();

class FourStore;

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
    /// The same case with another core and the same thermostat, far faster than a new one.
    [[nodiscard]] FastCase with_core(const CoolerInput& cooler) const {
        return FastCase(tables_.with_core(cooler));
    }

    static constexpr std::size_t side_by_side = at_once;
    /// One side of a draw. `trace` may be null; else the oil on the way is recorded, which changes
    /// nothing else.
    struct AskedSide {
        const Factors* factors;  ///< the same place for both sides of a draw: blended once
        bool cooler;
        OilTrace* trace = nullptr;
        bool lives = true;  ///< also lives, where the tables are for everything
    };
    /// Plain: as on a machine without wider vectors. The same bits.
    enum class Vectors { widest, plain };
    /// Four sides in less time than two; same results as one by one. Groups of four are
    /// calculated by `for_each`, which may be on several threads.
    [[nodiscard]] std::vector<DrawResult> run(const std::vector<AskedSide>& asked,
                                              const ForEach& for_each = one_by_one,
                                              Vectors vectors = Vectors::widest) const;
    DrawResult run(const Factors& factors, bool cooler, OilTrace* trace = nullptr) const;
    /// Each draw of the band, or of what was measured.
    [[nodiscard]] std::vector<DrawResult> draws(bool cooler, const BandOptions& draws) const;
    /// The event's oil peak in each.
    [[nodiscard]] std::vector<double> oil_peaks_degC(bool cooler, const BandOptions& draws) const;

private:
    explicit FastCase(FastTables tables) : tables_(std::move(tables)) {}
    struct Group {
        const AskedSide* sides;
        std::size_t count;  ///< at most four
    };
    void run_group(const Group& group, FourStore& store, DrawResult* results,
                   Vectors vectors) const;

    FastTables tables_;
};

}  // namespace caseload
