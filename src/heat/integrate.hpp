// SPDX-License-Identifier: MIT
// The network through time, for callers that know its type: integrate() without calls through
// pointers, which would cost more than the network itself.
#pragma once

#include "caseload/heat.hpp"

#include <boost/numeric/odeint/stepper/generation/generation_dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation/generation_runge_kutta_dopri5.hpp>
#include <boost/numeric/odeint/stepper/generation/make_dense_output.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

#include <algorithm>
#include <array>

namespace caseload {

// Accuracy of the integration. Steps are as long as stability allows, and there the error is this
// tolerance, whatever it is: at 1e-7 K they cost no more than at 1e-4 K, and the last digits of
// another machine's pow and exp move an event by less than 1e-6 K.
inline constexpr double absolute_tolerance_K = 1e-7;
inline constexpr double relative_tolerance = 1e-9;
// A switch is located to this accuracy in time: opening a cooler turns the oil's rate by about 1
// K/s.
inline constexpr double switch_tolerance_s = 1e-7;
inline constexpr double first_step_s = 1;

[[gnu::always_inline]] inline NetHeat net_heat_of(const Nodes& nodes, const Drives& drives) {
    const Conductances& path = drives.paths;
    const double to_housing_W = path.oil_housing_WpK * (nodes.oil_degC - nodes.housing_degC);
    const double to_steel_W = path.oil_steel_WpK * (nodes.oil_degC - nodes.steel_degC);
    const double steel_housing_W = path.steel_housing_WpK * (nodes.steel_degC - nodes.housing_degC);
    const double neighbour_W = path.neighbour_WpK * (drives.neighbour_degC - nodes.housing_degC);
    return {drives.made.oil_W - to_housing_W - to_steel_W - drives.cooler_W,
            drives.made.housing_W + to_housing_W + steel_housing_W - drives.outside_W +
                drives.exhaust_W + neighbour_W,
            drives.made.steel_W + to_steel_W - steel_housing_W};
}

/// integrate() with `drives(t_s, nodes)`, `seen(t_s, nodes)` and `switched(nodes)` as they are;
/// `switched` is asked only where `may_switch`.
template <class DrivesAt, class Seen, class Switched>
double integrate_by(const Capacities& capacities, Nodes& nodes, const Span& span,
                    const DrivesAt& drives, const Seen& seen, bool may_switch,
                    const Switched& switched) {
    namespace odeint = boost::numeric::odeint;
    using State = std::array<double, 3>;
    const auto to_nodes = [](const State& state) { return Nodes{state[0], state[1], state[2]}; };
    const auto right_side = [&](const State& x, State& dxdt, double t) {
        const Nodes here = to_nodes(x);
        const NetHeat net = net_heat_of(here, drives(t, here));
        dxdt = {net.oil_W / capacities.oil_JpK, net.housing_W / capacities.housing_JpK,
                net.steel_W / capacities.steel_JpK};
    };
    auto stepper = odeint::make_dense_output(absolute_tolerance_K, relative_tolerance,
                                             odeint::runge_kutta_dopri5<State>());
    const double length_s = span.t1_s - span.t0_s;
    if (length_s <= 0) return span.t1_s;
    stepper.initialize(State{nodes.oil_degC, nodes.housing_degC, nodes.steel_degC}, span.t0_s,
                       std::min(first_step_s, length_s));
    State at{};
    long next = 1;
    const auto next_s = [&] {
        return std::min(span.t0_s + static_cast<double>(next) * span.every_s, span.t1_s);
    };
    for (;;) {
        const auto [from_s, to_s] = stepper.do_step(right_side);
        double stop_s = std::min(to_s, span.t1_s);
        bool switch_here = false;
        if (may_switch) {
            stepper.calc_state(stop_s, at);
            if (switched(to_nodes(at))) {
                switch_here = true;
                double low_s = std::max(from_s, span.t0_s);
                while (stop_s - low_s > switch_tolerance_s) {
                    const double middle_s = (low_s + stop_s) / 2;
                    stepper.calc_state(middle_s, at);
                    (switched(to_nodes(at)) ? stop_s : low_s) = middle_s;
                }
            }
        }
        while (next_s() <= stop_s) {
            const double sample_s = next_s();
            stepper.calc_state(sample_s, at);
            seen(sample_s, to_nodes(at));
            ++next;
            if (sample_s >= span.t1_s) break;
        }
        if (switch_here || stop_s >= span.t1_s) {
            stepper.calc_state(stop_s, at);
            nodes = to_nodes(at);
            // Temperatures turn round where something switches: a peak may be there.
            if (switch_here && stop_s < span.t1_s) seen(stop_s, nodes);
            return stop_s;
        }
    }
}

}  // namespace caseload
