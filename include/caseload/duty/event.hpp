// SPDX-License-Identifier: MIT
// A logger's file as an event: legs with bins that keep its damage, stops, torque peaks.
#pragma once

#include "caseload/duty/log.hpp"
#include "caseload/model.hpp"
#include "caseload/pace.hpp"

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::duty {

/// What the log is of, as far as a setup says it.
struct Car {
    VehicleInput vehicle;
    double drop_ratio = 0;
    double air_density_kgpm3 = 0;
};

/// The ground a track was driven on: a course.
struct TrackGround {
    std::string course;
    pace::Ground ground;
};

/// Does two pieces of work at the same time, or one after the other; neither throws.
using SideBySide = std::function<void(const std::function<void()>&, const std::function<void()>&)>;

struct DutyOptions {
    ReadOptions read;
    std::optional<Car> car;
    std::optional<Setup> setup;        ///< whose teeth the bins keep
    std::optional<double> resistance;  ///< rolling resistance, where torque comes from motion
    std::optional<TrackGround> ground;
    std::optional<double> shortest_stop_s;  ///< left out: 60 s, of a track 20 s
    bool force = false;                     ///< also below the coverage that is wanted
    std::function<void(std::uint64_t bytes)> progress{};
    SideBySide side_by_side{};  ///< where given, for reading ahead: the answer is the same
};

/// Beyond this share of the driving's time or way the event depends too much on driving that was
/// not logged. Judgement.
inline constexpr double most_unknown_share = 0.1;

/// Below this share of the time a log says too little. Common practice, no published source.
inline constexpr double least_coverage = 0.8;

/// Shortest track that says something of a duty, time in which the car drives. Judgement.
inline constexpr double shortest_track_s = 600;
/// Beyond this share of the driving time the track asks for more than the car has. Judgement.
inline constexpr double most_over_share = 0.05;
/// Noise, grades and a resistance that changes along the way put samples this far beyond the car.
/// Judgement.
inline constexpr double over_margin = 1.15;

enum class TorqueSource { case_column, engine_column, engine_table, road_load, track };
enum class SpeedSource { case_column, engine_and_gear, road_speed, track, places };
/// As the screen and the written event say it.
[[nodiscard]] std::string_view words_of(TorqueSource source);
[[nodiscard]] std::string_view words_of(SpeedSource source);

/// One gear as seen in the log.
struct GearSeen {
    double ratio = 0;  ///< of the gearbox, as the setup says
    double time_s = 0;
};

/// Revolutions-weighted sums over the samples, and by how much the bins differ from them.
struct Agreement {
    std::string words;
    double off_share = 0;  ///< bins over samples - 1
};

/// In per cent with its sign, three decimals: "+0.012".
[[nodiscard]] std::string percent_of(double off_share);

struct OilRow {
    double after_s = 0;  ///< from the leg's start
    double temp_degC = 0;
};

/// Oil over one leg; the first row is the leg's start.
struct OilSeries {
    std::string leg;
    std::vector<OilRow> rows;
    std::optional<double> ambient_degC;  ///< mean over the leg, if it is logged
};

/// What is known of a phone's track besides the log's numbers.
struct TrackFacts {
    bool gpx = false;
    std::size_t points = 0;  ///< in the file
    std::size_t lacking = 0;
    std::size_t inaccurate = 0;
    std::size_t jumps = 0;
    bool altitude = false;
    double climbed_m = 0;
    std::string course;  ///< whose ground it was, or ""
    double resistance = 0;
    bool entered = false;  ///< the resistance
    double slip = 0;
    double window_s = 0;  ///< of the slope of speed, to each side
    double power_factor = 1;
    double force_factor = 1;
    double noise_share = 0;  ///< taken off the power
    double over_share = 0;   ///< of the driving time: more than engine or grip give
    bool by_grip = false;    ///< of that most beyond grip, else engine
    double steep_share = 0;  ///< of the driving time: climbs faster than the engine could
};

struct DutyAnswer {
    std::string file;
    Dialect dialect;
    std::vector<Column> columns;
    std::vector<std::string> left_over;  ///< headings of no channel; "#7" of one without a name
    std::vector<std::string> remarks;
    SpeedSource speed = SpeedSource::case_column;
    TorqueSource torque = TorqueSource::case_column;
    double median_dt_s = 0;
    double slowest_step_s = 0;  ///< of the channels speed and torque need; else median_dt_s
    std::size_t lines = 0;
    std::size_t samples = 0;
    std::size_t duplicates = 0;
    std::size_t late = 0;
    std::size_t restarts = 0;
    std::size_t gaps = 0;
    std::size_t filled = 0;
    double gap_s = 0;
    double longest_gap_s = 0;
    double excluded_s = 0;
    double logged_s = 0;
    double coverage = 0;
    std::array<std::size_t, channel_count> rejected{};
    std::vector<GearSeen> gears;
    double no_gear_s = 0;
    std::vector<LegInput> legs;  ///< in the order driven; what was not read is in their lengths
    double unknown_s = 0;        ///< driven, but not read
    double unknown_m = 0;
    double rest_s = 0;  ///< not read, but the car stands before and after

    /// Of the drives' time and of their way.
    [[nodiscard]] double unknown_time_share() const;
    [[nodiscard]] double unknown_way_share() const;
    double gate_Nm = 0;      ///< cycles of a smaller range are not counted
    double coast_share = 0;  ///< of the driving time
    double mean_drive_power_W = 0;
    double largest_Nm = 0;
    std::vector<double> largest_ranges_Nm;  ///< at most 10, falling
    std::vector<Agreement> agreement;
    std::optional<double> ambient_degC;
    std::vector<double> oil_degC;  ///< 10, 50, 90 % of the time; empty: not logged
    std::vector<OilSeries> oil;    ///< of legs long enough to say something
    std::optional<TrackFacts> track;
};

/// Throws Error{input} for a log that cannot be read or says too little.
DutyAnswer read_duty(Bytes& bytes, const std::string& file, const DutyOptions& options);

/// The overload of legs made of a track: bursts are in it, shocks are not. Judgement, 1.0 to 1.25.
inline constexpr double track_overload = 1.1;

/// The event as TOML for event.from, its sources as comments.
std::string event_text(const DutyAnswer& answer);

/// Names of the files the readings' setup is based on, as seen from its folder.
struct ReadingsOf {
    std::string base;
    std::string event;
    std::optional<double> ambient_degC;  ///< where the log has none
};
/// The logged oil as a setup for calibrate. Throws Error{input}: no leg has an oil temperature that
/// says something.
std::string readings_text(const DutyAnswer& answer, const ReadingsOf& of);

}  // namespace caseload::duty
