// SPDX-License-Identifier: MIT
// Sentences that every view prints alike.
#pragma once

#include "caseload/show/text.hpp"
#include "show/units_shown.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// With a capital and a full stop.
std::string as_sentence(std::string words);

/// "after event 4".
std::string after(const Action& action);

struct HeatSource {
    double power_W = 0;
    std::string_view words;
    std::string_view member;  ///< of the ledger
};
/// Largest first.
std::vector<HeatSource> heat_sources(const LossLedger& losses);

/// "WATCH".
std::string verdict_word(const Answer& answer);
/// What is assumed of rings that nothing was said of, and what follows; "" where nothing is.
std::string seats_sentence(const Answer& answer, const Units& units);

/// "Case: fine; look at 2 things when opened (NEXT)."
std::string case_sentence(const Answer& answer, const Units& units);
/// The sentences on top: the oil, the case, what was measured.
std::string verdict_sentence(const Answer& answer, const Units& units);

/// Entries that are possible and more likely a slip, asked about before the verdict they lead to:
/// a line each for the first screen; "" where nothing is asked.
std::string question_lines(const Answer& answer, const Units& units);
/// The same as a paragraph each of the page.
std::string question_paragraphs(const Answer& answer, const Units& units);

/// Which run a number belongs to that is not a likely value of the range.
inline constexpr std::string_view middle_run = "uncertain inputs at their middle";

/// "the oil does not settle below 160 degC".
std::string does_not_settle(const Units& units);

/// True when the setup must not run: no other action is printed then.
bool must_not_run(const Answer& answer);
/// Why: "oil passes 135 degC, 9 chances in 10".
std::string stop_words(const Answer& answer, const Units& units);
/// What makes it run, or what was tried in vain; "" when nothing was tried.
std::string remedy_words(const Remedy& remedy, const Units& units);
/// "calculated fatigue life of bearings and teeth: more than 20 events or 200 h".
std::string fatigue_words(const Intervals& intervals);

/// The checks with their values of the likely case, judged over the range, worst first.
std::vector<Check> judged_checks(const Answer& answer);

/// What to look at when the case is opened, a line each.
std::vector<std::string> to_look_at(const Answer& answer, const Units& units);

/// What no answer knows of, splines only where none is entered: "splines, bolts, ...".
std::string not_calculated(const Setup& setup);
/// "Hot it runs with 0.064 mm of play (0.046 mm to 0.081 mm), its rollers carry over 73 deg"; ""
/// where its play is not counted.
std::string running_play_words(const BearingData& bearing, double zone_deg, const Units& units);
/// Splines and what wears them: "hub loose, 3 %"; "" without one.
std::string spline_words(const Answer& answer);
/// End play of facing pairs, cold and hot, and what to set; "" where there are none.
std::string pair_words(const PairState& pair, const Units& units);
std::string pair_words(const Answer& answer, const Units& units);

/// The worst that was found, else what is nearest to its limit.
struct Weakest {
    std::string head;  ///< weakest | nearest
    std::string words;
};
Weakest weakest_part(const Answer& answer, const Units& units);

/// An assumption that moves the hottest oil by less, and the share of the most used bearing's life
/// by less, is printed nowhere: it would read +0 K .. +0 K. Judgement.
inline constexpr double least_effect_K = 1;
inline constexpr double least_effect_on_life = 1e-3;

/// The larger of both ends, without its sign.
double oil_effect_K(const Worth& one);
/// The assumptions that are printed, the largest effect on the oil first.
std::vector<Worth> with_effect(const std::vector<Worth>& all);
/// "-3 K .. +0 K", or "under 1 K".
std::string oil_effect(const Worth& one, const Units& units, std::string_view between);

}  // namespace caseload
