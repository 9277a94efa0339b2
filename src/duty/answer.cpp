// SPDX-License-Identifier: MIT
#include "duty/answer.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload::duty {
namespace {

void name_legs(std::vector<LegInput>& legs) {
    int drives = 0;
    int stops = 0;
    for (LegInput& leg : legs)
        leg.name = leg.kind == LegKind::stop ? fmt::format("stop-{}", ++stops)
                                             : fmt::format("drive-{}", ++drives);
}

double off_share(double binned, double sampled) {
    return sampled > 0 ? binned / sampled - 1 : 0;
}

/// The tooth that the bins change most, of the fitted gears' worse sides.
Agreement of_teeth(const Legs& legs, const bins::Measures& measures, bool root) {
    Agreement most;
    const bins::TurnDamage& teeth = *measures.teeth();
    for (std::size_t k = 0; k < teeth.parts().size(); ++k) {
        const bins::TurnDamage::Part& part = teeth.parts()[k];
        const std::size_t at = measures.first_tooth() + k;
        const double sampled = legs.by_cells()[at];
        if (part.root != root || !part.fitted || sampled <= 0) continue;
        if (sampled < legs.by_cells()[measures.kept()[at].scale]) continue;
        const double off = off_share(legs.by_bins()[at], sampled);
        if (!most.words.empty() && std::fabs(off) < std::fabs(most.off_share)) continue;
        most = {fmt::format("damage of {}, {}", root ? "roots" : "flanks", part.gear), off};
    }
    return most;
}

std::vector<Agreement> agreement_of(const Legs& legs, const std::vector<LegInput>& bins_of_legs,
                                    const bins::Measures& measures) {
    const PowerSums& samples = legs.samples();
    PowerSums bins;
    for (std::size_t i = 0; i < bins_of_legs.size(); ++i)
        for (const Bin& bin : bins_of_legs[i].bins)
            bins.add(bin.torque_Nm, bin.share * legs.known_s()[i] * bin.speed_rpm / 60);
    std::vector<Agreement> all{
        {"revolutions", off_share(bins.turns, samples.turns)},
        {"revolutions x torque, as friction heat", off_share(bins.p1, samples.p1)},
        {"revolutions x torque^3, as ball bearings", off_share(bins.p3, samples.p3)},
        {"revolutions x torque^7, as tooth flanks (6.6)", off_share(bins.p7, samples.p7)},
        {"revolutions x torque^9, as tooth roots (8.7)", off_share(bins.p9, samples.p9)}};
    if (measures.teeth() != nullptr)
        for (const bool root : {false, true})
            if (Agreement one = of_teeth(legs, measures, root); !one.words.empty())
                all.push_back(std::move(one));
    return all;
}

}  // namespace

void take_legs(Legs& legs, const bins::Measures& measures, DutyAnswer& answer) {
    answer.legs = std::move(legs.legs());
    answer.unknown_s = legs.unknown_s();
    answer.unknown_m = legs.unknown_m();
    name_legs(answer.legs);
    for (auto& [at, series] : legs.oil()) {
        series.leg = answer.legs[at].name;
        answer.oil.push_back(std::move(series));
    }
    answer.gate_Nm = legs.gate_Nm();
    answer.largest_Nm = legs.largest_Nm();
    answer.largest_ranges_Nm = legs.largest_ranges_Nm();
    answer.agreement = agreement_of(legs, answer.legs, measures);
    if (legs.drive_s() > 0) {
        answer.coast_share = legs.coast_s() / legs.drive_s();
        answer.mean_drive_power_W = 2 * pi * legs.drive_power_J() / legs.drive_s();
    }
}

void check_lengths(const std::vector<LegInput>& legs, const std::string& file) {
    constexpr double longest_s = 360000;
    constexpr double longest_m = 5e6;
    for (const LegInput& leg : legs)
        if (!(leg.duration_s <= longest_s && leg.distance_m <= longest_m))
            throw Error(Error::Kind::input,
                        {Problem{{file, 0, 0, 0, {}},
                                 fmt::format("{} lasts {:.4g} h over {:.4g} km; a leg is at most "
                                             "{:g} h and {:g} km",
                                             leg.name, leg.duration_s / 3600, leg.distance_m / 1000,
                                             longest_s / 3600, longest_m / 1000),
                                 "check the unit of time, --unit time=ms, or cut the log"}});
}

}  // namespace caseload::duty
