// SPDX-License-Identifier: MIT
// The case from behind, to scale.
#include "caseload/figures.hpp"
#include "caseload/units.hpp"
#include "show/page_parts.hpp"
#include "show/svg.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace caseload {
namespace {

/// Millimetres of the case, y to the right and z up, to places on the sheet.
struct Sheet {
    double left_mm = std::numeric_limits<double>::infinity();
    double right_mm = -std::numeric_limits<double>::infinity();
    double low_mm = std::numeric_limits<double>::infinity();
    double high_mm = -std::numeric_limits<double>::infinity();
    double px_per_mm = 1;
    Point origin;

    void take_in(const ShaftPlace& shaft, double radius_mm) {
        left_mm = std::min(left_mm, shaft.y_mm - radius_mm);
        right_mm = std::max(right_mm, shaft.y_mm + radius_mm);
        low_mm = std::min(low_mm, shaft.z_mm - radius_mm);
        high_mm = std::max(high_mm, shaft.z_mm + radius_mm);
    }
    [[nodiscard]] Point at(const ShaftPlace& shaft) const { return place(shaft.y_mm, shaft.z_mm); }
    [[nodiscard]] Point place(double y_mm, double z_mm) const {
        return {origin.x + (y_mm - left_mm) * px_per_mm, origin.y + (high_mm - z_mm) * px_per_mm};
    }
};

class CasePicture {
public:
    CasePicture(const Answer& answer, const Units& units, double width)
        : answer_(answer), units_(units), narrow_(width < wide_px), width_(width) {
        for (const ShaftPlace& shaft : answer.likely.loads.train.shafts)
            sheet_.take_in(shaft, shaft.tip_diameter_mm / 2);
        for (const BearingData& bearing : answer.likely.loads.bearings)
            sheet_.take_in(shaft_of(bearing), bearing.outside_mm / 2);
        const HousingInput& housing = answer.read.setup.housing;
        // Where the gears sit in their housing is not in the setup: drawn in its middle.
        const double middle_y = (sheet_.left_mm + sheet_.right_mm) / 2;
        const double middle_z = (sheet_.low_mm + sheet_.high_mm) / 2;
        housing_left_mm_ = middle_y - housing.across_mm / 2;
        housing_high_mm_ = middle_z + housing.high_mm / 2;
        sheet_.left_mm = std::min(sheet_.left_mm, housing_left_mm_);
        sheet_.right_mm = std::max(sheet_.right_mm, middle_y + housing.across_mm / 2);
        sheet_.low_mm = std::min(sheet_.low_mm, middle_z - housing.high_mm / 2);
        sheet_.high_mm = std::max(sheet_.high_mm, housing_high_mm_);
        const double room_px = narrow_ ? width - 16 : 330;
        const double tall_px = narrow_ ? 420 : 440;
        sheet_.px_per_mm = std::min(room_px / (sheet_.right_mm - sheet_.left_mm),
                                    tall_px / (sheet_.high_mm - sheet_.low_mm));
        const double used_px = (sheet_.right_mm - sheet_.left_mm) * sheet_.px_per_mm;
        sheet_.origin = {narrow_ ? (width - used_px) / 2 : 150 + (330 - used_px) / 2, 20};
        for (const BearingDamage& bearing : answer.likely.fitted.damage.bearings)
            largest_N_ = std::max(largest_N_, bearing.P_largest_N);
    }

    std::string draw() {
        const double foot = sheet_.origin.y + (sheet_.high_mm - sheet_.low_mm) * sheet_.px_per_mm;
        const auto bearings = static_cast<double>(answer_.likely.loads.bearings.size());
        const double height =
            narrow_ ? foot + 44 + 18 * bearings + 10 : std::max(foot + 44, 40 + 56 * bearings);
        Svg svg({{}, width_, height},
                "The case seen from behind, to scale: gears, bearings, turning directions and "
                "where each bearing is loaded; the numbers are in the table below");
        const HousingInput& housing = answer_.read.setup.housing;
        svg.rect({sheet_.place(housing_left_mm_, housing_high_mm_),
                  housing.across_mm * sheet_.px_per_mm, housing.high_mm * sheet_.px_per_mm},
                 "outline");
        for (const ShaftPlace& shaft : answer_.likely.loads.train.shafts) gear(svg, shaft);
        centre_lines(svg);
        for (std::size_t b = 0; b < answer_.likely.loads.bearings.size(); ++b) load(svg, b);
        for (const ShaftPlace& shaft : answer_.likely.loads.train.shafts) names(svg, shaft);
        scale_bar(svg, foot + 26);
        legend(svg, narrow_ ? foot + 52 : 24);
        return svg.take();
    }

private:
    [[nodiscard]] const ShaftPlace& shaft_of(const BearingData& bearing) const {
        return answer_.likely.loads.train.shafts[static_cast<std::size_t>(bearing.shaft)];
    }
    [[nodiscard]] double px(double mm) const { return mm * sheet_.px_per_mm; }

    void gear(Svg& svg, const ShaftPlace& shaft) const {
        const Point centre = sheet_.at(shaft);
        svg.circle({centre, px(shaft.tip_diameter_mm / 2)}, "gear");
        svg.circle({centre, px(shaft.pitch_diameter_mm / 2)}, "pitch");
        for (const BearingData& bearing : answer_.likely.loads.bearings) {
            if (&shaft_of(bearing) != &shaft) continue;
            svg.circle({centre, px(bearing.outside_mm / 2)}, "ring");
            svg.circle({centre, px(bearing.bore_mm / 2)}, "ring");
        }
        // Away from the loads' arrows: inside the teeth.
        const Circle way{centre, px(shaft.pitch_diameter_mm / 2) - 12};
        svg.turn_arrow(way, shaft.clockwise ? Svg::Turn{-38, 38} : Svg::Turn{38, -38}, "turns");
    }

    void centre_lines(Svg& svg) const {
        const auto& train = answer_.likely.loads.train;
        for (std::size_t m = 0; m < train.meshes.size(); ++m) {
            const Point from =
                sheet_.at(train.shafts[static_cast<std::size_t>(train.meshes[m].driver)]);
            const Point to =
                sheet_.at(train.shafts[static_cast<std::size_t>(train.meshes[m].driven)]);
            svg.line({from, to}, "centre");
        }
    }

    void load(Svg& svg, std::size_t b) const {
        const BearingDamage& damage = answer_.likely.fitted.damage.bearings[b];
        if (largest_N_ <= 0 || damage.P_largest_N <= 0) return;
        const Point centre = sheet_.at(shaft_of(answer_.likely.loads.bearings[b]));
        constexpr double longest_px = 62;
        constexpr double beside_px = 5;
        const double length = 18 + (longest_px - 18) * damage.P_largest_N / largest_N_;
        // Bearings of a shaft press much the same way: side by side.
        const double side = front(b) ? -beside_px : beside_px;
        const Point foot = at_clock({centre, side}, damage.clock_deg + 90);
        svg.arrow({foot, at_clock({foot, length}, damage.clock_deg)},
                  front(b) ? "load-front" : "load-rear");
    }

    [[nodiscard]] bool front(std::size_t b) const {
        const BearingData& bearing = answer_.likely.loads.bearings[b];
        return bearing.at_mm < shaft_of(bearing).gear_at_mm;
    }

    void names(Svg& svg, const ShaftPlace& shaft) const {
        const Point centre = sheet_.at(shaft);
        const std::string words = fmt::format("{}, {} teeth", spaced(shaft.name), shaft.teeth);
        if (narrow_) {
            svg.text({centre.x, centre.y + px(shaft.pitch_diameter_mm / 2) - 10}, words,
                     "mid strong halo");
            return;
        }
        const Point edge = at_clock({centre, px(shaft.tip_diameter_mm / 2)}, 270);
        svg.line({{0, centre.y + 5}, {110, centre.y + 5}}, "leader");
        svg.line({{110, centre.y + 5}, edge}, "leader");
        svg.text({0, centre.y}, words, "strong halo");
        svg.text({0, centre.y + 19},
                 fmt::format("turns {}", shaft.clockwise ? "clockwise" : "anticlockwise"),
                 "faint halo");
    }

    void scale_bar(Svg& svg, double y) const {
        const double length_mm = units_.imperial() ? mm_from_in(2) : 50;
        const double x = sheet_.place(sheet_.left_mm, 0).x;
        svg.line({{x, y}, {x + px(length_mm), y}}, "heavy");
        svg.line({{x, y - 5}, {x, y + 5}}, "ink");
        svg.line({{x + px(length_mm), y - 5}, {x + px(length_mm), y + 5}}, "ink");
        svg.text({x + px(length_mm) + 8, y + 4}, units_.imperial() ? "2 in" : "50 mm", "");
    }

    void legend(Svg& svg, double y) const {
        const auto& bearings = answer_.likely.loads.bearings;
        const double x = narrow_ ? 0 : 530;
        for (std::size_t b = 0; b < bearings.size(); ++b) {
            const BearingDamage& damage = answer_.likely.fitted.damage.bearings[b];
            svg.arrow({{x, y - 4}, {x + 26, y - 4}}, front(b) ? "load-front" : "load-rear");
            const std::string name = spaced(damage.name);
            const std::string towards = fmt::format("towards {}", clock_words(damage.clock_deg));
            const std::string force = "up to " + units_.value(std::round(damage.P_largest_N), "N");
            if (narrow_) {
                svg.text({x + 34, y}, fmt::format("{}: {}", name, towards), "");
                y += 18;
                continue;
            }
            svg.text({x + 34, y}, name, "strong");
            svg.text({x + 34, y + 16}, towards, "");
            svg.text({x + 34, y + 32}, force, "");
            y += 56;
        }
    }

    const Answer& answer_;
    const Units& units_;
    bool narrow_;
    double width_;
    Sheet sheet_;
    double housing_left_mm_ = 0;
    double housing_high_mm_ = 0;
    double largest_N_ = 0;
};

std::string table(const Answer& answer, const Units& units) {
    const auto length = [&](double mm) { return units.value(mm, "mm"); };
    HtmlTable shafts{
        "Shafts, in the order the power goes",
        {"Shaft", "Teeth", "Profile shift", "Outside diameter", "Turns", "Speed against the input"},
        {}};
    const Train& train = answer.likely.loads.train;
    const CutInput& cut = answer.read.setup.gears.cut;
    const auto entered = [](const std::vector<double>& list) {
        return list.empty() ? "" : ", entered";
    };
    for (std::size_t i = 0; i < train.shafts.size(); ++i) {
        const ShaftPlace& shaft = train.shafts[i];
        const double x = i == 0 ? train.meshes[0].pair.x_1 : train.meshes[i - 1].pair.x_2;
        shafts.rows.push_back({spaced(shaft.name), fmt::format("{}", shaft.teeth),
                               fmt::format("{:.3f}{}", x, entered(cut.profile_shift)),
                               length(shaft.tip_diameter_mm) + entered(cut.tip_diameter_mm),
                               shaft.clockwise ? "clockwise" : "anticlockwise",
                               fmt::format("{:.3f}", std::fabs(shaft.speed_ratio))});
    }
    HtmlTable loads{"Bearing loads",
                    {"Bearing", "From the front inside face", "Shaft presses towards",
                     "Largest equivalent load"},
                    {}};
    for (std::size_t b = 0; b < answer.likely.loads.bearings.size(); ++b) {
        const BearingData& bearing = answer.likely.loads.bearings[b];
        const BearingDamage& damage = answer.likely.fitted.damage.bearings[b];
        loads.rows.push_back({spaced(bearing.name), length(bearing.at_mm),
                              clock_words(damage.clock_deg),
                              units.value(std::round(damage.P_largest_N), "N")});
    }
    return table_html(shafts) + table_html(loads);
}

}  // namespace

std::string case_section(const PageAnswer& page, const Units& units) {
    const std::string distances = joined(page.answer.read.setup.transfer_case.centre_distance_mm,
                                         " and ", [&](double mm) { return units.value(mm, "mm"); });

    return "<section>\n<h2>The case from behind</h2>\n" +
           figure_html(
               {CasePicture(page.answer, units, wide_px).draw(),
                CasePicture(page.answer, units, narrow_px).draw(),
                fmt::format(
                    "Looking forward, driving; shafts {} apart. Long dashes: housing, drawn around "
                    "the middle of the gears. Arrows at the shafts: where each bearing's shaft "
                    "presses in the bin that wears it most, hollow head front, filled head rear, "
                    "longer for more load. Arrows in the teeth: turning.",
                    distances),
                table(page.answer, units)}) +
           "</section>\n";
}

}  // namespace caseload
