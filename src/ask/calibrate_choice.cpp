// SPDX-License-Identifier: MIT
#include "ask/calibrate_choice.hpp"

#include "caseload/ask/calibrate.hpp"
#include "caseload/error.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

/// Spreads of all heat factors after the readings, by the slopes of one place.
class Spreads {
public:
    Spreads(const Fit& at, const std::vector<std::size_t>& kept, const CaseRanges& ranges)
        : at_(at), ranges_(ranges) {
        const std::size_t n = at.rows.size();
        Matrix information(n);
        for (std::size_t j = 0; j < n; ++j) {
            const bool wide = std::find(kept.begin(), kept.end(), at.rows[j]) != kept.end();
            const double sd = ln_band(at.rows[j], ranges).spread * (wide ? fitted_prior_width : 1);
            information(j, j) = 1 / (sd * sd);
            for (std::size_t k = 0; k < n; ++k)
                for (std::size_t i = 0; i < at.slope_K.size(); ++i)
                    information(j, k) += at.weight_pK2[i] * at.slope_K[i][j] * at.slope_K[i][k];
        }
        const auto lower = cholesky(information);
        if (!lower)
            throw Error(Error::Kind::convergence, "the readings leave no spread to calculate");
        covariance_ = inverse(*lower);
    }

    /// Share of the band's spread that is left.
    [[nodiscard]] double left(std::size_t row) const {
        const std::size_t j = place_of(row);
        return std::sqrt(covariance_(j, j)) / ln_band(row, ranges_).spread;
    }
    /// The same if every other factor were known.
    [[nodiscard]] double left_alone(std::size_t row) const {
        const std::size_t j = place_of(row);
        double information = 0;
        for (std::size_t i = 0; i < at_.slope_K.size(); ++i)
            information += at_.weight_pK2[i] * at_.slope_K[i][j] * at_.slope_K[i][j];
        return information > 0 ? 1 / std::sqrt(information) / ln_band(row, ranges_).spread
                               : fitted_prior_width;
    }
    /// The factor whose error is most correlated with this one's.
    [[nodiscard]] std::size_t most_like(std::size_t row) const {
        const std::size_t j = place_of(row);
        double most = 0;
        std::size_t which = row;
        for (std::size_t k = 0; k < at_.rows.size(); ++k) {
            if (k == j) continue;
            const double together =
                std::fabs(covariance_(j, k)) / std::sqrt(covariance_(j, j) * covariance_(k, k));
            if (together <= most) continue;
            most = together;
            which = at_.rows[k];
        }
        return which;
    }

private:
    [[nodiscard]] std::size_t place_of(std::size_t row) const {
        return static_cast<std::size_t>(std::find(at_.rows.begin(), at_.rows.end(), row) -
                                        at_.rows.begin());
    }

    const Fit& at_;
    CaseRanges ranges_;
    Matrix covariance_;
};

/// These fitted, their prior so many times as wide as the band's; all others within the band.
FitPlan plan_of(const std::vector<std::size_t>& rows, const CaseRanges& ranges,
                double prior_width) {
    FitPlan plan;
    plan.ranges = ranges;
    plan.prior_width = prior_width;
    plan.free.fill(true);
    for (const std::size_t row : rows) plan.fitted.at(row) = true;
    return plan;
}

}  // namespace

FactorChoice::FactorChoice(const ReadingModel& model, const CaseRanges& ranges)
    : model_(model), ranges_(ranges), middle_(middle_of(model, plan_of({}, ranges, 1))) {}

Choice FactorChoice::operator()(const std::vector<Observation>& seen) const {
    Choice choice;
    choice.ranges = ranges_;
    std::vector<std::size_t> kept(fitted_rows.begin(), fitted_rows.end());
    // Slopes at the middle of every factor's range.
    const Fit by_band = fit_factors(model_, seen, plan_of(kept, ranges_, 1), middle_);
    while (!kept.empty()) {
        const Spreads spreads(by_band, kept, ranges_);
        const auto worst = std::max_element(
            kept.begin(), kept.end(),
            [&](std::size_t a, std::size_t b) { return spreads.left(a) < spreads.left(b); });
        if (spreads.left(*worst) <= told_apart_share) break;
        if (spreads.left_alone(*worst) <= told_apart_share)
            choice.like.at(*worst) = factor_rows().at(spreads.most_like(*worst)).words;
        kept.erase(worst);
    }
    choice.fit = fit_factors(model_, seen, plan_of(kept, ranges_, fitted_prior_width), by_band);
    return choice;
}

}  // namespace caseload
