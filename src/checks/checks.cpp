// SPDX-License-Identifier: MIT
#include "caseload/checks.hpp"

#include "checks/parts.hpp"

#include <algorithm>
#include <utility>

namespace caseload {
namespace {

int rank(const Check& check) {
    if (check.verdict == "stop") return 0;
    if (check.verdict == "watch") return 1;
    return check.verdict == "fine" ? 2 : 3;
}

/// What a case does not survive first; what is only shown last, in its own order.
CheckId weight(const Check& check) {
    return std::min(check.id, CheckId::gears_resonance);
}

}  // namespace

Check at_least(Check check, const CheckLimits& limits) {
    check.at_least = true;
    check.limit = limits.watch;
    check.verdict = check.value < limits.stop    ? "stop"
                    : check.value < limits.watch ? "watch"
                                                 : "fine";
    if (check.verdict == "stop") check.limit = limits.stop;
    if (check.verdict == "fine") check.consequence.clear();
    return check;
}

Check at_most(Check check, const CheckLimits& limits) {
    check.limit = limits.watch;
    check.verdict = check.value > limits.stop    ? "stop"
                    : check.value > limits.watch ? "watch"
                                                 : "fine";
    if (check.verdict == "stop") check.limit = limits.stop;
    if (check.verdict == "fine") check.consequence.clear();
    return check;
}

void no_higher_than(double ceiling_degC, Check& check) {
    if (check.value <= ceiling_degC) return;
    check.value = ceiling_degC;
    check.words += above_ceiling_words;
}

double fastest_rpm(const Loads& loads, std::size_t shaft) {
    double fastest = 0;
    for (const LegLoads& leg : loads.legs)
        for (const BinLoads& bin : leg.bins)
            fastest = std::max(fastest, bin.shaft_speed_rpm[shaft]);
    return fastest;
}

Checked check_case(const Prepared& prepared, const EventHeat& heat, const Damage& damage) {
    Checked found;
    found.gears = gear_damage(*prepared.setup, prepared.loads);
    found.flanks = flank_checks(prepared, heat);
    found.seats = seat_results(prepared, heat);
    found.play = play_change(prepared, heat);
    std::vector<Check> checks;
    check_teeth(prepared, found, checks);
    check_bearings(prepared, damage, checks);
    check_seats(found, checks);
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
