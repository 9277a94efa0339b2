// SPDX-License-Identifier: MIT
// The event as TOML.
#include "caseload/duty/event.hpp"

#include <fmt/format.h>

namespace caseload::duty {
namespace {

/// A comment must stay one line.
std::string one_line(std::string text) {
    for (char& c : text)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
    return text;
}

std::string bins_text(const LegInput& leg) {
    std::string text = "bins = [\n";
    for (const Bin& bin : leg.bins)
        text += fmt::format(
            "  {{ share = {:.9g}, torque = \"{:.5g} N m\", speed = \"{:.6g} rpm\", road_speed = "
            "\"{:.5g} m/s\" }},\n",
            bin.share, bin.torque_Nm, bin.speed_rpm, bin.road_speed_mps);
    return text + "]\n";
}

std::string peaks_text(const LegInput& leg) {
    if (leg.peaks.empty()) return {};
    std::string text = "peaks = [\n";
    for (const Peak& peak : leg.peaks)
        text += fmt::format("  {{ torque = \"{:.4g} N m\", times = {:g} }},\n", peak.torque_Nm,
                            peak.times);
    return text + "]\n";
}

std::string leg_text(const LegInput& leg) {
    std::string text = fmt::format("\n[leg.{}]\n", leg.name);
    if (leg.kind == LegKind::stop)
        return text + fmt::format("kind = \"stop\"\nduration = \"{:.6g} s\"\nengine = \"{}\"\n",
                                  leg.duration_s, leg.engine == Engine::idle ? "idle" : "off");
    text += fmt::format("duration = \"{:.8g} s\"\n", leg.duration_s);
    if (leg.distance_m >= 1) text += fmt::format("distance = \"{:.6g} m\"\n", leg.distance_m);
    return text + bins_text(leg) + peaks_text(leg);
}

}  // namespace

std::string_view words_of(SpeedSource source) {
    switch (source) {
        case SpeedSource::case_column:
            return "logged at the case";
        case SpeedSource::engine_and_gear:
            return "engine speed over the gear's ratio";
        case SpeedSource::road_speed:
            return "from road speed, without tyre slip";
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
    }
    return "";
}

std::string event_text(const DutyAnswer& answer) {
    std::string text = fmt::format(
        "# From {} by caseload duty; a setup takes it by event.from.\n"
        "# {} samples {:.4g} s apart, {:.1f} % of the time used, {} gap{} of {:.1f} s together.\n"
        "# Torque: {}.\n"
        "# Bins against the samples one by one:\n",
        one_line(answer.file), answer.samples, answer.median_dt_s, 100 * answer.coverage,
        answer.gaps, answer.gaps == 1 ? "" : "s", answer.gap_s, words_of(answer.torque));
    for (const Agreement& one : answer.agreement)
        text += fmt::format("#   {:<46} {:+.3f} %\n", one.words, 100 * one.off_share);
    text += fmt::format(
        "# Peaks: rainflow maxima (ASTM E1049-85, three points), ranges below 5 % of the leg's "
        "left "
        "out,\n# by twentieths of the leg's largest torque down to half of it.\n"
        "caseload = 1\n\n[event]\n");
    if (answer.ambient_degC)
        text += fmt::format("ambient = \"{:.1f} degC\"\n", *answer.ambient_degC);
    text += "run = [";
    for (std::size_t i = 0; i < answer.legs.size(); ++i)
        text += fmt::format("{}\"{}\"", i == 0 ? "" : ", ", answer.legs[i].name);
    text += "]\n";
    for (const LegInput& leg : answer.legs) text += leg_text(leg);
    return text;
}

}  // namespace caseload::duty
