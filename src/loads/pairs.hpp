// SPDX-License-Identifier: MIT
// Facing pairs: two bearings with thick ends that alone hold a shaft along its axis.
#pragma once

#include "caseload/formulas/facing_pair.hpp"
#include "caseload/loads.hpp"

#include <cstddef>
#include <vector>

namespace caseload {

/// The pair of bearings a and b as springs.
facing_pair::Pair springs_of(const Setup& setup, std::size_t a, std::size_t b,
                             const std::vector<BearingData>& bearings);

/// A facing pair in its place.
struct PairPlace {
    std::size_t shaft;
    std::size_t front;
    std::size_t rear;
    bool thick_ends_out;
    /// Between the middles of the bearings, where the shoulders are to half a width; `at` is their
    /// pressure centre, half of d_m tan a away.
    double span_mm;
    facing_pair::Pair springs;
};
std::vector<PairPlace> facing_pairs(const Setup& setup, const Loads& loads);

/// What the parts of a pair are too long by as it was set, at 20 degC; negative: end play.
double cold_over_mm(const Setup& setup, const Loads& loads, const PairPlace& pair);

/// The same more in the hot case, from housing and steel temperatures: span, cones warmer than
/// their cups, cups that lose squeeze.
struct PairTemps {
    double housing_degC;
    double steel_degC;
};
double tightening_mm(const Setup& setup, const Loads& loads, const PairPlace& pair,
                     const PairTemps& temps);

}  // namespace caseload
