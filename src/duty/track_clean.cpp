// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "duty/track.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::duty {
namespace {

// Judgement, all.
constexpr double longest_step_s = 5;    // beyond it points are missing
constexpr double fastest_mps = 80;      // no car moves further between two points
constexpr double most_accuracy_m = 20;  // a phone in a pocket is worse
constexpr double highest_m = 20000;     // a height beyond is a fault
constexpr double enough_of_points = 0.8;
constexpr double shortest_step_s = 0.75;    // between places that speed is made of
constexpr std::size_t jumps_that_last = 5;  // then it was the points before that were wrong

bool has_place(const TrackPoint& point) {
    return point.latitude_deg && point.longitude_deg && std::fabs(*point.latitude_deg) <= 90 &&
           std::fabs(*point.longitude_deg) <= 360;
}

bool has_speed(const TrackPoint& point) {
    return point.speed_mps && *point.speed_mps >= 0;  // receivers write -1 where they know none
}

bool accurate(const TrackPoint& point) {
    return !point.accuracy_m || (*point.accuracy_m >= 0 && *point.accuracy_m <= most_accuracy_m);
}

double median_step_s(const std::vector<TrackPoint>& points) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const double step_s = points[i].t_s - points[i - 1].t_s;
        if (step_s > 0) steps.push_back(step_s);
    }
    if (steps.empty()) return 0;
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

template <class True>
bool mostly(const std::vector<TrackPoint>& points, True&& is) {
    const auto count = std::count_if(points.begin(), points.end(), is);
    return static_cast<double>(count) >= enough_of_points * static_cast<double>(points.size());
}

class Cleaner {
public:
    explicit Cleaner(CleanTrack& track) : track_(track) {}

    void add(TrackPoint point) {
        if (!accurate(point)) {
            ++track_.inaccurate;
            return;
        }
        if (!(track_.speed_logged ? has_speed(point) : has_place(point))) {
            ++track_.lacking;
            return;
        }
        if (point.altitude_m && !(std::fabs(*point.altitude_m) <= highest_m)) point.altitude_m = {};
        if (track_.pieces.empty()) return begin(point, 0, {});
        const TrackPoint& last = track_.pieces.back().points.back();
        point.t_s += shift_s_;
        double dt_s = point.t_s - last.t_s;
        if (dt_s == 0) {
            ++track_.duplicates;
            return;
        }
        if (dt_s < 0) {
            if (dt_s >= -1.5 * track_.median_dt_s) {
                ++track_.late;
                return;
            }
            // The clock was set back, or another drive follows: how long after is not known.
            ++track_.restarts;
            shift_s_ += track_.median_dt_s - dt_s;
            point.t_s += track_.median_dt_s - dt_s;
            return begin(point, 0, {});
        }
        if (!track_.speed_logged && dt_s < shortest_step_s) return;
        const std::optional<double> way_m = has_place(point) && has_place(last)
                                                ? std::optional(distance_m(last, point))
                                                : std::nullopt;
        if ((way_m && *way_m > fastest_mps * dt_s) ||
            (track_.speed_logged && *point.speed_mps > fastest_mps)) {
            ++track_.jumps;
            if (++jumps_in_a_row_ < jumps_that_last) return;
            return begin(point, dt_s, {});
        }
        jumps_in_a_row_ = 0;
        if (dt_s > longest_step_s) return begin(point, dt_s, way_m);
        track_.pieces.back().points.push_back(point);
    }

private:
    void begin(const TrackPoint& point, double gap_s, std::optional<double> gap_m) {
        jumps_in_a_row_ = 0;
        // The last point before has a step of its own where it has a speed.
        if (track_.speed_logged) gap_s = std::max(0.0, gap_s - track_.median_dt_s);
        track_.pieces.push_back({{point}, gap_s, gap_m});
    }

    CleanTrack& track_;
    double shift_s_ = 0;
    std::size_t jumps_in_a_row_ = 0;
};

}  // namespace

double distance_m(const TrackPoint& a, const TrackPoint& b) {
    constexpr double radius_m = 6371e3;
    const double a_rad = rad_from_deg(*a.latitude_deg);
    const double b_rad = rad_from_deg(*b.latitude_deg);
    const double north = std::sin((b_rad - a_rad) / 2);
    const double east = std::sin(rad_from_deg(*b.longitude_deg - *a.longitude_deg) / 2);
    const double half = north * north + std::cos(a_rad) * std::cos(b_rad) * east * east;
    return 2 * radius_m * std::asin(std::min(1.0, std::sqrt(half)));
}

CleanTrack clean_track(const std::vector<TrackPoint>& points, const std::string& file) {
    CleanTrack track;
    track.median_dt_s = median_step_s(points);
    track.speed_logged = mostly(points, has_speed);
    track.altitude =
        mostly(points, [](const TrackPoint& point) { return point.altitude_m.has_value(); });
    const auto refuse = [&](std::string text, std::string hint) {
        throw Error(Error::Kind::input,
                    {Problem{{file, 0, 0, 0, {}}, std::move(text), std::move(hint)}});
    };
    if (points.size() < 2 || track.median_dt_s <= 0)
        refuse(fmt::format("the track has {} point{}, not two times", points.size(),
                           points.size() == 1 ? "" : "s"),
               "record a drive of 10 min or more");
    if (track.median_dt_s > longest_step_s)
        refuse(fmt::format("points of the track are {:.3g} s apart; more than {:g} s says nothing "
                           "of how the car was driven between them",
                           track.median_dt_s, longest_step_s),
               "record a point a second");
    Cleaner cleaner(track);
    for (const TrackPoint& point : points) cleaner.add(point);
    if (!track.pieces.empty() && track.restarts == 0)
        track.ends_s = std::max(0.0, track.pieces.front().points.front().t_s - points.front().t_s) +
                       std::max(0.0, points.back().t_s - track.pieces.back().points.back().t_s);
    if (!track.speed_logged && track.median_dt_s < shortest_step_s) {
        // Places nearer to each other than that are noise: every so many were taken.
        std::vector<TrackPoint> taken;
        for (const TrackPiece& piece : track.pieces)
            taken.insert(taken.end(), piece.points.begin(), piece.points.end());
        track.median_dt_s = median_step_s(taken);
    }
    if (track.pieces.empty() || track.median_dt_s <= 0)
        refuse(fmt::format("no point of the track can be used: {} less accurate than {:g} m, {} "
                           "without a place or speed",
                           track.inaccurate, most_accuracy_m, track.lacking),
               "was the phone in a pocket? Fix it where it sees the sky");
    return track;
}

}  // namespace caseload::duty
