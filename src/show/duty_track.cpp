// SPDX-License-Identifier: MIT
#include "show/duty_track.hpp"

#include "caseload/figures.hpp"

#include "show/json_value.hpp"
#include "show/lines.hpp"

#include <fmt/format.h>

#include <vector>

namespace caseload {
namespace {

std::string left_out(const duty::DutyAnswer& answer) {
    const duty::TrackFacts& track = *answer.track;
    std::vector<std::string> parts;
    if (track.inaccurate > 0)
        parts.push_back(fmt::format("{} less accurate than 20 m", track.inaccurate));
    if (track.jumps > 0)
        parts.push_back(fmt::format("{} further on than 80 m/s goes", track.jumps));
    if (track.lacking > 0)
        parts.push_back(fmt::format("{} without a place or speed", track.lacking));
    if (answer.duplicates + answer.late > 0)
        parts.push_back(fmt::format("{} of a time already read", answer.duplicates + answer.late));
    std::string words;
    for (const std::string& part : parts) words += (words.empty() ? "" : ", ") + part;
    return words;
}

}  // namespace

std::string track_head_lines(const duty::DutyAnswer& answer) {
    const duty::TrackFacts& track = *answer.track;
    std::string out = wrapped(
        "  TRACK    ",
        track.gpx ? "GPX: a phone's track, without torque"
        : answer.speed == duty::SpeedSource::places || track.altitude
            ? "positions or road speed and no torque column: read as a phone's track, not as a log "
              "with torque"
            : "road speed and no torque column: read as a track, not as a log with torque");
    std::string words = fmt::format(
        "{} points, {:.3g} s apart ({:.3g} Hz); {:.1f} % of the time used", track.points,
        answer.median_dt_s, 1 / answer.median_dt_s, 100 * answer.coverage);
    if (answer.gaps > 0)
        words += fmt::format("; {} of {:.0f} s together, the longest {:.0f} s",
                             counted(answer.gaps, "gap"), answer.gap_s, answer.longest_gap_s);
    if (answer.excluded_s > 0)
        words += fmt::format("; {:.0f} s at its ends left out", answer.excluded_s);
    if (answer.restarts > 0)
        words += fmt::format("; time ran back {}, a new piece from there",
                             counted(answer.restarts, "time"));
    if (const std::string left = left_out(answer); !left.empty())
        words += "; points left out: " + left;
    return out + wrapped("  TIME     ", words);
}

std::string track_ground_lines(const duty::DutyAnswer& answer) {
    const duty::TrackFacts& track = *answer.track;
    std::string out =
        track.course.empty()
            ? wrapped("  GROUND   ",
                      fmt::format("resistance {:.3f} of the weight, by --resistance; tyre slip "
                                  "{:.0f} %, grip 0.55 (no course in the setup)",
                                  track.resistance, 100 * track.slip))
            : wrapped("  GROUND   ",
                      fmt::format("resistance {:.3f} of the weight, {}; tyre slip {:.0f} %",
                                  track.resistance,
                                  track.entered ? "by --resistance"
                                                : "the mean of " + track.course +
                                                      ", the setup's course, soil and roughness, "
                                                      "which may be 20 % off (1 sd)",
                                  100 * track.slip));
    out +=
        wrapped("           ", track.altitude ? fmt::format("{:.0f} m climbed", track.climbed_m)
                                              : "no altitude in the track: grades are taken as 0");
    return out;
}

std::string track_trust_lines(const duty::DutyAnswer& answer) {
    const duty::TrackFacts& track = *answer.track;
    std::string out = wrapped(
        "  TRUST    ",
        fmt::format("{:.1f} % of the driving time asks for more than {:g} times what {}; torque "
                    "beyond engine or grip is cut",
                    100 * track.over_share, duty::over_margin,
                    track.by_grip ? "the tyres hold" : "the engine gives"));
    if (track.over_share > duty::most_over_share)
        out += wrapped("           ",
                       "the track asks more than this car has: mass, power or tyre wrong, or the "
                       "phone moved");
    if (track.force_factor > 1)
        out += wrapped("           ",
                       fmt::format("speed over {:.2g} s to each side loses bursts: mean power x "
                                   "{:.2f} and the cube mean of the force x {:.2f} give them back "
                                   "(judgement, 1.0 to 1.12)",
                                   track.window_s, track.power_factor, track.force_factor));
    if (track.noise_share > 0)
        out += wrapped("           ", fmt::format("{:.1f} % of the power was noise of the speed "
                                                  "and taken off",
                                                  100 * track.noise_share));
    out += wrapped("           ",
                   fmt::format("landings and shocks are too short for a track: it has no peaks, "
                               "overload {:g} is written",
                               duty::track_overload));
    return out + wrapped("           ",
                         "bins against the samples: " +
                             joined(answer.agreement, "; ", [](const duty::Agreement& one) {
                                 return fmt::format("{} {} %", one.words,
                                                    duty::percent_of(one.off_share));
                             }));
}

std::string track_json(const duty::TrackFacts& track) {
    using json_value::number;
    return fmt::format(
        R"({{"gpx":{},"points":{},"lacking":{},"inaccurate":{},"jumps":{},"altitude":{},"climbed_m":{},"course":{},"resistance":{},"resistance_entered":{},"slip":{},"slope_window_s":{},"power_factor":{},"force_factor":{},"noise_share":{},"over_share":{},"over_limit_share":{},"steep_share":{},"overload":{}}})",
        track.gpx, track.points, track.lacking, track.inaccurate, track.jumps, track.altitude,
        number(track.climbed_m), track.course.empty() ? "null" : json_value::text(track.course),
        number(track.resistance), track.entered, number(track.slip), number(track.window_s),
        number(track.power_factor), number(track.force_factor), number(track.noise_share),
        number(track.over_share), number(duty::most_over_share), number(track.steep_share),
        number(duty::track_overload));
}

}  // namespace caseload
