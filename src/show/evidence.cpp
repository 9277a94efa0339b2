// SPDX-License-Identifier: MIT
#include "caseload/show/evidence.hpp"

#include "show/json_value.hpp"
#include "show/lines.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

constexpr std::string_view no_comparison =
    "No comparison with a running, instrumented transfer case exists yet. What follows shows that "
    "formulas are programmed as published, not that a case behaves like them.";

std::string_view word(Outcome outcome) {
    switch (outcome) {
        case Outcome::fails:
            return "FAILS";
        case Outcome::differs:
            return "differs";
        case Outcome::reproduced:
            return "reproduced";
    }
    return "";
}

std::string with_unit(const std::string& number, const std::string& unit) {
    return unit.empty() ? number : number + " " + unit;
}

std::string figure(double value) {
    return fmt::format("{:.7g}", value);
}

/// Rounding of the last bits is not a deviation.
std::string deviation(const Recomputed& one) {
    const bool none = std::fabs(one.deviation) < 1e-9 * std::fabs(one.row.published) + 1e-12;
    return none ? "0" : fmt::format("{:+.2g}", one.deviation);
}

std::string title(const SourceRow& source) {
    return source.edition.empty() ? source.title
                                  : fmt::format("{}, {}", source.title, source.edition);
}

std::string totals(const Evidence& evidence) {
    std::string text = evidence_counts(evidence) + ".";
    text += fmt::format(" Met within tolerance: {}, {} and {} of them", evidence.printed.met,
                        evidence.recomputed.met, evidence.measured.met);
    if (evidence.differs > 0)
        text += fmt::format("; {} differ for a reason given", evidence.differs);
    text += evidence.fails > 0
                ? fmt::format("; {} FAIL: this program is not to be trusted", evidence.fails)
                : "; none fails";
    text += ".";
    if (evidence.printed.from_memory > 0)
        text += fmt::format(" {} of the {} printed ones are quoted from memory.",
                            evidence.printed.from_memory, evidence.printed.figures);
    return text;
}

std::string worst(const Evidence& evidence) {
    if (evidence.worst_id.empty()) return {};
    return fmt::format("Largest deviation among the reproduced: {:.0f} % of its tolerance ({}).",
                       100 * evidence.worst_share, evidence.worst_id);
}

std::string memory(const Evidence& evidence) {
    const Places& p = evidence.places;
    return fmt::format(
        "{} of {} places our constants are taken from are from memory, wholly or in part: {} of {} "
        "sources of the bibliography, {} of {} rows of the tables of data. {} more rows are "
        "judgement and claim no source.",
        p.sources_from_memory + p.rows_from_memory, p.sources + p.rows, p.sources_from_memory,
        p.sources, p.rows_from_memory, p.rows, p.rows_judged);
}

std::string ratios(const Evidence& evidence) {
    if (evidence.measured.figures == 0) return {};
    return fmt::format(
        "Ours is {1:.2f} to {2:.2f} times the {0} measured figures; a bound is not counted there.",
        evidence.measured.figures, evidence.least_ratio, evidence.largest_ratio);
}

/// Against a measurement the ratio, against a calculation the difference.
std::string off(const Recomputed& one) {
    if (!one.row.measured) return deviation(one);
    if (one.row.bound) return one.deviation > 0 ? "above the bound" : "below the bound";
    return fmt::format("x {:.2f}", one.ours / one.row.published);
}

std::string row_lines(const Recomputed& one) {
    const PublishedRow& row = one.row;
    std::string out =
        wrapped(fmt::format("  {:<10}  ", word(one.outcome)),
                fmt::format("{}{}{}", row.example, row.example.empty() ? "" : ": ", row.words));
    out += wrapped(std::string(14, ' '),
                   fmt::format("{} {}, ours {}, {}{}; tolerance {}: {}; figure {}",
                               row.measured ? "measured" : "published",
                               with_unit(figure(row.published), row.unit), figure(one.ours),
                               row.measured ? "" : "off by ", off(one), figure(row.tolerance),
                               row.reason, row.seen));
    if (one.outcome == Outcome::differs)
        out += wrapped(std::string(14, ' '), "why: " + row.deviates);
    return out;
}

std::string counted(const Counted& kind) {
    return fmt::format(R"({{"figures":{},"met":{},"from_memory":{}}})", kind.figures, kind.met,
                       kind.from_memory);
}

std::string cell(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '|') out += '\\';
        out += c;
    }
    return out;
}

}  // namespace

std::string evidence_counts(const Evidence& evidence) {
    return fmt::format(
        "{} figures printed in an outside source, all of functions an answer uses; {} figures "
        "recomputed by ourselves; {} measured by others",
        evidence.printed.figures, evidence.recomputed.figures, evidence.measured.figures);
}

std::string evidence_screen(const Evidence& evidence) {
    std::string out = wrapped("", std::string(no_comparison)) + "\n" +
                      wrapped("", totals(evidence)) + wrapped("", worst(evidence)) +
                      wrapped("", ratios(evidence)) + wrapped("", memory(evidence));
    std::string under;
    for (const Recomputed& one : evidence.rows) {
        const bool by_source = one.outcome == Outcome::reproduced;
        const std::string heading = title(one.source);
        if (heading != under || !by_source) out += "\n" + wrapped("", heading);
        under = by_source ? heading : "";
        out += row_lines(one);
    }
    return out + "\n" + wrapped("", totals(evidence));
}

/// What was measured elsewhere, for the document; the figures are those of the rows.
std::string measured_elsewhere(const Evidence& evidence) {
    return fmt::format(
        "## Measured elsewhere\n\n"
        "No published measurement of a whole transfer case, nor of a whole gearbox with geometry, "
        "oil, load, speed and loss or temperature complete, was found. Parts of the chain were "
        "measured:\n\n"
        "- Torque of single tapered bearings in an oil bath, under axial and combined load, and in "
        "a thin supply of oil: 15 figures, read off the papers' curves by others, whose readings "
        "differ by up to 8 %. The torque that does not depend on load follows viscosity times "
        "speed as the formula has it. All of the torque follows viscosity more than the formula "
        "says, whose term of load has none: torque of cold, thick oil comes out low, that of hot "
        "oil under heavy load high.\n"
        "- Film of air around a cylinder in a stream: the law of bodies is higher than the "
        "experiment of a textbook.\n"
        "- The motor of a gear rig has to feed the loss of two boxes; tooth loss alone must stay "
        "below its rating. That is a bound, not a comparison.\n\n"
        "{} All lie within 30 %, and the range of bearing friction (0.6 to 1.6) covers them.\n\n"
        "Efficiencies seen in print, as ranges only: a set of spur gears 99.0 to 99.8 %, gearboxes "
        "of cars and trucks with splash lubrication 90 to 97 %, a helicopter's main gearbox 98.3 "
        "to 98.8 % at 224 kW.\n\n",
        ratios(evidence));
}

std::string evidence_markdown(const Evidence& evidence) {
    std::string out = fmt::format(
        "# Validation\n\n{}\n\n{} {}\n\n{}\n\n{}## Every figure\n\nWritten by `caseload evidence "
        "--markdown`; `caseload "
        "evidence` recalculates it on your machine and ends with code 1 when a figure that should "
        "be met is not.\n\n"
        "| status | source | place | what | published | ours | off by | tolerance, why | figure |\n"
        "|---|---|---|---|---|---|---|---|---|\n",
        no_comparison, totals(evidence), worst(evidence), memory(evidence),
        measured_elsewhere(evidence));
    for (const Recomputed& one : evidence.rows) {
        const PublishedRow& row = one.row;
        out +=
            fmt::format("| {} | {} | {} | {}{} | {} | {} | {} | {}: {} | {} |\n", word(one.outcome),
                        cell(title(one.source)), cell(row.example), cell(row.words),
                        one.outcome == Outcome::differs ? ". Why: " + cell(row.deviates) : "",
                        with_unit(figure(row.published), row.unit), figure(one.ours), off(one),
                        figure(row.tolerance), cell(row.reason), row.seen);
    }
    return out;
}

std::string evidence_json(const Evidence& evidence) {
    using json_value::number;
    using json_value::text;
    const auto row_json = [](const Recomputed& one) {
        return fmt::format(
            R"({{"id":{},"status":{},"source":{},"title":{},"edition":{},"example":{},"words":{},"published":{},"ours":{},"deviation":{},"unit":{},"tolerance":{},"reason":{},"seen":{},"deviates":{},"measured":{},"bound":{}}})",
            text(one.row.id), text(word(one.outcome)), text(one.row.source), text(one.source.title),
            text(one.source.edition), text(one.row.example), text(one.row.words),
            number(one.row.published), number(one.ours), number(one.deviation), text(one.row.unit),
            number(one.row.tolerance), text(one.row.reason), text(one.row.seen),
            text(one.row.deviates), one.row.measured, one.row.bound);
    };
    const Places& p = evidence.places;
    return fmt::format(
        R"({{"schema":1,"instrumented_case":false,"reproduced":{},"differs":{},"fails":{},"printed":{},"recomputed":{},"measured":{},"least_ratio":{},"largest_ratio":{},"worst_share":{},"worst_id":{},"places":{{"sources":{},"sources_from_memory":{},"rows":{},"rows_from_memory":{},"rows_judged":{}}},"rows":{}}})"
        "\n",
        evidence.reproduced, evidence.differs, evidence.fails, counted(evidence.printed),
        counted(evidence.recomputed), counted(evidence.measured), number(evidence.least_ratio),
        number(evidence.largest_ratio), number(evidence.worst_share), text(evidence.worst_id),
        p.sources, p.sources_from_memory, p.rows, p.rows_from_memory, p.rows_judged,
        json_value::list(evidence.rows, row_json));
}

}  // namespace caseload
