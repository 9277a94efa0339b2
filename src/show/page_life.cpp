// SPDX-License-Identifier: MIT
// Life used per event, one strip a position.
#include "show/page_parts.hpp"
#include "show/svg.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace caseload {
namespace {

struct Position {
    std::string name;
    Percentiles share;
    std::string wear;
    std::optional<double> clock_deg;
};

std::vector<Position> positions(const Answer& answer) {
    std::vector<Position> all;
    const CoolerSide& side = answer.likely.fitted;
    for (std::size_t b = 0; b < side.damage.bearings.size(); ++b) {
        const BearingDamage& bearing = side.damage.bearings[b];
        all.push_back({spaced(bearing.name), answer.band.fitted.life_share[b], worn_by(bearing),
                       bearing.clock_deg});
    }
    for (std::size_t g = 0; g < side.checked.gears.size(); ++g) {
        const GearDamage& gear = side.checked.gears[g];
        if (!gear.calculated) continue;
        all.push_back({gear.shaft + " gear, flanks", answer.band.fitted.flank_share[g],
                       "pitting of the flanks", std::nullopt});
        all.push_back({gear.shaft + " gear, roots", answer.band.fitted.root_share[g],
                       "bending of the roots", std::nullopt});
    }
    std::stable_sort(all.begin(), all.end(), [](const Position& a, const Position& b) {
        return a.share.p50 > b.share.p50;
    });
    return all;
}

constexpr double least_decade = -6;

/// Decades of a share, limited to the picture.
double decade(double share) {
    return share > 0 ? std::max(std::log10(share), least_decade) : least_decade;
}

void clock(Svg& svg, const Point& centre, double clock_deg) {
    const Circle face{centre, 12};
    svg.circle(face, "frame");
    svg.line({at_clock(face, 0), at_clock({centre, 9}, 0)}, "ink");
    svg.arrow({centre, at_clock({centre, 11}, clock_deg)}, "ink");
}

std::string picture(const std::vector<Position>& all, double width) {
    const bool narrow = width < wide_px;
    const double row = narrow ? 54 : 38;
    const double left = narrow ? 8 : 196;
    const double right = width - (narrow ? 36 : 150);
    const double head = 24;
    Svg svg({{}, width, head + row * static_cast<double>(all.size()) + 4},
            "Share of life one event uses at each position, and where its load presses; the "
            "numbers are in the table below");
    double last_decade = 0;
    for (const Position& one : all)
        last_decade = std::max(last_decade, std::ceil(decade(one.share.p90)));
    const Ruler x{least_decade, last_decade, left, right};
    const double bottom = head + row * static_cast<double>(all.size());
    for (double at = least_decade; at <= last_decade; ++at) {
        svg.line({{x(at), head}, {x(at), bottom}}, at == 0 ? "limit stop" : "grid");
        if (!narrow || std::fmod(at - last_decade, 2) == 0)
            svg.text({x(at), 14}, fmt::format("{:g} %", 100 * std::pow(10, at)),
                     narrow && at == least_decade ? "faint" : "mid faint");
    }
    double y = head;
    for (const Position& one : all) {
        const double bar = narrow ? y + 36 : y + row / 2;
        svg.text({narrow ? left : 0, y + 15}, one.name, "strong halo");
        if (narrow)
            svg.text({right, y + 15}, one.wear, "end faint halo");
        else
            svg.text({0, y + 30}, one.wear, "faint");
        if (one.share.p90 <= 0) {
            svg.text({narrow ? left : left + 6, bar + 4}, "nothing that counts", "faint halo");
            svg.line({{0, y + row}, {width, y + row}}, "grid");
            y += row;
            continue;
        }
        const double from = x(decade(one.share.p10));
        const double to = x(decade(one.share.p90));
        svg.rect({{from, bar - 6}, std::max(to - from, 2.0), 12}, "made");
        const double likely = x(decade(one.share.p50));
        svg.line({{likely, bar - 10}, {likely, bar + 10}}, "heavy");
        if (one.clock_deg) {
            const Point centre{narrow ? width - 16 : right + 40, bar};
            clock(svg, centre, *one.clock_deg);
            if (!narrow) svg.text({right + 60, bar + 4}, clock_words(*one.clock_deg), "faint");
        }
        svg.line({{0, y + row}, {width, y + row}}, "grid");
        y += row;
    }
    return svg.take();
}

}  // namespace

std::string life_section(const PageAnswer& page, const Units&) {
    const std::vector<Position> all = positions(page.answer);
    HtmlTable table{"Share of life one event uses: bearings of the life 10 % fail in, teeth 1 %",
                    {"Position", "Likely", "Low", "High", "Worn by", "Load presses towards"},
                    {}};
    for (const Position& one : all)
        table.rows.push_back({one.name, percent(one.share.p50), percent(one.share.p10),
                              percent(one.share.p90), one.wear,
                              one.clock_deg ? clock_words(*one.clock_deg) : ""});
    return "<section>\n<h2>What wears</h2>\n" +
           figure_html({picture(all, wide_px), picture(all, narrow_px),
                        "Life used by one event. Each vertical line is ten times the one before, "
                        "the heavy one is 100 %. Bar: low to high, 8 chances in 10; stroke: "
                        "likely. Clock: where the shaft presses, seen from behind looking forward. "
                        "Calculated fatigue only: shock, loose seats and sudden dirt come on top.",
                        table_html(table)}) +
           "</section>\n";
}

}  // namespace caseload
