// SPDX-License-Identifier: MIT
#include "show/svg.hpp"

#include "caseload/units.hpp"
#include "show/html.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

std::string places(const std::vector<Point>& points) {
    std::string out;
    for (const Point& point : points) out += fmt::format(" {:.1f},{:.1f}", point.x, point.y);
    return out.substr(std::min<std::size_t>(1, out.size()));
}

}  // namespace

double Ruler::operator()(double value) const {
    const double share = std::clamp((value - first) / (last - first), 0.0, 1.0);
    return at_first + share * (at_last - at_first);
}

std::vector<double> round_ticks(const Ruler& axis, int most) {
    const double least = (axis.last - axis.first) / most;
    const double decade = std::pow(10.0, std::floor(std::log10(least)));
    double step = 10 * decade;
    for (const double times : {5.0, 2.0, 1.0})
        if (times * decade >= least) step = times * decade;
    std::vector<double> ticks;
    for (double at = std::ceil(axis.first / step - 1e-9); at * step <= axis.last + step * 1e-9;
         ++at)
        ticks.push_back(at * step + 0.0);  // no "-0"
    return ticks;
}

std::vector<double> spread(const std::vector<double>& wanted, const LabelRoom& room) {
    std::vector<std::size_t> order(wanted.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return wanted[a] < wanted[b]; });
    std::vector<double> at = wanted;
    for (std::size_t k = 1; k < order.size(); ++k)
        at[order[k]] = std::max(at[order[k]], at[order[k - 1]] + room.gap);
    double lowest = room.lowest;
    for (std::size_t k = order.size(); k-- > 0;) {
        at[order[k]] = std::min(at[order[k]], lowest);
        lowest = at[order[k]] - room.gap;
    }
    return at;
}

Point at_clock(const Circle& circle, double clock_deg) {
    const double angle_rad = rad_from_deg(clock_deg);
    return {circle.centre.x + circle.radius * std::sin(angle_rad),
            circle.centre.y - circle.radius * std::cos(angle_rad)};
}

Svg::Svg(const Box& size, std::string_view label)
    : out_(fmt::format(
          R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {:.0f} {:.0f}" role="img" aria-label="{}">)",
          size.width, size.height, escaped(label))) {}

void Svg::line(const Segment& segment, std::string_view style) {
    out_ += fmt::format(R"(<line x1="{:.1f}" y1="{:.1f}" x2="{:.1f}" y2="{:.1f}" class="{}"/>)",
                        segment.from.x, segment.from.y, segment.to.x, segment.to.y, style);
}

void Svg::path(const std::vector<Point>& points, std::string_view style) {
    out_ += fmt::format(R"(<polyline points="{}" class="curve {}"/>)", places(points), style);
}

void Svg::area(const std::vector<Point>& points, std::string_view style) {
    out_ += fmt::format(R"(<polygon points="{}" class="{}"/>)", places(points), style);
}

void Svg::rect(const Box& box, std::string_view style) {
    out_ +=
        fmt::format(R"(<rect x="{:.1f}" y="{:.1f}" width="{:.1f}" height="{:.1f}" class="{}"/>)",
                    box.corner.x, box.corner.y, box.width, box.height, style);
}

void Svg::circle(const Circle& circle, std::string_view style) {
    out_ += fmt::format(R"(<circle cx="{:.1f}" cy="{:.1f}" r="{:.1f}" class="{}"/>)",
                        circle.centre.x, circle.centre.y, circle.radius, style);
}

void Svg::text(const Point& at, std::string_view words, std::string_view style) {
    out_ += fmt::format(R"(<text x="{:.1f}" y="{:.1f}" class="{}">{}</text>)", at.x, at.y, style,
                        escaped(words));
}

void Svg::text_up(const Point& at, std::string_view words, std::string_view style) {
    out_ += fmt::format(
        R"svg(<text transform="translate({:.1f} {:.1f}) rotate(-90)" class="{}">{}</text>)svg",
        at.x, at.y, style, escaped(words));
}

void Svg::head(const Point& tip, const Point& from, std::string_view style) {
    constexpr double length = 8;
    constexpr double half_width = 3.2;
    const double run = std::hypot(tip.x - from.x, tip.y - from.y);
    if (run <= 0) return;
    const Point along{(tip.x - from.x) / run, (tip.y - from.y) / run};
    const Point foot{tip.x - length * along.x, tip.y - length * along.y};
    area({tip,
          {foot.x - half_width * along.y, foot.y + half_width * along.x},
          {foot.x + half_width * along.y, foot.y - half_width * along.x}},
         fmt::format("head {}", style));
}

void Svg::arrow(const Segment& segment, std::string_view style) {
    line(segment, style);
    head(segment.to, segment.from, style);
}

void Svg::turn_arrow(const Circle& circle, const Turn& turn, std::string_view style) {
    constexpr double step_deg = 4;
    std::vector<Point> points;
    const int pieces = std::max(
        2, static_cast<int>(std::lround(std::fabs(turn.to_deg - turn.from_deg) / step_deg)));
    for (int i = 0; i <= pieces; ++i)
        points.push_back(
            at_clock(circle, turn.from_deg + (turn.to_deg - turn.from_deg) * i / pieces));
    path(points, style);
    head(points.back(), points[points.size() - 2], style);
}

std::string Svg::take() const {
    return out_ + "</svg>";
}

}  // namespace caseload
