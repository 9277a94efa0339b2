// SPDX-License-Identifier: MIT
// A scavenged case whose pump has died: oil collects at the bottom and the gears churn in it.
#include "caseload/heat_curves.hpp"

#include "caseload/units.hpp"

#include <algorithm>
#include <limits>

namespace caseload {
namespace {

// What a dipped case has, as lubrication.method = "dip" and bearing oil = "splash" fill in
// (tables/presets.toml). Judgement.
constexpr double splash_Lpmin = 0.3;
constexpr double dipped_wetted_share = 0.8;

}  // namespace

OilAtBottom oil_at_bottom(const Setup& setup, const Train& train) {
    double top_mm = std::numeric_limits<double>::lowest();
    double bottom_mm = std::numeric_limits<double>::max();
    for (const ShaftPlace& shaft : train.shafts) {
        top_mm = std::max(top_mm, shaft.z_mm + shaft.tip_diameter_mm / 2);
        bottom_mm = std::min(bottom_mm, shaft.z_mm - shaft.tip_diameter_mm / 2);
    }
    const HousingInput& housing = setup.housing;
    const auto inside_mm = [&](double outside_mm) { return outside_mm - 2 * housing.wall_mm; };
    const double floor_mm2 = inside_mm(housing.along_mm) * inside_mm(housing.across_mm);
    OilAtBottom oil;
    oil.level_mm = mm3_from_L(setup.oil.fill_L) / floor_mm2;
    const double under_mm = (inside_mm(housing.high_mm) - (top_mm - bottom_mm)) / 2;
    oil.tip_depth_mm = oil.level_mm - std::max(under_mm, 0.0);
    return oil;
}

Setup with_pump_dead(const Setup& setup, double tip_depth_mm) {
    Setup dead = setup;
    dead.lubrication.method = Method::dip;
    dead.lubrication.depth_mm = tip_depth_mm;
    dead.lubrication.pump.reset();
    dead.cooler.fit = false;
    dead.housing.oil_wetted_share = std::max(dead.housing.oil_wetted_share, dipped_wetted_share);
    for (BearingInput& bearing : dead.bearings) {
        bearing.oil = OilSupply::splash;
        bearing.oil_reaching_Lpmin = splash_Lpmin;
    }
    return dead;
}

PumpDead pump_dead(const Setup& setup) {
    PumpDead result;
    result.asked =
        setup.lubrication.method == Method::scavenged && setup.lubrication.pump.has_value();
    if (!result.asked) return result;
    const OilAtBottom oil = oil_at_bottom(setup, place_train(setup));
    result.level_mm = oil.level_mm;
    result.tip_depth_mm = oil.tip_depth_mm;
    result.reaches_gears = oil.tip_depth_mm > 0;
    if (!result.reaches_gears) return result;
    const Setup dead = with_pump_dead(setup, oil.tip_depth_mm);
    const Prepared prepared = prepare(dead);
    CaseCurves curves(prepared);
    bool first = true;
    std::vector<bool> done(setup.event.legs.size());  // a leg may be run many times
    for (const int run : setup.event.run) {
        const auto leg = static_cast<std::size_t>(run);
        if (setup.event.legs[leg].kind != LegKind::drive || done[leg]) continue;
        done[leg] = true;
        const Steady rest = steady(curves, leg, {.cooler = false, .pump = false, .fan = false});
        const double oil_degC = rest.nodes.oil_degC;
        const bool hotter = first ||
                            (result.found && (!rest.found || oil_degC > result.oil_degC)) ||
                            (!result.found && !rest.found && rest.short_by_W > result.short_by_W);
        if (!hotter) continue;
        first = false;
        result.leg = setup.event.legs[leg].name;
        result.found = rest.found;
        // Above the ceiling: not printed as a number.
        result.oil_degC = rest.found ? oil_degC : oil_ceiling_degC + 1;
        result.churning_W = rest.losses.ledger.churning_W;
        result.losses_W = total_W(rest.losses.ledger);
        result.short_by_W = rest.short_by_W;
    }
    return result;
}

}  // namespace caseload
