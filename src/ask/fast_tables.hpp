// SPDX-License-Identifier: MIT
// What the fast case looks up instead of calculating: tables of the direct chain's own functions.
#pragma once

#include "ask/fast_cooler.hpp"
#include "ask/fast_lives.hpp"
#include "ask/fast_outside.hpp"
#include "caseload/ask/band.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace caseload {

class SharedTables;

/// What is asked of the tables: all of a draw of the band; its temperatures and teeth to the last
/// bit as with everything; its temperatures; or temperatures with the wider factors of a
/// calibration.
enum class FastUse { everything, same_temperatures, drawn_temperatures, temperatures };

struct LossTables {
    ByLoss<Row> by_source;  ///< each at a factor of 1; of bearings and churning not used
    /// By the logarithm of fast churning over slow, slow churning 1; empty rows: nothing dips.
    std::array<Row, FastNodes::churnings> churning;
};

struct LegTables {
    bool driven = false;  ///< is in event.run
    bool stop = false;
    double drive_power_W = 0;
    std::array<std::optional<LossTables>, 2> losses;  ///< [pump runs]
    /// Tooth friction over that at load factor 1, by the logarithm of the load factor: its bend at
    /// the least line load wants close points; its course over temperature is the same at every
    /// load.
    Grid mesh_ratio;
};

struct FastOptions {
    FastUse use = FastUse::everything;
    ForEach for_each = one_by_one;   ///< nodes are calculated by it, on several threads perhaps
    SharedTables* shared = nullptr;  ///< where tables of cases much like this one are; null: none
    /// How hot the oil is expected to get where lives are used. Where it gets hotter more is made,
    /// which changes no answer.
    double lives_to_degC = oil_ceiling_degC;
};

struct FastTables : FastGrids {
    explicit FastTables(Setup given, const FastOptions& options = {});
    /// With another core in the same place: new tables of its heat, all others taken over.
    /// Throws Error{domain} for another thermostat: the grids depend on it.
    [[nodiscard]] FastTables with_core(const CoolerInput& core) const;

    FastUse use;
    FastNodes nodes;
    Setup setup;
    Capacities capacities;
    Conductances driving;
    double wall_resistance_KpW = 0;  ///< oil to housing, the part the film factor does not change
    double film_resistance_KpW = 0;
    double start_degC = 0;
    std::vector<LegTables> legs;
    std::vector<std::string> bearings;
    std::shared_ptr<LoadedTables> loaded_tables;
    std::shared_ptr<LifeTables> life_tables;  ///< null: not wanted
    std::shared_ptr<OutsideTables> outside_tables;
    std::shared_ptr<CoolerTables> cooler_tables;
    struct ToothGrids {
        Grid flank;  ///< worst flank, by the logarithm of the load factor
        Grid root;
    };
    std::vector<ToothGrids> teeth;  ///< per gear
    std::size_t longest_run = 0;    ///< place in event.run of the longest drive leg's last run

private:
    [[nodiscard]] bool additives_may_end(const Loads& loads) const;
    void grids(const Prepared& nominal);
    void film(const Loads& loads);
    void note_runs(const Prepared& nominal);
    [[nodiscard]] std::vector<bool> in_run() const;
    [[nodiscard]] bool pump_may_stand(std::size_t leg) const;
    void tabulate_losses(const Prepared& nominal);
    void mesh_ratios(const Prepared& nominal);
    void tabulate_churning(const Prepared& nominal);
    void tabulate_teeth(const Prepared& nominal);
    void take_loaded(const Prepared& nominal, SharedTables* shared);
    void make(const ForEach& for_each) const;
    /// Points of the damage grid that are needed up to some oil temperature.
    [[nodiscard]] std::size_t damage_points_to(double oil_degC) const;
};

}  // namespace caseload
