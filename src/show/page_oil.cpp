// SPDX-License-Identifier: MIT
// Oil temperature over the event.
#include "caseload/units.hpp"
#include "show/page_parts.hpp"
#include "show/svg.hpp"
#include "show/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace caseload {
namespace {

constexpr double left_of_plot = 44;
constexpr double top = 26;
constexpr double strip_height = 18;
constexpr double label_gap = 15;
constexpr double letter_px = 6.6;

struct Drawn {
    std::string_view style;
    std::string words;
    std::function<double(const Moment&)> value;
};

std::vector<Drawn> curves(const Assessment& likely) {
    std::vector<Drawn> all;
    if (likely.has_cooler)
        all.push_back(
            {"without", "oil, no cooler", [](const Moment& m) { return m.without_cooler_degC; }});
    all.push_back({"edge", "high", [](const Moment& m) { return m.oil_degC.p90; }});
    all.push_back({"edge", "low", [](const Moment& m) { return m.oil_degC.p10; }});
    all.push_back({"housing", "housing", [](const Moment& m) { return m.likely.housing_degC; }});
    all.push_back({"steel", "gears, shafts", [](const Moment& m) { return m.likely.steel_degC; }});
    all.push_back({"oil", "oil, likely", [](const Moment& m) { return m.oil_degC.p50; }});
    return all;
}

class OilPicture {
public:
    OilPicture(const PageAnswer& page, const Units& units, double width)
        : page_(page),
          setup_(page.answer.read.setup),
          units_(units),
          narrow_(width < wide_px),
          drawn_(curves(page.answer.likely)),
          right_(narrow_ ? width - 10 : width - 112),
          bottom_(narrow_ ? 250 : 300),
          svg_({{}, width, narrow_ ? 414.0 : bottom_ + 58},
               "Oil temperature over the event with its range, limits and stops; the numbers are "
               "in the table below") {
        range();
    }

    std::string draw() {
        grid();
        legs();
        band();
        // The likely oil last, on top.
        for (const Drawn& curve : drawn_) svg_.path(points(curve.value), curve.style);
        stops();
        limit(setup_.limits.oil_watch_degC, "watch above", "watch");
        limit(setup_.limits.oil_stop_degC, "stop above", "stop");
        narrow_ ? key() : labels();
        return svg_.take();
    }

private:
    void range() {
        double low_degC = setup_.event.ambient_degC;
        double high_degC = setup_.limits.oil_stop_degC + 5;
        for (const Moment& moment : page_.moments)
            for (const Drawn& curve : drawn_) {
                low_degC = std::min(low_degC, curve.value(moment));
                high_degC = std::max(high_degC, curve.value(moment));
            }
        constexpr double round_K = 10;
        low_degC = std::floor(low_degC / round_K) * round_K;
        high_degC = std::min(std::ceil(high_degC / round_K) * round_K, oil_ceiling_degC);
        y_ = {units_.temp_value(low_degC), units_.temp_value(high_degC), bottom_, top};
        x_ = {0, page_.moments.back().t_s, left_of_plot, right_};
    }

    [[nodiscard]] double y(double temp_degC) const { return y_(units_.temp_value(temp_degC)); }

    [[nodiscard]] std::vector<Point> points(
        const std::function<double(const Moment&)>& value) const {
        std::vector<Point> all;
        for (const Moment& moment : page_.moments)
            all.push_back({x_(moment.t_s), y(value(moment))});
        return all;
    }

    void grid() {
        for (const double tick : round_ticks(y_, 7)) {
            svg_.line({{left_of_plot, y_(tick)}, {right_, y_(tick)}}, "grid");
            svg_.text({left_of_plot - 6, y_(tick) + 4}, fmt::format("{:.0f}", tick), "end");
        }
        svg_.text({left_of_plot - 6, 12}, std::string(units_.degree()), "end faint");
        const double whole_s = page_.moments.back().t_s;
        constexpr double minutes_below_s = 5400;
        const bool minutes = whole_s < minutes_below_s;
        const double unit_s = minutes ? s_from_min(1) : s_from_min(60);
        for (const double tick : round_ticks({0, whole_s / unit_s, 0, 1}, narrow_ ? 5 : 9)) {
            const double at = x_(tick * unit_s);
            svg_.line({{at, bottom_ + strip_height}, {at, bottom_ + strip_height + 5}}, "ink");
            svg_.text({at, bottom_ + strip_height + 18},
                      fmt::format("{:g} {}", tick, minutes ? "min" : "h"), "mid");
        }
    }

    void legs() {
        for (const RunPeak& run : page_.answer.likely.fitted.event.runs) {
            const LegInput& leg = setup_.event.legs[static_cast<std::size_t>(run.leg)];
            const Box box{
                {x_(run.start_s), bottom_}, x_(run.end_s) - x_(run.start_s), strip_height};
            const bool fits = letter_px * static_cast<double>(leg.name.size()) + 4 < box.width;
            const double middle = box.corner.x + box.width / 2;
            if (leg.kind == LegKind::stop) {
                svg_.rect({{box.corner.x, top}, box.width, bottom_ - top}, "halt");
                svg_.rect(box, "halt");
            } else if (fits) {
                svg_.text({middle, bottom_ + 13}, leg.name, "mid faint");
            }
            svg_.rect(box, "frame");
        }
        svg_.line({{left_of_plot, top}, {left_of_plot, bottom_}}, "ink");
    }

    /// Over the curves, which may pass there.
    void stops() {
        for (const RunPeak& run : page_.answer.likely.fitted.event.runs) {
            const LegInput& leg = setup_.event.legs[static_cast<std::size_t>(run.leg)];
            if (leg.kind != LegKind::stop) continue;
            svg_.text_up({x_((run.start_s + run.end_s) / 2) + 4, bottom_ - 6},
                         fmt::format("{}: stop, {}", leg.name, duration(leg.duration_s)), "halo");
        }
    }

    void band() {
        std::vector<Point> outline = points([](const Moment& m) { return m.oil_degC.p10; });
        const std::vector<Point> upper = points([](const Moment& m) { return m.oil_degC.p90; });
        outline.insert(outline.end(), upper.rbegin(), upper.rend());
        svg_.area(outline, "band");
    }

    void limit(double limit_degC, std::string_view words, std::string_view style) {
        if (limit_degC > oil_ceiling_degC) return;
        svg_.line({{left_of_plot, y(limit_degC)}, {right_, y(limit_degC)}},
                  fmt::format("limit {}", style));
        svg_.text({left_of_plot + 6, y(limit_degC) - 4},
                  fmt::format("{} {}", words, units_.degrees(limit_degC)),
                  fmt::format("halo {}-words", style));
    }

    void labels() {
        std::vector<double> wanted;
        for (const Drawn& curve : drawn_) wanted.push_back(y(curve.value(page_.moments.back())));
        const std::vector<double> at = spread(wanted, {label_gap, bottom_ - 2});
        for (std::size_t i = 0; i < drawn_.size(); ++i) {
            svg_.line({{right_, wanted[i]}, {right_ + 14, at[i]}}, "leader");
            svg_.text({right_ + 18, at[i] + 4}, drawn_[i].words,
                      fmt::format("{}-words", drawn_[i].style));
        }
    }

    void key() {
        double at = bottom_ + strip_height + 42;
        for (const Drawn& curve : drawn_) {
            svg_.path({{left_of_plot, at}, {left_of_plot + 34, at}}, curve.style);
            svg_.text({left_of_plot + 42, at + 4}, curve.words,
                      fmt::format("{}-words", curve.style));
            at += label_gap + 2;
        }
    }

    const PageAnswer& page_;
    const Setup& setup_;
    const Units& units_;
    bool narrow_;
    std::vector<Drawn> drawn_;
    double right_;
    double bottom_;
    Svg svg_;
    Ruler x_;
    Ruler y_;
};

/// Both ends of each leg, and moments between so that about thirty rows come.
std::string table(const PageAnswer& page, const Units& units) {
    constexpr std::size_t rows_wanted = 24;
    const bool cooler = page.answer.likely.has_cooler;
    const Setup& setup = page.answer.read.setup;
    HtmlTable out;
    out.caption = fmt::format("Temperatures over the event, {}", units.degree());
    out.heads = {"After",     "Leg",     "Oil: low",     "Oil: likely",
                 "Oil: high", "Housing", "Gears, shafts"};
    if (cooler) out.heads.emplace_back("Oil, no cooler");
    const std::size_t every = page.moments.size() / rows_wanted + 1;
    for (std::size_t i = 0; i < page.moments.size(); ++i) {
        const Moment& moment = page.moments[i];
        const bool leg_ends = i + 1 == page.moments.size() || page.moments[i + 1].run != moment.run;
        if (!leg_ends && i % every != 0) continue;
        const auto leg =
            static_cast<std::size_t>(setup.event.run[static_cast<std::size_t>(moment.run)]);
        std::vector<std::string> row{unbroken(duration(moment.t_s)), setup.event.legs[leg].name};
        for (const double temp_degC :
             {moment.oil_degC.p10, moment.oil_degC.p50, moment.oil_degC.p90,
              moment.likely.housing_degC, moment.likely.steel_degC})
            row.push_back(units.temp(temp_degC));
        if (cooler) row.push_back(units.temp(moment.without_cooler_degC));
        out.rows.push_back(std::move(row));
    }
    return table_html(out);
}

std::string peaks(const PageAnswer& page, const Units& units) {
    const auto sentence = [&](std::string_view which, const Percentiles& p) {
        return fmt::format("{}: likely {}, 8 chances in 10 between {} and {}. ", which,
                           units.degrees(p.p50), units.temp(p.p10), units.temp(p.p90));
    };
    const Band& band = page.answer.band;
    std::string words;
    if (page.answer.likely.has_cooler)
        words = sentence("Hottest oil with the cooler", band.fitted.peak_oil_degC);
    words += sentence("Hottest oil without a cooler", band.without.peak_oil_degC);
    const EventHeat& event = page.answer.likely.fitted.event;
    const auto passed = [&](std::string_view limit, double after_s) {
        return after_s < 0 ? std::string()
                           : fmt::format("Above the {} limit after {}, {}. ", limit,
                                         duration(after_s), middle_run);
    };
    words += passed("watch", event.watch_after_s) + passed("stop", event.stop_after_s);
    return paragraph(words);
}

}  // namespace

std::string oil_section(const PageAnswer& page, const Units& units) {
    const std::string tops = page.answer.band.without.peak_oil_degC.p90 > oil_ceiling_degC
                                 ? fmt::format(
                                       " The calculation stops at {}: a curve that touches the top "
                                       "edge goes on above it.",
                                       units.degrees(oil_ceiling_degC))
                                 : "";
    return "<section>\n<h2>Oil over the event</h2>\n" + peaks(page, units) +
           figure_html(
               {OilPicture(page, units, wide_px).draw(), OilPicture(page, units, narrow_px).draw(),
                fmt::format("Shaded: low to high, 8 chances in 10, from {} calculations in which "
                            "the uncertain inputs (airflow, friction, ...) were varied. Likely: "
                            "the middle of them. Housing, gears and shafts: one run, {}.{}",
                            page.answer.band.draws, middle_run, tops),
                table(page, units)}) +
           "</section>\n";
}

}  // namespace caseload
