// SPDX-License-Identifier: MIT
// What the fast case looks up instead of calculating: tables of the direct chain's own functions.
#pragma once

#include "ask/drawn_paths.hpp"
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
    /// As by_source, at the paces beside the likely one; empty: none varied.
    std::array<ByLoss<Row>, FastNodes::paces - 1> at_pace;
    /// By the node of oil in the air; empty: not varied.
    std::array<Row, FastNodes::mists> windage;
    std::array<Row, FastNodes::mists> pocketing;
};

/// A leg's pace that is varied: slowest, likely, fastest; or the drawn duties of a calculated leg:
/// least drive power, likely, most, and those between.
struct PaceTables {
    using Each = std::array<double, FastNodes::paces>;
    static constexpr std::size_t likely = 1;
    static constexpr std::size_t varied = 3;  ///< paces of a leg that is not calculated
    /// Place of those beside the likely one.
    static constexpr std::size_t beside(std::size_t other) { return other == 0 ? 0 : other + 1; }
    static constexpr std::array<std::size_t, FastNodes::paces> duty{0, likely_duty,
                                                                    drawn_duties - 1, 1, 3};
    static_assert(drawn_duties == 5);

    bool calculated = false;
    Each mps{};
    Each drive_power_W{};
    /// Logarithm of the factor on the air at a core's face that gives the same heat: a fan makes it
    /// less than the pace's. [fan runs][pace]
    std::array<Each, 2> ln_face{};
    // Of a calculated leg; of others both go with the pace.
    Each ln_air{};   ///< of the factor on the air along the housing that takes the same heat
    Each ln_pump{};  ///< of the flow of a pump on the input

    /// Of the values at the three, by the parabola through them.
    [[nodiscard]] Each weights(double pace_mps) const {
        Each w{1, 1, 1};
        for (std::size_t i = 0; i < varied; ++i)
            for (std::size_t j = 0; j < varied; ++j)
                if (j != i) w[i] *= (pace_mps - mps[j]) / (mps[i] - mps[j]);
        return w;
    }
    /// Of one duty alone.
    [[nodiscard]] static Each weights_of_duty(std::size_t drawn) {
        Each w{};
        for (std::size_t i = 0; i < w.size(); ++i) w[i] = duty[i] == drawn ? 1 : 0;
        return w;
    }
};

struct LegTables {
    bool driven = false;  ///< is in event.run
    bool stop = false;
    double drive_power_W = 0;
    std::optional<PaceTables> pace;  ///< absent: not varied
    /// Churning over that at the likely pace, by the pace: it bends where its regime changes.
    Grid churning_by_pace;
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
    Conductances direct;  ///< paths beside those through bearings
    DrawnPaths bearing_paths;
    /// Bearings whose films without loss keep within a kelvin, taken for one with the mean of their
    /// shares by these weights: their losses.
    struct Alike {
        std::vector<std::size_t> bearings;
        std::vector<double> weights;
    };
    std::vector<Alike> films;
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
        /// Logarithm of their ratio, each pace beside the likely one over that.
        std::array<double, FastNodes::paces - 1> ln_flank_at_pace{};
        std::array<double, FastNodes::paces - 1> ln_root_at_pace{};
    };
    std::vector<ToothGrids> teeth;         ///< per gear
    std::optional<std::size_t> paced_leg;  ///< the longest whose pace is varied
    bool plays = false;                    ///< the play of bearings is varied
    double coat_area_m2 = 0;               ///< under dirt that is varied; 0: it is not
    std::optional<FactorNodes<FastNodes::mists>> mist_nodes;  ///< of `mist_place`
    /// Windage goes nearly straight over it.
    [[nodiscard]] double mist_place(double mist) const;
    std::size_t longest_run = 0;  ///< place in event.run of the longest drive leg's last run

private:
    [[nodiscard]] bool additives_may_end(const Loads& loads) const;
    void grids(const Prepared& nominal);
    void film(const Loads& loads);
    void group_films();
    void note_runs(const Prepared& nominal);
    [[nodiscard]] std::vector<bool> in_run() const;
    [[nodiscard]] bool pump_may_stand(std::size_t leg) const;
    /// The setup with each varied pace at this one.
    [[nodiscard]] Setup at_pace(std::size_t pace) const;
    void reach_paces();
    struct Reach {
        double low;
        double high;
    };
    void reach_air(const Reach& housing, const Reach& face);
    void note_paces(const Prepared& nominal, const std::vector<Prepared>& paced);
    void note_duties(const Prepared& nominal, const std::vector<Prepared>& paced);
    void tabulate_losses(const Prepared& nominal, const std::vector<Prepared>& paced);
    void tabulate_mist(const Prepared& nominal);
    void mesh_ratios(const Prepared& nominal);
    void tabulate_churning(const Prepared& nominal);
    void churning_by_pace(const Prepared& nominal);
    void tabulate_teeth(const Prepared& nominal, const std::vector<Prepared>& paced);
    void take_loaded(const Prepared& nominal, const std::vector<Prepared>& paced,
                     SharedTables* shared);
    void make(const ForEach& for_each) const;
    /// Points of the damage grid that are needed up to some oil temperature.
    [[nodiscard]] std::size_t damage_points_to(double oil_degC) const;
};

}  // namespace caseload
