// SPDX-License-Identifier: MIT
#include "loads/seat_fit.hpp"

#include "caseload/formulas/iso_492.hpp"
#include "caseload/formulas/operating_clearance.hpp"
#include "caseload/housing_metal.hpp"

namespace caseload {
namespace {

operating_clearance::Elements elements_of(const BearingData& bearing) {
    return {.D_pw_mm = bearing.d_m_mm,
            .D_w_mm = bearing.element_mm,
            .contact_angle_deg = bearing.contact_angle_deg};
}

}  // namespace

double outer_raceway_mm(const BearingData& bearing) {
    return operating_clearance::outer_raceway_mm(elements_of(bearing));
}

double inner_raceway_mm(const BearingData& bearing) {
    return operating_clearance::inner_raceway_mm(elements_of(bearing));
}

bool has_ring_fit(const BearingInput& bearing) {
    const SeatInput& seat = bearing.seat;
    const bool ring = seat.ring_interference_mm || !seat.ring_fit.empty();
    const bool retainer = seat.carrier == Carrier::aluminium ||
                          (seat.retainer_outside_mm && seat.retainer_interference_mm);
    return bearing.has_seat && ring && retainer;
}

bool ring_fit_known(const BearingInput& bearing) {
    return has_ring_fit(bearing) && !bearing.seat.assumed;
}

RingInterference ring_interference(const BearingInput& bearing) {
    if (const auto& entered_mm = bearing.seat.ring_interference_mm)
        return {*entered_mm, *entered_mm};
    const iso_492::Interference fit =
        iso_492::seat_interference_mm(bearing.seat.ring_fit, bearing.outside_mm);
    return {fit.least_mm, fit.largest_mm};
}

double boss_outside_mm(const BearingInput& bearing) {
    const SeatInput& seat = bearing.seat;
    if (seat.boss_outside_mm) return *seat.boss_outside_mm;
    return usual_boss_over_mm + (seat.carrier == Carrier::steel_retainer && seat.retainer_outside_mm
                                     ? *seat.retainer_outside_mm
                                     : bearing.outside_mm);
}

thick_ring::Fit ring_in_boss(const BossedRing& ring, double ring_mm) {
    const auto& [input, data, boss] = ring;
    return {.inside_mm = outer_raceway_mm(data),
            .joint_mm = input.outside_mm,
            .outside_mm = boss_outside_mm(input),
            .inner = thick_ring::steel,
            .outer = boss,
            .interference_mm = ring_mm};
}

thick_ring::Nest ring_in_retainer(const BossedRing& ring, double ring_mm) {
    const auto& [input, data, boss] = ring;
    return {.raceway_mm = outer_raceway_mm(data),
            .ring_outside_mm = input.outside_mm,
            .retainer_outside_mm = input.seat.retainer_outside_mm.value(),
            .boss_outside_mm = boss_outside_mm(input),
            .ring = thick_ring::steel,
            .retainer = thick_ring::steel,
            .boss = boss,
            .ring_interference_mm = ring_mm,
            .retainer_interference_mm = input.seat.retainer_interference_mm.value()};
}

double raceway_shrink_mm(const Setup& setup, const BearingInput& input, const BearingData& data,
                         double seat_degC) {
    if (!has_ring_fit(input)) return 0;
    const BossedRing ring{input, data, metal_of(setup.housing.material).elastic};
    const double ring_mm = ring_interference(input).middle_mm();
    const double pressure_MPa =
        input.seat.carrier == Carrier::steel_retainer
            ? thick_ring::joints(ring_in_retainer(ring, ring_mm), {seat_degC, seat_degC, seat_degC})
                  .ring.pressure_MPa
            : thick_ring::joint(ring_in_boss(ring, ring_mm), {seat_degC, seat_degC}).pressure_MPa;
    if (pressure_MPa <= 0) return 0;
    return -thick_ring::inside_growth_mm({.inside_mm = outer_raceway_mm(data),
                                          .outside_mm = input.outside_mm,
                                          .material = thick_ring::steel},
                                         {.inside_MPa = 0, .outside_MPa = pressure_MPa});
}

}  // namespace caseload
