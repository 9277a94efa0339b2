// SPDX-License-Identifier: MIT
#include "damage/creep.hpp"

#include "caseload/damage.hpp"
#include "caseload/formulas/ring_creep.hpp"
#include "caseload/losses.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <vector>

namespace caseload {
namespace {

using ring_creep::RingLoad;

/// Largest and mean of the same turn: their difference goes round or to and fro.
RingLoad ring_load(const BearingLoad& load) {
    // Rounding of the mean of equal vectors.
    constexpr double nothing = 1e-9;
    const double F_rot_N = load.F_r_max_N - load.F_0_N;
    return {load.F_0_N, F_rot_N > nothing * load.F_r_max_N ? F_rot_N : 0};
}

SeatClass class_of(const SeatResult& seat, double turning_share, double most_swing_share) {
    if (turning_share > turning_time_share || seat.travel_m > travel_to_watch_m ||
        seat.wear_um > wear_to_watch_um)
        return SeatClass::turns;
    if (seat.slip_margin < sure_slip_margin || most_swing_share > swing_share_to_look ||
        seat.gap_mm > gap_to_look_mm || seat.travel_m > travel_to_look_m)
        return SeatClass::walks;
    return SeatClass::held;
}

/// Largest of the slip joints' directions.
double most_F_r_N(const std::vector<LoadState>& states, std::size_t bearing) {
    double most_N = 0;
    for (const LoadState& state : states) most_N = std::max(most_N, state.bearings[bearing].F_r_N);
    return most_N;
}

/// The inner ring of a bearing whose fit on the shaft is entered.
ring_creep::InnerRing inner_ring(const Prepared& prepared, std::size_t bearing) {
    const BearingData& data = prepared.loads.bearings[bearing];
    return {
        .d_mm = data.bore_mm,
        .B_mm = data.width_mm,
        .interference_mm = *prepared.setup->bearings[bearing].seat.shaft_interference_mm,
        .C_0_N = data.C_0_N,
        .warmer_K = ring_over_shaft_K,
    };
}

/// The fit in a bin, for how long and how fast the shaft turns then.
struct FitInBin {
    EventFit at;
    double time_s;
    double n_rpm;
};

std::vector<FitInBin> fits_in_bins(const Prepared& prepared, std::size_t bearing) {
    const Setup& setup = *prepared.setup;
    const ring_creep::InnerRing ring = inner_ring(prepared, bearing);
    const auto shaft = static_cast<std::size_t>(prepared.loads.bearings[bearing].shaft);
    std::vector<FitInBin> all;
    for (const int run : setup.event.run) {
        const auto leg = static_cast<std::size_t>(run);
        const auto& bins = prepared.loads.legs[leg].bins;
        for (std::size_t bin = 0; bin < bins.size(); ++bin) {
            const double n_rpm = bins[bin].shaft_speed_rpm[shaft];
            const double time_s = bins[bin].bin.share * setup.event.legs[leg].duration_s;
            if (n_rpm <= 0 || time_s <= 0) continue;
            all.push_back(
                {{ring_creep::effective_fit_mm(ring, most_F_r_N(bins[bin].for_life, bearing)), leg,
                  bin},
                 time_s,
                 n_rpm});
        }
    }
    return all;
}

}  // namespace

std::optional<EventFit> event_fit(const Prepared& prepared, std::size_t bearing) {
    std::vector<FitInBin> all = fits_in_bins(prepared, bearing);
    std::stable_sort(all.begin(), all.end(), [](const FitInBin& a, const FitInBin& b) {
        return a.at.fit_mm < b.at.fit_mm;
    });
    double turning_s = 0;
    for (const FitInBin& one : all) turning_s += one.time_s;
    double looser_s = 0;
    for (const FitInBin& one : all) {
        looser_s += one.time_s;
        if (looser_s > turning_time_share * turning_s) return one.at;
    }
    return std::nullopt;
}

void add_shaft_creep(const Prepared& prepared, std::size_t bearing, SeatResult& into) {
    const Setup& setup = *prepared.setup;
    if (!setup.bearings[bearing].seat.shaft_interference_mm ||
        !prepared.loads.bearings[bearing].radial)
        return;
    into.shaft_fit_known = true;
    const ring_creep::InnerRing ring = inner_ring(prepared, bearing);
    const double unloaded_mm = ring_creep::effective_fit_mm(ring, 0);
    double least_mm = unloaded_mm;
    for (const FitInBin& one : fits_in_bins(prepared, bearing)) {
        least_mm = std::min(least_mm, one.at.fit_mm);
        into.shaft_travel_m +=
            m_from_mm(ring_creep::inner_rolling_mm(one.at.fit_mm)) * one.n_rpm / 60 * one.time_s;
    }
    for (const int run : setup.event.run)
        for (const PeakLoads& peak : prepared.loads.legs[static_cast<std::size_t>(run)].peaks)
            least_mm = std::min(
                least_mm, ring_creep::effective_fit_mm(ring, most_F_r_N(peak.states, bearing)));
    const std::optional<EventFit> of_event = event_fit(prepared, bearing);
    const double fit_mm = of_event ? of_event->fit_mm : unloaded_mm;
    into.effective_fit_um = um_from_mm(fit_mm);
    into.peak_fit_um = um_from_mm(least_mm);
    into.on_shaft = fit_mm < 0 ? SeatClass::wrong : SeatClass::tight;
}

void add_creep(const Prepared& prepared, const EventHeat& heat, std::size_t bearing,
               SeatResult& into) {
    const bool retainer_loose = into.retainer && into.hot.retainer_gap_mm > 0;
    into.gap_mm = retainer_loose ? into.hot.retainer_gap_mm : into.hot.gap_mm;
    if (into.gap_mm <= 0) return;
    const Setup& setup = *prepared.setup;
    const BearingInput& input = setup.bearings[bearing];
    const BearingData& data = prepared.loads.bearings[bearing];
    const double D_mm = retainer_loose ? *input.seat.retainer_outside_mm : input.outside_mm;
    into.creep = SeatClass::held;
    if (!data.radial) return;  // free round its ring by intention
    bool turned = false;
    double least_margin = 0;
    double most_swing_share = 0;
    double turning_s = 0;
    double slipping_s = 0;
    for (const int run : setup.event.run) {
        const auto leg = static_cast<std::size_t>(run);
        const auto hottest_degC = hottest_unheated_degC(prepared, heat, leg, bearing);
        if (!hottest_degC) continue;
        const auto& bins = prepared.loads.legs[leg].bins;
        for (std::size_t bin = 0; bin < bins.size(); ++bin) {
            const PreparedLosses::BearingTerm& term =
                prepared.losses[leg].bins[bin].bearings[bearing];
            const double time_s = bins[bin].bin.share * setup.event.legs[leg].duration_s;
            if (term.n_rpm <= 0 || time_s <= 0) continue;
            const RingLoad load = ring_load(bins[bin].nominal[bearing]);
            const double M_Nmm = 1000 * run_bearing(prepared.oil, term, *hottest_degC).loss_W /
                                 radps_from_rpm(term.n_rpm);
            const double margin = ring_creep::slip_margin(load, D_mm, M_Nmm);
            const double turn_mm = ring_creep::goes_round(load)
                                       ? ring_creep::rolling_mm(load, into.gap_mm)
                                       : ring_creep::walking_mm(margin, D_mm);
            const double way_m = m_from_mm(turn_mm) * term.n_rpm / 60 * time_s;
            least_margin = turned ? std::min(least_margin, margin) : margin;
            turned = true;
            into.swing_deg = std::max(into.swing_deg, ring_creep::swing_deg(load));
            most_swing_share =
                std::max(most_swing_share, load.F_0_N > 0 ? load.F_rot_N / load.F_0_N : 1);
            into.travel_m += way_m;
            into.wear_um += ring_creep::wear_um({D_mm, input.width_mm},
                                                bins[bin].nominal[bearing].F_r_N, way_m);
            turning_s += time_s;
            if (margin < 1) slipping_s += time_s;
        }
    }
    if (!turned) return;
    into.slip_margin = least_margin;
    // Kept from turning by other means than its fit.
    if (input.seat.held == Held::none)
        into.creep = class_of(into, slipping_s / turning_s, most_swing_share);
}

}  // namespace caseload
