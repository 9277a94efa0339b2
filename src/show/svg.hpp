// SPDX-License-Identifier: MIT
// Pictures as text. The look of each class of line is in tables/page.css.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

struct Point {
    double x = 0;
    double y = 0;
};
struct Segment {
    Point from;
    Point to;
};
struct Box {
    Point corner;
    double width = 0;
    double height = 0;
};
struct Circle {
    Point centre;
    double radius = 0;
};

/// Values to places, linear, limited to its ends.
struct Ruler {
    double first = 0;
    double last = 1;
    double at_first = 0;
    double at_last = 1;
    [[nodiscard]] double operator()(double value) const;
};

/// Round values from first to last, at most this many.
std::vector<double> round_ticks(const Ruler& axis, int most);

/// Where labels go that would run into each other: each as near its place as the gap allows, none
/// below the last place allowed.
struct LabelRoom {
    double gap = 0;
    double lowest = 0;
};
std::vector<double> spread(const std::vector<double>& wanted, const LabelRoom& room);

class Svg {
public:
    /// What the picture shows, for those who do not see it.
    Svg(const Box& size, std::string_view label);

    void line(const Segment& segment, std::string_view style);
    void path(const std::vector<Point>& points, std::string_view style);
    void area(const std::vector<Point>& points, std::string_view style);
    void rect(const Box& box, std::string_view style);
    void circle(const Circle& circle, std::string_view style);
    void text(const Point& at, std::string_view words, std::string_view style);
    /// Reads from below upwards.
    void text_up(const Point& at, std::string_view words, std::string_view style);
    /// With its head at the second point.
    void arrow(const Segment& segment, std::string_view style);
    /// Part of a circle, angles clockwise from the top, the head at the second.
    struct Turn {
        double from_deg = 0;
        double to_deg = 0;
    };
    void turn_arrow(const Circle& circle, const Turn& turn, std::string_view style);

    [[nodiscard]] std::string take() const;

private:
    void head(const Point& tip, const Point& from, std::string_view style);
    std::string out_;
};

/// At a clock position, 0 up, 90 right.
Point at_clock(const Circle& circle, double clock_deg);

}  // namespace caseload
