// SPDX-License-Identifier: MIT
#include "checks/parts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

/// Hottest of oil and housing in the event, and the same with what a turning lip adds.
struct HottestAtSeals {
    double sump_degC;
    double lip_degC;
};

HottestAtSeals hottest_at_seals(const Prepared& prepared, const EventHeat& heat) {
    const Setup& setup = *prepared.setup;
    HottestAtSeals hottest{prepared.start_degC, prepared.start_degC};
    for (const Sample& sample : heat.samples) {
        const auto leg =
            static_cast<std::size_t>(setup.event.run[static_cast<std::size_t>(sample.run)]);
        const double turning_K = setup.event.legs[leg].kind == LegKind::drive ? lip_rise_K : 0;
        const double sump_degC = std::max(sample.nodes.oil_degC, sample.nodes.housing_degC);
        hottest.sump_degC = std::max(hottest.sump_degC, sump_degC);
        hottest.lip_degC = std::max(hottest.lip_degC, sump_degC + turning_K);
    }
    return hottest;
}

Check sump_check(const std::string& about, double value_degC, double limit_degC) {
    Check sump = at_most({.id = CheckId::seal_sump,
                          .about = about,
                          .words = "hottest oil or case at the seal",
                          .value = value_degC,
                          .unit = "degC",
                          .consequence = "the lip hardens and leaks: a hotter material, and a new "
                                         "seal after this event"},
                         {limit_degC + seal_look_K, never});
    if (sump.verdict == "watch") return sump;
    sump.limit = limit_degC;
    if (value_degC <= limit_degC) return sump;
    sump.verdict = "shown";
    sump.limit = 0;
    sump.words +=
        fmt::format(", above the {:.0f} degC of its material: look at it when opened", limit_degC);
    return sump;
}

}  // namespace

// Sump: practice of radial lips in gear oil, DIN 3760 and ISO 6194-1 tables, from memory; sources
// disagree by 10 K (nitrile in EP oil 80 to 100). Silicone in EP oil is never right: its limit is
// that of plain oil, beside a check of its own. Lip: short-time limits of a general elastomer
// guide.
SealLimits seal_limits(SealMaterial material, bool ep_additive) {
    switch (material) {
        case SealMaterial::NBR:
            return {ep_additive ? 90.0 : 100.0, 140};
        case SealMaterial::HNBR:
            return {120, 170};
        case SealMaterial::ACM:
            return {ep_additive ? 120.0 : 130.0, 175};
        case SealMaterial::FKM:
            return {150, 230};
        case SealMaterial::VMQ:
            return {130, 230};
        case SealMaterial::PTFE:
            return {180, 260};
    }
    return {90, 140};
}

void check_seals(const Prepared& prepared, const EventHeat& heat, std::vector<Check>& into) {
    const Setup& setup = *prepared.setup;
    const HottestAtSeals hottest = hottest_at_seals(prepared, heat);
    for (const SealInput& seal : setup.seals) {
        const std::string about = "seal." + seal.name;
        const SealLimits limits = seal_limits(seal.material, setup.oil.ep_additive);
        Check sump = sump_check(about, hottest.sump_degC, limits.sump_degC);
        no_higher_than(oil_ceiling_degC, sump);
        into.push_back(std::move(sump));
        Check lip = at_most({.id = CheckId::seal_lip,
                             .about = about,
                             .words = "hottest lip",
                             .value = hottest.lip_degC,
                             .unit = "degC",
                             .consequence = "the lip hardens and leaks: a hotter material, and a "
                                            "new seal after this event"},
                            {limits.lip_degC, never});
        no_higher_than(oil_ceiling_degC + lip_rise_K, lip);
        into.push_back(std::move(lip));
        if (seal.material == SealMaterial::VMQ && setup.oil.ep_additive)
            into.push_back(
                at_most({.id = CheckId::seal_material,
                         .about = about,
                         .words = "silicone in EP gear oil, share of the time",
                         .value = 1,
                         .consequence = "silicone does not live in EP gear oil: fit FKM"},
                        {0, never}));
    }
}

}  // namespace caseload
