// SPDX-License-Identifier: MIT
// The pieces of a curve, for many look-ups.
#pragma once

#include "caseload/heat.hpp"

#include <cmath>
#include <cstddef>
#include <vector>

namespace caseload {

struct Curve::Made {
    std::vector<double> x;
    std::vector<double> y;
    /// Of the cubic from a node to the next, in powers of the distance from it; after the last node
    /// a flat one.
    struct Piece {
        double slope;
        double square;
        double cube;
    };
    std::vector<Piece> pieces;
    // Node at or before the start of each of equally wide cells: looking up takes few steps.
    std::vector<std::size_t> node_of_cell;
    double cells_per_x = 0;

    /// The node before an x and the distance from it; of all curves through the same points.
    struct Place {
        std::size_t node;
        double from_node;
    };
    [[nodiscard]] Place place(double at_x) const {
        if (at_x <= x.front()) return {0, 0};
        if (at_x >= x.back()) return {x.size() - 1, 0};
        if (std::isnan(at_x)) return {0, at_x};
        std::size_t i = node_of_cell[static_cast<std::size_t>((at_x - x.front()) * cells_per_x)];
        while (i > 0 && x[i] > at_x) --i;  // the cell was rounded up
        while (x[i + 1] < at_x) ++i;
        return {i, at_x - x[i]};
    }
    // Between nodes the cubic with the values and slopes of both; the same as the spline's own
    // evaluation, which searches and copies more.
    [[nodiscard]] double at(const Place& place) const {
        const Piece& piece = pieces[place.node];
        const double t = place.from_node;
        return y[place.node] + t * (piece.slope + t * (piece.square + t * piece.cube));
    }
    [[nodiscard]] double operator()(double at_x) const { return at(place(at_x)); }
};

}  // namespace caseload
