// SPDX-License-Identifier: MIT
#include "checks/parts.hpp"

#include <algorithm>

namespace caseload {
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

HottestAtSeals hottest_at_seals(const Setup& setup, double start_degC, const EventHeat& heat) {
    HottestAtSeals hottest{start_degC, start_degC};
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

void check_seals(const Prepared& prepared, const EventHeat& heat, std::vector<Check>& into) {
    const Setup& setup = *prepared.setup;
    const HottestAtSeals hottest = hottest_at_seals(setup, prepared.start_degC, heat);
    for (const SealInput& seal : setup.seals) {
        const std::string about = "seal." + seal.name;
        const SealLimits limits = seal_limits(seal.material, setup.oil.ep_additive);
        Check sump = judged({.id = CheckId::seal_sump,
                             .about = about,
                             .words = "hottest oil or case at the seal",
                             .value = hottest.sump_degC,
                             .unit = "degC"},
                            limits.sump_degC);
        no_higher_than(oil_ceiling_degC, sump);
        into.push_back(std::move(sump));
        Check lip = judged({.id = CheckId::seal_lip,
                            .about = about,
                            .words = "hottest lip",
                            .value = hottest.lip_degC,
                            .unit = "degC"},
                           limits.lip_degC);
        no_higher_than(oil_ceiling_degC + lip_rise_K, lip);
        into.push_back(std::move(lip));
        if (seal.material == SealMaterial::VMQ && setup.oil.ep_additive)
            into.push_back(judged({.id = CheckId::seal_material,
                                   .about = about,
                                   .words = "silicone in EP gear oil, share of the time",
                                   .value = 1}));
    }
}

}  // namespace caseload
