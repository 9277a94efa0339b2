// SPDX-License-Identifier: MIT
#include "duty/cells.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace caseload::duty {
namespace {

// What is kept: turns^a x |T|^p x n^b, as the chain takes torque and speed. Rolling bearings 3 and
// 10/3 in torque, steeper with the life factor; tooth flanks 6.61, roots 8.74 (ISO 6336-2, -3),
// with the dynamic factor rising in speed; mesh friction 1; drag about the square of speed.
struct Measure {
    double torque;
    double speed;       ///< beyond one turn a turn
    double weight = 1;  ///< of its error: heat is wanted closer than damage
};
constexpr Measure measures[] = {{1, 0, 3}, {3, 0}, {5, 0.3}, {6.61, 0.5}, {8.74, 0.7}, {0, 1}};
constexpr std::size_t measure_count = std::size(measures);
using Values = std::array<double, measure_count>;

constexpr double allowed = 0.001;  // of each sum over the leg

struct Point {
    CellSums sums;
    double torque_Nm = 0;  ///< size
    double speed_rpm = 0;
    Values values{};
};

/// Torque whose cube is the mean cube over the turns: bearings keep their life.
double torque_of(const CellSums& sums) {
    if (sums.turns <= 0) return 0;
    return std::cbrt(sums.torque_3_turns / sums.turns);
}

double speed_of(const CellSums& sums) {
    return sums.time_s > 0 ? 60 * sums.turns / sums.time_s : 0;
}

Values values_of(double turns, double torque_Nm, double speed_rpm) {
    Values values{};
    for (std::size_t k = 0; k < measure_count; ++k)
        values[k] = turns * std::pow(torque_Nm, measures[k].torque) *
                    std::pow(speed_rpm, measures[k].speed);
    return values;
}

void add(CellSums& to, const CellSums& more) {
    to.time_s += more.time_s;
    to.turns += more.turns;
    to.torque_turns += more.torque_turns;
    to.torque_3_turns += more.torque_3_turns;
    to.way_m += more.way_m;
}

struct Group {
    std::vector<Point> points;
    CellSums sums;
    double error = 0;  ///< largest part of a leg's sum that the group loses or adds
};

Group grouped(std::vector<Point> points, const Values& whole) {
    Group group;
    Values exact{};
    for (const Point& point : points) {
        add(group.sums, point.sums);
        for (std::size_t k = 0; k < measure_count; ++k) exact[k] += point.values[k];
    }
    const Values binned = values_of(group.sums.turns, torque_of(group.sums), speed_of(group.sums));
    for (std::size_t k = 0; k < measure_count; ++k)
        if (whole[k] > 0)
            group.error = std::max(group.error,
                                   measures[k].weight * std::fabs(binned[k] - exact[k]) / whole[k]);
    group.points = std::move(points);
    return group;
}

/// The better of halving the damage over torque and halving it over speed.
std::pair<Group, Group> halves(Group group, const Values& whole) {
    std::pair<Group, Group> best;
    double least = 1e300;
    for (const bool by_torque : {true, false}) {
        std::vector<Point>& points = group.points;
        std::sort(points.begin(), points.end(), [&](const Point& a, const Point& b) {
            return by_torque ? a.torque_Nm < b.torque_Nm : a.speed_rpm < b.speed_rpm;
        });
        for (const double part : {0.3, 0.5, 0.7}) {
            const double low = by_torque ? points.front().torque_Nm : points.front().speed_rpm;
            const double high = by_torque ? points.back().torque_Nm : points.back().speed_rpm;
            const double at = low + part * (high - low);
            const auto middle =
                std::partition_point(points.begin(), points.end(), [&](const Point& point) {
                    return (by_torque ? point.torque_Nm : point.speed_rpm) <= at;
                });
            if (middle == points.begin() || middle == points.end()) continue;
            std::pair<Group, Group> two{grouped({points.begin(), middle}, whole),
                                        grouped({middle, points.end()}, whole)};
            if (two.first.error + two.second.error >= least) continue;
            least = two.first.error + two.second.error;
            best = std::move(two);
        }
    }
    return best;
}

}  // namespace

std::vector<CellSums> Cells::take() {
    std::sort(touched_.begin(), touched_.end());
    std::vector<CellSums> taken;
    taken.reserve(touched_.size());
    for (const std::uint32_t at : touched_) {
        taken.push_back(cells_[at]);
        cells_[at] = {};
    }
    touched_.clear();
    return taken;
}

std::vector<Bin> bins_of(const std::vector<CellSums>& cells, std::size_t most) {
    Values whole{};
    double time_s = 0;
    std::vector<Point> drive;
    std::vector<Point> coast;
    for (const CellSums& sums : cells) {
        Point point{sums, torque_of(sums), speed_of(sums), {}};
        point.values = values_of(sums.turns, point.torque_Nm, point.speed_rpm);
        for (std::size_t k = 0; k < measure_count; ++k) whole[k] += point.values[k];
        time_s += sums.time_s;
        (sums.torque_turns < 0 ? coast : drive).push_back(point);
    }
    std::vector<Group> groups;
    for (std::vector<Point>* side : {&drive, &coast})
        if (!side->empty()) groups.push_back(grouped(std::move(*side), whole));
    while (groups.size() < most) {
        double sum = 0;
        std::size_t worst = groups.size();
        for (std::size_t i = 0; i < groups.size(); ++i) {
            sum += groups[i].error;
            if (groups[i].points.size() > 1 &&
                (worst == groups.size() || groups[i].error > groups[worst].error))
                worst = i;
        }
        if (sum <= allowed || worst == groups.size()) break;
        auto two = halves(std::move(groups[worst]), whole);
        groups[worst] = std::move(two.first);
        groups.push_back(std::move(two.second));
    }
    std::vector<Bin> bins;
    for (const Group& group : groups) {
        const double sign = group.sums.torque_turns < 0 ? -1 : 1;
        // The reader wants a case that turns; standing is told by one turn a minute.
        bins.push_back({group.sums.time_s / time_s, sign * torque_of(group.sums),
                        std::max(1.0, speed_of(group.sums)),
                        std::max(0.0, group.sums.way_m / group.sums.time_s)});
    }
    std::sort(bins.begin(), bins.end(), [](const Bin& a, const Bin& b) {
        return a.torque_Nm != b.torque_Nm ? a.torque_Nm > b.torque_Nm : a.speed_rpm > b.speed_rpm;
    });
    return bins;
}

}  // namespace caseload::duty
