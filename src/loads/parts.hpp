// SPDX-License-Identifier: MIT
// What the steps of the loads share.
#pragma once

#include "caseload/loads.hpp"

namespace caseload {

/// Ratings, sizes and friction of one bearing: entered, else estimated from its size.
BearingData bearing_data(const BearingInput& input, int shaft, Notes& notes);

/// `bearing_loads` with the forces of the joints' slips in each of several states.
std::vector<std::vector<BearingLoad>> bearing_loads_of_slips(
    const Setup& setup, const Train& train, const std::vector<BearingData>& bearings,
    double torque_Nm, const std::vector<std::vector<double>>& slips_N,
    const std::vector<double>& over_mm);

/// What the layout says without any number: which way the shafts turn, and on which flank the gears
/// of each driven axle run.
void note_layout(const Setup& setup, const Train& train, Notes& notes);

/// Four-point bearings that carry more radial load than they are made for.
void note_four_point(Loads& loads);

/// The setup with the front prop shaft disconnected: joints at the front of a driven shaft carry
/// nothing, those at its rear all of its torque.
Setup without_front_drive(const Setup& setup, const Train& train);

}  // namespace caseload
