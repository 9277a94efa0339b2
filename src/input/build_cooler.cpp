// SPDX-License-Identifier: MIT
// The rating of a cooler core: entered, or estimated from its size.
#include "input/build.hpp"
#include "input/fields.hpp"
#include "input/presets.hpp"

#include "caseload/error.hpp"
#include "caseload/figures.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/astm_d1250.hpp"
#include "caseload/formulas/exchanger.hpp"
#include "caseload/formulas/oil_thermal.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace caseload::input {
namespace {

// Conductance grows with depth, less than in proportion: the air warms on its way. Judgement.
constexpr double depth_exponent = 0.6;
constexpr double usual_depth_mm = 45;
// The state for which the words of cooler.construction are valid.
constexpr CoolerRating state{
    .heat_W = 0, .difference_K = 60, .oil_flow_Lpmin = 8, .face_speed_mps = 8};
// Real cores of one size lie within this factor either way. Judgement.
constexpr double spread = 1.6;

constexpr std::array<std::string_view, 4> rating_keys{
    "cooler.rating.heat", "cooler.rating.difference", "cooler.rating.oil_flow",
    "cooler.rating.face_speed"};

struct Estimate {
    std::string_view key;
    double value;
    std::string_view unit;
    double low = 0;  ///< plausible ends; 0: none
    double high = 0;
};

constexpr int shown_figures = 4;

/// Four figures, never more than the value: heat rounded up might be more than oil or air can
/// carry.
double rounded_down(double value) {
    const double step = std::pow(10, std::floor(std::log10(value)) - shown_figures + 1);
    return std::floor(value / step) * step;
}

/// What `complete` prints and is read again as the same value, and what people see.
void add_estimate(Completed& from, const Estimate& estimate) {
    const std::string key(estimate.key);
    if (from.given(key)) return;
    const auto end = [&](double value) {
        Value out;
        out.text = fmt::format("{} {}", figures(rounded_down(value), shown_figures), estimate.unit);
        return toml_text(out);
    };
    Item item;
    item.origin = Origin::estimated;
    item.source =
        fmt::format("from core size, {} at {:g} m/s and {:g} L/min, judgement",
                    from.text("cooler.construction"), state.face_speed_mps, state.oil_flow_Lpmin);
    if (estimate.low > 0) {
        item.low = end(estimate.low);
        item.high = end(estimate.high);
    }
    item.field = find_field(key);
    item.value.text = fmt::format("{} {}", estimate.value, estimate.unit);
    item.shown = fmt::format("{} {}", figures(estimate.value, shown_figures), estimate.unit);
    item.number = estimate.value;
    from.put(key, std::move(item));
}

/// Heat of a core of this conductance at its rating. 0: no rating has this conductance, as it needs
/// all that oil or air can carry, or a heat outside the key's range.
double rated_heat_W(const CoolerInput& cooler, const RatedStreams& streams,
                    double conductance_WpK) {
    // Beyond these transfer units the heat is the same for different conductances.
    constexpr double most_NTU = 12;
    if (conductance_WpK > most_NTU * std::min(streams.oil_WpK, streams.air_WpK)) return 0;
    const double heat_W = exchanger::heat_W({.conductance_WpK = conductance_WpK,
                                             .difference_K = cooler.rating.difference_K,
                                             .oil_capacity_WpK = streams.oil_WpK,
                                             .air_capacity_WpK = streams.air_WpK});
    const Range& taken = find_field("cooler.rating.heat")->range;
    return heat_W >= taken.low && heat_W <= taken.high ? heat_W : 0;
}

double conductance_of_rating_WpK(const CoolerInput& core, const RatedStreams& streams) {
    return exchanger::conductance_WpK({.heat_W = core.rating.heat_W,
                                       .difference_K = core.rating.difference_K,
                                       .oil_capacity_WpK = streams.oil_WpK,
                                       .air_capacity_WpK = streams.air_WpK});
}

void estimate(Completed& from, Setup& setup) {
    CoolerInput& cooler = setup.cooler;
    // Also for a core that is not fitted.
    CoolerInput core = cooler;
    const std::vector<double>& size_mm = from.find("cooler.core")->numbers;
    core.width_mm = size_mm.at(0);
    core.height_mm = size_mm.at(1);
    core.depth_mm = size_mm.at(2);
    const CoreEstimate found = estimated_core({.width_mm = core.width_mm,
                                               .height_mm = core.height_mm,
                                               .depth_mm = core.depth_mm,
                                               .construction = from.text("cooler.construction")});
    const double rated_air_degC = cooler.rating.rated_air_degC;
    core.rating = found.at;
    core.rating.rated_air_degC = rated_air_degC;
    // A single rating key changed from outside, as when an estimate is varied, keeps the others.
    const auto changed = [&](std::string_view key, double& value) {
        const Item* item = from.find(std::string(key));
        if (item != nullptr) value = item->number;
        return item != nullptr;
    };
    changed("cooler.rating.difference", core.rating.difference_K);
    changed("cooler.rating.oil_flow", core.rating.oil_flow_Lpmin);
    changed("cooler.rating.face_speed", core.rating.face_speed_mps);
    const RatedStreams streams = rated_streams(core, setup.oil);
    core.rating.heat_W = rated_heat_W(core, streams, found.conductance_WpK);
    const bool heat_changed = changed("cooler.rating.heat", core.rating.heat_W);
    cooler.rating = core.rating;
    cooler.rating_estimated = true;
    // By way of the heat that is printed: entered, it is the same conductance to the last digit.
    cooler.conductance_WpK = heat_changed             ? 0
                             : core.rating.heat_W > 0 ? conductance_of_rating_WpK(core, streams)
                                                      : found.conductance_WpK;
    const auto heat_of = [&](double factor) {
        return rated_heat_W(core, streams, factor * found.conductance_WpK);
    };
    if (core.rating.heat_W > 0) {
        const double high_W = heat_of(spread);
        add_estimate(from, {"cooler.rating.heat", core.rating.heat_W, "W",
                            high_W > 0 ? std::max(heat_of(1 / spread), 0.0) : 0, high_W});
        add_estimate(from, {"cooler.rating.difference", core.rating.difference_K, "K"});
        add_estimate(from, {"cooler.rating.oil_flow", core.rating.oil_flow_Lpmin, "L/min"});
        add_estimate(from, {"cooler.rating.face_speed", core.rating.face_speed_mps, "m/s"});
    }
    if (cooler.fit)
        from.note("input.cooler_estimated", "cooler",
                  fmt::format(
                      "conductance of the cooler estimated from its size: {:.0f} W/K at 8 m/s and "
                      "8 L/min, true within a factor of {:g}; enter its rating",
                      found.conductance_WpK, spread));
}

}  // namespace

}  // namespace caseload::input

namespace caseload {

CoreEstimate estimated_core(const CoreInput& core) {
    double per_m2_WpK = 0;
    for (const input::Preset& preset : input::presets())
        if (preset.key == "cooler.construction" && preset.words.contains(core.construction))
            per_m2_WpK = preset.words.at(core.construction).numbers.at(0);
    require_positive(per_m2_WpK, "per_m2_WpK");
    const double face_m2 = m_from_mm(core.width_mm) * m_from_mm(core.height_mm);
    return {per_m2_WpK * face_m2 *
                std::pow(core.depth_mm / input::usual_depth_mm, input::depth_exponent),
            input::state};
}

RatedStreams rated_streams(const CoolerInput& cooler, const OilInput& oil) {
    const CoolerRating& rating = cooler.rating;
    const double oil_degC = rating.rated_air_degC + rating.difference_K;
    const auto air =
        us_standard_atmosphere::air({.temp_degC = rating.rated_air_degC,
                                     .pressure_Pa = us_standard_atmosphere::pressure_Pa(0)});
    RatedStreams streams;
    streams.oil_kgps = astm_d1250::density_kgpm3(
                           {.density_15C_kgpm3 = oil.density_15C_kgpm3, .temp_degC = oil_degC}) *
                       m3ps_from_Lpmin(rating.oil_flow_Lpmin);
    streams.oil_WpK = streams.oil_kgps * oil_thermal::specific_heat_JpkgK(
                                             oil.synthetic ? oil_thermal::BaseOil::synthetic
                                                           : oil_thermal::BaseOil::mineral,
                                             oil_degC);
    streams.air_kgpsm2 = air.density_kgpm3 * rating.face_speed_mps;
    streams.air_WpK = streams.air_kgpsm2 * m_from_mm(cooler.width_mm) *
                      m_from_mm(cooler.height_mm) * air.cp_JpkgK;
    return streams;
}

}  // namespace caseload

namespace caseload::input {

namespace {

void check_cores(Completed& from, const Setup& setup) {
    for (const auto& [name, core] : setup.cores) {
        const std::string rating = "core." + name + ".rating";
        int given = 0;
        for (const std::string_view key : {"heat", "difference", "oil_flow", "face_speed"})
            given += from.has(fmt::format("{}.{}", rating, key)) ? 1 : 0;
        if (given != 0 && given != 4)
            from.problem("core." + name + ".size",
                         fmt::format("{}: {} of the four values are there", rating, given),
                         "heat, difference, oil_flow and face_speed belong together; leave all "
                         "out to have them estimated");
    }
}

}  // namespace

void check_cooler(Completed& from, Setup& setup) {
    check_cores(from, setup);
    if (from.broken("cooler.") || !from.has("cooler.core")) return;
    bool entered = false;
    for (const std::string_view key : rating_keys) {
        const Item* item = from.find(std::string(key));
        entered = entered || (item != nullptr && item->origin != Origin::changed);
    }
    if (!entered) {
        // Capacity flows are those of the oil: another problem may have left it without values.
        if (from.problems.empty()) estimate(from, setup);
        return;
    }
    for (const std::string_view key : rating_keys)
        if (!from.has(std::string(key)))
            from.problem(
                from.has("cooler.rating.heat") ? "cooler.rating.heat" : "cooler.core",
                fmt::format("{} is not there: a rating is four values", key),
                "heat, difference, oil_flow and face_speed belong together; leave all out to "
                "have them estimated");
}

}  // namespace caseload::input
