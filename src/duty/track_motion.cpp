// SPDX-License-Identifier: MIT
// Speed, its slope, standing still and grades of a cleaned track.
#include "caseload/formulas/track_noise.hpp"
#include "duty/track.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::duty {
namespace {

constexpr double stands_below = 0.8;  // m/s; judgement: the noise of a phone that lies still
// Judgement: 1 sd of a speed by Doppler in a car (receivers promise 0.2 m/s per axis at 95 %), and
// of a place from one second to the next.
constexpr double logged_speed_sd_mps = 0.15;
constexpr double place_sd_m = 0.7;
constexpr double slope_half_s = 0.5;   // and at least to the next sample: longer ones lose bursts
constexpr int most_half = 50;          // samples: faster than 100 Hz is no track
constexpr int slope_half_places = 2;   // samples, of a speed that is made of places
constexpr double standing_half_s = 5;  // of the way between places that says the car stands
constexpr double shortest_standing_s = 4;
// A phone's altitude is 3 to 5 m off for half a minute: grades over 300 m are 0.014 off (1 sd) and
// single ramps are not seen. Judgement.
constexpr double grade_half_m = 150;
constexpr double grade_cell_m = 5;  // points nearer than this are one
constexpr std::size_t least_grade_points = 5;
constexpr double shortest_grade_m = 30;  // below it the slope is noise
constexpr double steepest = 0.9;         // of the formula's range 1
// As common map programs count climbs (their maintainers' threads): mean of five points, then 10 m
// before it is a climb.
constexpr double least_climb_m = 10;
constexpr int climb_half_points = 2;

void take_logged(const TrackPiece& piece, double median_dt_s, std::vector<TrackSample>& samples) {
    const std::size_t count = piece.points.size();
    double way_m = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const TrackPoint& point = piece.points[i];
        TrackSample sample;
        sample.t_s = point.t_s;
        sample.dt_s = i + 1 < count ? piece.points[i + 1].t_s - point.t_s : median_dt_s;
        sample.speed_mps = *point.speed_mps;
        sample.stands = sample.speed_mps < stands_below;
        sample.altitude_m = point.altitude_m;
        sample.way_m = way_m;
        way_m += sample.speed_mps * sample.dt_s;
        samples.push_back(sample);
    }
}

/// Between each two points one; the car stands where it comes nowhere.
void take_places(const TrackPiece& piece, std::vector<TrackSample>& samples) {
    double way_m = 0;
    for (std::size_t i = 0; i + 1 < piece.points.size(); ++i) {
        const TrackPoint& a = piece.points[i];
        const TrackPoint& b = piece.points[i + 1];
        TrackSample sample;
        sample.t_s = (a.t_s + b.t_s) / 2;
        sample.dt_s = b.t_s - a.t_s;
        const double step_m = distance_m(a, b);
        sample.speed_mps = step_m / sample.dt_s;
        sample.way_m = way_m + step_m / 2;
        way_m += step_m;
        if (a.altitude_m && b.altitude_m) sample.altitude_m = (*a.altitude_m + *b.altitude_m) / 2;
        samples.push_back(sample);
    }
    std::size_t from = 0;
    std::size_t to = 0;
    for (TrackSample& sample : samples) {
        while (piece.points[from].t_s < sample.t_s - standing_half_s) ++from;
        while (to + 1 < piece.points.size() &&
               piece.points[to + 1].t_s <= sample.t_s + standing_half_s)
            ++to;
        const double span_s = piece.points[to].t_s - piece.points[from].t_s;
        sample.stands =
            span_s >= shortest_standing_s
                ? distance_m(piece.points[from], piece.points[to]) < stands_below * span_s
                : sample.speed_mps < stands_below;
    }
}

/// Least squares over `half` samples to each side, as far as the piece goes.
void take_slopes(std::vector<TrackSample>& samples, int half) {
    const auto count = static_cast<int>(samples.size());
    for (int i = 0; i < count; ++i) {
        const int from = std::max(0, i - half);
        const int to = std::min(count - 1, i + half);
        double t_mean_s = 0;
        double v_mean_mps = 0;
        for (int k = from; k <= to; ++k) {
            t_mean_s += samples[static_cast<std::size_t>(k)].t_s;
            v_mean_mps += samples[static_cast<std::size_t>(k)].speed_mps;
        }
        t_mean_s /= to - from + 1;
        v_mean_mps /= to - from + 1;
        double tt = 0;
        double tv = 0;
        for (int k = from; k <= to; ++k) {
            const TrackSample& one = samples[static_cast<std::size_t>(k)];
            tt += (one.t_s - t_mean_s) * (one.t_s - t_mean_s);
            tv += (one.t_s - t_mean_s) * (one.speed_mps - v_mean_mps);
        }
        samples[static_cast<std::size_t>(i)].acceleration_mps2 = tt > 0 ? tv / tt : 0;
    }
}

/// Points of the path's height, neighbours put together.
struct HeightCell {
    double way_m = 0;
    double altitude_m = 0;
    std::size_t points = 0;
};

std::vector<HeightCell> heights_of(const std::vector<TrackSample>& samples) {
    std::vector<HeightCell> cells;
    double begun_m = 0;
    for (const TrackSample& sample : samples) {
        if (!sample.altitude_m) continue;
        if (cells.empty() || sample.way_m - begun_m >= grade_cell_m) {
            cells.emplace_back();
            begun_m = sample.way_m;
        }
        HeightCell& cell = cells.back();
        const auto n = static_cast<double>(++cell.points);
        cell.way_m += (sample.way_m - cell.way_m) / n;
        cell.altitude_m += (*sample.altitude_m - cell.altitude_m) / n;
    }
    return cells;
}

double grade_over(const std::vector<HeightCell>& cells, std::size_t from, std::size_t to) {
    if (to <= from || cells[to].way_m - cells[from].way_m < shortest_grade_m) return 0;
    double s_mean_m = 0;
    double z_mean_m = 0;
    const auto count = static_cast<double>(to - from + 1);
    for (std::size_t k = from; k <= to; ++k) {
        s_mean_m += cells[k].way_m / count;
        z_mean_m += cells[k].altitude_m / count;
    }
    double ss = 0;
    double sz = 0;
    for (std::size_t k = from; k <= to; ++k) {
        ss += (cells[k].way_m - s_mean_m) * (cells[k].way_m - s_mean_m);
        sz += (cells[k].way_m - s_mean_m) * (cells[k].altitude_m - z_mean_m);
    }
    return std::clamp(sz / ss, -steepest, steepest);
}

void take_grades(std::vector<TrackSample>& samples) {
    const std::vector<HeightCell> cells = heights_of(samples);
    if (cells.size() < least_grade_points) return;
    std::size_t from = 0;
    std::size_t to = 0;
    for (TrackSample& sample : samples) {
        while (from + 1 < cells.size() && cells[from].way_m < sample.way_m - grade_half_m) ++from;
        while (to + 1 < cells.size() && cells[to + 1].way_m <= sample.way_m + grade_half_m) ++to;
        std::size_t first = std::min(from, to);
        std::size_t last = to;
        while (last - first + 1 < least_grade_points) {
            if (first > 0) --first;
            if (last + 1 < cells.size()) ++last;
        }
        sample.grade = grade_over(cells, first, last);
    }
}

double climbed_m(const std::vector<MotionPiece>& pieces) {
    std::vector<double> heights_m;
    for (const MotionPiece& piece : pieces)
        for (const TrackSample& sample : piece.samples)
            if (sample.altitude_m && !sample.stands) heights_m.push_back(*sample.altitude_m);
    double climbed = 0;
    double from_m = 0;
    const auto count = static_cast<int>(heights_m.size());
    for (int i = 0; i < count; ++i) {
        double mean_m = 0;
        const int first = std::max(0, i - climb_half_points);
        const int last = std::min(count - 1, i + climb_half_points);
        for (int k = first; k <= last; ++k)
            mean_m += heights_m[static_cast<std::size_t>(k)] / (last - first + 1);
        if (i == 0) from_m = mean_m;
        if (mean_m >= from_m + least_climb_m) {
            climbed += mean_m - from_m;
            from_m = mean_m;
        }
        from_m = std::min(from_m, mean_m);
    }
    return climbed;
}

}  // namespace

Motion motion_of(const CleanTrack& track) {
    Motion motion;
    const double step_s = track.median_dt_s;
    const int half =
        track.speed_logged
            ? std::clamp(static_cast<int>(std::lround(slope_half_s / step_s)), 1, most_half)
            : slope_half_places;
    motion.window_s = half * step_s;
    const double speed_sd_mps =
        track.speed_logged ? logged_speed_sd_mps : std::sqrt(2.0) * place_sd_m / step_s;
    motion.acceleration_sd_mps2 = track_noise::slope_sd_mps2(speed_sd_mps, step_s, half);
    for (const TrackPiece& piece : track.pieces) {
        MotionPiece moving;
        moving.gap_s = piece.gap_s;
        moving.gap_m = piece.gap_m;
        if (track.speed_logged)
            take_logged(piece, step_s, moving.samples);
        else
            take_places(piece, moving.samples);
        take_slopes(moving.samples, half);
        if (track.altitude) take_grades(moving.samples);
        motion.pieces.push_back(std::move(moving));
    }
    if (track.altitude) motion.climbed_m = climbed_m(motion.pieces);
    return motion;
}

}  // namespace caseload::duty
