// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/seats.hpp"

#include <cstddef>
#include <optional>

namespace caseload {

// Between what only shows and what is looked at or watched. Judgement.
inline constexpr double sure_slip_margin = 2;
inline constexpr double swing_share_to_look = 0.5;  // of F_rot over F_0
inline constexpr double gap_to_look_mm = 0.15;
inline constexpr double travel_to_look_m = 5;
inline constexpr double travel_to_watch_m = 100;
inline constexpr double wear_to_watch_um = 10;
inline constexpr double turning_time_share = 0.05;

/// Running inner ring over its shaft. 0 to 15 K, judgement. Not the star's film less its steel: the
/// film speaks for both rings, and most of that difference lies along the shaft, not across the
/// fit; in a warming case the ring leads by more than it does settled.
inline constexpr double ring_over_shaft_K = 5;

/// The effective fit of an inner ring under the load of the event, and the bin it is of.
struct EventFit {
    double fit_mm = 0;
    std::size_t leg = 0;
    std::size_t bin = 0;
};
/// The event's load: the largest that the bearing has for more than `turning_time_share` of the
/// time its shaft turns; what is above it comes for moments, as a slip of the outer ring does in
/// the same share of it. Nothing where the shaft never turns.
std::optional<EventFit> event_fit(const Prepared& prepared, std::size_t bearing);

/// What the inner ring of that bearing does on its shaft, where its fit is entered.
void add_shaft_creep(const Prepared& prepared, std::size_t bearing, SeatResult& into);

/// What the ring of that bearing does in its seat when hot; its gaps are known.
void add_creep(const Prepared& prepared, const EventHeat& heat, std::size_t bearing,
               SeatResult& into);

}  // namespace caseload
