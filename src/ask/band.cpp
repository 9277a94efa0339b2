// SPDX-License-Identifier: MIT
#include "caseload/ask/band.hpp"

#include "ask/fast_case.hpp"
#include "ask/judge.hpp"
#include "caseload/ask/measured.hpp"
#include "intervals/due.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

namespace caseload {
namespace {

constexpr double none_degC = std::numeric_limits<double>::infinity();  // no seat, no seal

/// How hot the oil gets over the draws, and in which share of them it keeps its limits.
void oil_against_limits(const LimitsInput& limits, std::vector<double> peaks_degC, BandSide& side) {
    const auto share = [&](auto&& counts) {
        return static_cast<double>(std::count_if(peaks_degC.begin(), peaks_degC.end(), counts)) /
               static_cast<double>(peaks_degC.size());
    };
    side.holds_share = share([&](double degC) { return degC <= limits.oil_watch_degC; });
    side.fails_share = share([&](double degC) { return degC > limits.oil_stop_degC; });
    side.peak_oil_degC = percentiles(std::move(peaks_degC));
}

std::vector<double> peaks_of(const std::vector<DrawResult>& draws) {
    std::vector<double> peaks_degC;
    peaks_degC.reserve(draws.size());
    for (const DrawResult& draw : draws) peaks_degC.push_back(draw.peak_oil_degC);
    return peaks_degC;
}

/// The statistics of one side from its draws.
class SideStatistics {
public:
    SideStatistics(const Setup& setup, const CoolerSide& likely,
                   const std::vector<DrawResult>& draws)
        : setup_(setup), likely_(likely), draws_(draws) {}

    [[nodiscard]] BandSide collect() const {
        BandSide side;
        oil_against_limits(setup_.limits,
                           sample_of([](const DrawResult& d) { return d.peak_oil_degC; }), side);
        side.peak_housing_degC = of([](const DrawResult& d) { return d.peak_housing_degC; });
        side.oil_dose = of([](const DrawResult& d) { return d.oil_dose; });
        for (std::size_t leg = 0; leg < setup_.event.legs.size(); ++leg)
            side.leg_peak_oil_degC.push_back(
                of([leg](const DrawResult& d) { return d.leg_peak_degC[leg]; }));
        for (std::size_t b = 0; b < likely_.damage.bearings.size(); ++b)
            side.life_share.push_back(of([b](const DrawResult& d) { return d.life_share[b]; }));
        for (std::size_t g = 0; g < likely_.checked.gears.size(); ++g) {
            side.flank_share.push_back(
                of([g](const DrawResult& d) { return d.teeth[g].flank_share; }));
            side.root_share.push_back(
                of([g](const DrawResult& d) { return d.teeth[g].root_share; }));
        }
        actions(side);
        std::vector<double> half;
        half.reserve(draws_.size() / 2);
        for (std::size_t i = 0; i < draws_.size() / 2; ++i) half.push_back(draws_[i].peak_oil_degC);
        if (!half.empty()) {
            const Percentiles of_half = percentiles(half);
            side.numeric_error_K = std::max(std::fabs(of_half.p10 - side.peak_oil_degC.p10),
                                            std::fabs(of_half.p90 - side.peak_oil_degC.p90));
        }
        return side;
    }

private:
    template <class F>
    [[nodiscard]] std::vector<double> sample_of(const F& value) const {
        std::vector<double> sample;
        sample.reserve(draws_.size());
        for (const DrawResult& draw : draws_) sample.push_back(value(draw));
        return sample;
    }
    template <class F>
    [[nodiscard]] Percentiles of(const F& value) const {
        return percentiles(sample_of(value));
    }

    void actions(BandSide& side) const {
        std::vector<double> change_oil;
        std::vector<double> look;
        std::vector<double> open_case;
        Wear wear = wear_of(setup_, likely_.event, likely_.damage, likely_.checked);
        double loose_above_degC = none_degC;
        for (const SeatResult& seat : likely_.checked.seats)
            if (seat.creep >= SeatClass::walks)
                loose_above_degC = std::min(loose_above_degC, seat.loose_above_degC);
        double look_above_degC = none_degC;  // of oil and housing
        double over_above_degC = none_degC;
        for (const SealInput& seal : setup_.seals) {
            const SealLimits limits = seal_limits(seal.material, setup_.oil.ep_additive);
            look_above_degC = std::min(look_above_degC, limits.sump_degC);
            over_above_degC = std::min(
                {over_above_degC, limits.sump_degC + seal_look_K, limits.lip_degC - lip_rise_K});
        }
        const std::vector<double> spline_share = wear.spline_share;
        for (const DrawResult& draw : draws_) {
            for (std::size_t k = 0; k < spline_share.size(); ++k)
                wear.spline_share[k] =
                    spline_share[k] * wear_by_load(draw.load / setup_.factors.load);
            wear.peak_oil_degC = draw.peak_oil_degC;
            wear.oil_dose = draw.oil_dose;
            wear.bearing_share = draw.life_share;
            wear.teeth = draw.teeth;
            wear.seat_loose_hot = draw.peak_housing_degC > loose_above_degC;
            const double sump_degC = std::max(draw.peak_oil_degC, draw.peak_housing_degC);
            wear.seal_over_limit = sump_degC > over_above_degC;
            wear.seal_to_look_at = sump_degC > look_above_degC;
            const Intervals due = actions_due(setup_, wear);
            change_oil.push_back(due.change_oil.after_events);
            look.push_back(due.look.after_events);
            open_case.push_back(due.open_case.after_events);
        }
        side.change_oil_events = percentiles(std::move(change_oil));
        side.look_events = percentiles(std::move(look));
        side.open_case_events = percentiles(std::move(open_case));
    }

    const Setup& setup_;
    const CoolerSide& likely_;
    const std::vector<DrawResult>& draws_;
};

/// Oil peaks of the draws whose range a reading is to narrow, and the same draws' values of the
/// reading.
struct Runs {
    const std::vector<DrawResult>& asked;
    const std::vector<DrawResult>& read;
};

/// Where it is read.
enum class Place { oil, skin };

/// Width of the range of the oil peak when a reading at its middle value has been taken: each draw
/// counts by how well it agrees with the reading.
double band_after_K(const Runs& runs, Place place) {
    const auto reading = [&](const DrawResult& draw) {
        return place == Place::oil ? draw.reading_oil_degC : draw.reading_housing_degC;
    };
    const double sd_K = place == Place::oil ? line_reading_K : skin_reading_K;
    std::vector<double> all;
    all.reserve(runs.read.size());
    for (const DrawResult& draw : runs.read) all.push_back(reading(draw));
    const double read_degC = percentiles(std::move(all)).p50;
    std::vector<std::pair<double, double>> weighted;  // peak, weight
    double total = 0;
    for (std::size_t i = 0; i < runs.asked.size(); ++i) {
        const double off = (reading(runs.read[i]) - read_degC) / sd_K;
        weighted.emplace_back(runs.asked[i].peak_oil_degC, std::exp(-off * off / 2));
        total += weighted.back().second;
    }
    if (weighted.empty()) return 0;
    std::sort(weighted.begin(), weighted.end());
    double below = 0;
    double p10 = weighted.front().first;
    double p90 = weighted.back().first;
    bool low_found = false;
    for (const auto& [peak_degC, weight] : weighted) {
        below += weight;
        if (!low_found && below >= 0.1 * total) {
            p10 = peak_degC;
            low_found = true;
        }
        if (below >= 0.9 * total) {
            p90 = peak_degC;
            break;
        }
    }
    return p90 - p10;
}

/// The better of the two places, as words for the screen. A run without the cooler ends at the
/// watch limit: it need not overheat the oil.
Measurement best_reading(const Setup& setup, const Runs& runs, const Percentiles& peak_degC,
                         bool cooler_off) {
    const double before_K = peak_degC.p90 - peak_degC.p10;
    const double oil_K = band_after_K(runs, Place::oil);
    const double skin_K = band_after_K(runs, Place::skin);
    const std::string place =
        skin_K < oil_K ? "temperature label on the housing below the oil level"
        : setup.lubrication.method == Method::dip ? "probe in the oil bath"
                                                  : "oil in the scavenge line";
    const double after_K = std::min(oil_K, skin_K);
    // A run that is likely to pass the watch limit ends there.
    const bool limited = cooler_off || peak_degC.p50 > setup.limits.oil_watch_degC;
    const std::string words = fmt::format(
        "{}{}, 30 min at pace{}, then calibrate", cooler_off ? "cooler out of the circuit, " : "",
        place,
        limited
            ? fmt::format(" but never above {:.0f} degC in the oil", setup.limits.oil_watch_degC)
            : "");
    return {before_K - after_K > worth_measuring_K, words, before_K, after_K};
}

/// The oil likely gets as warm as the thermostat opens, and hardly any draw past its range.
bool thermostat_holds(const Setup& setup, const BandSide& side) {
    if (!setup.cooler.fit || !setup.cooler.thermostat_opens_degC) return false;
    const double opens_degC = *setup.cooler.thermostat_opens_degC;
    return side.peak_oil_degC.p50 >= opens_degC &&
           side.peak_oil_degC.p90 <= opens_degC + thermostat_range_K;
}

/// What to measure: as fitted if that narrows the range, else with the cooler out of the circuit.
void advise(const Setup& setup, const std::vector<DrawResult>& with,
            const std::vector<DrawResult>& without, Band& band) {
    const Percentiles& peak_degC = band.fitted.peak_oil_degC;
    const double before_K = peak_degC.p90 - peak_degC.p10;
    band.measure = {false, "nothing while the verdict is STOP: do not run it to measure", before_K,
                    before_K};
    if (band.verdict == "stop") return;
    band.measure = best_reading(setup, {with, with}, band.fitted.peak_oil_degC, false);
    if (!without.empty()) {
        band.learn = best_reading(setup, {without, without}, band.without.peak_oil_degC, true);
        if (!band.measure.needed)
            band.measure = best_reading(setup, {with, without}, band.fitted.peak_oil_degC, true);
    }
    if (band.measure.needed) return;
    band.measure.words = thermostat_holds(setup, band.fitted)
                             ? "nothing needed while the thermostat holds the oil"
                             : "nothing needed: no reading would narrow this range";
}

/// Every draw as fitted and, where there is a cooler, without it.
struct Drawn {
    std::vector<std::array<double, band_factors>> points;
    std::vector<DrawResult> with;
    std::vector<DrawResult> without;
    OilTrace likely_oil;  ///< as fitted, of the draw in the middle; where lives without are wanted
};

/// Moments of the event, some seconds apart.
std::vector<double> moments(const Setup& setup) {
    constexpr int steps = 2000;
    double whole_s = 0;
    for (const int leg : setup.event.run)
        whole_s += setup.event.legs[static_cast<std::size_t>(leg)].duration_s;
    std::vector<double> at_s;
    at_s.reserve(steps + 1);
    for (int i = 0; i <= steps; ++i) at_s.push_back(whole_s * i / steps);
    return at_s;
}

/// The draw whose oil peak is the likely one: of an even number the lower of both.
std::size_t middle_of(const std::vector<DrawResult>& draws) {
    std::vector<std::size_t> order(draws.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto middle = order.begin() + static_cast<std::ptrdiff_t>((order.size() - 1) / 2);
    std::nth_element(order.begin(), middle, order.end(), [&](std::size_t a, std::size_t b) {
        return draws[a].peak_oil_degC != draws[b].peak_oil_degC
                   ? draws[a].peak_oil_degC < draws[b].peak_oil_degC
                   : a < b;
    });
    return *middle;
}

/// When it first passes a limit; -1: never.
double first_above_s(const OilTrace& oil, double limit_degC) {
    for (std::size_t i = 0; i < oil.oil_degC.size(); ++i) {
        if (oil.oil_degC[i] <= limit_degC) continue;
        if (i == 0) return oil.at_s[0];
        const double rise_K = oil.oil_degC[i] - oil.oil_degC[i - 1];
        return oil.at_s[i - 1] +
               (oil.at_s[i] - oil.at_s[i - 1]) * (limit_degC - oil.oil_degC[i - 1]) / rise_K;
    }
    return -1;
}

/// `lives_without`: what the event uses up without the cooler is wanted too.
Drawn draw_both(const Setup& setup, const Assessment& likely, const BandOptions& options,
                OilTraces* traces, bool lives_without) {
    // Most draws get less hot than this, and where one does not it costs little. Judgement.
    constexpr double hotter_K = 8;
    FastOptions tables = tables_for(FastUse::everything, options);
    if (!lives_without) tables.lives_to_degC = likely.fitted.event.peak_oil_degC + hotter_K;
    const FastCase fast(setup, tables);
    const FactorDraws factors_of(setup);
    Drawn drawn{sobol_points(options.draws), {}, {}, {}};
    const std::size_t draws = drawn.points.size();
    const std::size_t sides = likely.has_cooler ? 2 : 1;
    drawn.with.resize(draws);
    drawn.without.resize(likely.has_cooler ? draws : 0);
    if (traces != nullptr) {
        traces->with_degC.resize(draws);
        traces->without_degC.resize(drawn.without.size());
    }
    const std::size_t in_group = FastCase::side_by_side / sides;
    options.for_each((draws + in_group - 1) / in_group, [&](std::size_t group) {
        const std::size_t first = in_group * group;
        std::array<Factors, FastCase::side_by_side> factors;
        std::array<OilTrace, FastCase::side_by_side> oil;
        std::vector<FastCase::AskedSide> asked;
        for (std::size_t i = first; i < std::min(first + in_group, draws); ++i) {
            factors.at(i - first) = factors_of(drawn.points[i]);
            for (std::size_t side = 0; side < sides; ++side)
                asked.push_back({&factors.at(i - first), side == 0,
                                 traces != nullptr ? &oil.at(asked.size()) : nullptr,
                                 side == 0 || lives_without});
        }
        if (traces != nullptr)
            for (OilTrace& one : oil) one.at_s = traces->at_s;
        std::vector<DrawResult> results = fast.run(asked);
        for (std::size_t k = 0; k < results.size(); ++k) {
            const std::size_t i = first + k / sides;
            (asked[k].cooler ? drawn.with : drawn.without)[i] = std::move(results[k]);
            if (traces != nullptr)
                (asked[k].cooler ? traces->with_degC : traces->without_degC)[i] =
                    std::move(oil.at(k).oil_degC);
        }
    });
    if (lives_without) {
        drawn.likely_oil.at_s = moments(setup);
        const Factors middle = factors_of(drawn.points[middle_of(drawn.with)]);
        static_cast<void>(fast.run({FastCase::AskedSide{&middle, true, &drawn.likely_oil, false}}));
    }
    return drawn;
}

}  // namespace

void for_each_answer(std::size_t answers, const BandOptions& options,
                     const std::function<void(std::size_t, const BandOptions&)>& body) {
    BandOptions own = options;
    if (!own.shared) own.shared = shared_tables();
    if (answers == 1) {
        body(0, own);
        return;
    }
    own.for_each = own.for_tables = one_by_one;
    options.for_each(answers, [&](std::size_t i) { body(i, own); });
}

Band band(const Setup& setup, const Assessment& likely, const BandOptions& options,
          OilTraces* traces) {
    const Drawn drawn = draw_both(setup, likely, options, traces, true);
    const auto& [points, with, without, likely_oil] = drawn;
    Band result;
    result.draws = static_cast<int>(points.size());
    result.fitted = SideStatistics(setup, likely.fitted, with).collect();
    result.without = likely.has_cooler ? SideStatistics(setup, likely.without, without).collect()
                                       : result.fitted;
    const std::vector<double> peaks = peaks_of(with);
    for (std::size_t f = 0; f < band_factors; ++f) {
        std::vector<double> input;
        input.reserve(points.size());
        for (const auto& point : points) input.push_back(point[f]);
        result.shares.push_back({factor_words(setup, f), first_order_share({input, peaks})});
    }
    std::stable_sort(result.shares.begin(), result.shares.end(),
                     [](const FactorShare& a, const FactorShare& b) { return a.share > b.share; });
    judge(setup, likely, {with}, result);
    result.watch_after_s = first_above_s(likely_oil, setup.limits.oil_watch_degC);
    result.stop_after_s = first_above_s(likely_oil, setup.limits.oil_stop_degC);
    advise(setup, with, without, result);
    return result;
}

Band verdict_band(const Setup& setup, const Assessment& likely, const BandOptions& options) {
    Band result;
    result.draws = static_cast<int>(options.draws);
    const bool lives = lives_may_count(likely);
    const FastUse use = lives ? FastUse::everything : FastUse::same_temperatures;
    const std::vector<DrawResult> draws =
        FastCase(setup, tables_for(use, options)).draws(true, options);
    oil_against_limits(setup.limits, peaks_of(draws), result.fitted);
    judge(setup, likely, {draws, lives}, result);
    return result;
}

Band line_band(const Setup& setup, const Assessment& likely, const BandOptions& options) {
    const Drawn drawn = draw_both(setup, likely, options, nullptr, false);
    Band result;
    result.draws = static_cast<int>(options.draws);
    oil_against_limits(setup.limits, peaks_of(drawn.with), result.fitted);
    for (std::size_t b = 0; b < likely.fitted.damage.bearings.size(); ++b) {
        std::vector<double> shares;
        shares.reserve(drawn.with.size());
        for (const DrawResult& draw : drawn.with) shares.push_back(draw.life_share[b]);
        result.fitted.life_share.push_back(percentiles(std::move(shares)));
    }
    if (likely.has_cooler)
        oil_against_limits(setup.limits, peaks_of(drawn.without), result.without);
    else
        result.without = result.fitted;
    judge(setup, likely, {drawn.with}, result);
    return result;
}

}  // namespace caseload
