// SPDX-License-Identifier: MIT
// Weibull life distribution from field records, and the life multiplier they imply. Two parameters:
// F(t) = 1 - exp(-(t/scale)^shape). Records may be exact, still running, or found only later.
#pragma once

#include <span>
#include <vector>

namespace caseload::weibull_fit {

/// Failed somewhere between two lives. Equal: seen failing. `to` infinite: still good at `from`.
/// `from` 0: found failed at `to`, never looked at before.
struct LifeRecord {
    double from;
    double to;
    double count = 1;
};

struct Fit {
    double shape;
    double scale;
    double log_likelihood;
    double failures;
};

struct Interval {
    double low;
    double high;
};

/// Fewer failures than this leave the shape open: four in twelve cases leave it between 1.6 and
/// 8.9. Judgement.
inline constexpr double least_failures = 5;

struct Parameters {
    double shape;
    double scale;
};

/// ln of the likelihood: sum of ln f(t) when seen failing, ln R(from) when still good,
/// ln(F(to) - F(from)) when found between.
/// Range    lives > 0, counts > 0; shape > 0, scale > 0.
/// Source   meeker-escobar-1998, 7.2
[[nodiscard]] double log_likelihood(std::span<const LifeRecord> records,
                                    const Parameters& parameters);

/// Largest likelihood over shape and scale. Refuses fewer than `least_failures` failures, and
/// records whose likelihood has no largest value.
/// Source   meeker-escobar-1998, 8.2
[[nodiscard]] Fit free_fit(std::span<const LifeRecord> records);

/// Largest likelihood over the scale at a given shape. Needs one failure.
/// Source   abernethy-2006, weibayes
[[nodiscard]] Fit fit_of_shape(std::span<const LifeRecord> records, double shape);

/// Life at which a share has failed: scale (-ln(1 - share))^(1/shape).
/// Source   meeker-escobar-1998, 4.8
[[nodiscard]] double life_at(const Parameters& parameters, double failing_share);

/// Shapes that the records do not exclude: 2 (l_max - l_profile) <= chi2(confidence; 1).
/// Source   meeker-escobar-1998, 8.3.2
[[nodiscard]] Interval shape_interval(std::span<const LifeRecord> records, double confidence);

/// Lower bound of the scale at a given shape from exact and still running records:
/// (2 sum t^b / chi2(confidence; 2 r + 2))^(1/b); also without any failure.
/// Source   abernethy-2006, lower-bound
[[nodiscard]] double lower_scale(std::span<const LifeRecord> records, const Parameters& shape_of,
                                 double confidence);

/// What is believed of k, true life over calculated life: k^-shape = x has the density
/// x^(a - 1) exp(-b x), times exp(-x from^shape) - exp(-x to^shape) for each part found failed
/// between two lives.
struct Multiplier {
    double shape;
    double a;
    double b;
    std::vector<LifeRecord> found{};
};

/// Median 1 and the given standard deviation of ln k: trigamma(a) = (shape ln_sd)^2,
/// b = inverse of the regularised lower gamma at 1/2.
/// Source   gelman-bda3, 2.6-prior
[[nodiscard]] Multiplier prior(double shape, const Interval& half_to_double);

/// After records of observed life over calculated characteristic life: a + failures seen,
/// b + sum of u^shape over those and the still running ones; a part found failed keeps its
/// interval, from 0 when it was never looked at before.
/// Source   gelman-bda3, 2.6-update
[[nodiscard]] Multiplier updated(const Multiplier& before, std::span<const LifeRecord> records);

/// k below which it lies with this probability: (b / inverse lower gamma(a, 1 - q))^(1/shape); with
/// parts found failed by summing the density over ln x.
/// Source   gelman-bda3, 2.6-quantile
[[nodiscard]] double quantile(const Multiplier& multiplier, double probability);

}  // namespace caseload::weibull_fit
