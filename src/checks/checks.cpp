// SPDX-License-Identifier: MIT
#include "caseload/checks.hpp"

#include "checks/parts.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

/// Shown comes last: nothing is asked of it.
int rank(const Check& check) {
    const Severity severity = severity_of(check.verdict);
    return severity == Severity::shown ? 1 : -static_cast<int>(severity);
}

/// What a case does not survive first; what is only shown last, in its own order.
CheckId weight(const Check& check) {
    return std::min(check.id, CheckId::gears_resonance);
}

}  // namespace

void no_higher_than(double ceiling_degC, Check& check) {
    if (check.value <= ceiling_degC) return;
    check.value = ceiling_degC;
    check.words += above_ceiling_words;
}

std::string without_value(std::string words) {
    for (const std::string_view end : {above_ceiling_words, hotter_flanks_words})
        if (words.size() > end.size() &&
            words.compare(words.size() - end.size(), end.size(), end) == 0)
            words.erase(words.size() - end.size());
    return words;
}

double film_limit(const Setup& setup) {
    constexpr double ground = 0.4;
    constexpr double other = 0.7;
    return setup.gears.ground ? ground : other;
}

double part_limit(const Setup& setup, const Check& check) {
    if (check.id == CheckId::gears_film) return film_limit(setup);
    if (check.id == CheckId::bearing_cage) return polyamide_limit_degC(setup.oil.ep_additive);
    if (check.id == CheckId::bearing_ring)
        for (const BearingInput& bearing : setup.bearings)
            if (check.about == "bearing." + bearing.name) return stabilised_degC(bearing.heat_code);
    if (check.id == CheckId::seal_sump || check.id == CheckId::seal_lip)
        for (const SealInput& seal : setup.seals)
            if (check.about == "seal." + seal.name) {
                const SealLimits limits = seal_limits(seal.material, setup.oil.ep_additive);
                return check.id == CheckId::seal_sump ? limits.sump_degC : limits.lip_degC;
            }
    return 1;
}

double fastest_rpm(const Loads& loads, std::size_t shaft) {
    double fastest = 0;
    for (const LegLoads& leg : loads.legs)
        for (const BinLoads& bin : leg.bins)
            fastest = std::max(fastest, bin.shaft_speed_rpm[shaft]);
    return fastest;
}

PassedSpeed passed_speed(const Prepared& prepared, std::size_t shaft, double share) {
    std::vector<std::pair<double, PassedSpeed>> time_at;
    double driving_s = 0;
    for (const int run : prepared.setup->event.run) {
        const auto leg = static_cast<std::size_t>(run);
        const double duration_s = prepared.setup->event.legs[leg].duration_s;
        const auto& bins = prepared.loads.legs[leg].bins;
        for (std::size_t bin = 0; bin < bins.size(); ++bin) {
            const double time_s = bins[bin].bin.share * duration_s;
            time_at.emplace_back(time_s, PassedSpeed{bins[bin].shaft_speed_rpm[shaft], leg, bin});
            driving_s += time_s;
        }
    }
    std::stable_sort(time_at.begin(), time_at.end(),
                     [](const auto& a, const auto& b) { return a.second.rpm > b.second.rpm; });
    double above_s = 0;
    for (const auto& [time_s, at] : time_at) {
        above_s += time_s;
        if (above_s >= share * driving_s) return at;
    }
    return {};
}

double limiter_rpm(const Setup& setup, const Loads& loads) {
    const VehicleInput& vehicle = setup.vehicle;
    if (!vehicle.engine_limit_rpm || vehicle.gearbox.empty()) return 0;
    const double tallest = *std::min_element(vehicle.gearbox.begin(), vehicle.gearbox.end());
    double fastest = 0;
    for (int index = 0; index <= static_cast<int>(loads.others.size()); ++index)
        fastest = std::max(fastest, std::fabs(train_of(loads, index).shafts.back().speed_ratio));
    return *vehicle.engine_limit_rpm / tallest * fastest;
}

double stabilised_degC(HeatCode code) {
    switch (code) {
        case HeatCode::SN:
            return 120;
        case HeatCode::S0:
            return 150;
        case HeatCode::S1:
            return 200;
    }
    return 120;
}

double polyamide_limit_degC(bool ep_additive) {
    return ep_additive ? 110 : 120;
}

Checked check_case(const Prepared& prepared, const EventHeat& heat, const Damage& damage) {
    Checked found;
    found.gears = gear_damage(*prepared.setup, prepared.loads);
    found.flanks = flank_checks(prepared, heat);
    found.seats = seat_results(prepared, heat);
    found.play = play_change(prepared, heat);
    found.splines = spline_results(*prepared.setup, prepared.loads);
    found.pairs = tightest_pairs(prepared, heat);
    std::vector<Check> checks;
    check_teeth(prepared, found, checks);
    check_bearings(prepared, damage, checks);
    check_seats(found, checks);
    check_pairs(found, checks);
    check_splines(found, checks);
    check_seals(prepared, heat, checks);
    check_prop_shaft(prepared, checks);
    found.checks = std::move(checks);
    return found;
}

std::vector<Check> worst_first(const std::vector<Check>& checks) {
    std::vector<Check> sorted = checks;
    std::stable_sort(sorted.begin(), sorted.end(), [](const Check& a, const Check& b) {
        return rank(a) != rank(b) ? rank(a) < rank(b) : weight(a) < weight(b);
    });
    return sorted;
}

}  // namespace caseload
