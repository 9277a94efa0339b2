// SPDX-License-Identifier: MIT
#include "loads/running_play.hpp"

#include "caseload/formulas/operating_clearance.hpp"
#include "loads/seat_fit.hpp"

#include <algorithm>

namespace caseload {
namespace {

// Ring and case of a running bearing, as for the heat that passes its seat. Judgement.
constexpr double running_seat_degC = 90;
// An inner ring is warmer than the outer one by this while it turns; 0 to 15 K, judgement. The
// three paths of a film have one temperature for both rings and its elements; what conduction
// through the rings adds to that is 1 to 3 K and goes with the load, so this is kept for all.
constexpr double inner_over_outer_K = 5;
// Fit of an inner ring that goes round under its load, where none is entered: k5 to m5 of ISO 286
// on a ring to ISO 492, 25 um on 90 mm. Judgement.
constexpr double usual_inner_fit_share = 25e-3 / 90;

struct Warmth {
    double seat_degC;  ///< ring and case
    double inner_over_outer_K;
};

std::optional<RunningPlay> play_at(const Setup& setup, const BearingInput& input,
                                   const BearingData& data, const Warmth& warmth) {
    if (!has_running_play(input)) return std::nullopt;
    const auto delivered =
        iso_5753::radial_clearance_mm(input.kind, input.clearance, input.bore_mm);
    const double inner_fit_mm =
        input.seat.shaft_interference_mm.value_or(usual_inner_fit_share * input.bore_mm);
    return RunningPlay{
        .least_mm = delivered->least_mm,
        .largest_mm = delivered->largest_mm,
        .inner_fit_mm = inner_fit_mm,
        .inner_mm = operating_clearance::inner_reduction_mm(
            {.interference_mm = inner_fit_mm,
             .shaft_bore_mm = std::min(setup.shafts.at(input.shaft).bore_mm,
                                       operating_clearance::most_hollow_share * input.bore_mm),
             .bore_mm = input.bore_mm,
             .raceway_mm = inner_raceway_mm(data)}),
        .outer_mm = raceway_shrink_mm(setup, input, data, warmth.seat_degC),
        .warmer_mm = thick_ring::steel.expansion_pK * data.d_m_mm * warmth.inner_over_outer_K};
}

}  // namespace

bool has_running_play(const BearingInput& bearing) {
    return bearing.radial && bearing.bore_mm > iso_5753::over_bore_mm &&
           bearing.bore_mm <= iso_5753::largest_bore_mm &&
           (bearing.kind == BearingKind::deep_groove_ball ||
            bearing.kind == BearingKind::cylindrical_roller);
}

std::optional<RunningPlay> running_play(const Setup& setup, const BearingInput& input,
                                        const BearingData& data) {
    return play_at(setup, input, data, {running_seat_degC, inner_over_outer_K});
}

std::optional<RunningPlay> cold_play(const Setup& setup, const BearingInput& input,
                                     const BearingData& data, double temp_degC) {
    return play_at(setup, input, data, {temp_degC, 0});
}

load_zone::Factors play_factors(const BearingData& bearing, double F_r_N) {
    if (!bearing.play_known) return {};
    return load_zone::factors(
        element_stiffness::contact_of(bearing.kind),
        {bearing.running_play_mm, bearing.element_stiffness_N, F_r_N, bearing.elements});
}

double equivalent_load_N(const BearingData& bearing, const BearingLoad& load) {
    const double rated_N = rated_load_N(bearing, load);
    if (!bearing.play_known) return rated_N;
    const double k = load_zone::load_factor(
        element_stiffness::contact_of(bearing.kind),
        {bearing.running_play_mm, bearing.element_stiffness_N, load.F_r_N, bearing.elements});
    return std::max(k * load.F_r_N, rated_N);
}

}  // namespace caseload
