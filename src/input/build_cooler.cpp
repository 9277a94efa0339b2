// SPDX-License-Identifier: MIT
// The rating of a cooler core: entered, or estimated from its size.
#include "input/build.hpp"
#include "input/fields.hpp"
#include "input/presets.hpp"

#include "caseload/error.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace caseload::input {
namespace {

// Conductance grows with depth, less than in proportion: the air warms on its way. Judgement.
constexpr double depth_exponent = 0.6;
constexpr double usual_depth_mm = 45;
// The state the words of cooler.construction speak of.
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
    double factor;  ///< credible either way; 1: none
};

void add_estimate(Completed& from, const Estimate& estimate) {
    const std::string key(estimate.key);
    if (from.given(key)) return;
    const auto text = [&](double value) {
        Value out;
        out.text = fmt::format("{:.4g} {}", value, estimate.unit);
        return out;
    };
    Item item;
    item.origin = Origin::estimated;
    item.source =
        fmt::format("from core size, {} at {:g} m/s and {:g} L/min, judgement",
                    from.text("cooler.construction"), state.face_speed_mps, state.oil_flow_Lpmin);
    if (estimate.factor > 1) {
        item.low = toml_text(text(estimate.value / estimate.factor));
        item.high = toml_text(text(estimate.value * estimate.factor));
    }
    item.field = find_field(key);
    item.value = text(estimate.value);
    item.number = estimate.value;
    from.put(key, std::move(item));
}

void estimate(Completed& from, CoolerInput& cooler) {
    CoolerRating rating = estimated_core_rating({.width_mm = cooler.width_mm,
                                                 .height_mm = cooler.height_mm,
                                                 .depth_mm = cooler.depth_mm,
                                                 .construction = from.text("cooler.construction")});
    const double conductance_WpK = rating.heat_W / rating.difference_K;
    rating.rated_air_degC = cooler.rating.rated_air_degC;
    // A single rating key changed from outside, as when an estimate is varied, keeps the others.
    if (from.has("cooler.rating.heat")) rating.heat_W = cooler.rating.heat_W;
    if (from.has("cooler.rating.difference")) rating.difference_K = cooler.rating.difference_K;
    if (from.has("cooler.rating.oil_flow")) rating.oil_flow_Lpmin = cooler.rating.oil_flow_Lpmin;
    if (from.has("cooler.rating.face_speed")) rating.face_speed_mps = cooler.rating.face_speed_mps;
    cooler.rating = rating;
    cooler.rating_estimated = true;
    add_estimate(from, {"cooler.rating.heat", rating.heat_W, "W", spread});
    add_estimate(from, {"cooler.rating.difference", rating.difference_K, "K", 1});
    add_estimate(from, {"cooler.rating.oil_flow", rating.oil_flow_Lpmin, "L/min", 1});
    add_estimate(from, {"cooler.rating.face_speed", rating.face_speed_mps, "m/s", 1});
    if (cooler.fit)
        from.note("input.cooler_estimated", "cooler",
                  fmt::format(
                      "conductance of the cooler estimated from its size: {:.0f} W/K at 8 m/s and "
                      "8 L/min, true within a factor of {:g}; enter its rating",
                      conductance_WpK, spread));
}

}  // namespace

}  // namespace caseload::input

namespace caseload {

CoolerRating estimated_core_rating(const CoreInput& core) {
    double per_m2_WpK = 0;
    for (const input::Preset& preset : input::presets())
        if (preset.key == "cooler.construction" && preset.words.contains(core.construction))
            per_m2_WpK = preset.words.at(core.construction).numbers.at(0);
    require_positive(per_m2_WpK, "per_m2_WpK");
    const double face_m2 = m_from_mm(core.width_mm) * m_from_mm(core.height_mm);
    CoolerRating rating = input::state;
    rating.heat_W = per_m2_WpK * face_m2 *
                    std::pow(core.depth_mm / input::usual_depth_mm, input::depth_exponent) *
                    rating.difference_K;
    return rating;
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
        estimate(from, setup.cooler);
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
