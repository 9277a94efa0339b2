// SPDX-License-Identifier: MIT
// The whole way from bytes to legs.
#include "bins/measures.hpp"
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/answer.hpp"
#include "duty/derive.hpp"
#include "duty/gears.hpp"
#include "duty/rows.hpp"
#include "duty/samples.hpp"
#include "duty/tooth_damage.hpp"
#include "duty/track.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

namespace caseload::duty {
namespace {

constexpr double shortest_log_stop_s = 60;

/// Largest torque possible, by what the setup states.
std::string_view peak_from(const DutyOptions& options) {
    if (!options.car) return "--setup with vehicle.engine_torque, at the case with vehicle.gearbox";
    return options.car->vehicle.engine_torque.empty() ? "vehicle.engine_torque in the setup"
                                                      : "vehicle.gearbox in the setup";
}

}  // namespace

double DutyAnswer::unknown_time_share() const {
    double all_s = 0;
    for (const LegInput& leg : legs)
        if (leg.kind == LegKind::drive) all_s += leg.duration_s;
    return all_s > 0 ? unknown_s / all_s : 0;
}

double DutyAnswer::unknown_way_share() const {
    double all_m = 0;
    for (const LegInput& leg : legs) all_m += leg.distance_m;
    return all_m > 0 ? unknown_m / all_m : 0;
}

namespace {

SampleRules rules_of(const Layout& layout, const Sources& sources) {
    SampleRules wanted;
    wanted.median_dt_s = layout.median_dt_s;
    wanted.by_clock =
        layout.time_form == TimeForm::text || layout.time_form == TimeForm::date_clock;
    wanted.required = sources.required;
    for (const Column& column : layout.columns) wanted.logged |= 1U << index(column.channel);
    wanted.stated_peak_Nm = sources.stated_peak_Nm;
    for (std::size_t c = 0; c < layout.interval_s.size(); ++c)
        wanted.interval_s[c] = layout.interval_s[c];
    return wanted;
}

void take_layout(const Layout& layout, const Sources& sources, DutyAnswer& answer) {
    answer.dialect = layout.dialect;
    answer.columns = layout.columns;
    answer.left_over = layout.left_over;
    answer.remarks = layout.remarks;
    answer.speed = sources.speed;
    answer.torque = sources.torque;
    answer.median_dt_s = layout.median_dt_s;
    answer.slowest_step_s = layout.median_dt_s;
    for (const Column& column : layout.columns)
        if ((sources.required >> index(column.channel) & 1U) != 0)
            answer.slowest_step_s = std::max(answer.slowest_step_s, column.step_s);
}

void take_counts(const SampleCounts& counts, DutyAnswer& answer) {
    answer.samples = counts.samples;
    answer.duplicates = counts.duplicates;
    answer.late = counts.late;
    answer.restarts = counts.restarts;
    answer.gaps = counts.gaps;
    answer.filled = counts.filled;
    answer.gap_s = counts.gap_s;
    answer.longest_gap_s = counts.longest_gap_s;
    answer.excluded_s = counts.excluded_s;
    answer.logged_s = counts.logged_s;
    answer.rejected = counts.rejected;
}

void add_remarks(const RowCounts& rows, const Sources& sources, const DutyOptions& options,
                 double slip_s, std::vector<std::string>& remarks) {
    if (rows.cut_last)
        remarks.push_back(
            fmt::format("line {}, the last, has no line end and was left out", rows.cut_line));
    if (sources.stated_peak_Nm <= 0 && (sources.torque == TorqueSource::case_column ||
                                        sources.torque == TorqueSource::engine_column))
        remarks.push_back(
            fmt::format("no peak torque is stated ({}): torque was not checked for plausibility",
                        peak_from(options)));
    if (!options.setup)
        remarks.emplace_back(
            "teeth near their endurance limit may differ by more than these powers of torque: "
            "--setup SETUP keeps the damage of its own");
    if (sources.gears_from_log && sources.speed == SpeedSource::engine_and_gear)
        remarks.emplace_back(
            "no gear ratios are stated: they are the clusters of engine speed over road speed, "
            "with the tyres' mean slip in them; vehicle.gearbox says them");
    if (slip_s > 0)
        remarks.push_back(
            fmt::format("{:.1f} s the clutch or converter slips: the gear's speed lies beyond the "
                        "road's, which was taken",
                        slip_s));
}

/// Throws where too little of the log can be used, or it never drives.
void require_enough(const DutyAnswer& answer, double moving_s, bool force) {
    const bool drives = moving_s >= 1 &&
                        std::any_of(answer.legs.begin(), answer.legs.end(),
                                    [](const LegInput& leg) { return leg.kind == LegKind::drive; });
    if (!(answer.coverage >= least_coverage) && !(force && drives))
        throw Error(
            Error::Kind::input,
            {Problem{
                {answer.file, 0, 0, 0, {}},
                fmt::format("only {:.1f} % of the time can be used, {:.0f} % is wanted: {:.1f} s "
                            "in gaps, {:.1f} s without a value, {:.1f} s in no known gear, of "
                            "{:.1f} s",
                            100 * answer.coverage, 100 * least_coverage, answer.gap_s,
                            answer.excluded_s, answer.no_gear_s, answer.logged_s + answer.gap_s),
                "--force takes it all the same"}});
    check_lengths(answer.legs, answer.file);
    if (!drives)
        throw Error(Error::Kind::input,
                    {Problem{{answer.file, 0, 0, 0, {}},
                             "the log never drives for a second",
                             "check road speed, its unit and the columns taken"}});
}

}  // namespace

/// XML, which no log of lines is.
bool is_xml(std::string_view head) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    if (head.substr(0, mark.size()) == mark) head.remove_prefix(mark.size());
    const std::size_t first = head.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos || head[first] != '<') return false;
    head.remove_prefix(first);
    return head.substr(0, 5) == "<?xml" || head.substr(0, 4) == "<gpx";
}

DutyAnswer read_gpx_track(Bytes& bytes, std::string text, const std::string& file,
                          const DutyOptions& options) {
    std::vector<char> block(block_bytes);
    for (std::size_t more = 1; more > 0 && text.size() <= most_gpx_bytes;) {
        more = bytes.read(block.data(), block.size());
        text.append(block.data(), more);
    }
    if (text.size() > most_gpx_bytes)
        throw Error(Error::Kind::input,
                    {Problem{{file, 0, 0, 0, {}},
                             fmt::format("a GPX file is read up to {} MiB, a day at 1 Hz",
                                         most_gpx_bytes >> 20U),
                             "cut the track"}});
    DutyAnswer answer;
    answer.file = file;
    const std::vector<TrackPoint> points = read_gpx(text, file);
    answer_track(points, options, answer);
    answer.track->gpx = true;
    return answer;
}

/// Lines of a track, after the layout.
DutyAnswer read_track_lines(const Layout& layout, TextStream& stream, const std::string& file,
                            const DutyOptions& options) {
    std::vector<TrackPoint> points;
    RowReader reader(layout, file, options.progress);
    const RowCounts rows = reader.run(stream, [&](Instants& instants, std::size_t count) {
        if (points.size() + count > most_track_points)
            throw Error(
                Error::Kind::input,
                {Problem{{file, 0, 0, 0, {}},
                         fmt::format("the track has more than {} points", most_track_points),
                         "cut it, or record a point a second"}});
        for (std::size_t i = 0; i < count; ++i) {
            const InstantOf now{instants, i};
            const auto value = [&](Channel channel) {
                return now.has(channel) ? std::optional(now[channel]) : std::nullopt;
            };
            points.push_back({instants.t_s()[i], value(Channel::latitude),
                              value(Channel::longitude), value(Channel::altitude),
                              value(Channel::road_speed), value(Channel::accuracy)});
        }
    });
    DutyAnswer answer;
    answer.file = file;
    answer.lines = rows.lines;
    take_layout(layout, {}, answer);
    if (rows.cut_last)
        answer.remarks.push_back(
            fmt::format("line {}, the last, has no line end and was left out", rows.cut_line));
    answer_track(points, options, answer);
    return answer;
}

// Long: the order in which a log is understood, each step using what those before found.
DutyAnswer read_duty(Bytes& bytes, const std::string& file, const DutyOptions& options) {
    Windows windows = windows_of(bytes);
    if (is_xml(windows.head)) return read_gpx_track(bytes, std::move(windows.head), file, options);
    Dialect dialect;
    DutyAnswer answer;
    std::optional<Layout> laid_out;
    std::vector<double> clustered;
    {
        const Sampled sampled = sample_lines(windows, dialect, file);
        vote(sampled, options.read, file, dialect);
        ReadOptions wanted = options.read;
        wanted.speed_is_track = options.ground && options.car && !options.resistance;
        laid_out = lay_out(sampled, dialect, wanted, file);
        if (options.car && options.car->vehicle.gearbox.empty())
            clustered = clustered_gears(sampled, *laid_out, lever_of(*options.car));
    }
    const Layout& layout = *laid_out;
    windows.later.clear();
    if (layout.track) {
        TextStream stream(bytes, std::move(windows.head), layout.dialect);
        return read_track_lines(layout, stream, file, options);
    }
    const Sources sources = choose_sources(layout, options, clustered, file);

    const bins::Measures measures(options.setup ? std::make_shared<ToothDamage>(*options.setup)
                                                : nullptr);
    Legs legs(options.shortest_stop_s.value_or(shortest_log_stop_s), measures, file);
    Derive derive(sources, options, legs);
    Samples<Derive> samples(rules_of(layout, sources), derive);
    RowReader reader(layout, file, options.progress);
    TextStream stream(bytes, std::move(windows.head), layout.dialect);
    // In long form the records of one time are one instant.
    Instant record;
    bool begun = false;
    const auto join = [&](const Instant& instant) {
        if (begun && instant.t_s != record.t_s) {
            samples.add(record);
            record.present = 0;
        }
        begun = true;
        record.t_s = instant.t_s;
        for (std::size_t c = 0; c < channel_count; ++c)
            if (instant.has(static_cast<Channel>(c)))
                record.set(static_cast<Channel>(c), instant.value[c]);
    };
    const auto take = [&](Instants& instants, std::size_t count) {
        if (!layout.dialect.long_form) return samples.add(instants, count);
        for (std::size_t i = 0; i < count; ++i) join(instants.at(i));
    };
    const RowCounts rows = options.side_by_side ? reader.run(stream, take, options.side_by_side)
                                                : reader.run(stream, take);
    if (begun) samples.add(record);
    samples.finish();
    derive.finish();
    legs.finish();

    answer.file = file;
    answer.lines = rows.lines;
    take_layout(layout, sources, answer);
    take_counts(samples.counts(), answer);
    add_remarks(rows, sources, options, derive.slip_s(), answer.remarks);
    answer.no_gear_s = derive.no_gear_s();
    const double all_s = answer.logged_s + answer.gap_s;
    answer.coverage =
        all_s > 0 ? (answer.logged_s - answer.excluded_s - answer.no_gear_s) / all_s : 0;
    answer.gears = derive.gears();
    answer.rest_s = derive.rest_s();
    answer.ambient_degC = derive.ambient_degC();
    answer.oil_degC = derive.oil_degC();
    take_legs(legs, measures, answer);
    require_enough(answer, legs.moving_s(), options.force);
    return answer;
}

}  // namespace caseload::duty
