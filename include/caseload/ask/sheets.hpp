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
std::vector<Moment> over_time(const Assessment& likely, const OilTraces& traces);

/// What the band records for it: these moments, in its own draws.
OilTraces oil_traces(const Assessment& likely);

/// What wears a bearing most, in words, by its thinnest film and its life factor. Judgement on the
/// borders; kappa by ISO 281.
std::string worn_by(const BearingDamage& bearing);

/// Arrival temperatures of the pit card at one ambient, from the lowest to the highest: below
/// cold_degC the reading cannot be right; to go_degC drive on; to check_degC look first, then drive
/// on; to the stop limit drive slower or wait; above it open or retire.
struct CardRow {
    double ambient_degC = 0;
    /// At the end of the leg before: low of its coldest run, likely and high of its hottest.
    Percentiles arrival_degC;
    double cold_degC = 0;
    double go_degC = 0;
    double check_degC = 0;     ///< the highest from which the whole next leg stays below the stop
                               ///< limit, at most the watch limit; the watch limit where none does
    bool leaves = false;       ///< some arrival lets the whole next leg stay below the stop limit
    double stop_after_s = -1;  ///< after leaving at check_degC the stop limit is passed; -1: never
    double rise_K = 0;         ///< more than this in a quarter of an hour: something is wrong
    double slow_share = 0;     ///< of the pace, from the stop limit on; 0: none
    double wait_s = -1;        ///< stopped, from the stop limit to check_degC; -1: over two hours
};

/// The range at arrival is that of the draws; what follows from an arrival is the transient of the
/// likely case, its housing as warm against the oil as at the event's hottest moment, its steel by
/// as much warmer (docs/page.md).
struct Card {
    double watch_degC = 0;
    double stop_degC = 0;
    std::string leg;  ///< driven before and next: the one with the hottest oil once settled
    double leg_s = 0;
    double pace_mps = 0;  ///< of its course; 0: not known
    bool pump_and_fan =
        false;  ///< an electric pump through a cooler with a fan, which cool in a stop
    std::vector<std::string>
        look_at;                ///< what to check, of what this case has, the likeliest first
    std::string looser_pair;    ///< the facing pair whose preload heats the oil, with its setting
    std::vector<CardRow> rows;  ///< ten kelvin colder, as the setup says, ten kelvin hotter
};
/// No rows where nothing is driven, and none at stop: such a setup is not sent out.
Card pit_card(const Setup& setup, const Assessment& likely, const Band& band,
              const BandOptions& options);

}  // namespace caseload
