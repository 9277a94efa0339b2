// SPDX-License-Identifier: MIT
// What the fast case looks up instead of calculating: tables of the direct chain's own functions.
#pragma once

#include "ask/fast_grid.hpp"
#include "caseload/ask/band.hpp"
#include "caseload/damage.hpp"
#include "caseload/teeth.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace caseload {

class FilmRates;

// How far the factors that are not simple multipliers may go: beyond what band.toml draws in 1e5
// draws and what a calibration may find. Node counts hold the direct chain to 0.05 K (tests/ask).
struct FastNodes {
    static constexpr std::size_t loads = 5;
    static constexpr std::size_t frictions = 5;
    static constexpr std::size_t air_shares = 7;
    static constexpr std::size_t face_speeds = 5;
    static constexpr std::size_t airs = 3;
    static constexpr std::size_t churnings = 5;
    static constexpr std::size_t classes = 3;
    // Logarithms of the factors; kelvin for the air.
    FactorNodes<loads> load{{-0.45, 0.45}};
    FactorNodes<frictions> friction{{std::log(0.4), std::log(2.2)}};
    FactorNodes<air_shares> air_share{{std::log(0.3), std::log(2.4)}};
    FactorNodes<face_speeds> face{{std::log(0.4), std::log(2.1)}};
    FactorNodes<airs> air{{-6, 6}};
    /// Fast churning over slow: both ranges of a draw, -0.41 to 0.39, and beyond for a measured
    /// case.
    FactorNodes<churnings> churning_ratio{{-1, 1}};

    /// Ends for a case that was measured: its factors may lie where nobody would draw them.
    static constexpr double least_friction = 0.25;
    static constexpr double most_friction = 4;
    static constexpr double least_air_share = 0.2;
    static constexpr double most_air_share = 5;
};

/// What is asked of the tables: all of a draw of the band; its temperatures to the last bit as with
/// everything; its temperatures; or temperatures with the wider factors of a calibration.
enum class FastUse { everything, same_temperatures, drawn_temperatures, temperatures };

using Row = std::vector<double>;

/// Nodes of tables over two factors, those of the second one after the other.
using LoadedTable = NodeTable<FastNodes::loads * FastNodes::frictions>;
using OutsideTable = NodeTable<FastNodes::airs * FastNodes::air_shares>;
using CoolerTable = NodeTable<FastNodes::airs * FastNodes::face_speeds>;

/// Speeds of the air along the housing, in logarithms, between which its heat is interpolated to
/// 1e-8 of itself (tests/ask).
inline constexpr std::size_t air_speeds = 14;
using AirSpeeds = FactorNodes<air_speeds>;

struct LossTables {
    Row windage;
    Row pocketing;
    Row thrown;
    /// By the logarithm of fast churning over slow, slow churning 1; empty rows: nothing dips.
    std::array<Row, FastNodes::churnings> churning;
    Row seals;
    Row pump;
    Row mesh;
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
    LoadedTable bearings_W;  ///< losses of all, on the coarse grid
    OutsideTable outside;    ///< over housing less air
    /// Weights of the heat at `FastTables::air_mps`, by node of the air's share: mean of all bins.
    std::array<std::array<double, air_speeds>, FastNodes::air_shares> by_air_speed{};
    std::array<CoolerTable, 2> cooler;  ///< [fan runs], over oil, pump running
    /// Of life share per hour, additives helping in every bin of `steps`; [class][bearing].
    std::array<std::vector<LoadedTable>, FastNodes::classes> ln_rate;
    /// One bin of one bearing: above an oil temperature the additives no longer help.
    struct Step {
        std::size_t bin;
        double film_degC;
        LoadedTable::Weights oil_degC{};  ///< by node
        LoadedTable more;                 ///< what the rate then rises by, over that of `ln_rate`
    };
    std::array<std::vector<std::vector<Step>>, FastNodes::classes> steps;  ///< [class][bearing]
};

struct FastTables {
    /// Nodes are calculated by `for_each`, which may be on several threads.
    explicit FastTables(Setup given, FastUse use = FastUse::everything,
                        const ForEach& for_each = one_by_one);
    /// With another core in the same place: tables of what it passes anew, all others as they are.
    /// Throws Error{domain} for another thermostat: the grids stand on it.
    [[nodiscard]] FastTables with_core(const CoolerInput& cooler) const;

    FastUse use;
    FastNodes nodes;
    Setup setup;
    Capacities capacities;
    Conductances driving;
    double wall_resistance_KpW = 0;  ///< oil to housing, what the film factor does not touch
    double film_resistance_KpW = 0;
    double start_degC = 0;
    double case_air_degC = 0;
    Grid fine;
    Grid coarse;
    Grid damage;  ///< every `damage_stride`th point of `coarse`
    std::size_t damage_stride = 2;
    Grid outside;                              ///< over housing less air
    std::array<double, air_speeds> air_mps{};  ///< 0: no drive leg
    std::optional<Refine> refine_losses;
    std::optional<Refine> refine_damage;
    std::vector<LegTables> legs;
    std::vector<std::string> bearings;
    struct ToothGrids {
        Grid flank;  ///< worst flank, by the logarithm of the load factor
        Grid root;
    };
    std::vector<ToothGrids> teeth;  ///< per gear
    std::size_t longest_run = 0;    ///< place in event.run of the longest drive leg's last run

private:
    [[nodiscard]] bool additives_may_end() const;
    void grids();
    void film();
    void note_runs(const Prepared& nominal);
    [[nodiscard]] bool pump_may_stand(std::size_t leg) const;
    void tabulate_losses(const Prepared& nominal);
    void mesh_ratios(const Prepared& nominal);
    void tabulate_churning(const Prepared& nominal);
    void tabulate_loaded(std::size_t load);
    struct RatePlace {
        std::size_t leg;
        std::size_t node;
        std::size_t at;
    };
    /// Of all bearings where their films, [bin][bearing], are so hot.
    void rates_at(const std::vector<BinLoads>& bins,
                  const std::vector<std::vector<FilmRates>>& rates,
                  const std::vector<std::vector<double>>& films_degC, const RatePlace& place);
    void find_steps(const Prepared& nominal);
    struct NodePlace {
        std::size_t leg;
        std::size_t node;
    };
    void place_steps(const Oil& oil, const PreparedLosses& losses, const NodePlace& place);
    void tabulate_teeth(const Prepared& nominal);
    void outside_grid(const Loads& loads);
    void tabulate_outside(const Loads& loads, std::size_t air);
    void cooler_grid();
    void tabulate_cooler(const Loads& loads, std::size_t air);
};

}  // namespace caseload
