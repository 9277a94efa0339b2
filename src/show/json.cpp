// SPDX-License-Identifier: MIT
#include "caseload/show/json.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

std::string text(const std::string& value) {
    std::string out = "\"";
    for (const char c : value) {
        if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (static_cast<unsigned char>(c) < 0x20 || c == '<')
            out += fmt::format("\\u{:04x}", static_cast<unsigned>(static_cast<unsigned char>(c)));
        else
            out += c;
    }
    return out + "\"";
}

std::string number(double value) {
    return std::isfinite(value) ? fmt::format("{}", value) : "null";
}

/// No temperature above the ceiling is told: null there, and oil_above_160_degC says why.
std::string temperature(double temp_degC) {
    return temp_degC > oil_ceiling_degC ? "null" : number(temp_degC);
}

std::string side_json(const Setup& setup, const Side& side) {
    std::string legs;
    for (std::size_t i = 0; i < side.legs.size(); ++i) {
        if (setup.event.legs[i].kind != LegKind::drive) continue;
        const Steady& s = side.legs[i];
        const LossLedger& l = s.losses.ledger;
        legs += fmt::format(
            R"({}{{"name":{},"balance":{},"oil_temp_degC":{},"housing_temp_degC":{},"steel_temp_degC":{},"short_by_W":{},"losses":{{"mesh_W":{},"bearings_W":{},"windage_W":{},"churning_W":{},"thrown_W":{},"pocketing_W":{},"seals_W":{},"pump_W":{}}},"exhaust_W":{},"cooler_W":{},"convection_W":{},"radiation_W":{}}})",
            legs.empty() ? "" : ",", text(setup.event.legs[i].name), s.found,
            temperature(s.nodes.oil_degC), temperature(s.nodes.housing_degC),
            temperature(s.nodes.steel_degC), number(s.short_by_W), number(l.mesh_W),
            number(l.bearings_W), number(l.windage_W), number(l.churning_W), number(l.thrown_W),
            number(l.pocketing_W), number(l.seals_W), number(l.pump_W), number(s.exhaust_W),
            number(s.cooler_W), number(s.outside.convection_W), number(s.outside.radiation_W));
    }
    std::string bearings;
    for (const BearingDamage& b : side.damage.bearings)
        bearings += fmt::format(
            R"({}{{"name":{},"life_share":{},"basic_life_share":{},"kappa_least":{},"film_temp_degC":{},"P_largest_N":{},"clock_deg":{}}})",
            bearings.empty() ? "" : ",", text(b.name), number(b.life_share),
            number(b.basic_life_share), number(b.worst_kappa), temperature(b.worst_film_degC),
            number(b.P_largest_N), number(b.clock_deg));
    const auto action = [](const Action& a) {
        return fmt::format(R"({{"name":{},"after_events":{},"reason":{}}})", text(a.name),
                           a.after_events, text(a.reason));
    };
    return fmt::format(
        R"({{"peak_oil_temp_degC":{},"oil_above_160_degC":{},"peak_housing_temp_degC":{},"watch_after_s":{},"stop_after_s":{},"legs":[{}],"bearings":[{}],"oil_dose":{},"actions":[{},{},{}]}})",
        temperature(side.event.peak_oil_degC), side.event.peak_oil_degC > oil_ceiling_degC,
        temperature(side.event.peak_housing_degC),
        side.event.watch_after_s < 0 ? "null" : number(side.event.watch_after_s),
        side.event.stop_after_s < 0 ? "null" : number(side.event.stop_after_s), legs, bearings,
        number(side.damage.oil_dose), action(side.intervals.change_oil),
        action(side.intervals.look), action(side.intervals.open_case));
}

}  // namespace

std::string assessment_json(const ReadSetup& read, const Assessment& answer,
                            const std::vector<Worth>& worth) {
    std::string assumed;
    for (const Worth& one : worth)
        assumed +=
            fmt::format(R"({}{{"key":{},"value":{},"oil_low_K":{},"oil_high_K":{}}})",
                        assumed.empty() ? "" : ",", text(one.entry.key), text(one.entry.number),
                        number(one.oil_low_K), number(one.oil_high_K));
    std::string notes;
    for (const Notes* all : {&read.notes, &answer.notes})
        for (const Note& note : *all)
            notes += fmt::format(R"({}{{"id":{},"about":{},"text":{}}})", notes.empty() ? "" : ",",
                                 text(note.id), text(note.about), text(note.text));
    return fmt::format(
               R"({{"schema":1,"setup":{},"verdict":{},"decides":{},"measured":false,"spread_K":{},"driving_h":{},"distance_m":{},"fitted":{},"without_cooler":{},"assumed":[{}],"notes":[{}]}})",
               text(read.setup.name), text(answer.verdict), text(answer.decides),
               number(answer.spread_K), number(answer.driving_h), number(answer.distance_m),
               side_json(read.setup, answer.fitted), side_json(read.setup, answer.without), assumed,
               notes) +
           "\n";
}

}  // namespace caseload
