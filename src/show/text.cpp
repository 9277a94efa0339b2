// SPDX-License-Identifier: MIT
// The first screen: verdict, oil, next actions, heat and checks, what is not calculated, what to
// measure.
#include "caseload/show/text.hpp"

#include "caseload/ask/pairs.hpp"
#include "caseload/figures.hpp"
#include "show/course_pace.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"
#include "show/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

/// The largest sources of heat.
std::string ledger(const LossLedger& losses) {
    constexpr std::size_t most_parts = 5;
    const double total = total_W(losses);
    std::string text;
    const std::vector<HeatSource> sources = heat_sources(losses);
    for (std::size_t i = 0; i < most_parts; ++i)
        if (sources[i].power_W > 0.005 * total)
            text += fmt::format("{}{} {:.0f} %", text.empty() ? "" : "   ", sources[i].words,
                                100 * sources[i].power_W / total);
    return text;
}

std::string header(const Answer& answer, const Units& units) {
    const Setup& setup = answer.read.setup;

    const std::string rest = fmt::format(
        " {:.1f} h, {}  {}  {} entered, {} assumed", answer.likely.driving_h,
        units.distance(answer.likely.distance_m), units.degrees(setup.event.ambient_degC),
        answer.read.count_yours, answer.read.count_assumed);
    std::string head =
        fmt::format("{}  {}  {}", setup.name, fmt::join(setup.gears.teeth, "/"), setup.event.words);
    // A long run or file name gives way.
    if (head.size() + rest.size() > screen_width && rest.size() + 4 < screen_width) {
        head.resize(screen_width - rest.size() - 3);
        head += "...";
    }
    return head + rest + "\n\n";
}

std::string verdict_line(const Answer& answer, const Units& units) {
    return wrapped(fmt::format("  {:<7}  ", verdict_word(answer)),
                   verdict_sentence(answer, units)) +
           "\n";
}

/// Temperatures on one scale of characters, from a round number below to the ceiling.
class Scale {
public:
    Scale(double lowest_degC, const LimitsInput& limits) : limits_(limits) {
        constexpr double tick_K = 20;
        first_degC_ = std::min(std::floor(lowest_degC / tick_K) * tick_K, oil_ceiling_degC - 60);
        first_degC_ = std::max(first_degC_, 0.0);
    }
    [[nodiscard]] std::string ticks(const Units& units) const {
        std::string line(width + 4, ' ');
        const double step_K = (oil_ceiling_degC - first_degC_) > 100 ? 40 : 20;
        for (double at = first_degC_; at <= oil_ceiling_degC; at += step_K)
            put(line, at, units.temp(at));
        while (line.back() == ' ') line.pop_back();
        return line;
    }
    [[nodiscard]] std::string bar(const Percentiles& p) const {
        std::string line(width + 4, ' ');
        for (std::size_t i = column(p.p10); i <= column(p.p90); ++i) line[i] = '=';
        for (const double limit : {limits_.oil_watch_degC, limits_.oil_stop_degC})
            line[column(limit)] = ':';
        line[column(p.p10)] = '<';
        line[column(p.p90)] = '>';
        line[column(p.p50)] = 'O';
        if (goes_on(p)) line[width] = '+';
        while (line.back() == ' ') line.pop_back();
        return line;
    }
    [[nodiscard]] static bool goes_on(const Percentiles& p) { return p.p90 > oil_ceiling_degC; }
    [[nodiscard]] std::string limits(const Units& units) const {
        std::string line(width + 14, ' ');
        const std::size_t stop = column(limits_.oil_stop_degC);
        const std::string watch = "^" + units.temp(limits_.oil_watch_degC);
        put(line, limits_.oil_watch_degC, watch);
        // Close limits would run into each other.
        const std::string text = "^" + units.temp(limits_.oil_stop_degC) + " stop";
        const std::size_t at = std::max(stop, column(limits_.oil_watch_degC) + watch.size() + 1);
        line.replace(at, text.size(), text);
        while (line.back() == ' ') line.pop_back();
        return line;
    }

private:
    static constexpr std::size_t width = 40;
    [[nodiscard]] std::size_t column(double temp_degC) const {
        const double share = (temp_degC - first_degC_) / (oil_ceiling_degC - first_degC_);
        return static_cast<std::size_t>(
            std::lround(std::clamp(share, 0.0, 1.0) * static_cast<double>(width)));
    }
    void put(std::string& line, double temp_degC, const std::string& text) const {
        const std::size_t at = column(temp_degC);
        if (at + text.size() <= line.size()) line.replace(at, text.size(), text);
    }

    LimitsInput limits_;
    double first_degC_ = 0;
};

std::string oil_block(const Answer& answer, const Units& units) {
    const Percentiles& fitted = answer.band.fitted.peak_oil_degC;
    const Percentiles& without = answer.band.without.peak_oil_degC;
    const Scale scale(std::min(fitted.p10, without.p10), answer.read.setup.limits);
    const auto line = [&](std::string_view name, const Percentiles& p) {
        return fmt::format("    {:<13} {:>9} {:>9} {:>9}   {}\n", name, units.temp(p.p10),
                           units.temp(p.p50), units.temp(p.p90), scale.bar(p));
    };
    std::string out = fmt::format("  1 OIL  {:<10} {:>8} {:>9} {:>9}   {}\n", units.degree(), "low",
                                  "likely", "high", scale.ticks(units));
    if (answer.likely.has_cooler) out += line("with cooler", fitted);
    out += line("no cooler", without);
    const bool goes_on = Scale::goes_on(fitted) || Scale::goes_on(without);
    const std::string key =
        fmt::format("< low  O likely  > high  {}: limits", goes_on ? "+ goes on " : "");
    return out + fmt::format("    {:<43}   {}\n\n", key, scale.limits(units));
}

/// Below the head of a block.
constexpr std::string_view under = "                  ";

std::string look_lines(const Answer& answer, const Units& units) {
    std::string out;
    for (const std::string& one : to_look_at(answer, units))
        out += wrapped(out.empty() ? "    when opened   " : std::string(under), one);
    return out;
}

std::string next_block(const Answer& answer, const Units& units) {
    if (must_not_run(answer)) {
        const std::string remedy = remedy_words(answer.remedy, units);
        return wrapped("  2 NEXT          ", "do not run this: " + stop_words(answer, units)) +
               (remedy.empty() ? "" : wrapped(std::string(under), remedy)) + "\n";
    }
    const Intervals& next = answer.likely.fitted.intervals;
    const auto line = [&units](std::string_view head, const Action& action, std::string_view what) {
        return fmt::format("  {:<15} {:<18} {:<33} {}\n", head, after(action), what,
                           units.text(action.reason));
    };
    std::string out;
    for (const PairState& pair : answer.likely.fitted.checked.pairs)
        if (set_too_tight(pair))
            out += wrapped(out.empty() ? "  2 NEXT          " : std::string(under),
                           units.text(fmt::format("before it runs     {}: its preload makes the "
                                                  "oil {:.0f} K hotter",
                                                  looser_words(pair), pair.hotter_K)));
    return out + line(out.empty() ? "2 NEXT" : "", next.change_oil, "change the oil") +
           line("", next.look, "drain, read the magnet, end play") +
           line("", next.open_case, "open the case") +
           fmt::format("{}{}\n", under, fatigue_words(next)) + look_lines(answer, units) + "\n";
}

/// The two bearings that use most of their life.
std::string most_used(const Answer& answer) {
    constexpr std::size_t most = 2;
    struct Share {
        std::string name;
        Percentiles of;
    };
    std::vector<Share> bearings;
    const auto& damage = answer.likely.fitted.damage.bearings;
    bearings.reserve(damage.size());
    for (std::size_t b = 0; b < damage.size(); ++b)
        bearings.push_back({damage[b].name, answer.band.fitted.life_share[b]});
    std::stable_sort(bearings.begin(), bearings.end(),
                     [](const Share& a, const Share& b) { return a.of.p50 > b.of.p50; });
    std::string line;
    for (std::size_t b = 0; b < std::min(bearings.size(), most); ++b)
        line +=
            fmt::format("{}{} {} .. {} .. {} %", b == 0 ? "" : "   ", bearings[b].name,
                        percent_figures(bearings[b].of.p10), percent_figures(bearings[b].of.p50),
                        percent_figures(bearings[b].of.p90));
    return line;
}

std::string spline_lines(const Answer& answer) {
    const std::string words = spline_words(answer);
    return words.empty() ? ""
                         : wrapped("    splines       ",
                                   words +
                                       " (an event; a tenth more load wears nearly twice as "
                                       "much)");
}

std::string pair_lines(const Answer& answer, const Units& units) {
    const std::string words = pair_words(answer, units);
    return words.empty() ? "" : wrapped("    pairs         ", words);
}

std::string heat_block(const Answer& answer, const Units& units) {
    std::string out;
    if (const LegAnswer* hottest = hottest_leg(answer.read.setup, answer.likely.fitted)) {
        const Steady& rest = hottest->at_rest;
        const std::string settles =
            rest.found ? "oil settles at " + units.degrees(rest.nodes.oil_degC)
                       : fmt::format("{}, {}", does_not_settle(units),
                                     units.short_by({rest.short_by_W, rest.short_by_WpK}));
        out += wrapped("  3 HEAT          ",
                       fmt::format("{}: {} of heat, {} ({})", hottest->name,
                                   units.power(heat_in_W(rest)), settles, middle_run)) +
               fmt::format("{}{}\n", under, ledger(rest.losses.ledger));
    }
    if (const Weakest weakest = weakest_part(answer, units); !weakest.words.empty())
        out += wrapped(fmt::format("    {:<13} ", weakest.head), weakest.words);
    return out + "    L10 bearing life used by this event, low .. likely .. high:\n" +
           fmt::format("{}{}\n", under, most_used(answer)) + spline_lines(answer) +
           pair_lines(answer, units) + "\n";
}

std::string range_words(const Measurement& reading, const Units& units) {
    return fmt::format("{} -> {}", units.width(reading.band_before_K),
                       units.width(reading.band_after_K));
}

std::string measure_block(const Answer& answer, const Units& units) {
    const Measurement& measure = answer.band.measure;
    const Measurement& learn = answer.band.learn;
    std::string out = wrapped(
        "  5 MEASURE       ",
        measure.needed
            ? fmt::format("{}: range {}", units.text(measure.words), range_words(measure, units))
            : measure.words);
    if (!measure.needed && learn.needed)
        out += wrapped("    to learn      ",
                       fmt::format("{}: range without cooler {}", units.text(learn.words),
                                   range_words(learn, units)));
    int shown = 0;
    if (measure.band_before_K > worth_measuring_K)
        for (const FactorShare& factor : answer.band.shares) {
            if (shown == 2 || factor.share < 0.05) break;
            out += fmt::format("    {:<13} {:<44} {:>3.0f} % of the range\n",
                               shown == 0 ? "UNSURE most" : "", factor.words, 100 * factor.share);
            ++shown;
        }
    shown = 0;
    for (const Worth& one : answer.worth) {
        if (shown == 3 || oil_effect_K(one) < least_effect_K) break;
        out += fmt::format("    {:<13} {:<44} {}\n", shown == 0 ? "ASSUMED most" : "",
                           fmt::format("{}: {}", one.entry.key, units.text(one.entry.number)),
                           oil_effect(one, units, ".."));
        ++shown;
    }
    if (const std::string seats = seats_sentence(answer, units); !seats.empty())
        out += wrapped("    SEATS assumed ", seats);
    if (shown == 0)
        out += fmt::format("    ASSUMED       nothing that moves the hottest oil by {}\n",
                           units.width(least_effect_K));
    return out;
}

}  // namespace

std::string first_screen(const Answer& answer) {
    const Units units(answer.read.setup.imperial);
    return header(answer, units) + question_lines(answer, units) + verdict_line(answer, units) +
           oil_block(answer, units) + next_block(answer, units) + heat_block(answer, units) +
           pace_block(answer.read.setup, units) +
           wrapped("  4 NOT CALCULATED  ", not_calculated(answer.read.setup)) + "\n" +
           measure_block(answer, units) +
           fmt::format("\n{}   More: --detail, complete\n", deference);
}

}  // namespace caseload
