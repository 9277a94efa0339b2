// SPDX-License-Identifier: MIT
// A phone's track: points of time, place and speed, cleaned, as motion of the car.
#pragma once

#include "caseload/duty/event.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::duty {

struct TrackPoint {
    double t_s = 0;
    std::optional<double> latitude_deg;
    std::optional<double> longitude_deg;
    std::optional<double> altitude_m;
    std::optional<double> speed_mps;
    std::optional<double> accuracy_m;
};

/// Points that follow each other without a gap, and the gap before them.
struct TrackPiece {
    std::vector<TrackPoint> points;
    double gap_s = 0;
    std::optional<double> gap_m;  ///< straight on, where both ends have a place
};

struct CleanTrack {
    std::vector<TrackPiece> pieces;
    bool speed_logged = false;  ///< else speed is from positions
    bool altitude = false;
    double median_dt_s = 0;
    std::size_t duplicates = 0;
    std::size_t late = 0;
    std::size_t restarts = 0;
    std::size_t lacking = 0;     ///< without a speed or place
    std::size_t inaccurate = 0;  ///< accuracy beyond 20 m
    std::size_t jumps = 0;       ///< beyond 80 m/s
    double ends_s = 0;           ///< before the first point that was taken, and behind the last
};
/// Throws Error{input} where nothing is left of it.
[[nodiscard]] CleanTrack clean_track(const std::vector<TrackPoint>& points,
                                     const std::string& file);

/// Great circle; haversine on a sphere of 6371 km (textbooks).
[[nodiscard]] double distance_m(const TrackPoint& a, const TrackPoint& b);

struct TrackSample {
    double t_s = 0;
    double dt_s = 0;
    double speed_mps = 0;
    double acceleration_mps2 = 0;
    double grade = 0;
    double way_m = 0;  ///< from the piece's start
    std::optional<double> altitude_m;
    bool stands = false;
};

/// Samples of a piece, and the gap before them.
struct MotionPiece {
    std::vector<TrackSample> samples;
    double gap_s = 0;
    std::optional<double> gap_m;
};

struct Motion {
    std::vector<MotionPiece> pieces;
    double acceleration_sd_mps2 = 0;  ///< of the noise
    double window_s = 0;              ///< of the slope, to each side
    double climbed_m = 0;
};
[[nodiscard]] Motion motion_of(const CleanTrack& track);

/// What a track's points do not show of bursts, of mean power and of the cube mean of the force.
struct LostBursts {
    double power_factor = 1;
    double force_factor = 1;
};

/// Points of a GPX file. Throws Error{input}: malformed, too large, a route without times.
[[nodiscard]] std::vector<TrackPoint> read_gpx(const std::string& text, const std::string& file);

inline constexpr std::size_t most_track_points = 400000;  ///< four days at 1 Hz
inline constexpr std::size_t most_gpx_bytes = std::size_t{16} << 20;

/// Fills all of the answer that follows from the points; lines, layout and columns are the
/// reader's.
void answer_track(const std::vector<TrackPoint>& points, const DutyOptions& options,
                  DutyAnswer& answer);

}  // namespace caseload::duty
