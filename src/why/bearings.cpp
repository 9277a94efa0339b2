// SPDX-License-Identifier: MIT
// Each bearing in each bin of a settled leg: film, friction, lubrication, and its life in every
// state of the slip joints.
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::why_detail {
namespace {

/// One bearing in a bin, and what the chain calculates it with.
struct BearingTerms {
    const BearingData& data;
    const PreparedLosses::BearingTerm& term;
    const BinLoads& loads;
};

BearingTerms bearing_terms(const Gather& gather, const BearingPlace& in) {
    const Prepared& prepared = gather.prepared;
    return {prepared.loads.bearings[in.bearing],
            prepared.losses[in.leg].bins[in.bin].bearings[in.bearing],
            prepared.loads.legs[in.leg].bins[in.bin]};
}

/// Friction, and the film temperature it leads to.
void add_film(const Gather& gather, const Collector::Place& place, const BearingPlace& in,
              const BearingRun& run) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const auto& [data, term, loads] = bearing_terms(gather, in);
    const double film_degC = std::min(run.film_degC, hottest_film_degC);
    const double nu_mm2ps = astm_d341::viscosity_mm2ps(prepared.oil.fresh, film_degC);
    to.members(place, run);
    to.add(place, "nu_fresh_mm2ps", nu_mm2ps);
    to.add(place, "M_0_Nmm",
           palmgren::idle_torque_Nmm({data.f0, nu_mm2ps, term.n_rpm, data.d_m_mm}));
    // At the step of the idle torque the film temperature lies between those of both values.
    if (std::fabs(nu_mm2ps * term.n_rpm - 2000) < 1e-3) {
        Number& loss = to.number(place.part + ".loss_W@" + place.at);
        loss.value_of.clear();
        loss.residual_allowed.clear();
    }
    to.add(place, "nu_mm2ps", astm_d341::viscosity_mm2ps(prepared.oil.sheared, film_degC));
    const BearingCondition state = bearing_at_film(prepared, in, run.film_degC);
    to.add(place, "kappa", state.kappa);
    to.add(place, "e_C", state.e_C);
}

constexpr const char* by_zone = "interpolated between roots of the load zone";

/// k of a state: by its formula where there is play.
void add_play_factor(Collector& to, const Collector::Place& at, const BearingData& data,
                     double F_r_N) {
    Number& k = to.add(at, "k", play_factors(data, F_r_N).load);
    if (F_r_N >= load_zone::least_load_N && data.running_play_mm >= 0) return;
    k.value_of.clear();
    k.origin = F_r_N < load_zone::least_load_N ? "1 below a load of 1 N" : by_zone;
}

void add_states(const Gather& gather, const Collector::Place& place, const BearingPlace& in) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const auto& [data, term, loads] = bearing_terms(gather, in);
    const double kappa = to.number(place.part + ".kappa@" + place.at).value;
    const double e_C = to.number(place.part + ".e_C@" + place.at).value;
    const double p = iso_281::life_exponent(data.kind);
    std::vector<std::string> all;
    std::vector<std::string> rates;
    std::vector<std::string> basic;
    std::string most;
    double most_N = 0;
    for (std::size_t s = 0; s < loads.for_life.size(); ++s) {
        const LoadState& state = loads.for_life[s];
        const BearingLoad& load = state.bearings[in.bearing];
        const double P_N = equivalent_load_N(data, load);
        const Collector::Place at{place.kind, place.part, fmt::format("{}/{}", place.at, s + 1),
                                  place.variant};
        to.add(at, state.weight, quantity("load_state", "weight")).value_of =
            loads.for_life.size() == 1 ? "1"
            : s == 0                   ? "1 - 0.5"
                                       : fmt::format("0.5 / {}", loads.for_life.size() - 1);
        if (data.play_known) add_play_factor(to, at, data, load.F_r_N);
        to.add(at, "P_N", P_N);
        if (!data.play_known) to.number(at.part + ".P_N@" + at.at).value_of = "rated_N";
        all.push_back(fmt::format("[{}.P_N@{}]", at.part, at.at));
        if (P_N > 0) {
            const iso_281::LifeFactorState lubrication{kappa, e_C, data.C_u_N, P_N};
            const double life_Mrev = iso_281::basic_life_Mrev({data.C_N, P_N, p});
            to.add(at, "a_ISO",
                   gather.setup.oil.ep_additive ? iso_281::life_factor_ep(data.kind, lubrication)
                                                : iso_281::life_factor(data.kind, lubrication));
            to.add(at, "L_10_Mrev", life_Mrev);
            to.add(at, "L_10_h", iso_281::hours_h({life_Mrev, term.n_rpm}));
            rates.push_back(
                fmt::format("[{0}.weight@{1}] / (factor_life * [{0}.a_ISO@{1}] * [{0}.L_10_h@{1}])",
                            at.part, at.at));
            basic.push_back(fmt::format("[{0}.weight@{1}] / [{0}.L_10_h@{1}]", at.part, at.at));
            if (P_N > most_N) {
                most_N = P_N;
                most = at.at;
            }
        }
        to.steps_of(at);
    }
    const BearingCondition condition =
        bearing_at_film(prepared, in, to.number(place.part + ".film_degC@" + place.at).value);
    to.add(place, "P_N", condition.P_N).value_of = extreme_of("max", all);
    if (most.empty()) return;
    to.add(place, "a_ISO", condition.a_ISO).value_of =
        fmt::format("[{}.a_ISO@{}]", place.part, most);
    to.add(place, "rate_per_h", condition.rate_per_h).value_of = sum_of(rates);
    to.step(place, "basic_rate_per_h", sum_of(basic));
    for (const char* member : {"L_10_Mrev", "L_10_h"})
        to.step(place, member, fmt::format("[{}.{}@{}]", place.part, member, most));
}

void add_bearing(const Gather& gather, const LegAnswer& leg, const BearingPlace& in) {
    Collector& to = gather.to;
    const auto& [data, term, loads] = bearing_terms(gather, in);
    const BearingRun& run = leg.at_rest.losses.runs[in.bin][in.bearing];
    if (run.n_rpm <= 0) return;
    const Collector::Place place{"bearing", "bearing." + data.name, in_bin(leg.name, in.bin),
                                 kind_word(data.kind)};
    const BearingLoad& load = loads.nominal[in.bearing];
    const double P_0_N =
        iso_76::static_equivalent_N(data.kind, data.contact_angle_deg, {load.F_r_N, load.F_a_N});
    to.add(place, "P_0_N", P_0_N);
    to.add(place, "P_1_N",
           palmgren::friction_load_P1_N(
               {data.kind, data.contact_angle_deg, load.F_r_N, load.F_a_N, data.C_0_N}));
    if (const auto& f1 = gather.setup.bearings[in.bearing].f1)
        to.add(place, "f_1", *f1).origin = to.origin_of("bearing." + data.name + ".f1");
    else
        to.add(place, "f_1", palmgren::f1(data.kind, P_0_N / data.C_0_N));
    to.add(place, "k_M", play_factors(data, load.F_r_N).moment).origin =
        data.play_known ? by_zone : "1: its kind and bore have no class of clearance";
    to.add(place, "M_1_Nmm", term.load_torque_Nmm);
    to.add(place, "unheated_degC",
           unheated_degC(gather.prepared.bearing_paths[in.bearing], leg.at_rest.nodes))
        .value_of = fmt::format("[{}.unheated_degC@{}]", place.part, leg.name);
    add_film(gather, place, in, run);
    to.add(place, "nu_1_mm2ps",
           iso_281::reference_viscosity_mm2ps({.n_rpm = run.n_rpm, .D_pw_mm = data.d_m_mm}));
    const int train = gather.prepared.loads.legs[in.leg].train;
    to.number(fmt::format("{}.n_rpm@{}", place.part, place.at)).value_of =
        fmt::format("[duty.speed_rpm@{}] * abs([{}.speed_ratio])", place.at,
                    shaft_part(gather, train, data.shaft));
    to.steps_of(place);
    if (!gather.with_lives) return;
    add_states(gather, place, in);
    to.steps_of(place);
}

}  // namespace

void add_hot(const Gather& gather, const LegAnswer& leg, const BearingPlace& in) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const auto& [data, term, loads] = bearing_terms(gather, in);
    const std::string part = "bearing." + data.name;
    const std::string bin = in_bin(leg.name, in.bin);
    const Collector::Place place{"bearing", part, "hot/" + bin, kind_word(data.kind)};
    const std::string hottest = part + ".hottest_unheated_degC@" + leg.name;
    const double at_degC = to.number(hottest).value;
    to.add(place, "unheated_degC", at_degC).value_of = "[" + hottest + "]";
    to.step(place, "M_1_Nmm", fmt::format("[{}.M_1_Nmm@{}]", part, bin));
    to.step(place, "nu_1_mm2ps", fmt::format("[{}.nu_1_mm2ps@{}]", part, bin));
    add_film(gather, place, in, run_bearing(prepared.oil, term, at_degC));
    to.number(part + ".n_rpm@" + place.at).value_of = fmt::format("[{}.n_rpm@{}]", part, bin);
    to.steps_of(place);
}

void add_bearings(const Gather& gather, const LegAnswer& leg) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const auto index = static_cast<std::size_t>(leg.leg);
    const std::size_t bins = prepared.loads.legs[index].bins.size();
    for (std::size_t b = 0; b < prepared.loads.bearings.size(); ++b) {
        const std::string part = "bearing." + prepared.loads.bearings[b].name;
        std::vector<std::string> lost;
        for (std::size_t bin = 0; bin < bins; ++bin) {
            add_bearing(gather, leg, {index, bin, b});
            const std::string at = in_bin(leg.name, bin);
            if (to.has(part + ".loss_W@" + at))
                lost.push_back(fmt::format("[duty.share@{0}] * [{1}.loss_W@{0}]", at, part));
        }
        const Collector::Place place{"bearing", part, leg.name, {}};
        Number& loss = to.add(place, "mean_loss_W", leg.at_rest.losses.bearing_W[b],
                              quantity("losses_at", "bearing_W"));
        if (lost.empty())
            mark_as_zero(loss, "it does not turn");
        else
            loss.value_of = sum_of(lost);
        to.add(place, "unheated_degC", unheated_degC(prepared.bearing_paths[b], leg.at_rest.nodes));
        to.members(place, leg.at_rest.bearing_heat[b]);
        to.steps_of(place);
    }
}

}  // namespace caseload::why_detail
