// SPDX-License-Identifier: MIT
#include "checks/parts.hpp"

#include <algorithm>

namespace caseload {
namespace {

// A lip runs hotter than what it seals by this while the shaft turns: 20 to 60 K, from memory.
constexpr double lip_rise_K = 30;

/// Temperature a lip material stands all day. Source: materials guides of O-ring and lip makers'
/// associations, generic: NBR 100 to 120, HNBR and ACM 150, FKM and VMQ 200, PTFE 260; nitrile at
/// the lower end because of the additives of gear oils, from memory.
double material_limit_degC(SealMaterial material) {
    switch (material) {
        case SealMaterial::NBR:
            return 100;
        case SealMaterial::HNBR:
        case SealMaterial::ACM:
            return 150;
        case SealMaterial::FKM:
        case SealMaterial::VMQ:
            return 200;
        case SealMaterial::PTFE:
            return 260;
    }
    return 100;
}

bool loose(const SeatAt& at) {
    return at.gap_mm > 0 || at.retainer_gap_mm > 0 || at.pressure_MPa <= 0;
}

}  // namespace

void check_seats(const Checked& found, std::vector<Check>& into) {
    for (const SeatResult& seat : found.seats) {
        const std::string about = "bearing." + seat.bearing + ".seat";
        const double margin_K = seat.loose_above_degC - seat.hot.temp_degC;
        Check hot{.id = "seat.hot",
                  .about = about,
                  .words = "kelvin the seat stays tight beyond the hottest housing",
                  .value = margin_K,
                  .unit = "K",
                  .consequence = seat.retainer
                                     ? "ring or retainer is loose in the hot case: more retainer "
                                       "interference, pin or flange it"
                                     : "ring is loose in the hot case and creeps: steel retainer, "
                                       "tighter fit, pin or flange it"};
        into.push_back(at_least(std::move(hot), {0, -1e9}));
        const double cold_K = seat.loose_above_degC - seat.cold.temp_degC;
        Check cold{.id = "seat.cold",
                   .about = about,
                   .words = "kelvin the seat stays tight beyond the cold case",
                   .value = loose(seat.cold) ? std::min(cold_K, -1e-9) : std::max(cold_K, 0.0),
                   .unit = "K",
                   .consequence = "ring is loose even in the cold case: wrong fit or worn bore"};
        into.push_back(at_least(std::move(cold), {0, 0}));
        if (seat.play_known)
            into.push_back({.id = "seat.play",
                            .about = about,
                            .verdict = "shown",
                            .words = "least play left in the hot bearing",
                            .value = seat.hot.play_least_mm,
                            .unit = "mm"});
    }
}

void check_seals(const Prepared& prepared, const EventHeat& heat, std::vector<Check>& into) {
    const Setup& setup = *prepared.setup;
    double hottest_degC = prepared.start_degC;
    for (const Sample& sample : heat.samples) {
        const auto leg =
            static_cast<std::size_t>(setup.event.run[static_cast<std::size_t>(sample.run)]);
        const double turning_K = setup.event.legs[leg].kind == LegKind::drive ? lip_rise_K : 0;
        hottest_degC = std::max(
            hottest_degC, std::max(sample.nodes.oil_degC, sample.nodes.housing_degC) + turning_K);
    }
    for (const SealInput& seal : setup.seals) {
        const double limit_degC = material_limit_degC(seal.material);
        into.push_back(
            at_most({.id = "seal.lip",
                     .about = "seal." + seal.name,
                     .words = "hottest lip",
                     .value = std::min(hottest_degC, oil_ceiling_degC + lip_rise_K),
                     .unit = "degC",
                     .consequence = "the lip hardens and leaks: a hotter material, and a "
                                    "new seal after this event"},
                    {limit_degC, 1e9}));
    }
}

}  // namespace caseload
