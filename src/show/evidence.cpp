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
    text += fmt::format(" Met within tolerance: {} and {} of them", evidence.printed.met,
                        evidence.recomputed.met);
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

std::string row_lines(const Recomputed& one) {
    const PublishedRow& row = one.row;
    std::string out =
        wrapped(fmt::format("  {:<10}  ", word(one.outcome)),
                fmt::format("{}{}{}", row.example, row.example.empty() ? "" : ": ", row.words));
    out += wrapped(std::string(14, ' '),
                   fmt::format("published {}, ours {}, off by {}; tolerance {}: {}; figure {}",
                               with_unit(figure(row.published), row.unit), figure(one.ours),
                               deviation(one), figure(row.tolerance), row.reason, row.seen));
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
        "recomputed by ourselves",
        evidence.printed.figures, evidence.recomputed.figures);
}

std::string evidence_screen(const Evidence& evidence) {
    std::string out = wrapped("", std::string(no_comparison)) + "\n" +
                      wrapped("", totals(evidence)) + wrapped("", worst(evidence)) +
                      wrapped("", memory(evidence));
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

std::string evidence_markdown(const Evidence& evidence) {
    std::string out = fmt::format(
        "# Validation\n\n{}\n\n{} {}\n\n{}\n\nWritten by `caseload evidence --markdown`; `caseload "
        "evidence` recalculates it on your machine and ends with code 1 when a figure that should "
        "be met is not.\n\n"
        "| status | source | place | what | published | ours | off by | tolerance, why | figure |\n"
        "|---|---|---|---|---|---|---|---|---|\n",
        no_comparison, totals(evidence), worst(evidence), memory(evidence));
    for (const Recomputed& one : evidence.rows) {
        const PublishedRow& row = one.row;
        out +=
            fmt::format("| {} | {} | {} | {}{} | {} | {} | {} | {}: {} | {} |\n", word(one.outcome),
                        cell(title(one.source)), cell(row.example), cell(row.words),
                        one.outcome == Outcome::differs ? ". Why: " + cell(row.deviates) : "",
                        with_unit(figure(row.published), row.unit), figure(one.ours),
                        deviation(one), figure(row.tolerance), cell(row.reason), row.seen);
    }
    return out;
}

std::string evidence_json(const Evidence& evidence) {
    using json_value::number;
    using json_value::text;
    const auto row_json = [](const Recomputed& one) {
        return fmt::format(
            R"({{"id":{},"status":{},"source":{},"title":{},"edition":{},"example":{},"words":{},"published":{},"ours":{},"deviation":{},"unit":{},"tolerance":{},"reason":{},"seen":{},"deviates":{}}})",
            text(one.row.id), text(word(one.outcome)), text(one.row.source), text(one.source.title),
            text(one.source.edition), text(one.row.example), text(one.row.words),
            number(one.row.published), number(one.ours), number(one.deviation), text(one.row.unit),
            number(one.row.tolerance), text(one.row.reason), text(one.row.seen),
            text(one.row.deviates));
    };
    const Places& p = evidence.places;
    return fmt::format(
        R"({{"schema":1,"instrumented_case":false,"reproduced":{},"differs":{},"fails":{},"printed":{},"recomputed":{},"worst_share":{},"worst_id":{},"places":{{"sources":{},"sources_from_memory":{},"rows":{},"rows_from_memory":{},"rows_judged":{}}},"rows":{}}})"
        "\n",
        evidence.reproduced, evidence.differs, evidence.fails, counted(evidence.printed),
        counted(evidence.recomputed), number(evidence.worst_share), text(evidence.worst_id),
        p.sources, p.sources_from_memory, p.rows, p.rows_from_memory, p.rows_judged,
        json_value::list(evidence.rows, row_json));
}

}  // namespace caseload
