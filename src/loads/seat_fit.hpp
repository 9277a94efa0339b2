// SPDX-License-Identifier: MIT
// What a bearing's seat says of its fit, as rings pressed into one another.
#pragma once

#include "caseload/formulas/thick_ring.hpp"
#include "caseload/loads.hpp"

namespace caseload {

/// Diameters at which its rings carry their elements.
double outer_raceway_mm(const BearingData& bearing);
double inner_raceway_mm(const BearingData& bearing);

/// Of an outer ring in its seat at 20 degC, on diameter; negative: clearance.
struct RingInterference {
    double least_mm;
    double largest_mm;

    [[nodiscard]] double middle_mm() const { return (least_mm + largest_mm) / 2; }
};

/// Whether the seat says how its ring fits, and a steel retainer how it does.
bool has_ring_fit(const BearingInput& bearing);
/// The same, and it was not assumed.
bool ring_fit_known(const BearingInput& bearing);
/// Entered, or that of the named fit.
RingInterference ring_interference(const BearingInput& bearing);

/// A boss round the seat, in place of one that was not entered.
double boss_outside_mm(const BearingInput& bearing);

/// A bearing in a boss of this material.
struct BossedRing {
    const BearingInput& input;
    const BearingData& data;
    const thick_ring::Material& boss;
};
/// The ring in its seat, and in a retainer in its seat, with this interference of the ring.
thick_ring::Fit ring_in_boss(const BossedRing& ring, double ring_mm);
thick_ring::Nest ring_in_retainer(const BossedRing& ring, double ring_mm);

/// What a seat with ring, retainer and housing at this temperature takes off the outer raceway, on
/// diameter, by the middle of its fit; 0 where the ring is loose or the seat says no fit.
double raceway_shrink_mm(const Setup& setup, const BearingInput& input, const BearingData& data,
                         double seat_degC);

}  // namespace caseload
