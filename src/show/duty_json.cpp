// SPDX-License-Identifier: MIT
// What was read of a log for other programs.
#include "caseload/show/duty.hpp"

#include "show/duty_track.hpp"
#include "show/json_value.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

using namespace duty;
using json_value::list;
using json_value::number;
using json_value::text;

std::string leg_json(const LegInput& leg) {
    const bool stop = leg.kind == LegKind::stop;
    std::string out = fmt::format(R"({{"name":{},"kind":"{}","duration_s":{})", text(leg.name),
                                  stop ? "stop" : "drive", number(leg.duration_s));
    if (stop)
        return out +
               fmt::format(R"(,"engine":"{}"}})", leg.engine == Engine::idle ? "idle" : "off");
    return out +
           fmt::format(
               R"(,"distance_m":{},"bins":{},"peaks":{}}})", number(leg.distance_m),
               list(leg.bins,
                    [](const Bin& bin) {
                        return fmt::format(
                            R"({{"share":{},"torque_Nm":{},"speed_rpm":{},"road_speed_mps":{}}})",
                            number(bin.share), number(bin.torque_Nm), number(bin.speed_rpm),
                            number(bin.road_speed_mps));
                    }),
               list(leg.peaks, [](const Peak& peak) {
                   return fmt::format(R"({{"torque_Nm":{},"times":{}}})", number(peak.torque_Nm),
                                      number(peak.times));
               }));
}

std::string column_json(const Column& column) {
    return fmt::format(
        R"({{"channel":{},"heading":{},"unit":{},"step_s":{},"unit_taken":{},"by_map":{}}})",
        text(name_of(column.channel)), text(column.heading), text(column.unit),
        column.step_s > 0 ? number(column.step_s) : "null", column.unit_taken, column.by_map);
}

std::string layout_json(const Dialect& dialect) {
    return fmt::format(
        R"({{"encoding":"{}","delimiter":{},"decimal":{},"grouping":{},"fields":{},"names_in_line":{},"units_in_line":{},"data_from_line":{},"one_record_a_line":{}}})",
        name_of(dialect.encoding), text(std::string(1, dialect.delimiter)),
        text(std::string(1, dialect.decimal)),
        dialect.grouping == '\0' ? "null" : text(std::string(1, dialect.grouping)), dialect.fields,
        dialect.header_line, dialect.units_line, dialect.first_line, dialect.long_form);
}

std::string rejected_json(const DutyAnswer& answer) {
    std::string out;
    for (std::size_t c = 0; c < channel_count; ++c)
        if (answer.rejected[c] > 0)
            out += fmt::format("{}{}:{}", out.empty() ? "" : ",",
                               text(name_of(static_cast<Channel>(c))), answer.rejected[c]);
    return "{" + out + "}";
}

}  // namespace

std::string duty_json(const DutyAnswer& answer, const std::string& event) {
    std::string out = fmt::format(
        R"({{"schema":1,"command":"duty",{},"log":{},"event":{},"layout":{},"columns":{},"columns_not_used":{},"speed":{},"torque":{})",
        json_value::caution(), text(answer.file), text(event), layout_json(answer.dialect),
        list(answer.columns, column_json), list(answer.left_over, text),
        text(words_of(answer.speed)), text(words_of(answer.torque)));
    out += fmt::format(
        R"(,"lines":{},"samples":{},"median_dt_s":{},"coverage":{},"gaps":{},"gap_s":{},"longest_gap_s":{},"restarts":{},"left_out":{},"filled":{},"without_value_s":{},"no_gear_s":{},"unknown":{{"time_s":{},"way_m":{},"time_share":{},"way_share":{},"limit_share":{},"rest_s":{}}},"implausible":{})",
        answer.lines, answer.samples, number(answer.median_dt_s), number(answer.coverage),
        answer.gaps, number(answer.gap_s), number(answer.longest_gap_s), answer.restarts,
        answer.duplicates + answer.late, answer.filled, number(answer.excluded_s),
        number(answer.no_gear_s), number(answer.unknown_s), number(answer.unknown_m),
        number(answer.unknown_time_share()), number(answer.unknown_way_share()),
        number(most_unknown_share), number(answer.rest_s), rejected_json(answer));
    out += fmt::format(
        R"(,"gears":{},"coast_share":{},"mean_drive_power_W":{},"largest_torque_Nm":{},"largest_ranges_Nm":{},"gate_Nm":{},"ambient_degC":{},"oil_degC":{},"bins_against_samples":{},"remarks":{},"legs":{}{}}})"
        "\n",
        list(answer.gears,
             [](const GearSeen& gear) {
                 return fmt::format(R"({{"ratio":{},"time_s":{}}})", number(gear.ratio),
                                    number(gear.time_s));
             }),
        number(answer.coast_share), number(answer.mean_drive_power_W), number(answer.largest_Nm),
        list(answer.largest_ranges_Nm, number), number(answer.gate_Nm),
        json_value::number_or_null(answer.ambient_degC), list(answer.oil_degC, number),
        list(answer.agreement,
             [](const Agreement& one) {
                 return fmt::format(R"({{"what":{},"off_share":{}}})", text(one.words),
                                    number(one.off_share));
             }),
        list(answer.remarks, text), list(answer.legs, leg_json),
        answer.track ? ",\"track\":" + track_json(*answer.track) : std::string());
    return out;
}

}  // namespace caseload
