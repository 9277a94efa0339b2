// SPDX-License-Identifier: MIT
// Tables of a leg whose pace is varied, or whose duty is drawn.
#include "ask/fast_tables.hpp"

#include "heat/at_oil.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>
#include <vector>

namespace caseload {

/// The paces between which a leg's is varied, and how far the air along case and core goes then.
void FastTables::reach_paces() {
    double slowest = 1;
    double fastest = 1;
    double longest_s = 0;
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        const LegInput& input = setup.event.legs[leg];
        if (!input.pace_ends && input.calculated.empty()) continue;
        // Apart, so that a parabola goes through them.
        constexpr double apart = 0.01;
        const double likely_mps = input.course_pace_mps;
        PaceTables& pace = legs[leg].pace.emplace();
        pace.calculated = !input.calculated.empty();
        if (pace.calculated) {
            for (std::size_t k = 0; k < pace.mps.size(); ++k)
                pace.mps[k] = input.calculated[place_of_drawn(PaceTables::duty[k])].pace_mps;
        } else {
            pace.mps = {std::min(input.pace_ends->low_mps, (1 - apart) * likely_mps), likely_mps,
                        std::max(input.pace_ends->high_mps, (1 + apart) * likely_mps)};
            slowest = std::min(slowest, pace.mps[0] / likely_mps);
            fastest = std::max(fastest, pace.mps[2] / likely_mps);
        }
        const double duration_s =
            input.duration_s *
            static_cast<double>(std::count(setup.event.run.begin(), setup.event.run.end(), leg));
        if (duration_s <= longest_s) continue;
        longest_s = duration_s;
        paced_leg = leg;
    }
    if (paced_leg && !legs[*paced_leg].pace->calculated)
        reach_air({slowest, fastest}, {slowest, fastest});
}

/// Widens the nodes of the air along the housing and at the core's face by what a pace makes of it.
void FastTables::reach_air(const Reach& housing, const Reach& face) {
    const auto wider = [&](auto& all, double low, double high, const Reach& reach) {
        all = std::decay_t<decltype(all)>{{std::log(low * reach.low), std::log(high * reach.high)}};
    };
    if (use != FastUse::temperatures && !setup.measured)
        wider(nodes.air_share, FastNodes::least_drawn_air_share, FastNodes::most_drawn_air_share,
              housing);
    wider(nodes.face, FastNodes::least_face, FastNodes::most_face, face);
}

Setup FastTables::at_pace(std::size_t pace) const {
    Setup other = setup;
    for (std::size_t leg = 0; leg < legs.size(); ++leg)
        if (legs[leg].pace) {
            LegInput& input = other.event.legs[leg];
            input.course_pace_mps = legs[leg].pace->mps[pace];
            if (legs[leg].pace->calculated)
                input.calculated[place_of_drawn(likely_duty)] =
                    input.calculated[place_of_drawn(PaceTables::duty[pace])];
        }
    return other;
}

namespace {

/// Core heat by a kelvin of a leg, warm oil through all of it.
double leg_core_WpK(const Prepared& prepared, const std::vector<CoreBin>& bins) {
    constexpr double warm_degC = 90;
    double mean_WpK = 0;
    for (const CoreBin& bin : bins)
        mean_WpK += bin.share * core_heat_WpK(prepared, {bin.face_mps, bin.pump_Lpmin}, warm_degC);
    return mean_WpK;
}

}  // namespace

void FastTables::note_paces(const Prepared& nominal, const std::vector<Prepared>& paced) {
    if (!paced_leg || legs[*paced_leg].pace->calculated) return;
    const std::array<const Prepared*, PaceTables::varied> all{&paced.front(), &nominal,
                                                              &paced.back()};
    const double fan_mps = setup.cooler.fan_face_speed_mps;
    Prepared faced = nominal;
    Setup other = setup;
    faced.setup = &other;
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].pace) continue;
        PaceTables& pace = *legs[leg].pace;
        for (std::size_t k = 0; k < all.size(); ++k) {
            pace.drive_power_W[k] = all[k]->loads.legs[leg].drive_power_W;
            const double ln_pace = std::log(pace.mps[k] / pace.mps[PaceTables::likely]);
            pace.ln_face[0][k] = pace.ln_face[1][k] = ln_pace;
            if (!setup.cooler.fit || fan_mps <= 0 || k == PaceTables::likely) continue;
            const Switches on{.cooler = true, .pump = true, .fan = true};
            std::vector<CoreBin> wanted = core_bins(*all[k], leg, on);
            const std::vector<CoreBin> likely = core_bins(nominal, leg, on);
            for (std::size_t bin = 0; bin < wanted.size(); ++bin)
                wanted[bin].pump_Lpmin = likely[bin].pump_Lpmin;
            const double wanted_WpK = leg_core_WpK(nominal, wanted);
            double low = std::min(ln_pace, 0.0);
            double high = std::max(ln_pace, 0.0);
            constexpr int halvings = 20;
            for (int i = 0; i < halvings; ++i) {
                const double middle = (low + high) / 2;
                other.factors.face_speed = std::exp(middle);
                (leg_core_WpK(faced, core_bins(faced, leg, on)) < wanted_WpK ? low : high) = middle;
            }
            pace.ln_face[1][k] = (low + high) / 2;
        }
    }
}

namespace {

/// The logarithm between these at which something that rises with it has a value; the nearer end
/// where it has it nowhere.
template <class Of>
double ln_where(double value, const Of& of) {
    constexpr double reach = 1.5;
    double low = -reach;
    double high = reach;
    constexpr int halvings = 40;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (of(middle) < value ? low : high) = middle;
    }
    return (low + high) / 2;
}

}  // namespace

/// A duty has its own spread of speeds, so no pace says what air and pump make of it: the factor on
/// those of the likely duty with which a warm case gives off as much does.
void FastTables::note_duties(const Prepared& nominal, const std::vector<Prepared>& paced) {
    if (!paced_leg || !legs[*paced_leg].pace->calculated) return;
    constexpr double warm_degC = 90;
    Setup other = setup;
    Prepared likely = nominal;
    likely.setup = &other;
    Reach housing{1, 1};
    Reach face{1, 1};
    const auto reach = [](Reach& all, double ln) {
        all = {std::min(all.low, std::exp(ln)), std::max(all.high, std::exp(ln))};
    };
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].pace) continue;
        PaceTables& pace = *legs[leg].pace;
        pace.drive_power_W[PaceTables::likely] = nominal.loads.legs[leg].drive_power_W;
        for (std::size_t beside = 0; beside < paced.size(); ++beside) {
            const Prepared& duty = paced[beside];
            const std::size_t k = PaceTables::beside(beside);
            pace.drive_power_W[k] = duty.loads.legs[leg].drive_power_W;
            pace.ln_pump[k] = std::log(duty.loads.legs[leg].mean_speed_rpm /
                                       nominal.loads.legs[leg].mean_speed_rpm);
            const auto outside_W = [leg](const Prepared& prepared) {
                const OutsideParts out = outside_parts(prepared, leg, warm_degC);
                return out.convection_W + out.radiation_W;
            };
            pace.ln_air[k] = ln_where(outside_W(duty), [&](double ln) {
                other.factors.air_share = std::exp(ln);
                return outside_W(likely);
            });
            other.factors.air_share = 1;
            reach(housing, pace.ln_air[k]);
            for (const bool fan : {false, true}) {
                if (!setup.cooler.fit) continue;
                const Switches on{.cooler = true, .pump = true, .fan = fan};
                std::vector<CoreBin> wanted = core_bins(duty, leg, on);
                if (setup.lubrication.pump->drive == PumpDrive::input)
                    for (CoreBin& bin : wanted) bin.pump_Lpmin /= std::exp(pace.ln_pump[k]);
                double& ln_face = pace.ln_face[fan ? 1 : 0][k];
                ln_face = ln_where(leg_core_WpK(nominal, wanted), [&](double ln) {
                    other.factors.face_speed = std::exp(ln);
                    return leg_core_WpK(likely, core_bins(likely, leg, on));
                });
                other.factors.face_speed = 1;
                reach(face, ln_face);
            }
        }
    }
    reach_air(housing, face);
}

}  // namespace caseload
