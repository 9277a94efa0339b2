// SPDX-License-Identifier: MIT
// Which drop set for this course: every set in the trailer through the whole chain with its band.
#pragma once

#include "caseload/ask/band.hpp"

#include <optional>
#include <string>
#include <vector>

namespace caseload {

/// One drop set on this event. Speeds follow from tyre and ratios: no wheel slip.
struct SetResult {
    std::string name;  ///< under [set], or the teeth
    std::vector<int> teeth;
    double ratio = 0;  ///< input speed over output speed
    bool fitted = false;
    std::string cannot;                      ///< why it cannot be fitted; "" when it can
    std::vector<double> top_road_speed_mps;  ///< at the engine's limit, per gear of the gearbox
    double pace_input_rpm = 0;               ///< mean over the driving time
    double pace_prop_rpm = 0;
    double fast_road_speed_mps = 0;  ///< fastest point of the course, or the speed asked for
    double fast_input_rpm = 0;
    double fast_prop_rpm = 0;
    double fast_engine_rpm = 0;   ///< in the tallest gear; 0: no gearbox entered
    bool engine_reaches = true;   ///< that stays within its limit, or nothing is known of it
    double whirl_share = 0;       ///< of the prop shaft's critical speed; 0: no shaft entered
    std::string verdict;          ///< of the whole case with this set
    Percentiles oil_fitted_degC;  ///< event's peak as the setup says
    Percentiles oil_without_degC;
    std::string bearing;  ///< that uses most
    Percentiles bearing_share;
    std::string gear;           ///< that uses most, worst flank or root
    double tooth_share = 0;     ///< of the 1 % failing life, likely
    double other_axle = 0;      ///< axle ratio that gives the fitted set's overall ratio with this
    double other_prop_rpm = 0;  ///< prop shaft with it at the fast point
    double other_pinion_torque = 0;  ///< torque on the axle pinion with it over that with the axle
                                     ///< as it is and the fitted set
};
CASELOAD_MEMBERS(SetResult, "set_result", name, teeth, ratio, fitted, cannot, top_road_speed_mps,
                 pace_input_rpm, pace_prop_rpm, fast_road_speed_mps, fast_input_rpm, fast_prop_rpm,
                 fast_engine_rpm, engine_reaches, whirl_share, verdict, oil_fitted_degC,
                 oil_without_degC, bearing, bearing_share, gear, tooth_share, other_axle,
                 other_prop_rpm, other_pinion_torque);

/// A pair of teeth that runs on this centre distance and is not owned.
struct SetOffer {
    std::vector<int> teeth;
    double ratio = 0;
    double top_road_speed_mps = 0;  ///< in the tallest gear at the engine's limit; 0: not known
    std::string remark;             ///< what the geometry says of it; "" when nothing
};
CASELOAD_MEMBERS(SetOffer, "set_offer", teeth, ratio, top_road_speed_mps, remark);

struct SetsAnswer {
    std::vector<SetResult> sets;  ///< shortest gearing first
    int fit = -1;                 ///< the set to fit; -1: none can be fitted
    std::string why;
    int next = -1;  ///< the one that was closest to it
    std::string why_not_next;
    std::vector<SetOffer> offers;
    bool speeds_known = false;  ///< gearbox and engine limit are entered
};
CASELOAD_MEMBERS(SetsAnswer, "sets", sets, fit, why, next, why_not_next, offers, speeds_known);

struct SetsOptions {
    std::optional<double> top_road_speed_mps;  ///< asked for; else the course's fastest point
    bool offer = false;
    BandOptions band;
};

/// Road speed at an engine speed: rolling circumference times what axle, drop set and gear leave.
/// Source: kinematics; rolling radius as everywhere.
struct Gearing {
    double rolling_radius_m;
    double axle_ratio;
    double drop_ratio;
    double gear;  ///< of the gearbox
};
double road_speed_mps(const Gearing& gearing, double engine_rpm);
double prop_rpm(const Gearing& gearing, double road_speed_mps);

/// A set that fails geometry, engine speed or whirl cannot be fitted and is never ranked. Of the
/// others with the best verdict the shortest gearing is fitted (common practice, no published
/// source: the engine pulls best in the shortest gearing that reaches the speed).
/// Throws Error{input} when no set is owned, when the speed asked for needs entries that are not
/// there, or when no set reaches it, naming the nearest that would.
SetsAnswer choose_set(const Document& document, const SetsOptions& options);

}  // namespace caseload
