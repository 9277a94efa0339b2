// SPDX-License-Identifier: MIT
#include "caseload/parts.hpp"

#include "caseload/kinds.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

/// Class of radial clearance, for kinds that have one (ISO 5753-1).
std::string clearance_words(const BearingInput& bearing) {
    return use_of(bearing.kind).clearance_class
               ? fmt::format(" {}", words_for(bearing.clearance).key)
               : "";
}

const SeatResult* seat_of(const Checked& checked, const std::string& bearing) {
    for (const SeatResult& seat : checked.seats)
        if (seat.bearing == bearing) return &seat;
    return nullptr;
}

}  // namespace

std::string clock_words(double clock_deg) {
    const int hour = static_cast<int>(std::lround(clock_deg / 30)) % 12;
    return fmt::format("{} o'clock", hour == 0 ? 12 : hour);
}

std::vector<Part> opening_parts(const Setup& setup, const Damage& damage, const Checked& checked) {
    std::vector<Part> parts;
    for (std::size_t b = 0; b < setup.bearings.size(); ++b) {
        const BearingInput& bearing = setup.bearings[b];
        std::string look =
            fmt::format("outer raceway towards {}: pits, dents, smearing; cage; feel for play",
                        clock_words(damage.bearings[b].clock_deg));
        if (const SeatResult* seat = seat_of(checked, bearing.name);
            seat != nullptr && seat->hot.gap_mm + seat->hot.retainer_gap_mm > 0)
            look += "; seat bore polished or stepped: the ring was loose when hot";
        if (const SeatResult* seat = seat_of(checked, bearing.name);
            seat != nullptr && seat->on_shaft == SeatClass::wrong)
            look += "; shaft polished or stepped: the inner ring turns on it";
        parts.push_back(
            {"bearing." + bearing.name,
             fmt::format("{} {:g}x{:g}x{:g} mm{}", words_for(bearing.kind).shown, bearing.bore_mm,
                         bearing.outside_mm, bearing.width_mm, clearance_words(bearing)),
             std::move(look)});
    }
    for (const GearDamage& gear : checked.gears)
        parts.push_back(
            {gear_address(gear),
             fmt::format("{} teeth, {:g} mm wide", gear.teeth, setup.gears.face_width_mm),
             "drive flank: grey or pitted bands near the pitch line; roots: cracks by "
             "dye, both flanks; blue colour means it ran dry"});
    for (const SplineInput& spline : setup.splines)
        parts.push_back(
            {"spline." + spline.name,
             fmt::format("{} teeth on {:g} mm, {:g} mm long, {}", spline.teeth,
                         spline.pitch_diameter_mm, spline.length_mm, words_for(spline.fit).key),
             "both flanks: steps, polish, red-brown dust; play against its mate; cracks at the "
             "roots and where the teeth end"});
    for (const SealInput& seal : setup.seals)
        parts.push_back(
            {"seal." + seal.name,
             fmt::format("{:g} mm, {}, {} lip{}", seal.diameter_mm, words_for(seal.material).key,
                         seal.lips, seal.lips == 1 ? "" : "s"),
             "replace at every opening; shaft: groove under the lip"});
    parts.push_back({"oil",
                     fmt::format("{:g} L {}", setup.oil.fill_L,
                                 setup.oil.grade.empty() ? "as entered" : setup.oil.grade),
                     "drain through a clean cloth, keep a sample; magnet: flakes mean stop"});
    return parts;
}

}  // namespace caseload
