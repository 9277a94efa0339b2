// SPDX-License-Identifier: MIT
#include "caseload/show/duty.hpp"

#include "caseload/figures.hpp"

#include "show/duty_track.hpp"
#include "show/lines.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace caseload {
namespace {

using namespace duty;

std::string_view words_of(char delimiter) {
    switch (delimiter) {
        case '\t':
            return "TAB";
        case ';':
            return "semicolon";
        case '|':
            return "bar";
        default:
            return "comma";
    }
}

std::string layout_lines(const DutyAnswer& answer) {
    if (answer.track && answer.track->gpx) return {};
    const Dialect& dialect = answer.dialect;
    std::string grouping;
    if (dialect.grouping != '\0')
        grouping =
            dialect.grouping == ',' ? ", comma between thousands" : ", point between thousands";
    std::string out = wrapped(
        "  LAYOUT   ",
        fmt::format("{}, {} between fields, decimal {}{}, {} fields{}; names in line {}{}, data "
                    "from line {}",
                    name_of(dialect.encoding), words_of(dialect.delimiter),
                    dialect.decimal == ',' ? "comma" : "point", grouping, dialect.fields,
                    dialect.long_form ? ", one record a line" : "", dialect.header_line,
                    dialect.units_line > 0 ? fmt::format(", units in {}", dialect.units_line)
                                           : std::string(),
                    dialect.first_line));
    std::string head = "  COLUMNS  ";
    for (const Column& column : answer.columns) {
        out += wrapped(
            head,
            fmt::format("{:<16} \"{}\"{}{}{}{}", name_of(column.channel), column.heading,
                        column.unit.empty() ? "" : " in " + column.unit,
                        column.step_s > 0 ? fmt::format(", a reading each {:.3g} s", column.step_s)
                                          : std::string(),
                        column.unit_taken ? " (the log gives no unit)" : "",
                        column.by_map ? ", by --map" : ""));
        head = "           ";
    }
    if (answer.left_over.empty()) return out;
    constexpr std::size_t most = 40;  // a screen of names hides the rest
    std::string left;
    for (std::size_t i = 0; i < std::min(most, answer.left_over.size()); ++i)
        left += fmt::format("{}\"{}\"", left.empty() ? "" : ", ", answer.left_over[i]);
    if (answer.left_over.size() > most)
        left += fmt::format(" and {} more (--json lists all)", answer.left_over.size() - most);
    return out + wrapped("  NOT USED ", left);
}

std::string time_lines(const DutyAnswer& answer) {
    std::string words =
        fmt::format("{} lines, {} samples {:.4g} s apart; {:.1f} % of the time used", answer.lines,
                    answer.samples, answer.median_dt_s, 100 * answer.coverage);
    if (answer.gaps > 0)
        words += fmt::format(
            "; {} of {:.1f} s together, the longest {:.1f} s; no value is carried across",
            counted(answer.gaps, "gap"), answer.gap_s, answer.longest_gap_s);
    if (answer.restarts > 0)
        words += fmt::format("; time ran back in {}, a new segment from there",
                             counted(answer.restarts, "line"));
    if (answer.duplicates + answer.late > 0)
        words += fmt::format("; {} lines of a time already read left out",
                             answer.duplicates + answer.late);
    if (answer.filled > 0)
        words += fmt::format("; {} missing cells filled between neighbours", answer.filled);
    if (answer.excluded_s > 0)
        words += fmt::format("; {:.1f} s without a value left out", answer.excluded_s);
    if (answer.no_gear_s > 0) words += fmt::format("; {:.1f} s in no known gear", answer.no_gear_s);
    std::string out = wrapped("  TIME     ", words);
    for (std::size_t c = 0; c < channel_count; ++c)
        if (answer.rejected[c] > 0)
            out +=
                wrapped("           ", fmt::format("{} of {} taken as missing",
                                                   counted(answer.rejected[c], "implausible value"),
                                                   name_of(static_cast<Channel>(c))));
    return out;
}

std::string unknown_lines(const DutyAnswer& answer) {
    std::string out;
    if (answer.unknown_s > 0) {
        const double time = answer.unknown_time_share();
        const double way = answer.unknown_way_share();
        out = wrapped(
            "  UNKNOWN  ",
            fmt::format(
                "{:.1f} % of the driving time, {:.1f} s, and {:.1f} % of the way, {:.2f} km, could "
                "not be read; both are in the event as if driven like the rest of their leg",
                100 * time, answer.unknown_s, 100 * way, answer.unknown_m / 1000));
        if (std::max(time, way) > most_unknown_share)
            out += wrapped(
                "           ",
                fmt::format("more than {:.0f} %: lives and temperatures of this event rest on "
                            "driving that was not logged; harder driving there would not be seen",
                            100 * most_unknown_share));
    }
    if (answer.rest_s > 0)
        out += wrapped(out.empty() ? "  UNKNOWN  " : "           ",
                       fmt::format("{:.1f} s without readings, the car standing still before and "
                                   "after: taken as a rest",
                                   answer.rest_s));
    return out;
}

std::string trust_lines(const DutyAnswer& answer) {
    std::string out = wrapped(
        "  TRUST    ",
        "bins against the samples: " + joined(answer.agreement, "; ", [](const Agreement& one) {
            return fmt::format("{} {} %", one.words, percent_of(one.off_share));
        }));
    // Common practice, no published source: below ten samples a second shock is not seen.
    constexpr double slow_s = 0.1;
    out += wrapped("           ",
                   fmt::format("torque changes within {:.0f} ms are invisible in this log; a "
                               "driveline swings in 50 to 200 ms{}",
                               2000 * answer.slowest_step_s,
                               answer.slowest_step_s > slow_s
                                   ? ": its peaks are too low, keep the standard overload"
                                   : ""));
    for (const std::string& remark : answer.remarks) out += wrapped("           ", remark);
    return out;
}

}  // namespace

std::string duty_screen(const DutyAnswer& answer) {
    std::size_t drives = 0;
    double drive_s = 0;
    double way_m = 0;
    std::size_t bins = 0;
    for (const LegInput& leg : answer.legs)
        if (leg.kind == LegKind::drive) {
            ++drives;
            drive_s += leg.duration_s;
            way_m += leg.distance_m;
            bins += leg.bins.size();
        }
    const std::size_t stops = answer.legs.size() - drives;
    std::string out = answer.file + "\n\n" + layout_lines(answer) +
                      (answer.track ? track_head_lines(answer) : time_lines(answer)) +
                      unknown_lines(answer);
    out += wrapped("  CASE     ", fmt::format("speed: {}; torque: {}", words_of(answer.speed),
                                              words_of(answer.torque)));
    if (answer.track) out += track_ground_lines(answer);
    for (std::size_t i = 0; i < answer.gears.size(); ++i)
        if (answer.gears[i].time_s > 0)
            out += wrapped("           ",
                           fmt::format("gear {}, ratio {:g}: {:.1f} min", i + 1,
                                       answer.gears[i].ratio, answer.gears[i].time_s / 60));
    out += wrapped("  EVENT    ",
                   fmt::format("{} of {:.2f} h and {:.1f} km together in {}, {}; mean drive power "
                               "{:.1f} kW, coast {:.1f} % of the time",
                               counted(drives, "drive"), drive_s / 3600, way_m / 1000,
                               counted(bins, "bin"), counted(stops, "stop"),
                               answer.mean_drive_power_W / 1000, 100 * answer.coast_share));
    if (answer.track) {
        out += track_trust_lines(answer);
        for (const std::string& remark : answer.remarks) out += wrapped("           ", remark);
        return fmt::format("{}\n{}\n", out, deference);
    }
    const std::string ranges = fmt::format("{:.0f}", fmt::join(answer.largest_ranges_Nm, " "));

    out += wrapped(
        "  PEAKS    ",
        fmt::format(
            "highest {:.0f} N m; {}; ranges below {:.0f} N m are not counted", answer.largest_Nm,
            ranges.empty() ? "no rainflow cycle" : "largest rainflow ranges " + ranges + " N m",
            answer.gate_Nm));
    if (!answer.oil_degC.empty())
        out +=
            wrapped("  OIL      ",
                    fmt::format("logged: {:.0f} / {:.0f} / {:.0f} degC (below it 10, 50, 90 % of "
                                "the time); --readings FILE --setup SETUP writes it for calibrate",
                                answer.oil_degC[0], answer.oil_degC[1], answer.oil_degC[2]));
    return fmt::format("{}{}\n{}\n", out, trust_lines(answer), deference);
}

}  // namespace caseload
