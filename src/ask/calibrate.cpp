// SPDX-License-Identifier: MIT
#include "caseload/ask/calibrate.hpp"

#include "ask/calibrate_choice.hpp"
#include "caseload/error.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

namespace caseload {
namespace {

// Below this chance the readings contradict each other or the case as calculated.
constexpr double contradiction = 0.01;

constexpr std::string_view check_readings =
    "no case differs so much from what is calculated: check place, leg, ambient and temperature of "
    "each reading, then cooler, oil and vehicle of the setup";

double p90_score() {
    return quantile(boost::math::normal(), 0.9);
}

/// A factor beyond the tables is not taken as found: setup or reading is wrong.
void refuse_unbelievable(const Fit& fit) {
    struct Reach {
        std::size_t row;
        double least;
        double most;
    };
    constexpr std::array<Reach, 4> reach{
        {{fitted_rows[0], 0.1, 10},
         {fitted_rows[1], FastNodes::least_friction, FastNodes::most_friction},
         {fitted_rows[2], FastNodes::least_air_share, FastNodes::most_air_share},
         {fitted_rows[3], 0.1, 10}}};
    for (const Reach& one : reach) {
        if (!fit.fitted.at(one.row)) continue;
        const double factor = std::exp(fit.ln.at(one.row));
        if (fit.found && factor > one.least && factor < one.most) continue;
        throw Error(Error::Kind::domain,
                    {Problem{{},
                             fmt::format("the readings ask for a factor beyond {:g} to {:g} on: {}",
                                         one.least, one.most, factor_rows().at(one.row).words),
                             std::string(check_readings)}});
    }
}

class Result {
public:
    Result(const Choice& choice, const ReadingModel& model)
        : choice_(choice), model_(model), fit_(choice.fit) {
        out_.rows = static_cast<int>(model.observations().size());
    }

    Calibration make(const std::string& date) {
        judge_misfit();
        factors();
        readings();
        measured(date);
        return out_;
    }

private:
    [[nodiscard]] double sd(std::size_t row) const {
        const auto at = std::find(fit_.rows.begin(), fit_.rows.end(), row);
        const auto j = static_cast<std::size_t>(at - fit_.rows.begin());
        const double left = out_.widened * std::sqrt(fit_.covariance(j, j));
        // Contradicting readings widen only the factors they found.
        return fit_.fitted.at(row) ? left : std::min(left, ln_band(row, choice_.ranges).spread);
    }

    /// Source: R. T. Birge, Physical Review 40 (1932) 207: spreads widened by the root of the
    /// misfit over its expectation; here only when chance alone would hardly do it.
    void judge_misfit() {
        const auto fitted =
            static_cast<double>(std::count(fit_.fitted.begin(), fit_.fitted.end(), true));
        const double left = std::max(1.0, static_cast<double>(out_.rows) - fitted);
        out_.misfit = fit_.misfit / left;
        out_.chance = cdf(complement(boost::math::chi_squared(left), std::max(fit_.misfit, 0.0)));
        if (out_.chance < contradiction) out_.widened = std::sqrt(out_.misfit);
    }

    [[nodiscard]] double factor_at(std::size_t row, double scores) const {
        return std::exp(fit_.ln.at(row) + scores * sd(row));
    }

    void factors() {
        for (const std::size_t row : fitted_rows) {
            FoundFactor found;
            found.name = factor_rows().at(row).name;
            found.words = factor_rows().at(row).words;
            found.told_apart = fit_.fitted.at(row);
            found.factor = {factor_at(row, -p90_score()), factor_at(row, 0),
                            factor_at(row, p90_score())};
            found.spread_left = sd(row) / ln_band(row, choice_.ranges).spread;
            if (!found.told_apart) found.like = choice_.like.at(row);
            out_.factors.push_back(std::move(found));
        }
    }

    void readings() {
        const std::vector<double> before_degC = model_.at({});
        for (std::size_t i = 0; i < model_.observations().size(); ++i) {
            const Observation& seen = model_.observations()[i];
            const double after_degC = fit_.calculated_degC[i];
            const double read_degC = std::clamp(after_degC, seen.low_degC, seen.high_degC);
            out_.readings.push_back({seen.reading, seen.oil, seen.low_degC, seen.high_degC,
                                     before_degC[i], after_degC,
                                     (after_degC - read_degC) / seen.scatter_K});
        }
    }

    void measured(const std::string& date) {
        out_.measured.date = date;
        out_.measured.readings = out_.rows;
        const Factors middle = factors_at(fit_.ln);
        for (std::size_t k = 0; k < heat_factors; ++k) {
            MeasuredFactor row;
            row.name = factor_rows().at(k).name;
            row.median = heat_factor(middle, k);
            row.told_apart = fit_.fitted.at(k);
            row.spread = sd(k);
            for (std::size_t j = 0; j < k; ++j)
                row.with.push_back(fit_.covariance(k, j) /
                                   std::sqrt(fit_.covariance(k, k) * fit_.covariance(j, j)));
            out_.measured.factors.push_back(std::move(row));
        }
        for (const HeatFactorRow& row : heat_factor_rows)
            if (row.follows != nullptr)
                out_.following.push_back({std::string(row.name), false, middle.*row.member, 0, {}});
    }

    const Choice& choice_;
    const ReadingModel& model_;
    const Fit& fit_;
    Calibration out_;
};

/// Oil peaks of the event, with its cooler and without, over the band or what was measured.
struct Peaks {
    Percentiles with_degC;
    Percentiles without_degC;
};

Peaks oil_peaks_degC(const FastCase& fast, const FactorDraws& drawn, const ForEach& for_each) {
    constexpr std::size_t draws = 1023;
    const auto points = sobol_points(draws);
    std::vector<Factors> factors;
    factors.reserve(draws);
    for (const auto& point : points) factors.push_back(drawn(point));
    std::vector<FastCase::AskedSide> asked;
    for (const Factors& draw : factors)
        for (const bool cooler : {true, false}) asked.push_back({&draw, cooler});
    const std::vector<DrawResult> results = fast.run(asked, for_each);
    std::vector<double> with_degC;
    std::vector<double> without_degC;
    for (std::size_t i = 0; i < results.size(); ++i)
        (asked[i].cooler ? with_degC : without_degC).push_back(results[i].peak_oil_degC);
    return {percentiles(std::move(with_degC)), percentiles(std::move(without_degC))};
}

}  // namespace

Calibration calibrate(const Setup& given, const std::string& date, const ForEach& for_each) {
    if (given.readings.empty())
        throw Error(Error::Kind::input,
                    {Problem{{given.name, 0, 0, 0, {}},
                             "there are no readings to fit",
                             "add [reading.NAME] with place, leg, ambient, at_pace and temp"}});
    Setup setup = given;
    setup.measured.reset();
    setup.factors = {};
    const ReadingModel model(setup, for_each);
    const Choice choice = FactorChoice(model, ranges_of(setup))(model.observations());
    refuse_unbelievable(choice.fit);
    if (!choice.fit.found)
        throw Error(Error::Kind::domain, {Problem{{},
                                                  "no believable factors explain the readings",
                                                  std::string(check_readings)}});
    Calibration result = Result(choice, model).make(date);
    // A measured case changes the draws, not the tables.
    const FastCase fast(setup, FastUse::temperatures);
    // What is assumed of a measured case counts at its likely value: so it does on both sides, or
    // leaving it out would look like what the readings say.
    const FactorDraws unmeasured(setup, ranges_beside_assumed(setup));
    const Peaks before = oil_peaks_degC(fast, unmeasured, for_each);
    setup.measured = result.measured;
    const Peaks after = oil_peaks_degC(fast, FactorDraws(setup), for_each);
    if (setup.cooler.fit) result.peaks.push_back({true, before.with_degC, after.with_degC});
    result.peaks.push_back({false, before.without_degC, after.without_degC});
    return result;
}

}  // namespace caseload
