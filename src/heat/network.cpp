// SPDX-License-Identifier: MIT
#include "caseload/heat.hpp"

#include <math.h>  // NOLINT(modernize-deprecated-headers): Boost 1.74's interpolators call isnan unqualified

#include <boost/math/interpolators/makima.hpp>
#include <boost/numeric/odeint/stepper/generation/generation_dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation/generation_runge_kutta_dopri5.hpp>
#include <boost/numeric/odeint/stepper/generation/make_dense_output.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

using State = std::array<double, 3>;

// Accuracy of the integration. Steps are as long as stability allows, and there the error is this
// tolerance, whatever it is: at 1e-7 K they cost no more than at 1e-4 K, and the last digits of
// another machine's pow and exp move an event by less than 1e-6 K.
constexpr double absolute_tolerance_K = 1e-7;
constexpr double relative_tolerance = 1e-9;
// A switch is located to this accuracy in time: opening a cooler turns the oil's rate by about 1
// K/s.
constexpr double switch_tolerance_s = 1e-7;
constexpr double first_step_s = 1;

Nodes to_nodes(const State& state) {
    return {state[0], state[1], state[2]};
}

}  // namespace

NetHeat net_heat(const Nodes& nodes, const Drives& drives) {
    const Conductances& path = drives.paths;
    const double to_housing_W = path.oil_housing_WpK * (nodes.oil_degC - nodes.housing_degC);
    const double to_steel_W = path.oil_steel_WpK * (nodes.oil_degC - nodes.steel_degC);
    const double steel_housing_W = path.steel_housing_WpK * (nodes.steel_degC - nodes.housing_degC);
    return {drives.made.oil_W - to_housing_W - to_steel_W - drives.cooler_W,
            drives.made.housing_W + to_housing_W + steel_housing_W - drives.outside_W +
                drives.exhaust_W,
            drives.made.steel_W + to_steel_W - steel_housing_W};
}

Nodes rates_Kps(const Capacities& capacities, const Nodes& nodes, const Drives& drives) {
    const NetHeat net = net_heat(nodes, drives);
    return {net.oil_W / capacities.oil_JpK, net.housing_W / capacities.housing_JpK,
            net.steel_W / capacities.steel_JpK};
}

struct Curve::Made {
    std::vector<double> x;
    std::vector<double> y;
    /// Of the cubic from a node to the next, in powers of the distance from it.
    struct Piece {
        double slope;
        double square;
        double cube;
    };
    std::vector<Piece> pieces;
    // Node at or before the start of each of equally wide cells: looking up takes few steps.
    std::vector<std::size_t> node_of_cell;
    double cells_per_x = 0;
};

// NOLINTNEXTLINE(bugprone-easily-swappable-parameters): x before y, as everywhere
Curve::Curve(std::vector<double> x, std::vector<double> y) {
    auto copy_x = x;
    auto copy_y = y;
    const boost::math::interpolators::makima<std::vector<double>> spline(std::move(copy_x),
                                                                         std::move(copy_y));
    const auto made = std::make_shared<Made>();
    for (std::size_t i = 0; i + 1 < x.size(); ++i) {
        const double h = x[i + 1] - x[i];
        const double rise = (y[i + 1] - y[i]) / h;
        const double slope = spline.prime(x[i]);
        const double next = spline.prime(x[i + 1]);
        made->pieces.push_back(
            {slope, (3 * rise - 2 * slope - next) / h, (slope + next - 2 * rise) / (h * h)});
    }
    // So many that few nodes share one, also where they stand close around a bend.
    const std::size_t cells = 8 * x.size();
    made->cells_per_x = static_cast<double>(cells) / (x.back() - x.front());
    std::size_t node = 0;
    for (std::size_t cell = 0; cell <= cells; ++cell) {
        const double start = x.front() + static_cast<double>(cell) / made->cells_per_x;
        while (node + 2 < x.size() && x[node + 1] <= start) ++node;
        made->node_of_cell.push_back(node);
    }
    made->x = std::move(x);
    made->y = std::move(y);
    made_ = made;
}

// Between nodes the cubic with the values and slopes of both; the same as the spline's own
// evaluation, which searches and copies more.
double Curve::operator()(double x) const {
    if (std::isnan(x)) return x;
    const Made& made = *made_;
    if (x <= made.x.front()) return made.y.front();
    if (x >= made.x.back()) return made.y.back();
    std::size_t i =
        made.node_of_cell[static_cast<std::size_t>((x - made.x.front()) * made.cells_per_x)];
    while (i > 0 && made.x[i] > x) --i;  // the cell was rounded up
    while (made.x[i + 1] < x) ++i;
    const Made::Piece& piece = made.pieces[i];
    const double t = x - made.x[i];
    return made.y[i] + t * (piece.slope + t * (piece.square + t * piece.cube));
}

namespace {
const std::vector<double> no_points;
}

const std::vector<double>& Curve::x() const {
    return made_ ? made_->x : no_points;
}

const std::vector<double>& Curve::y() const {
    return made_ ? made_->y : no_points;
}

double integrate(const Capacities& capacities, Nodes& nodes, const Span& span,
                 const std::function<Drives(double, const Nodes&)>& drives,
                 const std::function<void(double, const Nodes&)>& seen,
                 const std::function<bool(const Nodes&)>& switched) {
    namespace odeint = boost::numeric::odeint;
    const auto right_side = [&](const State& x, State& dxdt, double t) {
        const Nodes here = to_nodes(x);
        const Nodes rate = rates_Kps(capacities, here, drives(t, here));
        dxdt = {rate.oil_degC, rate.housing_degC, rate.steel_degC};
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
        if (switched) {
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
            // Temperatures turn round where something switches: a peak stands there.
            if (switch_here && stop_s < span.t1_s) seen(stop_s, nodes);
            return stop_s;
        }
    }
}

}  // namespace caseload
