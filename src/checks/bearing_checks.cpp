// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_guides.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "checks/parts.hpp"

#include <algorithm>

namespace caseload {
namespace {

// A rolling bearing does not settle while this share of the driving time is without load enough to
// roll. Judgement.
constexpr double idle_time_limit = 0.2;
// Above it the life standard is not valid. ISO 281:2007, 5.3 and 6.4: P <= 0.5 C.
constexpr double rating_share_limit = 0.5;

// Rings without a mark are stabilised to 120 degC (SN of DIN 623-1; S0 150, S1 200: codes seen in
// two pages). Above it they grow by the order of 1e-4 of their diameter in 1000 h, from memory:
// nothing in an event, so watched only 30 K above. Judgement.
constexpr double ring_stabilised_degC = 120;
constexpr double ring_watch_K = 30;

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
            if (equivalent_load_N(data, load) < least_N) idle_s += bin.bin.share * duration_s;
        }
    }
    return turning_s > 0 ? idle_s / turning_s : 0;
}

}  // namespace

// Long: a list, one check after the other with its words.
void check_bearings(const Prepared& prepared, const Damage& damage, std::vector<Check>& into) {
    const Loads& loads = prepared.loads;
    const std::vector<double> static_N = largest_static_N(loads);
    for (std::size_t b = 0; b < loads.bearings.size(); ++b) {
        const BearingData& data = loads.bearings[b];
        const BearingInput& input = prepared.setup->bearings[b];
        const std::string about = "bearing." + data.name;
        into.push_back(at_most({.id = CheckId::bearing_life,
                                .about = about,
                                .words = "life used this event",
                                .value = damage.bearings[b].life_share,
                                .consequence = "a bearing of this size does not reach the finish: "
                                               "larger bearing, less load or cleaner, cooler oil"},
                               {1, 1}));
        if (static_N[b] > 0)
            into.push_back(at_least(
                {.id = CheckId::bearing_dent,
                 .about = about,
                 .words = "dent margin (static safety, ISO 76)",
                 .value = data.C_0_N / static_N[b],
                 .consequence = "a torque peak can dent the raceway: look for regular marks, "
                                "listen for a new noise"},
                {bearing_guides::static_safety(data.kind), 1}));
        into.push_back(at_most({.id = CheckId::bearing_rating_share,
                                .about = about,
                                .words = "share of dynamic rating (P / C)",
                                .value = damage.bearings[b].P_largest_N / data.C_N,
                                .consequence = "outside the life standard: its life is not to be "
                                               "trusted there"},
                               {rating_share_limit, never}));
        const double jet = input.oil == OilSupply::jet ? bearing_guides::jet_factor : 1;
        into.push_back(at_most(
            {.id = CheckId::bearing_speed,
             .about = about,
             .words = "speed of the cage (n d_m)",
             .value = fastest_rpm(loads, static_cast<std::size_t>(data.shaft)) * data.d_m_mm,
             .unit = "r/min mm",
             .consequence = "beyond the usual speed of this kind: oil jet, a "
                            "cage for the speed, or a smaller bearing"},
            {bearing_guides::speed_parameter_mmrpm(data.kind) * jet, never}));
        Check ring = at_most({.id = CheckId::bearing_ring,
                              .about = about,
                              .words = "hottest ring, as hot as its film",
                              .value = damage.bearings[b].worst_film_degC,
                              .unit = "degC",
                              .consequence = "rings of the usual heat treatment (SN, 120 degC) "
                                             "grow there for good and lose their fits: rings "
                                             "marked S0 or S1, or cooler oil"},
                             {ring_stabilised_degC + ring_watch_K, never});
        no_higher_than(oil_ceiling_degC, ring);
        into.push_back(std::move(ring));
        const ShaftPlace& shaft = loads.train.shafts[static_cast<std::size_t>(data.shaft)];
        if (data.radial && shaft.thrust_bearing >= 0)
            into.push_back(at_most({.id = CheckId::bearing_least_load,
                                    .about = about,
                                    .words = "time without enough load to roll",
                                    .value = idle_time_share(prepared, b),
                                    .consequence = "elements may slide and smear: a smaller or "
                                                   "preloaded bearing rolls better"},
                                   {idle_time_limit, never}));
    }
}

}  // namespace caseload
