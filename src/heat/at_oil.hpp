// SPDX-License-Identifier: MIT
// Parts of the chain that are calculated many times: for coolers, and the tables of the fast case.
#pragma once

#include "caseload/formulas/box_wall.hpp"
#include "caseload/heat_curves.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace caseload {

// Dry dust. Source: Incropera, Fundamentals of Heat and Mass Transfer, table A.3 (sand), from
// memory.
inline constexpr double dirt_conductivity_WpmK = 0.27;

/// The setup prepared with the loads of another one, from which it differs only in what loads do
/// not depend on, such as the air, the oil, the housing.
Prepared prepare(const Setup& setup, Loads loads);
Prepared prepare(const Setup&& setup, Loads loads) = delete;

/// The same with its facing pairs settled: those of the loads have end play.
Prepared prepare_settled(const Setup& setup, Loads loads);
Prepared prepare_settled(const Setup&& setup, Loads loads) = delete;

/// Heat left over for the oil of a drive leg at this oil temperature, housing and steel settled.
double net_into_oil_W(const Prepared& prepared, std::size_t leg, double oil_degC);

/// Settled temperatures of housing and steel in a drive leg with its oil at this temperature.
Nodes held_at_oil(const Prepared& prepared, std::size_t leg, double oil_degC);

/// What the housing's heat to the outside depends on, in air of one speed.
box_wall::Outside surroundings(const Prepared& prepared, double air_mps);
/// Heat from the housing's metal to the outside in air of one speed: `outside_parts` is the mean of
/// it over a leg's bins, or of standing air in a stop.
OutsideParts outside_in_air(const Prepared& prepared, double air_mps, double housing_degC);
/// Speed of the air along the housing in a bin.
double air_along_mps(const Setup& setup, const Bin& bin);

/// The coldest of what takes heat from the housing.
double coldest_beside_degC(const Prepared& prepared);

/// What is beside the case, or bolted to it, at a moment.
struct BesideAt {
    double exhaust_W;
    double neighbour_degC;
};

/// What drives a leg's network by its curves.
struct AtMoment {
    Nodes nodes;
    BesideAt beside;
    Conductances paths;
};
Drives drives_at(const Prepared& prepared, const LegCurves& curves, const AtMoment& at);

/// Oil through the core: pump flow, throttled by the thermostat, then by the pressure bypass.
struct PumpedOil {
    double pump_Lpmin;
    double oil_degC;
};
double core_flow_Lpmin(const Prepared& prepared, const PumpedOil& state);
/// Where the thermostat opens; nothing: there is none.
std::optional<double> thermostat_opens_degC(const Setup& setup);
/// Share of the pump's flow that a thermostat which opens there lets through the core.
double thermostat_share(const std::optional<double>& opens_degC, double oil_degC);
/// What the pressure bypass leaves to the core.
double most_core_flow_Lpmin(const Prepared& prepared, double oil_degC);

/// Air and oil at the core in one bin, or in a stop, of a leg.
struct CoreBin {
    double share;
    double face_mps;
    double pump_Lpmin;

    bool operator==(const CoreBin&) const = default;
};
/// Of a fitted cooler; none where no oil is sent through it. `cooler_heat_W` is the mean over them.
std::vector<CoreBin> core_bins(const Prepared& prepared, std::size_t leg, const Switches& switches);
double core_heat_W(const Prepared& prepared, const CoreBin& bin, double oil_degC);

/// Air at the face and oil through the core.
struct CoreStreams {
    double face_mps;
    double flow_Lpmin;
};
/// The core's heat by a kelvin between oil and its air.
double core_heat_WpK(const Prepared& prepared, const CoreStreams& streams, double oil_degC);

/// Pressure drop of the core's oil side, from the one assumed at its rating.
struct OilThroughCore {
    double flow_Lpmin;
    double oil_degC;
};
double core_oil_drop_Pa(const Prepared& prepared, const OilThroughCore& state);

}  // namespace caseload
