// SPDX-License-Identifier: MIT
// When to replace a part that wears out: by reliability, and by cost. Ages are in whatever unit the
// survival takes: events, hours, or shares of a reference life.
#pragma once

#include <functional>
#include <optional>
#include <span>

namespace caseload::replacement {

enum class Part { bearing, tooth };

/// A part's wear: shares of its reference life (bearing: 10 % failing, tooth: 1 %) used so far and
/// used by each coming event.
struct Wear {
    Part part;
    double used;
    double per_event;
};

/// Reliability of a gear flank or root after damage D: 0.99^(D^2.5).
///
/// Range    D >= 0.
/// Note     ratings of ISO 6336 are for 1 % failing; slope 2.5 of pitting tests, from memory.
/// Source   coy-townsend-zaretsky-1976, slope
[[nodiscard]] double tooth_survival(double damage);

/// Probability that no part fails in the coming events, all being alive now: product of
/// R(used + N per_event)/R(used), bearings by ISO 281, teeth by `tooth_survival`.
///
/// Note     nothing used: the probability from new. Parts fail independently.
/// Source   bearing-practice, case-survival
[[nodiscard]] double case_survival(std::span<const Wear> parts, double events);

/// R(age), falling from 1 to 0.
using Survival = std::function<double(double age)>;

struct Costs {
    double planned;
    double failure;  ///< the lost event included
};

/// Cost per unit of age when parts are replaced at this age, or when they fail before:
/// (C_p R(T) + C_f (1 - R(T))) / integral of R from 0 to T.
///
/// Range    costs > 0, age > 0.
/// Source   barlow-hunter-1960, age-replacement
[[nodiscard]] double cost_rate(const Survival& survival, const Costs& costs, double age);

/// Mean life, integral of R: C_f over it is the cost rate without planned replacement.
/// Source   barlow-hunter-1960, mean-life
[[nodiscard]] double mean_life(const Survival& survival);

struct Optimum {
    double age;
    double cost_rate;
    double cost_ratio;  ///< to running every part to failure
    double survival;
};

/// Age of least cost.
///
/// Returns  none when planned replacement saves nothing: failure no dearer than planned, or a
///          failure rate that does not rise.
/// Note     grid of 16 ages a decade, then Brent's minimum; failures at one age only are missed.
/// Source   barlow-hunter-1960, optimum
[[nodiscard]] std::optional<Optimum> optimum(const Survival& survival, const Costs& costs);

/// Whole number of events of least cost, at least 1; the survival's age is counted in events.
/// Returns  none where `optimum` has none.
/// Source   barlow-hunter-1960, whole-events
[[nodiscard]] std::optional<int> cheapest_events(const Survival& survival, const Costs& costs);

}  // namespace caseload::replacement
