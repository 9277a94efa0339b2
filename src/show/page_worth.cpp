// SPDX-License-Identifier: MIT
// Seats over temperature; assumptions and their effects.
#include "show/page_parts.hpp"
#include "show/svg.hpp"
#include "show/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

// Long: a picture from top to bottom, with one scale for all of it.
std::string seat_picture(const PageAnswer& page, const Units& units, double width) {
    const bool narrow = width < wide_px;
    const double row = narrow ? 74 : 60;
    const double left = narrow ? 8 : 150;
    const double right = width - (narrow ? 8 : 20);
    const double head = 40;
    const double bottom = head + row * static_cast<double>(page.seats.size());
    Svg svg({{}, width, bottom + 6},
            "How tight each bearing ring sits over the housing temperature; the numbers are in "
            "the table below");
    const auto& temps = page.seats.front().at;
    if (!narrow) svg.text({0, 14}, fmt::format("housing, {}", units.degree()), "faint");
    const Ruler x{units.temp_value(temps.front().temp_degC),
                  units.temp_value(temps.back().temp_degC), left, right};
    const auto at = [&](double temp_degC) { return x(units.temp_value(temp_degC)); };
    for (const double tick : round_ticks(x, narrow ? 5 : 10)) {
        svg.line({{x(tick), head}, {x(tick), bottom}}, "grid");
        svg.text({x(tick), 14}, fmt::format("{:.0f}", tick), "mid faint");
    }
    const Percentiles& housing = page.answer.band.fitted.peak_housing_degC;
    svg.rect({{at(housing.p10), head - 6},
              std::max(at(housing.p90) - at(housing.p10), 2.0),
              bottom - head + 6},
             "band");
    svg.line({{at(housing.p50), head - 6}, {at(housing.p50), bottom}}, "hot");
    svg.text({std::min(at(housing.p50), right - 66), 30}, "housing at its hottest",
             "mid housing-words");
    double largest_MPa = 0;
    for (const SeatSweep& seat : page.seats)
        for (const SeatAt& one : seat.at)
            largest_MPa = std::max({largest_MPa, one.pressure_MPa, one.retainer_pressure_MPa});
    double y = head;
    for (std::size_t s = 0; s < page.seats.size(); ++s) {
        const SeatResult& result = page.answer.likely.fitted.checked.seats[s];
        const double base = narrow ? y + 46 : y + row / 2;
        const double most = 22;
        std::vector<Point> ring{{left, base}};
        std::vector<Point> retainer{{left, base}};
        for (const SeatAt& one : page.seats[s].at) {
            const double share = largest_MPa > 0 ? 1 / largest_MPa : 0;
            ring.push_back({at(one.temp_degC), base - most * one.pressure_MPa * share});
            retainer.push_back(
                {at(one.temp_degC), base + most * one.retainer_pressure_MPa * share});
        }
        ring.push_back({right, base});
        retainer.push_back({right, base});
        svg.area(ring, "leaves");
        if (result.retainer) svg.area(retainer, "retainer");
        svg.line({{left, base}, {right, base}}, "ink");
        svg.text({narrow ? left : 0, narrow ? y + 16 : base - 2}, spaced(result.bearing),
                 "strong halo");
        const std::string loose = result.loose_above_degC > temps.back().temp_degC
                                      ? "tight to " + units.degrees(temps.back().temp_degC)
                                      : "loose above " + units.degrees(result.loose_above_degC);
        svg.text({narrow ? right : 0, narrow ? y + 16 : base + 14}, loose,
                 narrow ? "end faint halo" : "faint");
        if (result.loose_above_degC <= temps.back().temp_degC)
            svg.line({{at(result.loose_above_degC), base - 12},
                      {at(result.loose_above_degC), base + 12}},
                     "heavy");
        svg.line({{0, y + row}, {width, y + row}}, "grid");
        y += row;
    }
    return svg.take();
}

std::string seat_table(const PageAnswer& page, const Units& units) {
    std::string out;
    const auto pressure = [&](double MPa) { return units.value(MPa, "MPa"); };
    for (std::size_t s = 0; s < page.seats.size(); ++s) {
        const SeatResult& result = page.answer.likely.fitted.checked.seats[s];
        HtmlTable table{
            fmt::format("Seat of {}, {}", spaced(result.bearing),
                        result.retainer ? "in a steel retainer" : "straight in the housing"),
            {fmt::format("Temperature, {}", units.degree()), "Ring pressed by"},
            {}};
        if (result.retainer) table.heads.emplace_back("Retainer pressed by");
        for (std::size_t i = 0; i < page.seats[s].at.size(); i += 4) {
            const SeatAt& one = page.seats[s].at[i];
            std::vector<std::string> row{fmt::format("{:.0f}", units.temp_value(one.temp_degC)),
                                         one.gap_mm > 0 ? "loose" : pressure(one.pressure_MPa)};
            if (result.retainer)
                row.push_back(one.retainer_gap_mm > 0 ? "loose"
                                                      : pressure(one.retainer_pressure_MPa));
            table.rows.push_back(std::move(row));
        }
        out += table_html(table);
    }
    return out;
}

/// Change of a share of life; what cannot be read is none.
std::string gained(double share) {
    constexpr double least_read = 1e-6;
    return std::fabs(share) < least_read ? "0 %" : fmt::format("{:+.2g} %", 100 * share);
}

/// Bars of the picture: effects on the oil, the largest.
std::vector<Worth> most_effect(const std::vector<Worth>& all) {
    constexpr std::size_t most = 12;
    std::vector<Worth> bars;
    for (const Worth& one : all)
        if (bars.size() < most && oil_effect_K(one) >= least_effect_K) bars.push_back(one);
    return bars;
}

std::string worth_picture(const std::vector<Worth>& all, const Units& units, double width) {
    const bool narrow = width < wide_px;
    const double row = narrow ? 40 : 26;
    const double left = narrow ? 40 : 330;
    const double right = width - 44;
    double low_K = -1;
    double high_K = 1;
    for (const Worth& one : all) {
        low_K = std::min({low_K, one.oil_low_K, one.oil_high_K});
        high_K = std::max({high_K, one.oil_low_K, one.oil_high_K});
    }
    const double bottom = 6 + row * static_cast<double>(all.size());
    Svg svg({{}, width, bottom + 6},
            "What each assumption does to the hottest oil; the numbers are in the table below");
    const Ruler x{low_K, high_K, left + 40, right - 4};
    double y = 6;
    for (const Worth& one : all) {
        const double lowest_K = std::min({one.oil_low_K, one.oil_high_K, 0.0});
        const double highest_K = std::max({one.oil_low_K, one.oil_high_K, 0.0});
        const double bar = narrow ? y + 27 : y + 13;
        svg.line({{x(0), bar - 11}, {x(0), bar + 11}}, "ink");
        svg.text({0, narrow ? y + 13 : bar + 4},
                 fmt::format("{}: {}", one.entry.key, units.text(one.entry.number)), "halo");
        svg.rect({{x(lowest_K), bar - 7}, std::max(x(highest_K) - x(lowest_K), 1.0), 14}, "made");
        if (lowest_K < -0.5)
            svg.text({x(lowest_K) - 4, bar + 4}, units.difference(lowest_K), "end halo");
        if (highest_K > 0.5)
            svg.text({x(highest_K) + 4, bar + 4}, units.difference(highest_K), "halo");
        y += row;
    }
    return svg.take();
}

}  // namespace

std::string seat_section(const PageAnswer& page, const Units& units) {
    if (page.seats.empty()) return {};
    const std::string assumed = seats_sentence(page.answer, units);
    return "<section>\n<h2>Rings in their seats</h2>\n" +
           (assumed.empty() ? "" : paragraph("Assumed: " + assumed + ".")) +
           figure_html(
               {seat_picture(page, units, wide_px), seat_picture(page, units, narrow_px),
                fmt::format(
                    "Thickness of a wedge: how hard the ring is pressed at that housing "
                    "temperature, {}; a retainer in the housing hangs below its line. A bare line: "
                    "loose, the ring can turn. Stroke: where it lets go. Middle of the fit.",
                    units.degree()),
                seat_table(page, units)}) +
           "</section>\n";
}

std::string worth_section(const PageAnswer& page, const Units& units) {
    const Answer& answer = page.answer;
    const Measurement& measure = answer.band.measure;
    std::string out = "<section>\n<h2>What was assumed, and what to measure</h2>\n";
    const auto narrows = [&](const Measurement& reading) {
        return fmt::format("from {} to {}", units.width(reading.band_before_K),
                           units.width(reading.band_after_K));
    };
    out += paragraph(
        measure.needed
            ? fmt::format("Measure first: {}. It would narrow the range of the hottest oil {}.",
                          units.text(measure.words), narrows(measure))
            : fmt::format("Measure: {}.", measure.words));
    if (!measure.needed && answer.band.learn.needed)
        out += paragraph(
            fmt::format("To learn about the case: {}. It would narrow the range without cooler {}.",
                        units.text(answer.band.learn.words), narrows(answer.band.learn)));
    const std::vector<Worth> all = with_effect(answer.worth);
    if (!all.empty()) {
        HtmlTable table{
            "Assumptions, the largest effect first: change of the hottest oil and of the most used "
            "bearing's share when one goes to either end of its plausible range",
            {"Assumed", "Means", "Hottest oil", "Bearing life share"},
            {}};
        for (const Worth& one : all)
            table.rows.push_back(
                {fmt::format("{}: {}", one.entry.key, units.text(one.entry.number)),
                 units.text(one.entry.words), oil_effect(one, units, "to"),
                 fmt::format("{} to {}", gained(std::min(one.life_low_share, one.life_high_share)),
                             gained(std::max(one.life_low_share, one.life_high_share)))});
        const std::vector<Worth> bars = most_effect(all);
        out +=
            bars.empty()
                ? table_html(table)
                : figure_html(
                      {worth_picture(bars, units, wide_px), worth_picture(bars, units, narrow_px),
                       "Each bar: how far the hottest oil moves if that one assumption is at the "
                       "end of its plausible range. Enter the true value and its bar disappears.",
                       table_html(table)});
    }
    if (answer.worth.size() > all.size())
        out += paragraph(fmt::format(
            "{} {} the hottest oil by less than {} and the most used bearing's share of life by "
            "less than {:g} %: caseload complete lists them.",
            answer.worth.size() - all.size(), all.empty() ? "assumptions move" : "more move",
            units.width(least_effect_K), 100 * least_effect_on_life));
    if (measure.band_before_K <= worth_measuring_K) return out + "</section>\n";
    HtmlTable shares{"Where the range of the hottest oil comes from",
                     {"Uncertain input", "Share of the range"},
                     {}};
    for (const FactorShare& factor : answer.band.shares)
        shares.rows.push_back({factor.words, fmt::format("{:.0f} %", 100 * factor.share)});
    return out + folded("Where the range comes from", table_html(shares)) + "</section>\n";
}

}  // namespace caseload
