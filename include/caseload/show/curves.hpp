// SPDX-License-Identifier: MIT
// The event's heat network as one JSON document, schema version 1: all another integrator needs to
// do the event again, and what came out here. Numbers of the network, not answers: temperatures
// above 160 degC are printed.
//
//     schema, setup, exhaust_decay_s, exhaust_idle_share, switch_hysteresis_K
//     neighbour  only of a case bolted to one: driving_degC, ambient_degC, keeps_s, decay_s
//     pump_on_above_degC, fan_on_above_degC      null: no temperature switch; both start off
//     run                                        legs in the order driven, by their place in legs
//     legs[]     name, kind, duration_s; of a stop engine, pump_on, fan_on
//     sides      fitted and, when a cooler is fitted, without
//       capacities, start
//       legs[]   paths, films[], exhaust_driving_W, states[] with pump, fan, the five curves (x, y)
//                and films_W[], none in a stop
//       samples  t_s, oil_degC, housing_degC, steel_degC, one list each
//
// The curves oil_W, steel_W, housing_W (heat made there, that of bearings apart) and cooler_W are
// over the oil's temperature, outside_W over the housing's. films: groups of bearings whose oil
// films have the same heat paths to housing, steel and oil, in W/K each; films_W: what the bearings
// of a group lose, over the temperature their films have without that, the mean of the three ends
// by path. Loss and bridging between the ends both pass through the film. Between their points runs
// the modified Akima spline, beyond them they are constant. In a stop the exhaust heat of the last
// drive leg decays with exhaust_decay_s, idling to exhaust_idle_share of it. A neighbour gives the
// housing neighbour_WpK (with the paths) for each kelvin it is warmer; keeps_s into a stop it
// begins to cool, with decay_s towards the ambient.
#pragma once

#include "caseload/heat_curves.hpp"

#include <optional>
#include <string>

namespace caseload {

struct Curves {
    const Setup& setup;
    EventNetwork fitted;
    std::optional<EventNetwork> without;  ///< absent when no cooler is fitted
};

std::string curves_json(const Curves& curves);

}  // namespace caseload
