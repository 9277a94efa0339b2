// SPDX-License-Identifier: MIT
// How facing pairs are set: by one entry, of a pair, within what its bearings take.
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/bearing_kind.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "input/build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

namespace caseload::input {
namespace {

// Of a bearing's rating along its axis. Judgement.
constexpr double most_preload = 0.3;

/// C of a load along the axis alone.
double axial_rating_N(const BearingInput& input) {
    const bearing_estimate::Estimate size = bearing_estimate::estimate(
        input.kind,
        {.bore_mm = input.bore_mm, .outside_mm = input.outside_mm, .width_mm = input.width_mm},
        input.contact_angle_deg);
    const double C_N = input.dynamic_rating_N.value_or(size.C_N);
    const double C_0_N = input.static_rating_N.value_or(size.C_0_N);
    const double angle_deg = input.contact_angle_deg.value_or(size.contact_angle_deg);
    const double F_a_N = most_preload * C_N;
    return C_N * F_a_N /
           iso_281::equivalent_load_N({input.kind, angle_deg, size.f_0, C_0_N}, {0, F_a_N});
}

}  // namespace

void check_pair_settings(Completed& from, const Setup& setup) {
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
        if (!shaft.preload_N) continue;
        constexpr double even_N = 10;
        const double most_N =
            most_preload * std::min(axial_rating_N(*pair[0]), axial_rating_N(*pair[1]));
        if (*shaft.preload_N > most_N)
            from.problem(
                given.front(),
                fmt::format("{}: {:.0f} N is more than {:.0f} N, 0.3 of what the weaker of "
                            "{} and {} is rated for along its axis",
                            given.front(), *shaft.preload_N, even_N * std::floor(most_N / even_N),
                            pair[0]->name, pair[1]->name),
                "preloads of drop gears are some hundred N cold");
    }
}

}  // namespace caseload::input
