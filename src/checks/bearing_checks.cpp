// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_guides.hpp"
#include "caseload/formulas/element_stiffness.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/load_zone.hpp"
#include "checks/parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace caseload {
namespace {

/// Watched where it passes its limit for long; fast it is looked at.
Check speed_check(const Prepared& prepared, std::size_t b) {
    const BearingData& data = prepared.loads.bearings[b];
    const auto shaft = static_cast<std::size_t>(data.shaft);
    const double jet =
        prepared.setup->bearings[b].oil == OilSupply::jet ? bearing_guides::jet_factor : 1;
    const double bath_mmrpm = bearing_guides::speed_parameter_mmrpm(data.kind) * jet;
    const auto at = [&](double share, std::string words) {
        return judged({.id = CheckId::bearing_speed,
                       .about = "bearing." + data.name,
                       .words = std::move(words),
                       .value = passed_speed(prepared, shaft, share).rpm * data.d_m_mm,
                       .unit = "r/min mm"},
                      bath_mmrpm);
    };
    Check lasting = at(lasting_share, "speed of the cage (n d_m), passed for a fifth of the time");
    if (lasting.verdict == "watch") return lasting;
    Check fast = at(fast_share, "speed of the cage (n d_m)");
    if (fast.verdict != "watch") return fast;
    const CheckRow& row = check_row(CheckId::bearing_speed);
    fast.verdict = "look";
    fast.limit = row.look.at(bath_mmrpm);
    return fast;
}

/// Play at which the load zone of a bearing, at its largest mean load, is fuller than it may be;
/// without a load what no entry can have.
double play_to_stop_mm(const Prepared& prepared, std::size_t b) {
    // Extent eps; from 1 on every element carries. Judgement.
    constexpr double fullest_eps = 2.5;
    const BearingData& data = prepared.loads.bearings[b];
    const double F_r_N = largest_turning_N(prepared, b);
    if (F_r_N < load_zone::least_load_N) return load_zone::least_play_mm;
    const auto contact = element_stiffness::contact_of(data.kind);
    const double of_a_mm =
        load_zone::play_number(contact, {1, data.element_stiffness_N, F_r_N, data.elements});
    return load_zone::zone_play_number(contact, fullest_eps) / of_a_mm;
}

/// Half of what takes play may be nobody's entry.
std::string play_words(const Prepared& prepared, std::size_t b) {
    const bool entered = prepared.setup->bearings[b].seat.shaft_interference_mm.has_value();
    const bool preloaded = prepared.loads.bearings[b].running_play_mm < 0;
    if (entered) return preloaded ? "runs preloaded, play" : "radial play it runs with";
    return preloaded ? "with an assumed shaft fit it runs preloaded, play"
                     : "radial play it runs with, by an assumed shaft fit";
}

/// Largest static equivalent load of each bearing within a turn: bins with overload, and peaks.
std::vector<double> largest_static_N(const Loads& loads) {
    std::vector<double> largest(loads.bearings.size(), 0.0);
    const auto keep_largest = [&](const std::vector<LoadState>& states) {
        for (const LoadState& state : states)
            for (std::size_t b = 0; b < largest.size(); ++b)
                largest[b] = std::max(
                    largest[b],
                    iso_76::static_equivalent_N(
                        loads.bearings[b].kind, loads.bearings[b].contact_angle_deg,
                        {.F_r_N = state.bearings[b].F_r_max_N, .F_a_N = state.bearings[b].F_a_N}));
    };
    for (const LegLoads& leg : loads.legs) {
        for (const BinLoads& bin : leg.bins) keep_largest(bin.for_life);
        for (const PeakLoads& peak : leg.peaks) keep_largest(peak.states);
    }
    return largest;
}

/// Share of the time it turns in which a bearing carries less than it needs to roll.
double idle_time_share(const Prepared& prepared, std::size_t b) {
    const BearingData& data = prepared.loads.bearings[b];
    const double least_N = bearing_guides::least_load_share(data.kind) * data.C_N;
    double idle_s = 0;
    double turning_s = 0;
    for (const int run : prepared.setup->event.run) {
        const auto leg = static_cast<std::size_t>(run);
        const double duration_s = prepared.setup->event.legs[leg].duration_s;
        for (const BinLoads& bin : prepared.loads.legs[leg].bins) {
            if (bin.bin.speed_rpm <= 0) continue;
            const BearingLoad& load = bin.nominal[b];
            turning_s += bin.bin.share * duration_s;
            if (rated_load_N(data, load) < least_N) idle_s += bin.bin.share * duration_s;
        }
    }
    return turning_s > 0 ? idle_s / turning_s : 0;
}

}  // namespace

Notes cage_notes(const Setup& setup, const Damage& damage) {
    const double limit_degC = polyamide_limit_degC(setup.oil.ep_additive);
    std::string names;
    for (std::size_t b = 0; b < damage.bearings.size(); ++b)
        if (setup.bearings[b].cage == CageMaterial::unknown &&
            damage.bearings[b].worst_film_degC > limit_degC)
            names += (names.empty() ? "" : ", ") + setup.bearings[b].name;
    if (names.empty()) return {};
    return {{"bearing.cage_unknown", "bearing",
             fmt::format("cages of {}: a polyamide one does not last at their films above {:.0f} "
                         "degC; look, and enter bearing.*.cage",
                         names, limit_degC)}};
}

// Long: a list, one check after the other with its words.
void check_bearings(const Prepared& prepared, const Damage& damage, std::vector<Check>& into) {
    const Loads& loads = prepared.loads;
    const std::vector<double> static_N = largest_static_N(loads);
    for (std::size_t b = 0; b < loads.bearings.size(); ++b) {
        const BearingData& data = loads.bearings[b];
        const BearingInput& input = prepared.setup->bearings[b];
        const std::string about = "bearing." + data.name;
        into.push_back(judged({.id = CheckId::bearing_life,
                               .about = about,
                               .words = "life used this event",
                               .value = damage.bearings[b].life_share}));
        if (static_N[b] > 0)
            into.push_back(judged({.id = CheckId::bearing_dent,
                                   .about = about,
                                   .words = "dent margin (static safety, ISO 76)",
                                   .value = data.C_0_N / static_N[b]},
                                  bearing_guides::static_safety(data.kind)));
        into.push_back(judged({.id = CheckId::bearing_rating_share,
                               .about = about,
                               .words = "share of dynamic rating (P / C)",
                               .value = damage.bearings[b].P_largest_N / data.C_N}));
        into.push_back(speed_check(prepared, b));
        if (data.play_known)
            into.push_back(judged({.id = CheckId::seat_play,
                                   .about = about,
                                   .words = play_words(prepared, b),
                                   .value = data.running_play_mm,
                                   .unit = "mm"},
                                  play_to_stop_mm(prepared, b)));
        Check ring = judged({.id = CheckId::bearing_ring,
                             .about = about,
                             .words = "hottest ring (as hot as its film)",
                             .value = damage.bearings[b].worst_film_degC,
                             .unit = "degC"},
                            stabilised_degC(input.heat_code));
        no_higher_than(oil_ceiling_degC, ring);
        into.push_back(std::move(ring));
        if (input.cage == CageMaterial::polyamide) {
            Check cage = judged({.id = CheckId::bearing_cage,
                                 .about = about,
                                 .words = "hottest polyamide cage (as hot as the film)",
                                 .value = damage.bearings[b].worst_film_degC,
                                 .unit = "degC"},
                                polyamide_limit_degC(prepared.setup->oil.ep_additive));
            no_higher_than(oil_ceiling_degC, cage);
            into.push_back(std::move(cage));
        }
        const ShaftPlace& shaft = loads.train.shafts[static_cast<std::size_t>(data.shaft)];
        if (data.radial && shaft.thrust_bearing >= 0)
            into.push_back(judged({.id = CheckId::bearing_least_load,
                                   .about = about,
                                   .words = "time without enough load to roll",
                                   .value = idle_time_share(prepared, b)}));
    }
}

}  // namespace caseload
