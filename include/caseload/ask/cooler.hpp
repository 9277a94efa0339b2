// SPDX-License-Identifier: MIT
// Do we need a cooler, and how small: heat that must leave, and the smallest core that holds in 9
// of 10 draws.
#pragma once

#include "caseload/ask/band.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace caseload {

/// Heat per kelvin of oil over cooler air a core must carry to keep the oil at the limit:
/// (P(T*) - Q_case(T*)) / (T* - t_a). Source: the heat balance.
struct AtLimit {
    double made_W;
    double case_W;  ///< given off by the case itself
    double limit_degC;
    double air_degC;
};
double per_inlet_kelvin_WpK(const AtLimit& at);

/// Heat a core must carry for a leg to settle at the limit; in a stop: the most it takes to keep
/// the oil at the limit, from housing and steel as the leg driven before it left them with the oil
/// at the limit, and from the exhaust.
struct CoolingNeed {
    std::string leg;
    bool stop = false;
    double to_carry_W = 0;        ///< made less what the case gives off, oil at the limit
    double per_inlet_kelvin = 0;  ///< W/K of oil over cooler air; 0: no cooler needed
};
CASELOAD_MEMBERS(CoolingNeed, "cooling_need", leg, stop, to_carry_W, per_inlet_kelvin);

/// One core in one place, over the whole event.
struct CoreResult {
    std::string name;  ///< own core, or "" for a size found
    double width_mm = 0;
    double height_mm = 0;
    double depth_mm = 0;
    std::string construction;
    std::string duct;  ///< sealed | open | none; "": a share of road speed of its own
    double fan_face_speed_mps = 0;
    bool estimated = true;
    Percentiles oil_degC;             ///< event's peak
    double holds_share = 0;           ///< of draws
    bool holds = false;               ///< 9 of 10
    double oil_flow_Lpmin = 0;        ///< through the core, hottest leg
    double oil_drop_K = 0;            ///< oil in to out there
    double oil_pressure_drop_Pa = 0;  ///< over the core there
    double cold_flow_share = 0;  ///< of the pump flow that goes through it at the start's cold oil
    std::string remark;          ///< why it cannot be fitted; "" when it can
};
CASELOAD_MEMBERS(CoreResult, "core_result", name, width_mm, height_mm, depth_mm, construction, duct,
                 fan_face_speed_mps, estimated, oil_degC, holds_share, holds, oil_flow_Lpmin,
                 oil_drop_K, oil_pressure_drop_Pa, cold_flow_share, remark);

/// Face a plate-fin core needs with the likely values, against the ambient.
struct AreaAtAmbient {
    double ambient_degC = 0;
    double face_area_m2 = 0;  ///< 0: no cooler needed
    bool found = true;        ///< false: more than the box
};
CASELOAD_MEMBERS(AreaAtAmbient, "area_at_ambient", ambient_degC, face_area_m2, found);

struct CoolerAnswer {
    double limit_degC = 0;
    std::optional<CoreResult> fitted{};  ///< the setup's own core as it is ducted; absent: none
    Percentiles without_degC;            ///< event's oil peak, no cooler
    double without_holds_share = 0;
    std::vector<CoolingNeed> needs;  ///< hottest leg first
    std::vector<CoreResult> own;     ///< cores of the setup
    std::vector<CoreResult> found;   ///< smallest of each kind, best first
    int pick = -1;                   ///< into found; -1: none holds within the box
    int own_pick = -1;               ///< into own: the smallest that holds
    std::vector<AreaAtAmbient> chart;
};
CASELOAD_MEMBERS(CoolerAnswer, "cooler", limit_degC, fitted, without_degC, without_holds_share,
                 needs, own, found, pick, own_pick, chart);

struct CoolerOptions {
    std::optional<double> limit_degC;  ///< else the setup's oil_watch
    std::array<double, 3> box_mm{300, 200, 50};
    std::optional<std::array<double, 3>> core_mm;  ///< this very size too
    BandOptions band{.draws = 255};
};

/// Sizes keep the box's proportions and are whole centimetres. Throws Error{input} when the
/// asked core does not go into the box, or the case has no oil pump.
CoolerAnswer size_cooler(const Document& document, const CoolerOptions& options);

/// The setup with a core of `found` fitted, its rating estimated from its size.
Setup with_found_core(const Setup& setup, const CoreResult& found);

}  // namespace caseload
