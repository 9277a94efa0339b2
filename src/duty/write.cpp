// SPDX-License-Identifier: MIT
// The event as TOML, and logged oil as readings of a setup.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "caseload/kinds.hpp"
#include "input/fields.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace caseload::duty {
namespace {

/// A comment must stay one line.
std::string one_line(std::string text) {
    for (char& c : text)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
    return text;
}

std::string bins_text(const LegInput& leg) {
    std::vector<std::string> rows;
    for (const Bin& bin : leg.bins)
        rows.push_back(fmt::format(
            "{{ share = {:.9g}, torque = \"{:.5g} N m\", speed = \"{:.6g} rpm\", road_speed = "
            "\"{:.5g} m/s\" }}",
            bin.share, bin.torque_Nm, bin.speed_rpm, bin.road_speed_mps));
    return input::entry_lines("bins", rows);
}

std::string peaks_text(const LegInput& leg) {
    if (leg.peaks.empty()) return {};
    std::vector<std::string> rows;
    for (const Peak& peak : leg.peaks)
        rows.push_back(
            fmt::format("{{ torque = \"{:.4g} N m\", times = {:g} }}", peak.torque_Nm, peak.times));
    return input::entry_lines("peaks", rows);
}

/// Torque that was calculated from the car's motion is known like that of entered bins.
LoadSource load_source(TorqueSource torque) {
    if (torque == TorqueSource::track) return LoadSource::track;
    return torque == TorqueSource::road_load ? LoadSource::entered : LoadSource::logged;
}

std::string leg_text(const LegInput& leg, LoadSource source) {
    std::string text = fmt::format("\n[leg.{}]\n", leg.name);
    if (leg.kind == LegKind::stop)
        return text + fmt::format("kind = \"stop\"\nduration = \"{:.6g} s\"\nengine = \"{}\"\n",
                                  leg.duration_s, words_for(leg.engine).key);
    text += fmt::format("duration = \"{:.8g} s\"\n", leg.duration_s);
    if (leg.distance_m >= 1) text += fmt::format("distance = \"{:.6g} m\"\n", leg.distance_m);
    text += fmt::format("load_source = \"{}\"\n", words_for(source).key);
    if (source == LoadSource::track) text += fmt::format("overload = {:g}\n", track_overload);
    return text + bins_text(leg) + peaks_text(leg);
}

std::string unknown_comment(const DutyAnswer& answer) {
    if (answer.unknown_s <= 0) return {};
    return fmt::format(
        "# {:.1f} % of the driving time and {:.1f} % of the way could not be read: they are in "
        "the\n"
        "# lengths of the legs, as if driven like the rest of each leg.\n",
        100 * answer.unknown_time_share(), 100 * answer.unknown_way_share());
}

// Half of the last digit an oil temperature is written with.
constexpr double half_digit_K = 0.05;

/// Rows that can be: a case that runs is warmer than the air or than it was.
std::vector<OilRow> possible(const OilSeries& series, double ambient_degC) {
    const input::Range& temp = input::field_of("reading.*.series[].temp").range;
    const input::Range& after = input::field_of("reading.*.series[].after").range;
    std::vector<OilRow> rows;
    const double least_degC = std::min(ambient_degC, series.rows.front().temp_degC);
    for (const OilRow& row : series.rows)
        if (row.temp_degC >= temp.low && row.temp_degC <= temp.high && row.after_s <= after.high &&
            (row.after_s == 0 || row.temp_degC > least_degC + half_digit_K))
            rows.push_back(row);
    return rows;
}

}  // namespace

std::string percent_of(double off_share) {
    const std::string text = fmt::format("{:+.3f}", 100 * off_share);
    return text == "-0.000" ? "+0.000" : text;
}

std::string_view words_of(SpeedSource source) {
    switch (source) {
        case SpeedSource::case_column:
            return "logged at the case";
        case SpeedSource::engine_and_gear:
            return "engine speed over the gear's ratio";
        case SpeedSource::road_speed:
            return "from road speed, without tyre slip";
        case SpeedSource::track:
            return "from the track's own speed, with tyre slip";
        case SpeedSource::places:
            return "from the track's positions, with tyre slip";
    }
    return "";
}

std::string_view words_of(TorqueSource source) {
    switch (source) {
        case TorqueSource::case_column:
            return "logged at the case";
        case TorqueSource::engine_column:
            return "logged at the engine, by the gear";
        case TorqueSource::engine_table:
            return "from throttle and the setup's full-load curve, by the gear; a part throttle "
                   "gives its part of full load (judgement)";
        case TorqueSource::road_load:
            return "from motion and road load of the setup's vehicle on level ground; hills are "
                   "not in it";
        case TorqueSource::track:
            return "from motion, hills and resistance of the setup's vehicle, no more than engine "
                   "and grip give";
    }
    return "";
}

std::string event_text(const DutyAnswer& answer) {
    std::string text = fmt::format(
        "# From {} by caseload duty; a setup takes it by event.from.\n"
        "# {} samples {:.4g} s apart, {:.1f} % of the time used, {} gap{} of {:.1f} s together.\n"
        "{}"
        "# Torque: {}.\n"
        "# Bins against the samples one by one:\n",
        one_line(answer.file), answer.samples, answer.median_dt_s, 100 * answer.coverage,
        answer.gaps, answer.gaps == 1 ? "" : "s", answer.gap_s, unknown_comment(answer),
        words_of(answer.torque));
    for (const Agreement& one : answer.agreement)
        text += fmt::format("#   {:<46} {} %\n", one.words, percent_of(one.off_share));
    if (answer.track)
        text += fmt::format(
            "# Resistance of the ground: {:.4f} of the weight{}{}.\n"
            "# Peaks: none; landings and shocks are too short for a track.\n",
            answer.track->resistance, answer.track->course.empty() ? "" : ", ",
            answer.track->course);
    else
        text +=
            "# Peaks: rainflow maxima (ASTM E1049-85, three points), ranges below 5 % of the "
            "leg's left out,\n# by twentieths of the leg's largest torque down to half of it.\n";
    text += "caseload = 1\n\n[event]\n";
    if (answer.ambient_degC)
        text += fmt::format("ambient = \"{:.1f} degC\"\n", *answer.ambient_degC);
    std::vector<std::string> names;
    for (const LegInput& leg : answer.legs) names.push_back(input::quoted(leg.name));
    text += input::entry_lines("run", names);
    for (const LegInput& leg : answer.legs) text += leg_text(leg, load_source(answer.torque));
    input::require_readable(text, fmt::format("the event of {}", one_line(answer.file)),
                            "a longer --shortest-stop makes fewer legs; or cut the log");
    return text;
}

std::string readings_text(const DutyAnswer& answer, const ReadingsOf& of) {
    std::string text = fmt::format(
        "# Oil as logged in {}, for caseload calibrate. The whole case is taken to be as warm as "
        "its\n"
        "# oil when a leg begins, and the leg driven at its mean all along. Was the cooler out of "
        "the\n"
        "# circuit? Then write cooler = \"off\" into each reading.\n"
        "caseload = 1\nbase = {}\n\n[event]\nfrom = {}\n",
        one_line(answer.file), input::quoted(of.base), input::quoted(of.event));
    bool any = false;
    for (const OilSeries& series : answer.oil) {
        const auto ambient = series.ambient_degC ? series.ambient_degC : of.ambient_degC;
        if (!ambient)
            throw Error(Error::Kind::input,
                        {Problem{{answer.file, 0, 0, 0, {}},
                                 "the log has oil, but nothing says how warm the air was",
                                 "write event.ambient into the setup"}});
        const std::vector<OilRow> rows = possible(series, *ambient);
        if (rows.size() < 2) continue;
        any = true;
        text += fmt::format(
            "\n[reading.{}]\nplace = \"oil-bath\"\nleg = \"{}\"\nambient = \"{:.1f} "
            "degC\"\n",
            series.leg, series.leg, *ambient);
        std::vector<std::string> members;
        for (const OilRow& row : rows)
            members.push_back(fmt::format("{{ after = \"{:.4g} s\", temp = \"{:.1f} degC\" }}",
                                          row.after_s, row.temp_degC));
        text += input::entry_lines("series", members);
    }
    input::require_readable(text, fmt::format("the readings of {}", one_line(answer.file)),
                            "a longer --shortest-stop makes fewer legs; or cut the log");
    if (!any)
        throw Error(Error::Kind::input,
                    {Problem{{answer.file, 0, 0, 0, {}},
                             "no leg of 5 min has an oil temperature over 80 % of its time",
                             "leave --readings out; or say the oil's column: --map "
                             "oil_temperature=COLUMN"}});
    return text;
}

}  // namespace caseload::duty
