// SPDX-License-Identifier: MIT
// Is this bearing good enough for the build: every standard size that fits, and candidates of the
// user, in a position, through the whole chain.
#pragma once

#include "caseload/ask/band.hpp"

#include <optional>
#include <string>
#include <vector>

namespace caseload {

/// One bearing in one position. It holds if no check of it says stop, its life reaches the opening
/// and the oil gets no hotter than it may: with the likely values, life and oil in 9 of 10 draws of
/// the band too. Checks are those of the assessment, with its words.
struct BearingChoice {
    std::string name;  ///< own candidate; "" for a standard size
    BearingKind kind = BearingKind::deep_groove_ball;
    double bore_mm = 0;
    double outside_mm = 0;
    double width_mm = 0;
    bool now = false;        ///< what the setup has there
    bool estimated = false;  ///< its ratings are estimated from size
    double C_N = 0;
    double life_share = 0;   ///< of the 10 % failing life, per event
    double dent_margin = 0;  ///< static safety at the worst peak
    double cage_speed = 0;   ///< n d_m
    double speed_limit = 0;
    double heat_added_W = 0;  ///< bearings' friction settled on the hottest leg, less that of now
    double oil_peak_degC = 0;
    double mass_kg = 0;  ///< estimated
    /// Of draws in which life and oil hold; the other three do not move with the draws. Absent
    /// where it was not drawn: it fails already, or a nearer one holds.
    std::optional<double> holds_share{};
    std::string verdict;  ///< fine | watch | stop: the worst check of it and its seat
    /// Where another class of clearance would live clearly longer, or it runs preloaded, in words;
    /// of now only.
    std::string play;
    std::string pair;  ///< how its facing pair is set and should be, in words; of now only
    std::vector<std::string> watches;  ///< its checks on watch, in words
    std::vector<std::string> fails;    ///< what does not hold, in words; empty: it holds
};
CASELOAD_MEMBERS(BearingChoice, "bearing_choice", name, kind, bore_mm, outside_mm, width_mm, now,
                 estimated, C_N, life_share, dent_margin, cage_speed, speed_limit, heat_added_W,
                 oil_peak_degC, mass_kg, holds_share, verdict, play, pair, watches, fails);

/// The bearing there now with one class of clearance: its play on diameter in the middle of its
/// fits, negative where it is preloaded, and the life it uses with its own heat.
struct PlayClass {
    ClearanceClass clearance = ClearanceClass::CN;
    bool now = false;
    double hot_least_mm = 0;  ///< as it turns, with the least play of the class
    double hot_mm = 0;        ///< middle of the class
    double hot_largest_mm = 0;
    double cold_mm = 0;  ///< before it turns, at the event's ambient, middle of the class
    /// Hot with the least play of the class, cold in its middle: the event is run hot, and a cold
    /// case warms in minutes. Judgement.
    bool keeps_play = false;
    double life_share = 0;  ///< of the 10 % failing life, per event
    double times_life = 1;  ///< as long as the class there now
};
CASELOAD_MEMBERS(PlayClass, "play_class", clearance, now, hot_least_mm, hot_mm, hot_largest_mm,
                 cold_mm, keeps_play, life_share, times_life);

struct BearingPosition {
    std::string position;
    /// What is there now, then the nearest in outside diameter, width, mass.
    std::vector<BearingChoice> choices;
    /// What is there when it holds, else the nearest that does and has no more checks on watch than
    /// it; -1: none.
    int pick = -1;
    /// Of now, from C2 to C5, less others that no bearing runs with; empty where its play is not
    /// counted.
    std::vector<PlayClass> play_classes{};
    /// The longest life of those that keep play; -1: none does.
    int best_play = -1;
};
CASELOAD_MEMBERS(BearingPosition, "bearing_position", position, choices, pick, play_classes,
                 best_play);

/// The decision, in the words of the assessment: `change` where a check of a bearing asked for
/// says stop, which makes the assessment STOP too; `open_earlier` where fatigue of bearings and
/// teeth opens the case before the user's rule or common practice, as the assessment says; `unsure`
/// where a bearing holds with the likely values but not in 9 of 10 draws; else `keep`.
struct BearingsAnswer {
    std::vector<BearingPosition> positions;
    std::string decision;        ///< change | open_earlier | unsure | keep
    double planned_events = 0;   ///< opening by the user's rule or common practice
    double fatigue_events = 0;   ///< what fatigue allows, up to its cap
    bool opens_earlier = false;  ///< fatigue opens the case before that
    std::string weakest;         ///< part that wears first at the opening
};
CASELOAD_MEMBERS(BearingsAnswer, "bearings", positions, decision, planned_events, fatigue_events,
                 opens_earlier, weakest);

/// What may be fitted. An absent limit is that of the bearing there now; its bore always holds. Own
/// candidates are judged whatever their size.
struct BearingsOptions {
    std::string position;  ///< "": all
    std::optional<double> outside_mm{};
    std::optional<double> width_mm{};
    bool thinner = false;  ///< sizes narrower, of less section or of lower rating than now, too
    BandOptions band{};
};

/// Throws Error{input} for a position that does not exist or candidates that fit no shaft, with the
/// nearest that would.
BearingsAnswer choose_bearings(const Document& document, const BearingsOptions& options);

}  // namespace caseload
