// SPDX-License-Identifier: MIT
// How sure an answer is: the event calculated many times, each time with every uncertain factor
// drawn once. Quasi-random (Sobol) draws: the same number of draws gives the same bytes.
#pragma once

#include "caseload/assess.hpp"
#include "caseload/for_each.hpp"
#include "caseload/loads.hpp"

#include <array>
#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// Likely: half of the draws or more.
inline constexpr double likely_share = 0.5;
/// What is called to hold does so in this share of the draws: the 10/90 band of the verdict.
inline constexpr double holding_share = 0.9;

/// Uncertain factors of tables/band.toml, in the order of their dimensions.
inline constexpr std::size_t band_factors = 25;

struct FactorRow {
    std::string name;
    std::string law;  ///< log-normal | log-uniform | uniform | classes
    double sd = 0;
    double low = 0;
    double high = 0;
    /// What has a second range on the same draw: helical_teeth, or a factor that follows this one.
    std::string other;
    double shared_low = 0;  ///< of that
    double shared_high = 0;
    double with_windage = 0;                ///< correlation of the normal scores
    double step = 0;                        ///< a uniform one is drawn in steps of this; 0: in none
    std::map<std::string, double> sd_of{};  ///< in place of sd, by a word
    std::string words;
    std::string source;
};
const std::array<FactorRow, band_factors>& factor_rows();
/// Words of a row for this setup: the pace's own row draws driver and ground of a calculated
/// course.
std::string factor_words(const Setup& setup, std::size_t row);
inline constexpr std::string_view helical_teeth = "helical";
/// Other range of the oil flow: the pump sends the fill round in less than this.
inline constexpr std::string_view short_round = "short_round";
inline constexpr double short_round_s = 12;

/// Place of a factor of the band that is no factor on heat.
enum BandRow : std::size_t {
    row_cleanliness = 11,
    row_life,
    row_air,
    row_thermostat,
    row_pump_flow,
    row_cooler_conductance,
    row_drain,
    row_exhaust,
    row_neighbour_heat,
    row_neighbour_temp,
    row_dirt,
    row_pace,
    row_seat_heat,
    row_play,
};

/// What the ranges of one case depend on beside tables/band.toml.
struct CaseRanges {
    CaseRanges() = default;
    /// Of a case without oil pump and cooler.
    // NOLINTNEXTLINE(google-explicit-constructor): most of it in tests
    CaseRanges(double helical_share) : helical(helical_share) {}

    /// Share of the way from the range of spur teeth to that of helical ones.
    double helical = 0;
    std::optional<double> load_sd{};         ///< by where the torques come from; absent: the row's
    bool thermostat = false;                 ///< there is one
    std::optional<bool> short_round{};       ///< of scavenged oil; absent: no flow to vary
    std::optional<double> conductance_sd{};  ///< of the core; absent: there is none
    // What is added to an entry that was not entered, or its factor, from the table's ends.
    std::optional<Triangle> mist{};
    std::optional<Triangle> rehit{};
    std::optional<Triangle> exhaust_W{};
    std::optional<Triangle> neighbour_WpK{};
    std::optional<Triangle> neighbour_K{};
    std::optional<Triangle> dirt{};
    bool pace = false;       ///< of a course is not entered
    bool seat_heat = false;  ///< a bearing seat's fit is not entered
    bool play = false;       ///< a bearing has a class of clearance
};
CaseRanges ranges_of(const Setup& setup);
/// With what is assumed of the case at its likely value.
CaseRanges ranges_beside_assumed(const Setup& setup);

/// Sobol points of the unit cube, Joe and Kuo's direction numbers, without the zero point.
/// Source: S. Joe, F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008) 2635, as in Boost.Random.
std::vector<std::array<double, band_factors>> sobol_points(std::size_t draws);

/// Factors of one point of the unit cube. What a case has not, or what is entered, stays at its
/// value; its dimension stays unused, so that all others are drawn as in any case.
Factors drawn_factors(const std::array<double, band_factors>& point, const CaseRanges& ranges);
/// Share of the way to helical teeth: their overlap ratio, at most 1. Judgement.
double helical_share(const Setup& setup);

/// Value below which a share q of the sorted sample lies, linear at (N - 1) q.
double quantile(const std::vector<double>& sorted, double q);

/// 10, 50 and 90 of 100 draws lie below.
struct Percentiles {
    double p10 = 0;
    double p50 = 0;
    double p90 = 0;
};
CASELOAD_MEMBERS(Percentiles, "percentiles", p10, p50, p90);
Percentiles percentiles(std::vector<double> sample);

/// A factor and a result, draw by draw.
struct Paired {
    const std::vector<double>& factor;
    const std::vector<double>& result;
};

/// What a factor is responsible for: share of the variance of a result that goes if the factor were
/// known. From the draws themselves, by means over equal slices of the factor.
/// Source: A. Saltelli et al., Global Sensitivity Analysis (2008) 1.2.6: V(E(y|x)) / V(y).
double first_order_share(const Paired& draws);

/// One draw calculated.
struct DrawResult {
    double peak_oil_degC = 0;
    double peak_housing_degC = 0;
    std::vector<double> leg_peak_degC;  ///< per leg of event.legs; -300 where not driven
    std::vector<double> leg_peak_housing_degC;
    std::vector<double> leg_peak_steel_degC;
    std::vector<double> life_share;  ///< per bearing
    std::vector<ToothSide> teeth;    ///< per gear, worst flank and worst root
    double oil_dose = 0;
    double reading_oil_degC = 0;      ///< end of the longest drive leg, oil
    double reading_housing_degC = 0;  ///< the same, housing skin
    double load = 1;                  ///< of its factors
    double bearing_friction = 1;
    double seat_heat = 1;
};

struct BandSide {
    Percentiles peak_oil_degC;
    Percentiles peak_housing_degC;
    std::vector<Percentiles> leg_peak_oil_degC;  ///< per leg of event.legs
    std::vector<Percentiles> life_share;         ///< per bearing
    std::vector<Percentiles> flank_share;        ///< per gear, worst flank
    std::vector<Percentiles> root_share;         ///< per gear, worst root
    Percentiles oil_dose;
    Percentiles change_oil_events;
    Percentiles look_events;
    Percentiles open_case_events;
    double holds_share = 0;      ///< of draws whose oil peak stays at or below the watch limit
    double fails_share = 0;      ///< of draws whose oil peak passes the stop limit
    double numeric_error_K = 0;  ///< of the 10 and 90 of the oil peak: change from the half sample
};
CASELOAD_MEMBERS(BandSide, "band_side", peak_oil_degC, peak_housing_degC, leg_peak_oil_degC,
                 life_share, flank_share, root_share, oil_dose, change_oil_events, look_events,
                 open_case_events, holds_share, fails_share, numeric_error_K);

/// A reading is advised when it narrows the range of the hottest oil by more: what a thermometer in
/// the field can separate. Judgement.
inline constexpr double worth_measuring_K = 2;

/// A reading and what it would leave of the range of the hottest oil.
struct Measurement {
    bool needed = false;       ///< narrows the range by more than worth_measuring_K
    std::string words;         ///< what to read and how; where not needed, why
    double band_before_K = 0;  ///< 90 less 10 of the oil peak
    double band_after_K = 0;   ///< with the reading at its middle, of the best one
};
CASELOAD_MEMBERS(Measurement, "measurement", needed, words, band_before_K, band_after_K);

struct FactorShare {
    std::string words;
    double share = 0;  ///< of the variance of the oil peak
};
CASELOAD_MEMBERS(FactorShare, "factor_share", words, share);

/// A check that is not fine. Judged over the range it is in the worst class that half of the draws
/// reach, or one class below one that a tenth of them reach.
struct JudgedCheck {
    CheckId id{};
    std::string about{};
    std::string verdict{};  ///< shown | look | watch | stop
    std::string words{};
    bool over_range = false;  ///< else on the run with the uncertain inputs at their middle
    double value = 0;         ///< likely: the middle of the range, or of that run
    double limit = 0;         ///< that it is judged by; 0: none
    bool at_least = false;
    std::string unit{};
    double share = 1;  ///< of draws past the limit
    std::string consequence{};
};
CASELOAD_MEMBERS(JudgedCheck, "judged_check", id, about, verdict, words, over_range, value, limit,
                 at_least, unit, share, consequence);

struct Band {
    int draws = 0;
    BandSide fitted;
    BandSide without;
    std::vector<FactorShare> shares;  ///< largest first
    Measurement measure;              ///< of the answer as fitted
    /// Of the case without its cooler, with the cooler out of the circuit: what a thermostat hides.
    /// Not needed and without words where there is no cooler, or the verdict is stop.
    Measurement learn;
    std::string verdict;   ///< fine | watch | stop: the worse of both words
    std::string oil_word;  ///< fine | watch | stop
    std::string case_word;
    std::string decides;  ///< holds | may_pass | likely_above | likely_too_hot | too_hot | check
    double watch_after_s = -1;  ///< the likely oil passes the watch limit, -1: never
    double stop_after_s = -1;
    // Checks by class, what a case does not survive first.
    std::vector<JudgedCheck> stop;
    std::vector<JudgedCheck> watch;
    std::vector<JudgedCheck> look;
    std::vector<JudgedCheck> shown;
};
CASELOAD_MEMBERS(Band, "band", draws, fitted, without, shares, measure, learn, verdict, oil_word,
                 case_word, decides, watch_after_s, stop_after_s, stop, watch, look, shown);

/// How a check of the likely case is judged over the range.
Severity severity_over_range(const Band& band, const Check& check);

/// Fewer draws do not show the outer tenths; more take minutes. Both complete a block (2^k - 1).
inline constexpr std::size_t least_draws = 63;
inline constexpr std::size_t most_draws = 1048575;

/// Tables that the answers of many similar cases share; threads may use it. Each answer keeps its
/// bytes.
class SharedTables;
std::shared_ptr<SharedTables> shared_tables();

struct BandOptions {
    std::size_t draws = 1023;  ///< 2^k - 1 completes the block
    ForEach for_each = one_by_one;
    std::shared_ptr<SharedTables> shared{};  ///< null: nothing is shared
    /// For tables, which draws wait for, where `for_each` counts the draws alone; none: `for_each`.
    ForEach for_tables{};
};

/// Calculates so many answers, each with the options it is given: several side by side, one alone
/// with its draws side by side. They share tables.
void for_each_answer(std::size_t answers, const BandOptions& options,
                     const std::function<void(std::size_t, const BandOptions&)>& body);

/// The oil of every draw at some moments of the event, for its curves over time.
struct OilTraces {
    std::vector<double> at_s;                       ///< the moments asked for, ascending from 0
    std::vector<std::vector<double>> with_degC;     ///< as fitted, [draw][moment]
    std::vector<std::vector<double>> without_degC;  ///< without the cooler; none: no draws
};

/// `traces` may be null; else it is filled at its moments, which changes nothing else.
Band band(const Setup& setup, const Assessment& likely, const BandOptions& options,
          OilTraces* traces = nullptr);

/// What a verdict and its reason need of that, and no more: the words, what decides, checks by
/// class, the oil as fitted against its limits. The same bits at a quarter of the price; all else
/// is left empty. Lives are drawn only where one may come near a limit.
Band verdict_band(const Setup& setup, const Assessment& likely, const BandOptions& options);

/// What a line of many answers needs: the same, life of each bearing as fitted, and how hot the oil
/// gets without the cooler. The same bits; all else is left empty.
Band line_band(const Setup& setup, const Assessment& likely, const BandOptions& options);

}  // namespace caseload
