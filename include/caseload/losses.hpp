// SPDX-License-Identifier: MIT
// Second step: every loss at an oil temperature, by source. Nominal torque, fresh oil.
#pragma once

#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/bearing_heat.hpp"
#include "caseload/formulas/churning.hpp"
#include "caseload/formulas/oil_thermal.hpp"
#include "caseload/loads.hpp"
#include "caseload/quantity.hpp"

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

namespace caseload {

/// No temperature above this is printed, and losses above it are those at it: beyond the oil's
/// tested range, and beyond the limits of seals and rings.
inline constexpr double oil_ceiling_degC = 160;

/// Temperatures of what stores heat: oil, housing, gears with shafts.
struct Nodes {
    double oil_degC = 0;
    double housing_degC = 0;
    double steel_degC = 0;

    bool operator==(const Nodes&) const = default;
};
CASELOAD_MEMBERS(Nodes, "nodes", oil_degC, housing_degC, steel_degC);

/// Above this a bearing film has the viscosity at this temperature; judgement, well above the
/// limits of rings.
inline constexpr double hottest_film_degC = 250;

/// The oil as it is in the can and as used.
struct Oil {
    astm_d341::Line fresh{};
    astm_d341::Line sheared{};
    double density_15C_kgpm3 = 0;
    oil_thermal::BaseOil base = oil_thermal::BaseOil::mineral;

    bool operator==(const Oil&) const = default;
};

Oil make_oil(const OilInput& input);
double oil_density_kgpm3(const Oil& oil, double temp_degC);
double oil_specific_heat_JpkgK(const Oil& oil, double temp_degC);

/// Heat made, by source. W, time-mean over whatever it was summed over.
struct LossLedger {
    double mesh_W = 0;
    double bearings_W = 0;
    double windage_W = 0;
    double churning_W = 0;
    double thrown_W = 0;
    double pocketing_W = 0;
    double seals_W = 0;
    double pump_W = 0;
};

/// One source of heat. Another one is a member of the ledger, a row here, what it makes in
/// losses.cpp, its words in tables/quantities.toml, its formula in tables/why.toml.
struct LossRow {
    std::string_view name;  ///< in answers; of [losses] in tables/quantities.toml
    double LossLedger::* power_W;
    double to_oil;  ///< shares of where the heat appears; all 0: by its own heat paths
    double to_steel;
    double to_housing;
    double Factors::* factor;  ///< of a case as drawn or measured
};

/// In the order of the ledger. Source of the shares: judgement after thermal-network practice.
/// A bearing's loss goes where its heat paths lead.
inline constexpr std::array<LossRow, 8> loss_rows{
    {{"mesh_W", &LossLedger::mesh_W, 0.5, 0.5, 0, &Factors::mesh},
     {"bearings_W", &LossLedger::bearings_W, 0, 0, 0, &Factors::bearing_friction},
     {"windage_W", &LossLedger::windage_W, 1, 0, 0, &Factors::windage},
     {"churning_W", &LossLedger::churning_W, 1, 0, 0, &Factors::churning},
     {"thrown_W", &LossLedger::thrown_W, 1, 0, 0, &Factors::thrown},
     {"pocketing_W", &LossLedger::pocketing_W, 1, 0, 0, &Factors::pocketing},
     {"seals_W", &LossLedger::seals_W, 0, 0.5, 0.5, &Factors::seals},
     {"pump_W", &LossLedger::pump_W, 1, 0, 0, &Factors::pump}}};

/// Row of a source.
constexpr std::size_t loss_row(double LossLedger::* power_W) {
    std::size_t row = 0;
    while (loss_rows.at(row).power_W != power_W) ++row;
    return row;
}

/// A value for each source, as loss_rows.
template <class T>
using ByLoss = std::array<T, loss_rows.size()>;

template <>
struct Members<LossLedger> {
    static constexpr std::string_view owner = "losses";
    static constexpr void all(auto&& member) {
        for (const LossRow& row : loss_rows) member(row.name, row.power_W);
    }
};

/// Sum of the sources.
double total_W(const LossLedger& losses);

/// Where the heat appears.
struct HeatSplit {
    double oil_W = 0;
    double steel_W = 0;
    double housing_W = 0;
};

/// Loss split between oil, steel and housing by the shares of loss_rows: without that of bearings.
HeatSplit split(const LossLedger& losses);

/// Heat paths of a bearing's film to housing, gears with shafts, and oil.
using BearingPaths = bearing_heat::Paths;

/// Those of every bearing: by its seat's fit, its shaft, the oil that reaches it.
std::vector<BearingPaths> bearing_paths(const Setup& setup, const Loads& loads, const Oil& oil);

/// How heat passes the seat of an outer ring, and the retainer's where there is one.
struct SeatHeat {
    double film_Wpm2K = 0;
    double gap_mm = 0;  ///< where the fit is known
    double boss_outside_mm = 0;
    bool retainer = false;  ///< and its fit is known
    double retainer_gap_mm = 0;
};
SeatHeat seat_heat(const Setup& setup, const BearingInput& input, const BearingData& data);

/// Shaft between a bearing's side and its gear's.
double shaft_to_gear_mm(const Setup& setup, const BearingInput& bearing);

/// Temperature of a bearing's film without its loss, no more than losses are followed to.
double unheated_degC(const BearingPaths& paths, const Nodes& nodes);

/// The same by shares of the paths, whatever the temperature.
[[nodiscard]] inline double mixed_degC(const bearing_heat::Shares& shares, const Nodes& nodes) {
    return shares.oil * nodes.oil_degC + shares.housing * nodes.housing_degC +
           shares.steel * nodes.steel_degC;
}

/// Heat a bearing gives; negative: takes. They sum to its loss.
struct BearingHeat {
    double to_housing_W = 0;
    double to_steel_W = 0;
    double to_oil_W = 0;
};
CASELOAD_MEMBERS(BearingHeat, "bearing_heat", to_housing_W, to_steel_W, to_oil_W);
BearingHeat bearing_heat_at(const BearingPaths& paths, const Nodes& nodes, double loss_W);

/// Losses of bearings to where their paths lead, beside what the bridges between the ends carry.
HeatSplit split(const std::vector<double>& bearing_W, const std::vector<BearingPaths>& paths);

struct BearingRun {
    double loss_W = 0;
    double film_degC = 0;
    double n_rpm = 0;
};
CASELOAD_MEMBERS(BearingRun, "bearing_run", loss_W, film_degC, n_rpm);

struct LossesAt {
    LossLedger ledger;                          ///< time-mean over the leg's bins
    std::vector<double> bearing_W;              ///< per bearing, time-mean
    std::vector<std::vector<BearingRun>> runs;  ///< [bin][bearing]
};
CASELOAD_MEMBERS(LossesAt, "losses_at", ledger, bearing_W, runs);

/// What the losses of one leg need, apart from the oil temperature.
struct PreparedLosses {
    struct BearingTerm {
        double n_rpm = 0;
        double f0 = 0;
        double d_m_mm = 0;
        double load_torque_Nmm = 0;
        double path_WpK = 0;  ///< from its film, all three together
        double friction = 1;  ///< factor on both torques

        bool operator==(const BearingTerm&) const = default;
    };
    struct MeshTerm {
        double power_W = 0;      ///< through the mesh, absolute
        double loss_factor = 0;  ///< H_V
        double F_bt_Npmm = 0;    ///< line load F_bt / b
        double sum_speed_mps = 0;
        double rho_redC_mm = 0;
        double pitch_speed_mps = 0;

        bool operator==(const MeshTerm&) const = default;
    };
    struct BinTerm {
        double share = 0;
        std::vector<BearingTerm> bearings;
        std::vector<MeshTerm> meshes;
        std::vector<double> shaft_omega_radps;

        bool operator==(const BinTerm&) const = default;
    };
    struct GearTerm {
        churning::Gear gear{};     ///< at its working pitch circle
        double depth_m = 0;        ///< of that circle in the oil; 0 or less: the gear runs in air
        double helical_share = 1;  ///< of the windage of a spur gear

        bool operator==(const GearTerm&) const = default;
    };
    int train = 0;                ///< as LegLoads::train
    std::vector<BinTerm> bins;    ///< empty for a stop
    std::vector<GearTerm> gears;  ///< as train.shafts

    bool operator==(const PreparedLosses&) const = default;
};

/// Depth of each gear's working pitch circle below the oil, in train order, from the depth of the
/// lowest tip circle while nothing turns. Negative: above the oil.
std::vector<double> pitch_depths_mm(const Train& train, double lowest_tip_depth_mm);

/// Factor on what a gear churns at a pitch-line speed: both of a draw, blended as their ranges are.
double churning_factor(const Factors& factors, double v_mps);

PreparedLosses prepare_losses(const Setup& setup, const Loads& loads, const LegLoads& leg,
                              const std::vector<BearingPaths>& paths);

/// Losses of a leg. The part of a gear's rim above the oil has windage; a gear whose pitch circle
/// dips churns too; oil is thrown and squeezed from the teeth in scavenged cases only. The
/// pump's own power is part of the ledger when it runs.
struct OilState {
    double temp_degC = 0;
    bool pump_runs = true;
};
/// Films here as warm as if housing, gears and shafts had the oil's temperature.
LossesAt losses_at(const Setup& setup, const Loads& loads, const Oil& oil,
                   const PreparedLosses& leg, const OilState& state);

/// The same with the bearings' runs, [bin][bearing], already calculated.
LossesAt losses_at(const Setup& setup, const Loads& loads, const Oil& oil,
                   const PreparedLosses& leg, const OilState& state,
                   std::vector<std::vector<BearingRun>> runs);

/// Flow of the pump at a speed of the case input, L/min; 0 without a pump or when it does not turn.
double pump_flow_Lpmin(const Setup& setup, double input_rpm);

/// Where a leg's losses leave the range their formulas were tested in, with oil at a temperature.
Notes loss_notes(const Setup& setup, const Loads& loads, const Oil& oil, const PreparedLosses& leg,
                 double oil_temp_degC);

/// Temperature of a bearing's film: unheated + own loss / (sum of its paths), with the loss taken
/// at the film's viscosity.
BearingRun run_bearing(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                       double unheated_degC);
/// The same, faster, from a film near it. At the idle torque's step two films may fit: the result
/// is the colder.
BearingRun run_bearing_near(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                            double unheated_degC, double film_degC);
/// The unheated temperature at which a film is this hot: the inverse of `run_bearing`. May lie
/// outside what an oil is followed to.
double unheated_behind_film_degC(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                                 double film_degC);
/// Of every bearing, time-mean over the bins, from its runs.
std::vector<double> mean_losses_W(const PreparedLosses& leg,
                                  const std::vector<std::vector<BearingRun>>& runs);
/// Of every bearing in every bin, [bin][bearing].
std::vector<std::vector<BearingRun>> bearing_runs(const Oil& oil, const PreparedLosses& leg,
                                                  const std::vector<BearingPaths>& paths,
                                                  const Nodes& nodes);

}  // namespace caseload
