// SPDX-License-Identifier: MIT
#include "ask/calibrate_fit.hpp"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

// Half the step of a slope, in logarithms: temperatures are true to 0.01 K, slopes are some 10 K.
constexpr double half_step = 0.05;
constexpr double longest_move = 1;
constexpr int most_rounds = 60;
// Damping of a move: this share of the information's diagonal at first, tenfold at each failure.
constexpr double first_damping = 1e-2;
constexpr double damping_step = 10;
constexpr int most_trials = 8;
// The fit has converged when the next move is at most this share of the factor's spread.
constexpr double close_enough = 0.01;

double square(double x) {
    return x * x;
}

/// Terms of the prior and of the observations at one set of factors.
class Target {
public:
    Target(const ReadingModel& model, const std::vector<Observation>& seen, const FitPlan& plan)
        : model_(model), seen_(seen) {
        for (std::size_t k = 0; k < heat_factors; ++k) {
            if (!plan.free.at(k)) continue;
            rows.push_back(k);
            const LnBand band = ln_band(k, plan.ranges);
            middle.push_back(band.middle);
            sd.push_back(plan.fitted.at(k) ? plan.prior_width * band.spread : band.spread);
        }
    }

    [[nodiscard]] std::vector<double> calculated(const FactorPlace& place) const {
        return model_.at(factors_at(place));
    }
    /// Logarithm of likelihood and prior.
    [[nodiscard]] double value(const FactorPlace& place, const std::vector<double>& temps) const {
        double sum = 0;
        for (std::size_t i = 0; i < seen_.size(); ++i) sum += likelihood(seen_[i], temps[i]).log;
        for (std::size_t j = 0; j < rows.size(); ++j) {
            sum -= square(off(place, j)) / 2;
        }
        return sum;
    }
    [[nodiscard]] std::vector<std::vector<double>> slopes(const FactorPlace& place) const {
        std::vector<std::vector<double>> slope(seen_.size(), std::vector<double>(rows.size()));
        for (std::size_t j = 0; j < rows.size(); ++j) {
            FactorPlace up = place;
            FactorPlace down = place;
            up.at(rows[j]) += half_step;
            down.at(rows[j]) -= half_step;
            const std::vector<double> high = calculated(up);
            const std::vector<double> low = calculated(down);
            for (std::size_t i = 0; i < seen_.size(); ++i)
                slope[i][j] = (high[i] - low[i]) / (2 * half_step);
        }
        return slope;
    }

    /// From the middle of the prior, over its spread.
    [[nodiscard]] double off(const FactorPlace& place, std::size_t j) const {
        return (place.at(rows[j]) - middle[j]) / sd[j];
    }

    std::vector<std::size_t> rows;
    std::vector<double> middle;
    std::vector<double> sd;

private:
    const ReadingModel& model_;
    const std::vector<Observation>& seen_;
};

struct Curvature {
    Matrix information;
    std::vector<double> gradient;
};

/// Of the target at the fit's place; notes what each observation weighs.
Curvature curvature(const Target& problem, const std::vector<Observation>& seen, Fit& fit) {
    const std::size_t n = problem.rows.size();
    Curvature out{Matrix(n), std::vector<double>(n)};
    for (std::size_t j = 0; j < n; ++j) {
        out.information(j, j) = 1 / (problem.sd[j] * problem.sd[j]);
        out.gradient[j] = -problem.off(fit.ln, j) / problem.sd[j];
    }
    fit.weight_pK2.clear();
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const Likelihood here = likelihood(seen[i], fit.calculated_degC[i]);
        fit.weight_pK2.push_back(here.information_pK2);
        for (std::size_t j = 0; j < n; ++j) {
            out.gradient[j] += here.slope_pK * fit.slope_K[i][j];
            for (std::size_t k = 0; k < n; ++k)
                out.information(j, k) +=
                    here.information_pK2 * fit.slope_K[i][j] * fit.slope_K[i][k];
        }
    }
    return out;
}

/// Source: D. Marquardt, J. Soc. Indust. Appl. Math. 11 (1963) 431, from memory.
std::vector<double> damped(const Curvature& here, double damping) {
    Matrix information = here.information;
    for (std::size_t j = 0; j < information.size(); ++j) information(j, j) *= 1 + damping;
    return solved(*cholesky(information), here.gradient);
}

/// The largest part of a move, over the factor's spread.
double in_spreads(const std::vector<double>& move, const Matrix& covariance) {
    double most = 0;
    for (std::size_t j = 0; j < move.size(); ++j)
        most = std::max(most, std::fabs(move[j]) / std::sqrt(covariance(j, j)));
    return most;
}

}  // namespace

Likelihood likelihood(const Observation& seen, double calculated_degC) {
    const double s = seen.scatter_K;
    const auto at_point = [&](double degC) {
        const double off = (degC - calculated_degC) / s;
        return Likelihood{-off * off / 2, off / s, 1 / (s * s)};
    };
    if (seen.low_degC == seen.high_degC) return at_point(seen.low_degC);
    const double a = (seen.low_degC - calculated_degC) / s;
    const double b = (seen.high_degC - calculated_degC) / s;
    const boost::math::normal unit;
    // The upper tail by its complement: both are exact where they are small.
    const double chance =
        a > 0 ? cdf(complement(unit, a)) - cdf(complement(unit, b)) : cdf(unit, b) - cdf(unit, a);
    constexpr double out_of_reach = 1e-200;
    if (chance < out_of_reach) return at_point(a > 0 ? seen.low_degC : seen.high_degC);
    const double at_a = pdf(unit, a);
    const double at_b = pdf(unit, b);
    const double slope = (at_a - at_b) / (chance * s);
    return {std::log(chance), slope, slope * slope - (a * at_a - b * at_b) / (chance * s * s)};
}

Fit middle_of(const ReadingModel& model, const FitPlan& plan) {
    const std::vector<Observation>& all = model.observations();
    const Target problem(model, all, plan);
    Fit fit;
    for (std::size_t j = 0; j < problem.rows.size(); ++j)
        fit.ln.at(problem.rows[j]) = problem.middle[j];
    fit.calculated_degC = problem.calculated(fit.ln);
    fit.slope_K = problem.slopes(fit.ln);
    return fit;
}

// Long: one search, each step of which needs the state of the last.
Fit fit_factors(const ReadingModel& model, const std::vector<Observation>& seen,
                const FitPlan& plan, const Fit& from) {
    const Target problem(model, seen, plan);
    const std::size_t n = problem.rows.size();
    Fit fit;
    fit.rows = problem.rows;
    fit.fitted = plan.fitted;
    fit.ln = from.ln;
    fit.calculated_degC = from.calculated_degC;
    fit.slope_K = from.slope_K;
    double value = problem.value(fit.ln, fit.calculated_degC);
    double damping = 0;
    double share_of_spread = 0;
    for (int round = 0; round < most_rounds; ++round) {
        if (round > 0) fit.slope_K = problem.slopes(fit.ln);
        const Curvature here = curvature(problem, seen, fit);
        const auto lower = cholesky(here.information);
        if (!lower) return fit;
        fit.covariance = inverse(*lower);
        share_of_spread = in_spreads(solved(*lower, here.gradient), fit.covariance);
        if (share_of_spread < close_enough) {
            fit.found = true;
            break;
        }
        // More damping until the step improves the target; at the accuracy of the temperatures
        // no step does.
        bool better = false;
        for (int trial = 0; trial < most_trials && !better; ++trial) {
            std::vector<double> move = damped(here, damping);
            const double longest =
                std::fabs(*std::max_element(move.begin(), move.end(), [](double a, double b) {
                    return std::fabs(a) < std::fabs(b);
                }));
            const double share = std::min(1.0, longest_move / longest);
            FactorPlace next = fit.ln;
            for (std::size_t j = 0; j < n; ++j) next.at(fit.rows[j]) += share * move[j];
            std::vector<double> temps = problem.calculated(next);
            const double there = problem.value(next, temps);
            if (!(there > value)) {
                damping = std::max(first_damping, damping * damping_step);
                continue;
            }
            better = true;
            damping = damping > first_damping ? damping / damping_step : 0;
            value = there;
            fit.ln = next;
            fit.calculated_degC = std::move(temps);
        }
        if (!better) break;
    }
    // No step improves it, or ever less at a bend of the tables.
    constexpr double good_enough = 0.2;
    fit.found = fit.found || share_of_spread < good_enough;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const double calculated_degC = fit.calculated_degC[i];
        const double outside_K =
            calculated_degC - std::clamp(calculated_degC, seen[i].low_degC, seen[i].high_degC);
        fit.misfit += square(outside_K / seen[i].scatter_K);
    }
    for (std::size_t j = 0; j < n; ++j) {
        fit.misfit += square(problem.off(fit.ln, j));
    }
    return fit;
}

}  // namespace caseload
