// SPDX-License-Identifier: MIT
#include "caseload/heat.hpp"

#include <math.h>  // NOLINT(modernize-deprecated-headers): Boost 1.74's interpolators call isnan unqualified

#include "heat/curve_made.hpp"
#include "heat/integrate.hpp"

#include <boost/math/interpolators/makima.hpp>

#include <utility>

namespace caseload {

NetHeat net_heat(const Nodes& nodes, const Drives& drives) {
    return net_heat_of(nodes, drives);
}

// NOLINTNEXTLINE(bugprone-easily-swappable-parameters): x before y, as everywhere
Curve::Curve(std::vector<double> x, std::vector<double> y) {
    auto copy_x = x;
    auto copy_y = y;
    const boost::math::interpolators::makima<std::vector<double>> spline(std::move(copy_x),
                                                                         std::move(copy_y));
    const auto made = std::make_shared<Made>();
    made->pieces.reserve(x.size());
    for (std::size_t i = 0; i + 1 < x.size(); ++i) {
        const double h = x[i + 1] - x[i];
        const double rise = (y[i + 1] - y[i]) / h;
        const double slope = spline.prime(x[i]);
        const double next = spline.prime(x[i + 1]);
        made->pieces.push_back(
            {slope, (3 * rise - 2 * slope - next) / h, (slope + next - 2 * rise) / (h * h)});
    }
    made->pieces.push_back({0, 0, 0});
    // So many that few nodes share one, also where they are close around a bend.
    const std::size_t cells = 8 * x.size();
    made->cells_per_x = static_cast<double>(cells) / (x.back() - x.front());
    made->node_of_cell.reserve(cells + 1);
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

double Curve::operator()(double x) const {
    return (*made_)(x);
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
    return integrate_by(capacities, nodes, span, drives, seen, static_cast<bool>(switched),
                        switched);
}

}  // namespace caseload
