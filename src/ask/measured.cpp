// SPDX-License-Identifier: MIT
#include "caseload/ask/measured.hpp"

#include "caseload/error.hpp"

#include <boost/math/distributions/normal.hpp>

#include <cmath>

namespace caseload {
namespace {

/// The other factor on the same draw: as far along its range as the first one along its own.
double other_of(const FactorRow& row, double factor) {
    const double along = std::log(factor / row.low) / std::log(row.high / row.low);
    return row.shared_low * std::pow(row.shared_high / row.shared_low, along);
}

// Correlations are written with four decimals: what rounding may cost.
constexpr double rounding = 1e-3;

}  // namespace

double heat_factor(const Factors& factors, std::size_t row) {
    return factors.*heat_factor_rows.at(row).member;
}

LnBand ln_band(std::size_t row, const CaseRanges& ranges) {
    const FactorRow& of = factor_rows().at(row);
    if (row == heat_factor_row(&Factors::load)) return {0, ranges.load_sd.value_or(of.sd)};
    if (of.law == "log-normal") return {0, of.sd};
    const double other = of.other == helical_teeth ? ranges.helical : 0;
    const double low = std::pow(of.low, 1 - other) * std::pow(of.shared_low, other);
    const double high = std::pow(of.high, 1 - other) * std::pow(of.shared_high, other);
    return {std::log(low * high) / 2, std::log(high / low) / std::sqrt(12.0)};
}

Factors factors_at(const FactorPlace& ln) {
    Factors factors;
    for (std::size_t k = 0; k < heat_factors; ++k)
        factors.*heat_factor_rows.at(k).member = std::exp(ln.at(k));
    for (const HeatFactorRow& row : heat_factor_rows)
        if (row.follows != nullptr)
            factors.*row.member =
                other_of(factor_rows().at(heat_factor_row(row.follows)), factors.*row.follows);
    return factors;
}

FactorDraws::FactorDraws(const Setup& setup) : FactorDraws(setup, ranges_of(setup)) {}

FactorDraws::FactorDraws(const Setup& setup, const CaseRanges& ranges)
    : ranges_(ranges), measured_(setup.measured.has_value()) {
    if (!measured_) return;
    const auto& rows = setup.measured->factors;
    Matrix correlation(heat_factors);
    for (std::size_t k = 0; k < heat_factors; ++k) {
        const MeasuredFactor& row = rows.at(k);
        ln_middle_.at(k) = std::log(row.median);
        spread_.at(k) = row.spread;
        correlation(k, k) = 1;
        for (std::size_t j = 0; j < k; ++j) correlation(k, j) = row.with.at(j);
    }
    const auto lower = cholesky(correlation, rounding);
    if (!lower)
        throw Error(Error::Kind::input,
                    {Problem{{setup.name, 0, 0, 0, {}},
                             "measured: the correlations under `with` contradict each other",
                             "let `caseload calibrate` write [measured] again"}});
    lower_ = *lower;
}

Factors FactorDraws::operator()(const std::array<double, band_factors>& point) const {
    if (!measured_) return drawn_factors(point, ranges_);
    std::array<double, heat_factors> score{};
    for (std::size_t k = 0; k < heat_factors; ++k)
        score.at(k) = quantile(boost::math::normal(), point.at(k));
    FactorPlace ln = ln_middle_;
    for (std::size_t k = 0; k < heat_factors; ++k)
        for (std::size_t j = 0; j <= k; ++j) ln.at(k) += spread_.at(k) * lower_(k, j) * score.at(j);
    // The others as in any case.
    Factors factors = drawn_factors(point, ranges_);
    const Factors found = factors_at(ln);
    for (const HeatFactorRow& row : heat_factor_rows) factors.*row.member = found.*row.member;
    return factors;
}

}  // namespace caseload
