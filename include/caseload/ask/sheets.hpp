// SPDX-License-Identifier: MIT
// What the page and the pit card need beyond an assessment: the oil's band through the event, and
// what to do with an arrival temperature.
#pragma once

#include "caseload/ask/band.hpp"

#include <string>
#include <vector>

namespace caseload {

/// One moment of the event.
struct Moment {
    double t_s = 0;
    int run = 0;                     ///< index into event.run
    Percentiles oil_degC;            ///< over the draws, as fitted
    Nodes likely{};                  ///< of the undrawn case, as fitted
    double without_cooler_degC = 0;  ///< half the draws lie below; as fitted without a cooler
};

/// The event in steps of whole half minutes: both ends of every leg, and about 160 moments in all.
std::vector<Moment> over_time(const Setup& setup, const Assessment& likely,
                              const BandOptions& options);

/// What wears a bearing most, in words: how its thinnest film and the life factor that came out
/// stand. Judgement on the borders; kappa by ISO 281.
std::string worn_by(const BearingDamage& bearing);

/// One ambient of the pit card.
struct CardRow {
    double ambient_degC = 0;
    bool leaves = false;        ///< some arrival temperature lets the next leg stay below the stop
    double go_degC = 0;         ///< the highest of those, at most the watch limit; else the watch
                                ///< limit
    double next_peak_degC = 0;  ///< oil on the next leg after leaving at go
    double watch_after_s = -1;  ///< the watch limit is passed on it; -1: never
    double stop_after_s = -1;   ///< the same of the stop limit
    double wait_s = -1;         ///< standing from the stop limit to go; -1: not within two hours
};

/// Arrive at or below go: drive on. Up to the stop limit: stand, engine off; pump and fan on where
/// they cool. Above: open or retire. By the transient of the undrawn case, its housing at arrival
/// as warm against the oil as at the event's hottest moment, its steel by as much warmer.
struct Card {
    double watch_degC = 0;
    double stop_degC = 0;
    std::string leg;  ///< driven next: the one with the hottest oil at rest
    double leg_s = 0;
    Percentiles expected_degC;  ///< hottest oil on it in the event, over the draws
    bool pump_and_fan =
        false;  ///< an electric pump through a cooler with a fan: they cool standing
    std::vector<CardRow> rows;  ///< ten kelvin colder, as the setup says, ten kelvin hotter
};
Card pit_card(const Setup& setup, const Assessment& likely, const Band& band);

}  // namespace caseload
