// SPDX-License-Identifier: MIT
#include "checks/parts.hpp"

namespace caseload {
namespace {

bool loose(const SeatAt& at) {
    return at.gap_mm > 0 || at.retainer_gap_mm > 0 || at.pressure_MPa <= 0;
}

}  // namespace

void check_seats(const Checked& found, std::vector<Check>& into) {
    for (const SeatResult& seat : found.seats) {
        const std::string about = "bearing." + seat.bearing + ".seat";
        const double margin_K = seat.loose_above_degC - seat.hot.temp_degC;
        Check hot{.id = CheckId::seat_hot,
                  .about = about,
                  .words = "margin before the seat is loose, hot",
                  .value = margin_K,
                  .unit = "K",
                  .consequence = seat.retainer
                                     ? "ring or retainer is loose in the hot case: more retainer "
                                       "interference, pin or flange it"
                                     : "ring is loose in the hot case and creeps: steel retainer, "
                                       "tighter fit, pin or flange it"};
        into.push_back(at_least(std::move(hot), {0, -never}));
        const double cold_K = seat.loose_above_degC - seat.cold.temp_degC;
        Check cold{.id = CheckId::seat_cold,
                   .about = about,
                   .words = "margin before the seat is loose, cold",
                   .value = cold_K,
                   .unit = "K",
                   .consequence = "ring is loose even in the cold case: wrong fit or worn bore"};
        const std::string loose_cold = cold.consequence;
        cold = at_least(std::move(cold), {0, 0});
        if (loose(seat.cold)) {
            cold.verdict = "stop";
            cold.consequence = loose_cold;
        }
        into.push_back(std::move(cold));
        if (seat.play_known)
            into.push_back(at_least({.id = CheckId::seat_play,
                                     .about = about,
                                     .words = "least play left in the hot bearing",
                                     .value = seat.hot.play_least_mm,
                                     .unit = "mm",
                                     .consequence = "the bearing can run without play and seize: a "
                                                    "larger clearance class, less interference"},
                                    {0, -never}));
    }
}

}  // namespace caseload
