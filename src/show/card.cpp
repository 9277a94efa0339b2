// SPDX-License-Identifier: MIT
// The pit card, A6: what to do at an arrival temperature. Never calculates.
#include "caseload/ask/verdict.hpp"
#include "caseload/show/calibrate.hpp"
#include "caseload/units.hpp"
#include "show/page_parts.hpp"
#include "show/words.hpp"

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
std::string down(double temp_degC, const Units& units) {
    return fmt::format("{:.0f}", std::floor(units.temp_value(temp_degC) + 1e-9));
}

std::string down_with_unit(double temp_degC, const Units& units) {
    return fmt::format("{} {}", down(temp_degC, units), units.degree());
}

/// One of the big rows, and the same row of the table by ambient.
struct Zone {
    std::string_view kind;  ///< its look
    std::string when;
    std::string word;
    std::string rest{};  ///< behind the word
};

std::string slow_words(const Card& card, const CardRow& row, const Units& units) {
    if (row.slow_share <= 0) return {};
    const double share = std::floor(100 * row.slow_share) / 100;
    std::string words = fmt::format("to {:.0f} % of the pace", 100 * share);
    if (card.pace_mps > 0)
        words += units.text(
            fmt::format(" ({:.0f} km/h)", std::floor(kmph_from_mps(share * card.pace_mps))));
    return words;
}

std::vector<Zone> zones(const Card& card, const CardRow& row, const Units& units) {
    std::vector<Zone> all;
    const std::string stop = down_with_unit(card.stop_degC, units);
    const std::string leave = down_with_unit(row.check_degC, units);
    const bool cold = down(row.cold_degC, units) != down(row.ambient_degC, units) &&
                      row.cold_degC > row.ambient_degC;
    const bool go = down(row.cold_degC, units) != down(row.go_degC, units);
    const bool check = down(row.go_degC, units) != down(row.check_degC, units);
    if (cold)
        all.push_back({"check", "below " + down_with_unit(row.cold_degC, units), "CHECK",
                       "colder than it can be: is the sensor in oil? Oil level"});
    const std::string to_go = cold ? fmt::format("{} to {}", down(row.cold_degC, units),
                                                 down_with_unit(row.go_degC, units))
                                   : down_with_unit(row.go_degC, units) + " or below";
    if (go && row.leaves) all.push_back({"go", to_go, "GO"});
    if (go && !row.leaves)
        all.push_back({"go", to_go, fmt::format("GO FOR {} ONLY", minutes_left(row.stop_after_s)),
                       fmt::format("the next leg exceeds {} even from a cold start", stop)});
    if (row.leaves && check)
        all.push_back(
            {"check", fmt::format("above that, to {}", leave), "CHECK",
             fmt::format(
                 "the list, then go. Read again after 15 min: STOP if {} hotter, or above {}",
                 units.width(std::floor(row.rise_K)), down_with_unit(card.watch_degC, units))});
    const std::string wait =
        fmt::format("{}: {}. Find the cause", row.wait_s >= 0 ? minutes(row.wait_s) : "over 2 h",
                    switched_on(card));
    const std::string slow = slow_words(card, row, units);
    all.push_back({"wait", fmt::format("above that, to {}", stop), slow.empty() ? "WAIT" : "SLOW",
                   slow.empty() ? wait : fmt::format("{}, or WAIT {}", slow, wait)});
    all.push_back({"open", fmt::format("above {}", stop), "OPEN OR RETIRE"});
    return all;
}

std::string zones_html(const std::vector<Zone>& all) {
    std::string out = "<dl>\n";
    for (const Zone& zone : all)
        out += fmt::format("<div class=\"zone {}\"><dt>{}</dt><dd><b>{}</b>{}</dd></div>\n",
                           zone.kind, escaped(zone.when), escaped(zone.word),
                           zone.rest.empty() ? "" : " " + escaped(zone.rest));
    return out + "</dl>\n";
}

/// What the build itself does, before anything is wrong with it.
std::string expected_words(const Card& card, const CardRow& row, const Units& units) {
    const Percentiles& p = row.arrival_degC;
    const std::string watch = units.degrees(card.watch_degC);
    std::string words =
        fmt::format("Expected after {}: likely {}, ", card.leg, units.degrees(p.p50));
    words +=
        p.p90 > oil_ceiling_degC
            ? fmt::format("more than 1 chance in 10 of over {}. ", units.degrees(oil_ceiling_degC))
            : fmt::format("9 chances in 10 not above {}. ", units.temp(p.p90));
    if (p.p50 > card.stop_degC) {
        const std::string slow = slow_words(card, row, units);
        words += fmt::format("This build will likely pass {}: do not run it at this pace{}. ",
                             units.degrees(card.stop_degC),
                             slow.empty() ? "" : "; slow " + slow + " from the start");
    } else if (p.p90 > card.watch_degC) {
        words += fmt::format("This build {} {}: it needs {}a cooler or less pace. ",
                             p.p50 > card.watch_degC ? "will likely pass" : "may pass", watch,
                             card.looser_pair.empty() ? "" : card.looser_pair + ", else ");
    }
    return words;
}

HtmlTable by_ambient(const Card& card, const Units& units) {
    HtmlTable table{fmt::format("The same in other air, {}; {} takes {}", units.degree(), card.leg,
                                duration(card.leg_s)),
                    {"Air", "Too cold below", "Go to", "Check to", "Slow to", "Or wait"},
                    {}};
    for (const CardRow& row : card.rows)
        table.rows.push_back(
            {fmt::format("{:.0f}", units.temp_value(row.ambient_degC)), down(row.cold_degC, units),
             row.leaves ? down(row.go_degC, units)
                        : unbroken(minutes_left(row.stop_after_s) + " only"),
             down(row.check_degC, units),
             row.slow_share > 0
                 ? unbroken(fmt::format("{:.0f} %", std::floor(100 * row.slow_share)))
                 : "none",
             unbroken(row.wait_s >= 0 ? minutes(row.wait_s) : "over 2 h")});
    return table;
}

std::string strong(const std::string& words) {
    return fmt::format("<p class=\"always\"><strong>{}</strong></p>\n", escaped(words));
}

std::string body(const Answer& answer, const Card& card, const Units& units) {
    const std::string remedy = remedy_words(answer.remedy, units);
    if (must_not_run(answer))
        return strong("DO NOT RUN: " + spaced(stop_words(answer, units)) + ".") +
               (remedy.empty() ? "" : paragraph(as_sentence(remedy))) + paragraph(warning);
    if (card.rows.empty())
        return paragraph("Nothing is driven in this event: no temperatures to go by.") +
               paragraph(warning);
    const CardRow& now = card.rows[card.rows.size() / 2];
    if (now.arrival_degC.p50 > oil_ceiling_degC)
        return strong(fmt::format("DO NOT RUN this leg: expected after {}: over {}.", card.leg,
                                  units.degrees(oil_ceiling_degC))) +
               paragraph(warning);
    const bool fine = answer.band.case_word == "fine" && answer.band.look.empty();
    std::string of_case = "Case: " + units.text(case_words(answer.likely, answer.band, true)) + ".";
    if (const std::size_t at = of_case.find(" (NEXT)"); at != std::string::npos)
        of_case.erase(at, 7);  // the card has no such block
    return paragraph(expected_words(card, now, units)) + (fine ? "" : paragraph(of_case)) +
           fmt::format("<h2>Oil when you arrive, air {}</h2>\n", units.degrees(now.ambient_degC)) +
           zones_html(zones(card, now, units)) + "<h2>Check, in this order</h2>\n" +
           list_html("ol", card.look_at) + table_html(by_ambient(card, units)) +
           paragraph("Calculated. " + measured_sentence(answer.read.setup) +
                     " Waiting from a cooler arrival is shorter. " + std::string(warning));
}

}  // namespace

std::string card_html(const Answer& answer, const Card& card) {
    const Units units(answer.read.setup.imperial);
    const std::string title = page_title(answer.read);
    return document_html({"Pit card: " + title, "card", "105mm 148mm; margin: 5mm",
                          fmt::format("<main>\n<h1>Pit card: {}</h1>\n", escaped(title)) +
                              strong("Chips, new noise, lost oil or a sudden rise always win: stop "
                                     "and open, whatever the thermometer says.") +
                              body(answer, card, units) + "</main>\n"});
}

}  // namespace caseload
