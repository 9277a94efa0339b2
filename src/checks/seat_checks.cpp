// SPDX-License-Identifier: MIT
#include "caseload/figures.hpp"
#include "checks/parts.hpp"
#include "damage/creep.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

Severity seat_severity(SeatClass creep) {
    switch (creep) {
        case SeatClass::tight:
            return Severity::fine;
        case SeatClass::held:
            return Severity::shown;
        case SeatClass::walks:
            return Severity::look;
        case SeatClass::turns:
        case SeatClass::wrong:
            return Severity::watch;
    }
    return Severity::watch;
}

/// What it does, in the words of its class.
std::string seat_words(const SeatResult& seat) {
    const std::string ring = seat.retainer ? "ring or retainer" : "ring";
    const std::string way = seat.travel_m > travel_to_look_m
                                ? fmt::format(", {} m an event", figures(seat.travel_m, 2))
                                : "";
    const std::string by = fmt::format(
        "{} ({}, gap {:.2f} mm)", way,
        seat.swing_deg >= 180 ? "its load goes round"
                              : fmt::format("slip margin {}", figures(seat.slip_margin, 2)),
        seat.gap_mm);
    switch (seat.creep) {
        case SeatClass::tight:
        case SeatClass::wrong:  // of inner rings
            break;
        case SeatClass::held:
            return ring + " free when hot, held by its load" + by;
        case SeatClass::walks:
            return ring + " walks when hot" + by;
        case SeatClass::turns:
            return ring + " turns in its bore when hot" + by;
    }
    return "margin before the seat is loose, hot";
}

std::string seat_consequence(SeatClass creep) {
    if (creep == SeatClass::walks) return "look for polish in the bore";
    return creep == SeatClass::turns ? "the bore wears: pin, flange or steel retainer" : "";
}

// Judgement.
constexpr double shaft_travel_to_stop_m = 1000;

Severity shaft_severity(const SeatResult& seat) {
    if (seat.on_shaft == SeatClass::wrong)
        return seat.shaft_travel_m > shaft_travel_to_stop_m ? Severity::stop : Severity::watch;
    // Once in a while, in rare bins or at a blow: no travel worth the name.
    return seat.peak_fit_um < 0 ? Severity::look : Severity::fine;
}

/// The inner ring on its shaft.
Check shaft_check(const SeatResult& seat, const std::string& about) {
    const Severity severity = shaft_severity(seat);
    const bool turns = severity >= Severity::watch;
    const bool rarely = severity == Severity::look;
    return {.id = CheckId::seat_shaft,
            .about = about,
            .verdict = std::string(severity_word(severity)),
            .words = turns    ? fmt::format("inner ring turns on its shaft, {} m an event",
                                            figures(seat.shaft_travel_m, 2))
                     : rarely ? "inner ring slips on its shaft under rare loads"
                              : "effective fit of the inner ring on its shaft",
            .value = rarely ? seat.peak_fit_um : seat.effective_fit_um,
            .at_least = true,
            .unit = "um",
            .consequence = turns    ? "the shaft wears: a tighter shaft fit"
                           : rarely ? "look for polish on the shaft"
                                    : ""};
}

}  // namespace

void check_seats(const Checked& found, std::vector<Check>& into) {
    for (const SeatResult& seat : found.seats) {
        const std::string about = "bearing." + seat.bearing + ".seat";
        into.push_back({.id = CheckId::seat_creep,
                        .about = about,
                        .verdict = std::string(severity_word(seat_severity(seat.creep))),
                        .words = seat_words(seat),
                        .value = seat.loose_above_degC - seat.hot.temp_degC,
                        .at_least = true,
                        .unit = "K",
                        .consequence = seat_consequence(seat.creep)});
        if (seat.shaft_fit_known) into.push_back(shaft_check(seat, about));
    }
}

}  // namespace caseload
