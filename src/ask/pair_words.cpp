// SPDX-License-Identifier: MIT
#include "caseload/ask/pairs.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

/// As it is printed, so that no 0 is a preload.
double printed(double end_play_mm) {
    return std::round(100 * end_play_mm);
}
bool is_preload(double end_play_mm) {
    return printed(end_play_mm) < 0;
}

}  // namespace

std::string play_or_preload(double end_play_mm) {
    return fmt::format("{:.2f} mm of {}", std::fabs(end_play_mm),
                       is_preload(end_play_mm) ? "preload" : "end play");
}

std::string pair_when_hot(const PairState& pair) {
    if (!pair.balance)
        return fmt::format("a preload hot ({}) at which the oil does not settle", pair.leg);
    if (pair.preload_N <= 0)
        return fmt::format("{} hot ({})", play_or_preload(pair.end_play_mm), pair.leg);
    return fmt::format("{:.2g} kN of preload hot ({}), which makes the oil {:.0f} K hotter",
                       pair.preload_N / 1000, pair.leg, pair.hotter_K);
}

std::string pair_setting(const PairState& pair) {
    const double least_mm = pair.set_end_play_mm - pair.set_tolerance_mm;
    const double most_mm = pair.set_end_play_mm + pair.set_tolerance_mm;
    if (printed(least_mm) == printed(most_mm)) return play_or_preload(pair.set_end_play_mm);
    if (is_preload(least_mm) != is_preload(most_mm))
        return play_or_preload(least_mm) + " to " + play_or_preload(most_mm);
    // Rounded to lie within; each with its unit, as both are converted to inches.
    const double inner_mm = std::ceil(100 * least_mm) / 100;
    const double outer_mm = std::floor(100 * most_mm) / 100;
    const bool preload = is_preload(least_mm);
    return fmt::format("{:.2f} mm to {}", std::fabs(preload ? outer_mm : inner_mm),
                       play_or_preload(preload ? inner_mm : outer_mm));
}

bool set_too_tight(const PairState& pair) {
    constexpr double noticed_K = 1;
    return !pair.balance || (pair.preload_N > 0 && pair.hotter_K >= noticed_K);
}

std::string looser_words(const PairState& pair) {
    return fmt::format("{} set with {} cold", pair.shaft, pair_setting(pair));
}

}  // namespace caseload
