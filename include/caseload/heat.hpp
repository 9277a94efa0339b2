// SPDX-License-Identifier: MIT
// Third step: where the heat goes. One network of oil, housing and steel, solved settled
// for each leg and through time for the event.
#pragma once

#include "caseload/losses.hpp"
#include "caseload/quantity.hpp"

#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace caseload {

/// In a case without a balance housing and oil pass the ceiling. Heat paths are calculated to this
/// temperature and extrapolated above it, in proportion to the difference to the air.
inline constexpr double hottest_path_degC = 460;

/// A thermostat opens fully over this range; a temperature switch goes off this far below its
/// point. Common practice, no published source.
inline constexpr double thermostat_range_K = 10;
inline constexpr double switch_hysteresis_K = 5;

/// Exhaust heat after stopping: idling this share of it stays, the rest decays with this time.
/// Judgement.
inline constexpr double exhaust_decay_s = 600;
inline constexpr double exhaust_idle_share = 0.3;

/// What the case is bolted to keeps its temperature this long in a stop; what it is over ambient
/// then decays with this time. Judgement.
inline constexpr double neighbour_keeps_s = 1800;
inline constexpr double neighbour_decay_s = 3600;

struct Capacities {
    double oil_JpK = 0;
    double housing_JpK = 0;
    double steel_JpK = 0;

    bool operator==(const Capacities&) const = default;
};

struct Conductances {
    double oil_housing_WpK = 0;
    double oil_steel_WpK = 0;
    double steel_housing_WpK = 0;
    double neighbour_WpK = 0;  ///< between the housing and what it is bolted to

    bool operator==(const Conductances&) const = default;
};

/// What drives the network at one moment.
struct Drives {
    HeatSplit made{};
    double outside_W = 0;  ///< housing to air and surroundings
    double cooler_W = 0;   ///< oil to cooler air
    double exhaust_W = 0;  ///< into the housing
    Conductances paths{};
    double neighbour_degC = 0;
};

/// Net heat into each node.
struct NetHeat {
    double oil_W = 0;
    double housing_W = 0;
    double steel_W = 0;
};
NetHeat net_heat(const Nodes& nodes, const Drives& drives);

/// A smooth curve through points (modified Akima); constant beyond its ends. Copies share what it
/// is made of, which never changes.
class Curve {
public:
    Curve() = default;
    Curve(std::vector<double> x, std::vector<double> y);
    [[nodiscard]] double operator()(double x) const;
    [[nodiscard]] const std::vector<double>& x() const;
    [[nodiscard]] const std::vector<double>& y() const;
    /// Whether both are copies of one curve.
    [[nodiscard]] bool is(const Curve& other) const { return made_ == other.made_; }
    struct Made;
    /// The curve itself, for many look-ups; null where there is none.
    [[nodiscard]] const Made* made() const { return made_.get(); }

private:
    std::shared_ptr<const Made> made_;
};

/// Integrates the network from t0 to t1 (Dormand-Prince, dense output), calling `seen` at every
/// multiple of `every_s` after t0 and at t1. `switched` may look at the state and return true to
/// stop there; the moment is then found to 1e-7 s and `seen` too. Returns the time reached.
struct Span {
    double t0_s = 0;
    double t1_s = 0;
    double every_s = 30;
};
double integrate(const Capacities& capacities, Nodes& nodes, const Span& span,
                 const std::function<Drives(double, const Nodes&)>& drives,
                 const std::function<void(double, const Nodes&)>& seen,
                 const std::function<bool(const Nodes&)>& switched = {});

/// The cooler reduced to what its rating says.
struct CoolerModel {
    bool fitted = false;
    double conductance_rating_WpK = 0;
    double air_mass_flux_rating = 0;  ///< rho v at the face, kg/(m2 s)
    double oil_mass_flow_rating_kgps = 0;
    double viscosity_rating = 0;  ///< nu rho, for the core's pressure drop
    double face_m2 = 0;

    bool operator==(const CoolerModel&) const = default;
};

/// Bearings whose films have the same paths: their films without loss have one temperature.
struct FilmGroup {
    BearingPaths paths;  ///< of each of them
    std::vector<std::size_t> bearings;

    bool operator==(const FilmGroup&) const = default;
};
std::vector<FilmGroup> film_groups(const std::vector<BearingPaths>& paths);

/// End play to aim at in the settled case, either way of the middle: preload costs heat at once,
/// and much more play lets the gears lean and the rollers carry on few. Judgement.
inline constexpr double hot_end_play_mm = 0.02;

/// A facing pair in a drive leg, settled: its preload makes heat, and the heat tightens it further.
struct PairState {
    std::string shaft;
    std::string leg;
    double cold_end_play_mm = 0;  ///< as set at 20 degC; negative: too long by so much
    double end_play_mm = 0;       ///< left when the leg has settled; negative: too long
    double preload_N = 0;         ///< without an outside force; 0: it has end play
    double tightened_mm = 0;  ///< from 20 degC to where the leg settles with end play in the pair
    /// Cold end play to set, and how far off it may be either way: leaves 0 to 0.04 mm when hot.
    double set_end_play_mm = 0;
    double set_tolerance_mm = hot_end_play_mm;
    double hotter_K = 0;  ///< oil of the settled leg, by the preload
    /// Tightening that the heat of a way of 0.1 um brings back, um.
    double returned_um = 0;
    double loop_gain = 0;  ///< of preload by heat and heat by preload; 1 and more: runs away
    bool balance = true;   ///< false: none below 160 degC, only because of the preload
    /// Through the driving of the event, by its temperatures; each leg's heat as settled.
    double tightest_mm = 0;
    double loosest_mm = 0;

    bool operator==(const PairState&) const = default;
};
CASELOAD_MEMBERS(PairState, "pair", shaft, leg, cold_end_play_mm, end_play_mm, preload_N,
                 tightened_mm, set_end_play_mm, set_tolerance_mm, hotter_K, returned_um, loop_gain,
                 balance, tightest_mm, loosest_mm);

/// Everything of a setup that does not depend on temperature.
struct Prepared {
    const Setup* setup = nullptr;
    Loads loads;
    Oil oil;
    std::vector<PreparedLosses> losses;  ///< per leg
    CoolerModel cooler;
    Capacities capacities;
    std::vector<BearingPaths> bearing_paths;  ///< while the gears turn
    std::vector<FilmGroup> films;             ///< of the same bearings
    Conductances direct;                      ///< paths beside those through bearings, then
    Conductances driving;                     ///< all paths then
    double case_air_degC = 0;
    double cooler_air_degC = 0;
    double neighbour_degC = 0;  ///< while driving
    double start_degC = 0;      ///< of the whole case
    double ambient_degC = 0;
    double pressure_Pa = 0;
    /// Of facing pairs, by leg and shaft as in `Setup`; empty where the case has none.
    std::vector<std::vector<double>> pair_over_mm;
    std::vector<PairState> pairs;  ///< each pair in each drive leg; empty where it was given

    bool operator==(const Prepared&) const = default;
};

/// Facing pairs are settled in each drive leg, unless the setup says how tight they are: what they
/// lose heats the case that tightens them. The setup must outlive the result, so one that ends with
/// the call is not taken.
Prepared prepare(const Setup& setup);
Prepared prepare(const Setup&& setup) = delete;

/// With the films of the bearings as bridges between their ends: what a film without loss is.
Conductances with_bearings(Conductances direct, const std::vector<BearingPaths>& bearings);

/// Paths in a stop: splash has ended. Judgement: half from the oil to the housing, a quarter to the
/// steel and to what it reaches in the bearings.
Conductances direct_in_stop(const Conductances& driving);
std::vector<BearingPaths> bearing_paths_in_stop(std::vector<BearingPaths> driving);
Conductances in_stop(const Prepared& prepared);

/// State of what can be switched.
struct Switches {
    bool cooler = true;  ///< false: calculated as if there were none
    bool pump = true;
    bool fan = true;

    bool operator==(const Switches&) const = default;
};
CASELOAD_MEMBERS(Switches, "switches", cooler, pump, fan);

struct OutsideParts {
    double convection_W = 0;
    double radiation_W = 0;
};
CASELOAD_MEMBERS(OutsideParts, "outside", convection_W, radiation_W);
/// Heat from the housing's metal to the outside, time-mean over the leg.
OutsideParts outside_parts(const Prepared& prepared, std::size_t leg, double housing_degC);

/// Heat from oil to cooler air, time-mean over the leg.
double cooler_heat_W(const Prepared& prepared, std::size_t leg, double oil_degC,
                     const Switches& switches);

/// Exhaust heat into the housing at a mean drive power.
double exhaust_W(double heat_W, double drive_power_W);

/// Exhaust heat into the housing while this leg drives.
double exhaust_driving_W(const Prepared& prepared, std::size_t leg);

/// State of the temperature switches; they start off.
struct Latches {
    bool pump = false;
    bool fan = false;
};
/// Their state at an oil temperature, from the state before; a switch not fitted stays off.
Latches latches_at(const Setup& setup, const Latches& before, double oil_degC);
inline bool operator==(const Latches& a, const Latches& b) {
    return a.pump == b.pump && a.fan == b.fan;
}
/// Whether the setup has any.
bool may_switch(const Setup& setup);
/// What runs in a leg: what is allowed, what the leg says of a stop, and the switches where fitted.
Switches in_leg(const Setup& setup, const LegInput& leg, const Switches& allowed,
                const Latches& latches);

/// One settled leg.
struct Steady {
    bool found = false;
    Nodes nodes{};
    LossesAt losses;
    std::vector<BearingHeat> bearing_heat;  ///< per bearing, time-mean
    OutsideParts outside{};
    double cooler_W = 0;
    double exhaust_W = 0;
    IfAny neighbour_W;  ///< into the housing; negative: the neighbour takes heat
    Switches switches{};
    double short_by_W = 0;    ///< no balance below 160 degC: net heat into the oil there
    double short_by_WpK = 0;  ///< the same per kelvin above the air at the case
};
CASELOAD_MEMBERS(Steady, "rest", found, nodes, losses, bearing_heat, outside, cooler_W, exhaust_W,
                 neighbour_W, switches, short_by_W, short_by_WpK);
Steady steady(const Prepared& prepared, std::size_t leg, const Switches& allowed);

/// A drive leg whose oil is kept at a temperature from outside, as on a rig; housing and steel
/// settle, temperature switches are where that oil puts them. `short_by_W`: heat to take out of the
/// oil beside what the case gives off itself; negative: to put in.
/// Range    oil up to 160 degC.
Steady kept_at(const Prepared& prepared, std::size_t leg, double oil_degC);

/// Heat in and out of a steady state, summed by different paths through the code.
double heat_in_W(const Steady& state);
double heat_out_W(const Steady& state);

struct Sample {
    double t_s = 0;
    int run = 0;  ///< index into event.run
    Nodes nodes{};
};
CASELOAD_MEMBERS(Sample, "sample", t_s, run, nodes);

struct RunPeak {
    int leg = 0;
    double start_s = 0;
    double end_s = 0;
    double peak_oil_degC = 0;
    double end_oil_degC = 0;
};
CASELOAD_MEMBERS(RunPeak, "run", leg, start_s, end_s, peak_oil_degC, end_oil_degC);

struct EventHeat {
    std::vector<Sample> samples;
    std::vector<RunPeak> runs;
    double peak_oil_degC = 0;
    double peak_housing_degC = 0;
    double peak_at_s = 0;
    double watch_after_s = -1;  ///< first time above the watch limit; -1: never
    double stop_after_s = -1;
};
CASELOAD_MEMBERS(EventHeat, "event", samples, runs, peak_oil_degC, peak_housing_degC, peak_at_s,
                 watch_after_s, stop_after_s);
EventHeat event_heat(const Prepared& prepared, const Switches& allowed);

/// State of the case when an event, or a part of one, begins.
struct EventStart {
    Nodes nodes{};
    double exhaust_W = 0;  ///< of the driving before; a stop at the beginning lets it decay

    bool operator==(const EventStart&) const = default;
};
EventHeat event_heat(const Prepared& prepared, const Switches& allowed, const EventStart& start);

/// Where the oil of a case lies when nothing moves it: the whole fill on the floor of the housing,
/// gears centred in its height, their displacement not counted. Judgement.
struct OilAtBottom {
    double level_mm = 0;      ///< over the floor inside
    double tip_depth_mm = 0;  ///< of the lowest tip circle; negative: above the oil
};
OilAtBottom oil_at_bottom(const Setup& setup, const Train& train);

/// The setup of a scavenged case with its pump dead: dipped to this depth of the lowest tip circle,
/// no pump and so no cooler, bearings splashed.
Setup with_pump_dead(const Setup& setup, double tip_depth_mm);

/// A scavenged case with its pump dead, settled on the leg that gets hottest.
/// Good to a factor of 3 of the oil churned. Never part of the verdict.
struct PumpDead {
    bool asked = false;  ///< the case is scavenged by a pump
    bool reaches_gears = false;
    double level_mm = 0;
    double tip_depth_mm = 0;
    std::string leg;
    bool found = false;
    double oil_degC = 0;
    double churning_W = 0;
    double losses_W = 0;
    double short_by_W = 0;
};
CASELOAD_MEMBERS(PumpDead, "pump_dead", asked, reaches_gears, level_mm, tip_depth_mm, leg, found,
                 oil_degC, churning_W, losses_W, short_by_W);
PumpDead pump_dead(const Setup& setup);

}  // namespace caseload
