// SPDX-License-Identifier: MIT
#include "caseload/show/curves.hpp"

#include "show/json_value.hpp"

#include <fmt/format.h>

#include <vector>

namespace caseload {
namespace {

using json_value::list;
using json_value::number;
using json_value::text;

std::string curve(const Curve& curve) {
    return fmt::format(R"({{"x":{},"y":{}}})", list(curve.x(), number), list(curve.y(), number));
}

std::string state(const StateCurves& state) {
    const LegCurves& curves = state.curves;
    return fmt::format(
        R"({{"pump":{},"fan":{},"oil_W":{},"steel_W":{},"housing_W":{},"outside_W":{},"cooler_W":{},"films_W":{}}})",
        state.switches.pump, state.switches.fan, curve(curves.oil_W), curve(curves.steel_W),
        curve(curves.housing_W), curve(curves.outside_W), curve(curves.cooler_W),
        list(curves.films_W, curve));
}

std::string films(const FilmGroup& group) {
    return fmt::format(R"({{"bearings":{},"housing_WpK":{},"steel_WpK":{},"oil_WpK":{}}})",
                       group.bearings.size(), number(group.paths.housing_WpK),
                       number(group.paths.steel_WpK), number(group.paths.oil_WpK));
}

std::string network_leg(const LegNetwork& leg) {
    return fmt::format(
        R"({{"paths":{{"oil_housing_WpK":{},"oil_steel_WpK":{}{}}},"films":{},"exhaust_driving_W":{},"states":{}}})",
        number(leg.paths.oil_housing_WpK), number(leg.paths.oil_steel_WpK),
        leg.paths.neighbour_WpK > 0 ? ",\"neighbour_WpK\":" + number(leg.paths.neighbour_WpK) : "",
        list(leg.films, films), number(leg.exhaust_driving_W), list(leg.states, state));
}

std::string samples(const std::vector<Sample>& samples) {
    const auto column = [&](const auto& value) {
        return list(samples, [&](const Sample& sample) { return number(value(sample)); });
    };
    return fmt::format(R"({{"t_s":{},"oil_degC":{},"housing_degC":{},"steel_degC":{}}})",
                       column([](const Sample& s) { return s.t_s; }),
                       column([](const Sample& s) { return s.nodes.oil_degC; }),
                       column([](const Sample& s) { return s.nodes.housing_degC; }),
                       column([](const Sample& s) { return s.nodes.steel_degC; }));
}

/// Only where heat passes a flange.
std::string neighbour(const EventNetwork& network) {
    if (network.legs.empty() || network.legs.front().paths.neighbour_WpK <= 0) return {};
    return fmt::format(
        R"("neighbour":{{"driving_degC":{},"ambient_degC":{},"keeps_s":{},"decay_s":{}}},)",
        number(network.neighbour_degC), number(network.ambient_degC), number(neighbour_keeps_s),
        number(neighbour_decay_s));
}

std::string side(const EventNetwork& network) {
    return fmt::format(
        R"({{"capacities":{{"oil_JpK":{},"housing_JpK":{},"steel_JpK":{}}},"start":{{"oil_degC":{},"housing_degC":{},"steel_degC":{}}},"legs":{},"samples":{}}})",
        number(network.capacities.oil_JpK), number(network.capacities.housing_JpK),
        number(network.capacities.steel_JpK), number(network.start.oil_degC),
        number(network.start.housing_degC), number(network.start.steel_degC),
        list(network.legs, network_leg), samples(network.event.samples));
}

std::string setup_leg(const LegInput& leg) {
    if (leg.kind == LegKind::drive)
        return fmt::format(R"({{"name":{},"kind":"drive","duration_s":{}}})", text(leg.name),
                           number(leg.duration_s));
    return fmt::format(
        R"({{"name":{},"kind":"stop","duration_s":{},"engine":"{}","pump_on":{},"fan_on":{}}})",
        text(leg.name), number(leg.duration_s), leg.engine == Engine::idle ? "idle" : "off",
        leg.pump_on, leg.fan_on);
}

}  // namespace

std::string curves_json(const Curves& curves) {
    const Setup& setup = curves.setup;
    const auto& pump = setup.lubrication.pump;
    return fmt::format(
        R"({{"schema":1,{},"setup":{},"exhaust_decay_s":{},"exhaust_idle_share":{},"switch_hysteresis_K":{},{}"pump_on_above_degC":{},"fan_on_above_degC":{},"run":{},"legs":{},"sides":{{"fitted":{}{}}}}})"
        "\n",
        json_value::caution(), text(setup.name), number(exhaust_decay_s),
        number(exhaust_idle_share), number(switch_hysteresis_K), neighbour(curves.fitted),
        json_value::number_or_null(pump ? pump->on_above_degC : std::nullopt),
        json_value::number_or_null(setup.cooler.fan_on_above_degC),
        list(setup.event.run, [](int leg) { return fmt::format("{}", leg); }),
        list(setup.event.legs, setup_leg), side(curves.fitted),
        curves.without ? ",\"without\":" + side(*curves.without) : "");
}

}  // namespace caseload
