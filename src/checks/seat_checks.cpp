// SPDX-License-Identifier: MIT
#include "checks/parts.hpp"

#include <algorithm>

namespace caseload {
namespace {

bool loose(const SeatAt& at) {
    return at.gap_mm > 0 || at.retainer_gap_mm > 0 || at.pressure_MPa <= 0;
}

}  // namespace

// Source: a general elastomer guide, continuous limits: NBR 120, HNBR and ACM 150, FKM and VMQ 200,
// PTFE 260. Others give nitrile 100 in gear oil, from memory: sources disagree.
double lip_limit_degC(SealMaterial material) {
    switch (material) {
        case SealMaterial::NBR:
            return 120;
        case SealMaterial::HNBR:
        case SealMaterial::ACM:
            return 150;
        case SealMaterial::FKM:
        case SealMaterial::VMQ:
            return 200;
        case SealMaterial::PTFE:
            return 260;
    }
    return 120;
}

void check_seats(const Checked& found, std::vector<Check>& into) {
    for (const SeatResult& seat : found.seats) {
        const std::string about = "bearing." + seat.bearing + ".seat";
        const double margin_K = seat.loose_above_degC - seat.hot.temp_degC;
        Check hot{.id = "seat.hot",
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
        Check cold{.id = "seat.cold",
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
            into.push_back(at_least({.id = "seat.play",
                                     .about = about,
                                     .words = "least play left in the hot bearing",
                                     .value = seat.hot.play_least_mm,
                                     .unit = "mm",
                                     .consequence = "the bearing can run without play and seize: a "
                                                    "larger clearance class, less interference"},
                                    {0, -never}));
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
        const double limit_degC = lip_limit_degC(seal.material);
        Check lip = at_most({.id = "seal.lip",
                             .about = "seal." + seal.name,
                             .words = "hottest lip",
                             .value = hottest_degC,
                             .unit = "degC",
                             .consequence = "the lip hardens and leaks: a hotter material, and a "
                                            "new seal after this event"},
                            {limit_degC, never});
        // Judged as it is; told no higher than the ceiling allows.
        if (lip.value > oil_ceiling_degC + lip_rise_K) {
            lip.value = oil_ceiling_degC + lip_rise_K;
            lip.words = "hottest lip, above";
        }
        into.push_back(std::move(lip));
    }
}

}  // namespace caseload
