// SPDX-License-Identifier: MIT
// The whole way from bytes to legs.
#include "bins/measures.hpp"
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "duty/derive.hpp"
#include "duty/gears.hpp"
#include "duty/rows.hpp"
#include "duty/samples.hpp"
#include "duty/tooth_damage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

namespace caseload::duty {
namespace {

void name_legs(std::vector<LegInput>& legs) {
    int drives = 0;
    int stops = 0;
    for (LegInput& leg : legs)
        leg.name = leg.kind == LegKind::stop ? fmt::format("stop-{}", ++stops)
                                             : fmt::format("drive-{}", ++drives);
}

/// What a setup takes of a leg (docs/input.md).
void check_lengths(const std::vector<LegInput>& legs, const std::string& file) {
    constexpr double longest_s = 360000;
    constexpr double longest_m = 5e6;
    for (const LegInput& leg : legs)
        if (!(leg.duration_s <= longest_s && leg.distance_m <= longest_m))
            throw Error(Error::Kind::input,
                        {Problem{{file, 0, 0, 0, {}},
                                 fmt::format("{} lasts {:.4g} h over {:.4g} km; a leg is at most "
                                             "{:g} h and {:g} km",
                                             leg.name, leg.duration_s / 3600, leg.distance_m / 1000,
                                             longest_s / 3600, longest_m / 1000),
                                 "check the unit of time, --unit time=ms, or cut the log"}});
}

double off_share(double binned, double sampled) {
    return sampled > 0 ? binned / sampled - 1 : 0;
}

/// The tooth that the bins change most, of the fitted gears' worse sides.
Agreement of_teeth(const Legs& legs, const bins::Measures& measures, bool root) {
    Agreement most;
    const bins::TurnDamage& teeth = *measures.teeth();
    for (std::size_t k = 0; k < teeth.parts().size(); ++k) {
        const bins::TurnDamage::Part& part = teeth.parts()[k];
        const std::size_t at = measures.first_tooth() + k;
        const double sampled = legs.by_cells()[at];
        if (part.root != root || !part.fitted || sampled <= 0) continue;
        if (sampled < legs.by_cells()[measures.kept()[at].scale]) continue;
        const double off = off_share(legs.by_bins()[at], sampled);
        if (!most.words.empty() && std::fabs(off) < std::fabs(most.off_share)) continue;
        most = {fmt::format("damage of {}, {}", root ? "roots" : "flanks", part.gear), off};
    }
    return most;
}

std::vector<Agreement> agreement_of(const Legs& legs, const std::vector<LegInput>& bins_of_legs,
                                    const bins::Measures& measures) {
    const PowerSums& samples = legs.samples();
    PowerSums bins;
    for (std::size_t i = 0; i < bins_of_legs.size(); ++i)
        for (const Bin& bin : bins_of_legs[i].bins)
            bins.add(bin.torque_Nm, bin.share * legs.known_s()[i] * bin.speed_rpm / 60);
    std::vector<Agreement> all{
        {"revolutions", off_share(bins.turns, samples.turns)},
        {"revolutions x torque, as friction heat", off_share(bins.p1, samples.p1)},
        {"revolutions x torque^3, as ball bearings", off_share(bins.p3, samples.p3)},
        {"revolutions x torque^7, as tooth flanks (6.6)", off_share(bins.p7, samples.p7)},
        {"revolutions x torque^9, as tooth roots (8.7)", off_share(bins.p9, samples.p9)}};
    if (measures.teeth() != nullptr)
        for (const bool root : {false, true})
            if (Agreement one = of_teeth(legs, measures, root); !one.words.empty())
                all.push_back(std::move(one));
    return all;
}

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

void take_legs(Legs& legs, const bins::Measures& measures, DutyAnswer& answer) {
    answer.legs = std::move(legs.legs());
    answer.unknown_s = legs.unknown_s();
    answer.unknown_m = legs.unknown_m();
    name_legs(answer.legs);
    for (auto& [at, series] : legs.oil()) {
        series.leg = answer.legs[at].name;
        answer.oil.push_back(std::move(series));
    }
    answer.gate_Nm = legs.gate_Nm();
    answer.largest_Nm = legs.largest_Nm();
    answer.largest_ranges_Nm = legs.largest_ranges_Nm();
    answer.agreement = agreement_of(legs, answer.legs, measures);
    if (legs.drive_s() > 0) {
        answer.coast_share = legs.coast_s() / legs.drive_s();
        answer.mean_drive_power_W = 2 * pi * legs.drive_power_J() / legs.drive_s();
    }
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

// Long: the order in which a log is understood, each step using what those before found.
DutyAnswer read_duty(Bytes& bytes, const std::string& file, const DutyOptions& options) {
    Windows windows = windows_of(bytes);
    Dialect dialect;
    DutyAnswer answer;
    std::optional<Layout> laid_out;
    std::vector<double> clustered;
    {
        const Sampled sampled = sample_lines(windows, dialect, file);
        vote(sampled, options.read, file, dialect);
        laid_out = lay_out(sampled, dialect, options.read, file);
        if (options.car && options.car->vehicle.gearbox.empty())
            clustered = clustered_gears(sampled, *laid_out, lever_of(*options.car));
    }
    const Layout& layout = *laid_out;
    windows.later.clear();
    const Sources sources = choose_sources(layout, options, clustered, file);

    const bins::Measures measures(options.setup ? std::make_shared<ToothDamage>(*options.setup)
                                                : nullptr);
    Legs legs(options.shortest_stop_s, measures, file);
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
