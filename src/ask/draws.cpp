// SPDX-License-Identifier: MIT
// Draws of the uncertain factors, and the statistics of what comes out.
#include "caseload/ask/band.hpp"
#include "caseload/error.hpp"
#include "caseload/factors.hpp"
#include "caseload/formulas/iso_21771.hpp"
#include "caseload/kinds.hpp"
#include "caseload/tables.hpp"
#include "caseload/units.hpp"
#include "loads/seat_fit.hpp"
#include "third_party/toml.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/random/sobol.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace caseload {
namespace {

std::array<FactorRow, band_factors> read_rows() {
    std::array<FactorRow, band_factors> rows;
    const toml::table file = toml::parse(embedded_table("band.toml"));
    for (const auto& [name, node] : file) {
        const toml::table& t = *node.as_table();
        const auto number = [&t](std::string_view key) { return t[key].value_or(0.0); };
        const auto text = [&t](std::string_view key) { return t[key].value_or(std::string{}); };
        FactorRow row;
        row.name = std::string(name.str());
        row.law = text("law");
        row.sd = number("sd");
        row.low = row.law == "classes" ? number("cleaner") : number("low");
        row.high = row.law == "classes" ? number("dirtier") : number("high");
        row.step = number("step");
        row.with_windage = number("with_windage");
        constexpr std::string_view sd_of = "sd_";
        for (const auto& [other, range] : t) {
            if (other.str().starts_with(sd_of))
                row.sd_of[std::string(other.str().substr(sd_of.size()))] = range.value_or(0.0);
            if (!range.is_table()) continue;
            row.other = std::string(other.str());
            row.shared_low = range.at_path("low").value_or(0.0);
            row.shared_high = range.at_path("high").value_or(0.0);
        }
        row.words = text("words");
        row.source = text("source");
        rows.at(static_cast<std::size_t>(t["order"].value_or(0)) - 1) = row;
    }
    return rows;
}

struct Range {
    double low;
    double high;
};

double log_uniform(const Range& range, double u) {
    return range.low * std::pow(range.high / range.low, u);
}

double normal_score(double u) {
    return boost::math::quantile(boost::math::normal(), u);
}

double value(const FactorRow& row, double u) {
    if (row.law == "log-normal") return std::exp(row.sd * normal_score(u));
    if (row.law == "log-uniform") return log_uniform({row.low, row.high}, u);
    if (row.law == "uniform") {
        const double at = row.low + (row.high - row.low) * u;
        return row.step > 0 ? row.step * std::round(at / row.step) : at;
    }
    if (u < row.low) return -1;
    return u > 1 - row.high ? 1 : 0;
}

}  // namespace

const std::array<FactorRow, band_factors>& factor_rows() {
    static const std::array<FactorRow, band_factors> rows = read_rows();
    return rows;
}

std::string factor_words(const Setup& setup, std::size_t row) {
    const bool by_model = std::any_of(setup.event.legs.begin(), setup.event.legs.end(),
                                      [](const LegInput& leg) { return !leg.calculated.empty(); });
    if (row == row_pace && by_model) return "drive: driver and ground";
    return factor_rows().at(row).words;
}

std::vector<std::array<double, band_factors>> sobol_points(std::size_t draws) {
    boost::random::sobol engine(band_factors);
    const auto scale = static_cast<double>(boost::random::sobol::max()) + 1;
    std::vector<std::array<double, band_factors>> points(draws);
    for (auto& point : points)
        for (double& u : point) u = static_cast<double>(engine()) / scale;
    return points;
}

double helical_share(const Setup& setup) {
    const GearsInput& gears = setup.gears;
    return std::min(
        iso_21771::overlap_ratio({.face_width_mm = gears.face_width_mm,
                                  .angle_rad = rad_from_deg(std::fabs(gears.helix_angle_deg)),
                                  .module_mm = gears.module_mm}),
        1.0);
}

namespace {

/// Of the drive legs, weighted by their time.
double load_sd(const EventInput& event) {
    const FactorRow& row = factor_rows()[heat_factor_row(&Factors::load)];
    double time_s = 0;
    double squares_s = 0;
    for (const int run : event.run) {
        const LegInput& leg = event.legs[static_cast<std::size_t>(run)];
        if (leg.kind != LegKind::drive) continue;
        const bool by_model = leg.load_source == LoadSource::course && !leg.calculated.empty();
        const auto own =
            row.sd_of.find(by_model ? "segments" : std::string(words_for(leg.load_source).key));
        const double sd = own == row.sd_of.end() ? row.sd : own->second;
        time_s += leg.duration_s;
        squares_s += leg.duration_s * sd * sd;
    }
    return time_s > 0 ? std::sqrt(squares_s / time_s) : row.sd;
}

Triangle about(double low, double likely, double high) {
    return {std::min(low, likely), likely, std::max(high, likely)};
}

/// Ends of a row over a value of the setup.
std::optional<Triangle> over(const Triangle& ends) {
    if (ends.likely <= 0) return std::nullopt;
    return about(ends.low / ends.likely, 1, ends.high / ends.likely);
}

/// Ends of a row less a value of the setup.
Triangle less(const Triangle& ends) {
    return about(ends.low - ends.likely, 0, ends.high - ends.likely);
}

void assumed_entries(const Setup& setup, CaseRanges& ranges) {
    const auto& rows = factor_rows();
    const auto ends = [&](std::size_t row, double likely) {
        return Triangle{rows[row].low, likely, rows[row].high};
    };
    const LubricationInput& lubrication = setup.lubrication;
    const HousingInput& housing = setup.housing;
    if (setup.unknown.mist) ranges.mist = over(ends(row_drain, lubrication.mist_oil_fraction));
    if (setup.unknown.rehit)
        ranges.rehit =
            over({rows[row_drain].shared_low, lubrication.oil_rehit, rows[row_drain].shared_high});
    if (setup.unknown.exhaust) ranges.exhaust_W = less(ends(row_exhaust, housing.exhaust_heat_W));
    if (setup.unknown.neighbour_path)
        ranges.neighbour_WpK = less(ends(row_neighbour_heat, housing.neighbour_WpK));
    if (setup.unknown.neighbour_temp)
        ranges.neighbour_K = less(ends(row_neighbour_temp, housing.neighbour_warmer_K));
    ranges.seat_heat = std::any_of(
        setup.bearings.begin(), setup.bearings.end(),
        [](const BearingInput& bearing) { return bearing.radial && !ring_fit_known(bearing); });
    if (housing.dirt_assumed && housing.dirt_area_share == 1)
        ranges.dirt = over(ends(row_dirt, housing.dirt_thickness_mm));
}

/// Triangular in the logarithm.
double triangular_ln(const Triangle& of, double rank) {
    return std::exp(triangular({std::log(of.low), std::log(of.likely), std::log(of.high)}, rank));
}

}  // namespace

CaseRanges ranges_beside_assumed(const Setup& setup) {
    CaseRanges ranges;
    ranges.helical = helical_share(setup);
    ranges.load_sd = load_sd(setup.event);
    const CoolerInput& cooler = setup.cooler;
    ranges.thermostat = cooler.fit && cooler.thermostat_opens_degC;
    if (cooler.fit) {
        const FactorRow& core = factor_rows()[row_cooler_conductance];
        ranges.conductance_sd = cooler.rating_estimated ? core.sd : core.sd_of.at("entered");
    }
    const auto& pump = setup.lubrication.pump;
    if (setup.lubrication.method == Method::scavenged && pump)
        ranges.short_round = 60 * setup.oil.fill_L < short_round_s * pump->flow_Lpmin;
    ranges.pace = std::any_of(
        setup.event.legs.begin(), setup.event.legs.end(),
        [](const LegInput& leg) { return leg.pace_ends.has_value() || !leg.calculated.empty(); });
    ranges.play = std::any_of(setup.bearings.begin(), setup.bearings.end(), has_running_play);
    return ranges;
}

CaseRanges ranges_of(const Setup& setup) {
    CaseRanges ranges = ranges_beside_assumed(setup);
    // The factors found by readings of a case make up for these.
    if (!setup.measured) assumed_entries(setup, ranges);
    return ranges;
}

Factors drawn_factors(const std::array<double, band_factors>& point, const CaseRanges& ranges) {
    const auto& rows = factor_rows();
    const double helical = ranges.helical;
    const auto drawn = [&](std::size_t i) { return value(rows[i], point[i]); };
    const auto other = [&](std::size_t i) {
        return log_uniform({rows[i].shared_low, rows[i].shared_high}, point[i]);
    };
    Factors f;
    for (std::size_t k = 0; k < heat_factors; ++k)
        f.*heat_factor_rows[k].member =
            rows[k].other == helical_teeth
                ? std::pow(drawn(k), 1 - helical) * std::pow(other(k), helical)
                : drawn(k);
    for (const HeatFactorRow& row : heat_factor_rows)
        if (row.follows != nullptr) f.*row.member = other(heat_factor_row(row.follows));
    // A wet case has more drag and more wetted wall.
    constexpr std::size_t film = heat_factor_row(&Factors::oil_film);
    const double together = rows[film].with_windage;
    f.oil_film = std::exp(rows[film].sd *
                          (together * normal_score(point[heat_factor_row(&Factors::windage)]) +
                           std::sqrt(1 - together * together) * normal_score(point[film])));
    if (ranges.load_sd) {
        constexpr std::size_t load = heat_factor_row(&Factors::load);
        f.load = std::exp(*ranges.load_sd * normal_score(point[load]));
    }
    f.cleanliness = static_cast<int>(drawn(row_cleanliness));
    f.life = drawn(row_life);
    f.air_K = drawn(row_air);
    if (ranges.thermostat) f.thermostat_K = drawn(row_thermostat);
    if (ranges.short_round)
        f.pump_flow = *ranges.short_round ? other(row_pump_flow) : drawn(row_pump_flow);
    if (ranges.conductance_sd)
        f.cooler_conductance =
            std::exp(*ranges.conductance_sd * normal_score(point[row_cooler_conductance]));
    if (ranges.mist) f.mist = triangular_ln(*ranges.mist, point[row_drain]);
    if (ranges.rehit) f.rehit = triangular_ln(*ranges.rehit, point[row_drain]);
    if (ranges.exhaust_W) f.exhaust_W = triangular(*ranges.exhaust_W, point[row_exhaust]);
    if (ranges.neighbour_WpK)
        f.neighbour_WpK = triangular(*ranges.neighbour_WpK, point[row_neighbour_heat]);
    if (ranges.neighbour_K)
        f.neighbour_K = triangular(*ranges.neighbour_K, point[row_neighbour_temp]);
    if (ranges.dirt) f.dirt = triangular_ln(*ranges.dirt, point[row_dirt]);
    if (ranges.pace) f.pace_rank = point[row_pace];
    if (ranges.seat_heat) f.seat_heat = drawn(row_seat_heat);
    if (ranges.play) f.play = drawn(row_play);
    return f;
}

double quantile(const std::vector<double>& sorted, double q) {
    if (sorted.empty()) throw Error(Error::Kind::domain, "quantile of no values");
    require_within(q, {0, 1}, "q");
    const double position = static_cast<double>(sorted.size() - 1) * q;
    const auto i = static_cast<std::size_t>(position);
    if (i + 1 >= sorted.size()) return sorted.back();
    return sorted[i] + (position - static_cast<double>(i)) * (sorted[i + 1] - sorted[i]);
}

Percentiles percentiles(std::vector<double> sample) {
    std::sort(sample.begin(), sample.end());
    return {quantile(sample, 0.1), quantile(sample, 0.5), quantile(sample, 0.9)};
}

double first_order_share(const Paired& draws) {
    const std::vector<double>& input = draws.factor;
    const std::vector<double>& output = draws.result;
    // Equal slices of about 64 draws: enough for a mean, narrow enough for the shape. The other
    // factors are spread evenly within a slice of Sobol points, so its mean hardly scatters and
    // nothing is taken off for that.
    constexpr std::size_t slice_draws = 64;
    const std::size_t n = output.size();
    if (n < 2 * slice_draws) return 0;
    std::vector<std::size_t> order(n);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return input[a] < input[b]; });
    const double mean = std::accumulate(output.begin(), output.end(), 0.0) / static_cast<double>(n);
    double total = 0;
    for (const double y : output) total += (y - mean) * (y - mean);
    if (total <= 0) return 0;
    const std::size_t slices = n / slice_draws;
    double between = 0;
    for (std::size_t s = 0; s < slices; ++s) {
        const std::size_t from = s * n / slices;
        const std::size_t to = (s + 1) * n / slices;
        const auto count = static_cast<double>(to - from);
        double slice_mean = 0;
        for (std::size_t i = from; i < to; ++i) slice_mean += output[order[i]] / count;
        between += count * (slice_mean - mean) * (slice_mean - mean);
    }
    return between / total;
}

}  // namespace caseload
