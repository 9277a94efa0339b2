// SPDX-License-Identifier: MIT
// Heat in and out, one under the other on one scale.
#include "caseload/ask/verdict.hpp"
#include "show/page_parts.hpp"
#include "show/svg.hpp"
#include "show/words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

struct Flow {
    std::string words;
    double power_W = 0;
    std::string member;  ///< of the settled leg
};

struct Ledger {
    std::vector<Flow> made;
    std::vector<Flow> leaves;
    double in_W = 0;
    double out_W = 0;
};

Ledger ledger_of(const Steady& rest) {
    Ledger ledger;
    // Less than this gets no line.
    constexpr double least_W = 0.5;
    for (const HeatSource& source : heat_sources(rest.losses.ledger))
        if (source.power_W > least_W)
            ledger.made.push_back(
                {std::string(source.words), source.power_W, std::string(source.member)});
    if (rest.exhaust_W > least_W)
        ledger.made.push_back({"from the exhaust", rest.exhaust_W, "exhaust_W"});
    const double neighbour_W = rest.neighbour_W.value_or(0);
    if (neighbour_W > least_W)
        ledger.made.push_back({"from the neighbour", neighbour_W, "neighbour_W"});
    if (rest.outside.convection_W != 0)
        ledger.leaves.push_back({"housing to the air", rest.outside.convection_W, "convection_W"});
    if (rest.outside.radiation_W != 0)
        ledger.leaves.push_back({"housing radiates", rest.outside.radiation_W, "radiation_W"});
    if (neighbour_W < 0) ledger.leaves.push_back({"to the neighbour", -neighbour_W, "neighbour_W"});
    if (rest.cooler_W != 0) ledger.leaves.push_back({"cooler", rest.cooler_W, "cooler_W"});
    if (!rest.found) ledger.leaves.push_back({"not carried away", rest.short_by_W, "short_by_W"});
    ledger.in_W = heat_in_W(rest);
    ledger.out_W = heat_out_W(rest);
    return ledger;
}

std::string picture(const Ledger& ledger, const Units& units, double width) {
    const bool narrow = width < wide_px;
    const double row = 22;
    const double left = narrow ? 132 : 150;
    const double right = width - (narrow ? 62 : 84);
    const auto rows = static_cast<double>(ledger.made.size() + ledger.leaves.size());
    Svg svg({{}, width, (rows + 2) * row + 8},
            "Heat made by source and heat leaving by path, as bars on one scale; the numbers are "
            "in the table below");
    const Ruler scale{0, std::max(ledger.in_W, ledger.out_W), left, right};
    double y = 0;
    const auto block = [&](std::string_view head, const std::vector<Flow>& flows, double total_W,
                           std::string_view style) {
        svg.text({0, y + 15}, head, "strong");
        svg.rect({{left, y + 4}, scale(total_W) - left, row - 8}, fmt::format("{} sum", style));
        svg.text({scale(total_W) + 6, y + 15}, units.heat(total_W), "strong");
        y += row;
        double from_W = 0;
        for (const Flow& flow : flows) {
            const double to_W = from_W + flow.power_W;
            svg.text({8, y + 15}, flow.words, "");
            const double from = scale(std::min(from_W, to_W));
            svg.rect({{from, y + 4}, std::max(scale(std::max(from_W, to_W)) - from, 1.0), row - 8},
                     style);
            svg.line({{scale(to_W), y + 4}, {scale(to_W), y + row + 4}}, "leader");
            svg.text({scale(std::max(from_W, to_W)) + 6, y + 15}, units.heat(flow.power_W), "halo");
            from_W = to_W;
            y += row;
        }
    };
    block("made", ledger.made, ledger.in_W, "made");
    y += 6;
    block("leaves", ledger.leaves, ledger.out_W, "leaves");
    svg.line({{left, 0}, {left, y}}, "ink");
    return svg.take();
}

std::string table(const PageAnswer& page, const Ledger& ledger, const std::string& leg,
                  const Units& units) {
    HtmlTable out{"Heat in and out", {"Heat", "Way", "Amount"}, {}};
    const auto rows = [&](const std::vector<Flow>& flows, const char* way) {
        for (const Flow& flow : flows) {
            out.rows.push_back({flow.words, way, units.heat(flow.power_W)});
            unfold(page, out, 2, fmt::format("rest.{}@{}", flow.member, leg));
        }
    };
    rows(ledger.made, "made");
    out.rows.push_back({"all made", "made", units.heat(ledger.in_W)});
    rows(ledger.leaves, "leaves");
    out.rows.push_back({"all leaving", "leaves", units.heat(ledger.out_W)});
    return table_html(out);
}

/// Checks to look at, or how many are fine.
std::string checks(const PageAnswer& page, const Units& units) {
    const std::vector<Check> sorted = judged_checks(page.answer);
    std::string items;
    int fine = 0;
    HtmlTable all{"Every check, worst first", {"Check", "Verdict", "Found", "Limit"}, {}};
    for (const Check& check : sorted) {
        // A share too small to be read.
        constexpr double least_shown = 1e-3;
        const std::string found = check.unit.empty() && check.value > 0 && check.value < least_shown
                                      ? fmt::format("below {}", least_shown)
                                      : units.value(check.value, check.unit);
        const std::string limit =
            check.verdict == "shown" ? "shown only"
                                     : fmt::format("{} {}", check.at_least ? "at least" : "at most",
                                                   units.value(check.limit, check.unit));
        all.rows.push_back(
            {fmt::format("{}: {}", spaced(check.about), check.words), check.verdict, found, limit});
        if (page.reasons != nullptr) unfold(page, all, 2, page.reasons->check_address(check));
        if (check.verdict == "fine") ++fine;
    }
    const Band& band = page.answer.band;
    for (const std::vector<JudgedCheck>* found : {&band.stop, &band.watch, &band.look})
        for (const JudgedCheck& check : *found)
            items += fmt::format(
                "<li><strong>{}</strong> {}: {}{}</li>\n", check.verdict,
                escaped(spaced(check.about)), escaped(units.text(finding_words(check))),
                check.consequence.empty() ? "" : "; " + escaped(units.text(check.consequence)));
    return "<h3>Checks</h3>\n" +
           (items.empty() ? "" : "<ul class=\"checks\">\n" + items + "</ul>\n") +
           paragraph(
               fmt::format("{} of {} checks are fine. Those that depend on temperature or load are "
                           "judged over the range; values found are of one run, {}.",
                           fine, sorted.size(), middle_run)) +
           folded("Every check with its limit", table_html(all));
}

}  // namespace

std::string ledger_section(const PageAnswer& page, const Units& units) {
    const Answer& answer = page.answer;
    std::string out = "<section>\n<h2>Heat and checks</h2>\n";
    if (const Weakest weakest = weakest_part(answer, units); !weakest.words.empty())
        out += paragraph(fmt::format("{}: {} ({}).",
                                     weakest.head == "weakest" ? "Weakest" : "Nearest to its limit",
                                     spaced(weakest.words), middle_run));
    if (const LegAnswer* hottest = hottest_leg(answer.read.setup, answer.likely.fitted)) {
        const Steady& rest = hottest->at_rest;
        const Ledger ledger = ledger_of(rest);
        out += figure_html(
            {picture(ledger, units, wide_px), picture(ledger, units, narrow_px),
             fmt::format("Heat balance on {} once temperatures have settled, {}: {}.",
                         hottest->name, middle_run,
                         rest.found
                             ? "oil " + units.degrees(rest.nodes.oil_degC)
                             : fmt::format("{}, {}", does_not_settle(units),
                                           units.short_by({rest.short_by_W, rest.short_by_WpK}))),
             table(page, ledger, hottest->name, units)});
    }
    return out + checks(page, units) + "</section>\n";
}

}  // namespace caseload
