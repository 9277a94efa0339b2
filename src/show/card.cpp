// SPDX-License-Identifier: MIT
// The pit card, A6: what to do at an arrival temperature.
#include "caseload/show/calibrate.hpp"
#include "caseload/units.hpp"
#include "show/page_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

constexpr std::string_view warning =
    "Hot oil scalds: gloves, eyes. The rule book and a competent inspector come first.";

std::string switched_on(const Card& card) {
    return card.pump_and_fan ? "engine off, pump and fan on" : "engine off, air around the case";
}

/// Whole minutes, never fewer than calculated.
std::string minutes(double s) {
    return fmt::format("{:.0f} min", std::ceil(min_from_s(s)));
}

/// Whole minutes, never more than calculated.
std::string minutes_left(double s) {
    return fmt::format("{:.0f} min", std::floor(min_from_s(std::max(s, 0.0))));
}

/// Rounded down: a limit read off the card is never above the calculated one.
double rounded_down_degC(double temp_degC, bool imperial) {
    const double shown = std::floor((imperial ? degF_from_degC(temp_degC) : temp_degC) + 1e-9);
    return shown;
}

std::string go_words(const CardRow& row, const Units& units) {
    return fmt::format("{:.0f} {}", rounded_down_degC(row.go_degC, units.imperial()),
                       units.degree());
}

std::string next_words(const CardRow& row, const Card& card, const Units& units) {
    if (row.stop_after_s >= 0)
        return fmt::format("passes {} after {}", units.temp(card.stop_degC),
                           minutes_left(row.stop_after_s));
    if (row.watch_after_s >= 0)
        return fmt::format("passes {}, reaches {}", units.temp(card.watch_degC),
                           units.temp(row.next_peak_degC));
    return fmt::format("stays at or below {}",
                       units.temp(std::max(row.next_peak_degC, row.go_degC)));
}

}  // namespace

std::string card_html(const Answer& answer, const Card& card) {
    const Setup& setup = answer.read.setup;
    const Units units(setup.imperial);
    const std::string title = setup.title.empty() ? setup.name : setup.title;
    const std::string stop = fmt::format("{} {}", units.temp(card.stop_degC), units.degree());
    std::string body = fmt::format("<main>\n<h1>Pit card: {}</h1>\n", escaped(title));
    body +=
        "<p class=\"always\"><strong>Chips, new noise, lost oil or a sudden rise always win: "
        "stop and open, whatever the thermometer says.</strong></p>\n";
    if (card.rows.empty()) {
        body += paragraph("Nothing is driven in this event: no temperatures to go by.") +
                paragraph(warning);
        return document_html(
            {"Pit card: " + title, "card", "105mm 148mm; margin: 5mm", body + "</main>\n"});
    }
    const CardRow& now = card.rows[card.rows.size() / 2];
    const std::string ambient = fmt::format("{} {}", units.temp(now.ambient_degC), units.degree());
    const auto zone = [&](std::string_view kind, const std::string& when, const std::string& what) {
        body += fmt::format("<div class=\"zone {}\"><dt>{}</dt><dd>{}</dd></div>\n", kind,
                            escaped(when), escaped(what));
    };
    body += "<h2>Oil when you arrive</h2>\n<dl>\n";
    zone("go", fmt::format("{} or below", go_words(now, units)),
         now.leaves ? "GO"
                    : fmt::format("GO FOR {} ONLY: the next leg passes {} even begun cold",
                                  minutes_left(now.stop_after_s), units.temp(card.stop_degC)));
    zone("wait", fmt::format("above that, to {}", stop),
         now.wait_s >= 0 ? fmt::format("WAIT {}: {}", minutes(now.wait_s), switched_on(card))
                         : fmt::format("WAIT: not cool in 2 h, {}", switched_on(card)));
    zone("open", fmt::format("above {}", stop), "OPEN OR RETIRE");
    body += "</dl>\n";
    HtmlTable table{fmt::format("By ambient; next leg: {}, {}", card.leg, duration(card.leg_s)),
                    {"Ambient", "Go at", "Wait from " + std::string(units.temp(card.stop_degC)),
                     "Leaving at go, the oil"},
                    {}};
    for (const CardRow& row : card.rows)
        table.rows.push_back(
            {unbroken(fmt::format("{:.0f} {}", units.temp_value(row.ambient_degC), units.degree())),
             unbroken(go_words(row, units)),
             unbroken(row.wait_s >= 0 ? minutes(row.wait_s) : "over 2 h"),
             next_words(row, card, units)});
    body += table_html(table);
    body += paragraph(fmt::format(
        "Expected after {}: {} {}, at most {} in 9 of 10 draws. Hotter than that, something has "
        "changed: flow, fan, duct, oil level. Find it before you go.",
        card.leg, units.temp(card.expected_degC.p50), units.degree(),
        units.temp(card.expected_degC.p90)));
    body += paragraph("Calculated, likely values. " + measured_sentence(setup) +
                      " Waiting from a cooler arrival is shorter. " + std::string(warning));
    return document_html(
        {"Pit card: " + title, "card", "105mm 148mm; margin: 5mm", body + "</main>\n"});
}

}  // namespace caseload
