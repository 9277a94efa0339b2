// SPDX-License-Identifier: MIT
// How facing pairs are set: by one entry, of a pair, within what its bearings take.
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/bearing_kind.hpp"
#include "caseload/formulas/element_stiffness.hpp"
#include "caseload/formulas/facing_pair.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "input/build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace caseload::input {
namespace {

// Of a bearing's rating along its axis. Judgement.
constexpr double most_preload = 0.3;

/// What the setting of a pair needs of one of its bearings, entered or from its size.
struct Set {
    iso_281::EquivalentLoad for_load;
    double C_N;
    double d_m_mm;
    facing_pair::Spring spring;
};

Set set_of(const BearingInput& input) {
    const bearing_estimate::Estimate size = bearing_estimate::estimate(
        input.kind,
        {.bore_mm = input.bore_mm, .outside_mm = input.outside_mm, .width_mm = input.width_mm},
        input.contact_angle_deg);
    const double angle_deg = input.contact_angle_deg.value_or(size.contact_angle_deg);
    const auto contact = element_stiffness::contact_of(input.kind);
    return {
        .for_load = {input.kind, angle_deg, size.f_0, input.static_rating_N.value_or(size.C_0_N)},
        .C_N = input.dynamic_rating_N.value_or(size.C_N),
        .d_m_mm = (input.bore_mm + input.outside_mm) / 2,
        .spring = facing_pair::spring({contact, size.Z,
                                       element_stiffness::K_n({contact, size.D_w_mm, size.L_we_mm}),
                                       angle_deg})};
}

/// C of a load along the axis alone.
double axial_rating_N(const Set& set) {
    const double F_a_N = most_preload * set.C_N;
    return set.C_N * F_a_N / iso_281::equivalent_load_N(set.for_load, {0, F_a_N});
}

/// A setting that makes more preload than a pair takes, and the most that does not.
struct Excess {
    std::string entered;
    std::string most;  ///< "" of a preload: it is named anyway
};

std::optional<Excess> excess(const ShaftInput& shaft, double structure_Npum,
                             const std::array<Set, 2>& pair, double most_N) {
    if (shaft.preload_N && *shaft.preload_N > most_N)
        return Excess{fmt::format("{:.0f} N is", *shaft.preload_N), {}};
    if (shaft.turning_torque_Nm) {
        double most_Nmm = 0;
        for (const Set& one : pair)
            most_Nmm += most_N * facing_pair::torque_Nmm_per_N(
                                     facing_pair::turned_under(one.for_load, one.d_m_mm, most_N));
        constexpr double Nmm_in_Nm = 1000;
        const double most_Nm = most_Nmm / Nmm_in_Nm;
        if (*shaft.turning_torque_Nm > most_Nm)
            return Excess{fmt::format("{:.4g} N m makes a preload of", *shaft.turning_torque_Nm),
                          fmt::format("at most {:.1f} N m", std::floor(10 * most_Nm) / 10)};
    }
    if (shaft.end_play_mm) {
        const double most_mm =
            facing_pair::over_mm({pair[0].spring, pair[1].spring, structure_Npum}, most_N);
        if (-*shaft.end_play_mm > most_mm)
            return Excess{fmt::format("{:.4g} mm makes a preload of", *shaft.end_play_mm),
                          fmt::format("not below -{:.3f} mm", std::floor(1000 * most_mm) / 1000)};
    }
    return std::nullopt;
}

}  // namespace

void check_pair_settings(Completed& from, const Setup& setup, bool sound_bearings) {
    for (const auto& [name, shaft] : setup.shafts) {
        const std::string heading = "shaft." + name + ".";
        std::vector<std::string> given;
        for (const std::string_view key : {"end_play", "preload", "turning_torque"})
            if (from.given(heading + std::string(key))) given.push_back(heading + std::string(key));
        if (given.empty()) continue;
        if (given.size() > 1) {
            from.problem(given.back(),
                         fmt::format("{}: {} {} it is set already", given.back(), given.front(),
                                     given.size() == 3 ? "and another say how" : "says how"),
                         "keep one of end_play, preload and turning_torque: what was measured");
            continue;
        }
        if (from.broken("bearing.")) continue;
        std::vector<const BearingInput*> pair;
        for (const BearingInput& bearing : setup.bearings)
            if (bearing.shaft == name && bearing.big_end && use_of(bearing.kind).thick_end)
                pair.push_back(&bearing);
        if (pair.size() != 2) {
            from.problem(
                given.front(),
                fmt::format("{}: shaft {} has no two bearings that face each other", given.front(),
                            name),
                "leave it out: only tapered and angular contact bearings in a pair are set");
            continue;
        }
        if (!sound_bearings) continue;
        const std::array<Set, 2> sets{set_of(*pair[0]), set_of(*pair[1])};
        const double most_N =
            most_preload * std::min(axial_rating_N(sets[0]), axial_rating_N(sets[1]));
        const double structure_Npum =
            setup.transfer_case.structure_Npum.value_or(facing_pair::usual_structure_Npum);
        const auto found = excess(shaft, structure_Npum, sets, most_N);
        if (!found) continue;
        constexpr double even_N = 10;
        from.problem(
            given.front(),
            fmt::format("{}: {} more than {:.0f} N, 0.3 of what the weaker of {} and {} is rated "
                        "for along its axis",
                        given.front(), found->entered, even_N * std::floor(most_N / even_N),
                        pair[0]->name, pair[1]->name),
            (found->most.empty() ? "" : "enter " + found->most + "; ") +
                "preloads of drop gears are some hundred N cold");
    }
}

}  // namespace caseload::input
