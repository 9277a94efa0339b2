// SPDX-License-Identifier: MIT
#include "caseload/damage.hpp"

#include "caseload/formulas/booser.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/units.hpp"
#include "damage/film_rates.hpp"
#include "damage/life_rates.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

// Films are looked at from here up; no oil is followed colder.
constexpr double coldest_film_degC = -60;

iso_281::Cleanliness cleanliness(const Setup& setup) {
    return cleanliness_in_class(setup, setup.factors.cleanliness);
}

double kappa_at(const Oil& oil, double n_rpm, double D_pw_mm, double film_degC) {
    return astm_d341::viscosity_mm2ps(oil.sheared, std::min(film_degC, hottest_film_degC)) /
           iso_281::reference_viscosity_mm2ps({.n_rpm = n_rpm, .D_pw_mm = D_pw_mm});
}

void note_kappa(Notes* notes, const std::string& name, double kappa) {
    if (notes == nullptr) return;
    if (kappa < 0.1)
        add_note(*notes,
                 {"bearing.kappa_below", "bearing." + name,
                  fmt::format("{}: viscosity ratio {:.2f} is below 0.1, outside the life standard; "
                              "life factor 0.1 taken",
                              name, kappa)});
    if (kappa > 4)
        add_note(*notes,
                 {"bearing.kappa_above", "bearing." + name,
                  fmt::format(
                      "{}: viscosity ratio up to {:.1f}; the life standard counts no more than 4",
                      name, kappa)});
}

}  // namespace

BearingCondition bearing_at_film(const Prepared& prepared, const BearingPlace& place,
                                 double film_degC, Additives additives) {
    const auto [leg, bin, bearing] = place;
    const BearingData& data = prepared.loads.bearings[bearing];
    const BinLoads& loads = prepared.loads.legs[leg].bins[bin];
    const PreparedLosses::BearingTerm& term = prepared.losses[leg].bins[bin].bearings[bearing];
    BearingCondition result;
    result.film_degC = film_degC;
    if (term.n_rpm <= 0) return result;
    result.kappa = kappa_at(prepared.oil, term.n_rpm, data.d_m_mm, film_degC);
    result.e_C = iso_281::contamination_factor(cleanliness(*prepared.setup),
                                               {.kappa = result.kappa, .D_pw_mm = data.d_m_mm});
    for (const LoadState& state : loads.for_life) {
        const BearingLoad& load = state.bearings[bearing];
        const double P_N = equivalent_load_N(data, load);
        if (P_N <= 0) continue;
        const iso_281::LifeFactorState lubrication{result.kappa, result.e_C, data.C_u_N, P_N};
        const double a_ISO = !prepared.setup->oil.ep_additive || additives == Additives::not_helping
                                 ? iso_281::life_factor(data.kind, lubrication)
                             : additives == Additives::helping
                                 ? iso_281::life_factor_helped(data.kind, lubrication)
                                 : iso_281::life_factor_ep(data.kind, lubrication);
        const double life_Mrev =
            iso_281::basic_life_Mrev({data.C_N, P_N, iso_281::life_exponent(data.kind)});
        result.rate_per_h +=
            state.weight /
            iso_281::hours_h({prepared.setup->factors.life * a_ISO * life_Mrev, term.n_rpm});
        if (P_N > result.P_N) {
            result.P_N = P_N;
            result.a_ISO = a_ISO;
        }
    }
    return result;
}

std::optional<double> additives_end_degC(const Prepared& prepared, const BearingPlace& place) {
    const BearingData& data = prepared.loads.bearings[place.bearing];
    const double n_rpm = prepared.losses[place.leg].bins[place.bin].bearings[place.bearing].n_rpm;
    if (!prepared.setup->oil.ep_additive || n_rpm <= 0) return std::nullopt;
    const auto end = iso_281::ep_end_kappa(cleanliness(*prepared.setup), data.d_m_mm);
    if (!end) return std::nullopt;
    const auto thicker = [&](double film_degC) {
        return kappa_at(prepared.oil, n_rpm, data.d_m_mm, film_degC) > *end;
    };
    double low_degC = coldest_film_degC;
    double high_degC = hottest_film_degC;
    if (!thicker(low_degC) || thicker(high_degC)) return std::nullopt;
    constexpr int halvings = 48;  // 310 K to 1e-12 K
    for (int i = 0; i < halvings; ++i) {
        const double middle_degC = (low_degC + high_degC) / 2;
        (thicker(middle_degC) ? low_degC : high_degC) = middle_degC;
    }
    return low_degC;
}

BearingCondition bearing_condition(const Prepared& prepared, const BearingPlace& place,
                                   double unheated_degC, Notes* notes) {
    const BearingData& data = prepared.loads.bearings[place.bearing];
    const BearingCondition result = bearing_at_film(
        prepared, place,
        run_bearing(prepared.oil,
                    prepared.losses[place.leg].bins[place.bin].bearings[place.bearing],
                    unheated_degC)
            .film_degC);
    if (result.kappa > 0) note_kappa(notes, data.name, result.kappa);
    if (notes != nullptr && result.film_degC > hottest_film_degC)
        add_note(*notes,
                 {"bearing.film_hot", "bearing." + data.name,
                  fmt::format("{}: its own friction would heat the film beyond {:.0f} degC; "
                              "it cannot run like that",
                              data.name, hottest_film_degC)});
    if (notes != nullptr && result.P_N > data.C_N / 2)
        add_note(*notes,
                 {"bearing.load_high", "bearing." + data.name,
                  fmt::format(
                      "{}: load {:.1f} kN is more than half its rating of {:.1f} kN, outside the "
                      "life standard",
                      data.name, result.P_N / 1000, data.C_N / 1000)});
    return result;
}

std::optional<double> hottest_unheated_degC(const Prepared& prepared, const EventHeat& heat,
                                            std::size_t leg, std::size_t bearing) {
    std::optional<double> hottest_degC;
    for (std::size_t i = 1; i < heat.samples.size(); ++i) {
        const Sample& sample = heat.samples[i];
        const int of_leg = prepared.setup->event.run[static_cast<std::size_t>(sample.run)];
        if (static_cast<std::size_t>(of_leg) != leg) continue;
        const double here_degC = unheated_degC(prepared.bearing_paths[bearing], sample.nodes);
        hottest_degC = std::max(hottest_degC.value_or(here_degC), here_degC);
    }
    return hottest_degC;
}

double largest_turning_N(const Prepared& prepared, std::size_t bearing) {
    double largest_N = 0;
    for (const int run : prepared.setup->event.run)
        for (const BinLoads& bin : prepared.loads.legs[static_cast<std::size_t>(run)].bins)
            if (bin.bin.speed_rpm > 0) largest_N = std::max(largest_N, bin.nominal[bearing].F_r_N);
    return largest_N;
}

namespace {

/// Adds what a bearing meets in a bin of a leg, its film as hot as the leg makes it, run so many
/// times.
void add_bin(const Prepared& prepared, const BearingPlace& place, const BearingCondition& at,
             double times, BearingDamage& result) {
    result.worst_kappa = std::min(result.worst_kappa, at.kappa);
    result.worst_film_degC = std::max(result.worst_film_degC, at.film_degC);
    result.P_largest_N = std::max(result.P_largest_N, at.P_N);
    // Basic life, without lubrication: the textbook number.
    const BearingData& data = prepared.loads.bearings[place.bearing];
    const BinLoads& bin = prepared.loads.legs[place.leg].bins[place.bin];
    const double n_rpm = bin.shaft_speed_rpm[static_cast<std::size_t>(data.shaft)];
    for (const LoadState& state : bin.for_life) {
        const double P_N = equivalent_load_N(data, state.bearings[place.bearing]);
        if (P_N > 0 && n_rpm > 0)
            result.basic_life_share +=
                times * state.weight * bin.bin.share *
                h_from_s(prepared.setup->event.legs[place.leg].duration_s) /
                iso_281::hours_h(
                    {iso_281::basic_life_Mrev({data.C_N, P_N, iso_281::life_exponent(data.kind)}),
                     n_rpm});
    }
}

void add_zone(const Prepared& prepared, std::size_t bearing, BearingDamage& result, Notes& notes) {
    const BearingData& data = prepared.loads.bearings[bearing];
    const double F_r_N = largest_turning_N(prepared, bearing);
    if (!data.play_known || F_r_N < load_zone::least_load_N) return;
    const load_zone::Factors factors = play_factors(data, F_r_N);
    result.play_factor = factors.load;
    const auto contact = element_stiffness::contact_of(data.kind);
    result.zone_deg = 2 * load_zone::half_zone_deg(load_zone::zone_eps(
                              contact, load_zone::play_number(
                                           contact, {data.running_play_mm, data.element_stiffness_N,
                                                     F_r_N, data.elements})));
    // Twice the sum of the element loads that the force alone makes. Judgement.
    constexpr double preloaded_moment = 2;
    if (factors.moment > preloaded_moment)
        add_note(notes,
                 {"bearing.preloaded", "bearing." + data.name,
                  fmt::format("{} runs preloaded by {:.0f} um: its rolling elements carry "
                              "{:.1f} times what its load makes; a larger clearance class "
                              "gives it play",
                              data.name, um_from_mm(-data.running_play_mm), factors.moment)});
}

void note_oil(const OilInput& oil, double peak_oil_degC, Notes& notes) {
    if (oil.code_14um > iso_281::dirtiest_code_14um)
        add_note(notes, {"oil.dirtier", "oil",
                         fmt::format("oil of cleanliness -/{}/{} is dirtier than the life standard "
                                     "counts with, -/21/18: {}",
                                     oil.code_6um, oil.code_14um,
                                     oil.code_14um < iso_281::no_e_C_code_14um
                                         ? "its e_C falls in a straight line to 0 at a third "
                                           "number of 21, judgement"
                                         : "e_C 0 and life factor 0.1 taken, the lowest")});
    if (peak_oil_degC > oil_ceiling_degC)
        add_note(notes, {"oil.above_ceiling", "event",
                         "oil passes 160 degC: lives are taken at 160 degC"});
}

}  // namespace

Damage event_damage(const Prepared& prepared, const EventHeat& heat,
                    std::vector<RunDamage>* by_run) {
    const Setup& setup = *prepared.setup;
    if (by_run != nullptr) by_run->assign(heat.runs.size(), {});
    const std::size_t bearings = prepared.loads.bearings.size();
    Damage damage;
    damage.bearings.resize(bearings);
    const double k1 = setup.oil.synthetic ? booser::k1_synthetic : booser::k1_mineral;
    for (std::size_t i = 1; i < heat.samples.size(); ++i) {
        const Sample& from = heat.samples[i - 1];
        const Sample& to = heat.samples[i];
        const double hours = h_from_s(to.t_s - from.t_s);
        const double oil_degC = (from.nodes.oil_degC + to.nodes.oil_degC) / 2;
        const double dose =
            hours / booser::oxidation_life_h({k1, std::min(oil_degC, oil_ceiling_degC)});
        damage.oil_dose += dose;
        if (by_run != nullptr) (*by_run)[static_cast<std::size_t>(to.run)].oil_dose += dose;
    }
    std::vector<std::vector<double>> of_runs;
    const std::vector<double> life_shares =
        LifeRates(prepared, heat, by_run == nullptr ? nullptr : &of_runs).life_shares();
    for (const std::vector<double>& of_bearing : of_runs)
        for (std::size_t run = 0; run < of_bearing.size(); ++run)
            (*by_run)[run].life_shares.push_back(of_bearing[run]);
    for (std::size_t b = 0; b < bearings; ++b) {
        BearingDamage& result = damage.bearings[b];
        result.name = prepared.loads.bearings[b].name;
        result.life_share = life_shares[b];
        result.worst_kappa = 1e9;
        add_zone(prepared, b, result, damage.notes);
        double worst_rate = -1;
        for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
            const auto& bins = prepared.loads.legs[leg].bins;
            const auto times = static_cast<double>(
                std::count(setup.event.run.begin(), setup.event.run.end(), static_cast<int>(leg)));
            const auto hottest_degC = hottest_unheated_degC(prepared, heat, leg, b);
            if (!hottest_degC) continue;
            for (std::size_t bin = 0; bin < bins.size(); ++bin) {
                if (bins[bin].bin.speed_rpm <= 0) continue;  // does not turn: no film
                const BearingCondition at =
                    bearing_condition(prepared, {leg, bin, b}, *hottest_degC, &damage.notes);
                add_bin(prepared, {leg, bin, b}, at, times, result);
                if (bins[bin].bin.share * at.rate_per_h > worst_rate) {
                    worst_rate = bins[bin].bin.share * at.rate_per_h;
                    result.clock_deg = bins[bin].nominal[b].clock_deg;
                }
            }
        }
    }
    note_oil(setup.oil, heat.peak_oil_degC, damage.notes);
    return damage;
}

}  // namespace caseload
