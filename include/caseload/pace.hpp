// SPDX-License-Identifier: MIT
// Pace and duty of a car on a kind of ground: at each place of it the speed that the engine, the
// grip, the ride or the driver allows. One lap over 48 segments whose statistics are the ground's;
// no random numbers, so the same bytes everywhere.
#pragma once

#include "caseload/pace_car.hpp"

#include <optional>
#include <vector>

namespace caseload::pace {

/// Statistics of a kind of ground. Ranges: what `lap` takes.
struct Ground {
    double roughness_m3 = 0;         ///< median G_d(n0) along it, 1e-6 to 1 (road_roughness.hpp)
    double roughness_spread = 0;     ///< standard deviation of its ln, 0 to 2
    double resistance_low = 0;       ///< of the soil, force over weight, 0 to 1
    double resistance_high = 0;      ///< evenly between the two
    double grade = 0;                ///< standard deviation of rise over run, 0 to 0.5
    double slow_spots_pkm = 0;       ///< bends, ditches, steps, 0.05 to 200 /km
    double slow_speed_mps = 0;       ///< median there, 0.1 to 60
    double slow_spread = 0;          ///< standard deviation of its ln, 0 to 2
    double grip = 0;                 ///< of the tyres where vehicle.grip is 0.6, 0.05 to 1.5
    double slip = 0;                 ///< mean of the tyres, 0 to 0.5
    double cap_mps = 0;              ///< sight, traffic, crawling, 0.5 to 120
    std::optional<double> throttle;  ///< share of the surplus used where it is never wide open
    double unevenness = 1;           ///< factor on the foot's, 0 to 2
    double step = 0;                 ///< grade of the last metre before a slow spot, 0 to 1

    bool operator==(const Ground&) const = default;
};

/// A piece of the lap, with a slow spot at its end.
struct Segment {
    double length_m = 0;
    double roughness_m3 = 0;
    double resistance = 0;
    double grade = 0;
    double slow_mps = 0;
};

/// The 48 segments of a ground. Throws Error{domain} where a member is outside its range.
[[nodiscard]] std::vector<Segment> segments(const Ground& ground);

struct Drive {
    double style = 0;              ///< -1 to finish, 0 quick, 1 flat out; -1.3 to 1.3
    double severity = 1;           ///< multiplies every roughness, e^-3 to e^2.5
    double resistance_factor = 1;  ///< on the soil's, 0.2 to 5
    double grip_factor = 1;        ///< 0.2 to 5
};

inline constexpr double least_ln_severity = -3;
inline constexpr double most_ln_severity = 2.5;

/// What a style does. Each is mid (hi / mid)^s, below 0 mid (lo / mid)^-s; judgement.
struct Style {
    double ride = 1;           ///< on the ride limit
    double corner = 1;         ///< on slow spots and cap
    double push = 0.85;        ///< share of the surplus force used, at most 1
    double brake = 0.70;       ///< share of grip used
    double unevenness = 0.50;  ///< of part throttle
};

/// Range -1.3 to 1.3, or Error{domain}.
[[nodiscard]] Style style_of(double style);

/// Some time of a cell of the lap.
struct State {
    double time_s = 0;
    double torque_Nm = 0;  ///< at the case input; below 0 where the engine is dragged
    double speed_rpm = 0;  ///< of the case input
    double way_m = 0;
};

using caseload::Fastest;

/// Shares of the lap's time; the first four are all of it.
struct Shares {
    double engine = 0;  ///< all the engine can do
    double grip = 0;    ///< all the tyres take
    double ride_and_slow =
        0;             ///< kept to the ride limit, the cap, traffic, or on the way to a spot
    double brake = 0;  ///< brakes on
    double open_throttle = 0;
    double open_at_engine = 0;  ///< of that, the part at the engine's limit
    double coast = 0;           ///< the engine is dragged
};

/// Work of the lap, J. Drive = resistance + climb + drag + brakes + coast + losses, but for what
/// the driver's uneven foot cannot have above grip and engine.
struct Work {
    double drive = 0;       ///< at the case input
    double coast = 0;       ///< into the engine that is dragged, at the case input
    double resistance = 0;  ///< soil and roughness
    double climb = 0;       ///< about 0: the grades add up to nothing but for steps
    double drag = 0;
    double brakes = 0;
    double losses = 0;  ///< slip and axles
};

struct Lap {
    double pace_mps = 0;
    double fast_mps = 0;  ///< not exceeded for 95 % of the time
    double highest_mps = 0;
    Fastest highest_by = Fastest::ride;  ///< what limits the speed there
    Shares shares;
    double crank_W = 0;  ///< mean over the time, 0 where the engine is dragged
    double fuel_Lph = 0;
    double fuel_Lp100km = 0;
    // Over the turns of the case input with drive torque.
    double torque_mean_Nm = 0;
    double torque_cube_Nm = 0;  ///< cube mean: ball bearings
    double torque_874_Nm = 0;   ///< mean of exponent 8.74: tooth roots of case-hardened gears
    double torque_largest_Nm = 0;
    double drive_rpm = 0;         ///< those turns over the time with drive torque
    double drive_rpm_of_all = 0;  ///< over all time
    double resistance = 0;        ///< mean over the way, roughness included
    double way_m = 0;
    double time_s = 0;
    int cells = 0;
    Work work;
    std::vector<State> states;  ///< in the order driven
};

/// One lap. Throws Error{domain} where a number is outside its range.
[[nodiscard]] Lap lap(const Car& car, const Ground& ground, const Drive& drive);

/// Over segments of one's own; length 0.5 m to 1e6 m, roughness 1e-7 to 1 m3, resistance 0 to 1,
/// grade -1 to 1, slow speed 0.1 to 120 m/s.
[[nodiscard]] Lap lap(const Car& car, const Ground& ground, const std::vector<Segment>& segments,
                      const Drive& drive);

/// At most 48 bins that keep time, way, work and what bearings and teeth take, as those of a log.
[[nodiscard]] std::vector<Bin> bins_of(const Lap& lap);

/// The severity at which the lap has this pace, within 0.001 %; the severity of the drive does not
/// count. None where the pace is out of reach between the ends of ln severity.
[[nodiscard]] std::optional<double> severity_at(const Car& car, const Ground& ground,
                                                const Drive& drive, double pace_mps);

/// The fastest mean a car can have on a kind of ground: smooth, and driven flat out.
[[nodiscard]] double fastest_pace_mps(const Car& car, const Ground& ground);

/// Numbers of a lap over what nobody knows: driver, severity, soil, fuel.
struct Spread {
    double low = 0;  ///< one chance in ten below
    double likely = 0;
    double high = 0;
};
struct Outlook {
    Spread pace_mps;
    Spread fast_mps;
    Spread crank_W;
    Spread fuel_Lp100km;
    Spread torque_cube_Nm;
    Spread torque_874_Nm;
};

/// 63 laps: style triangular between to finish and flat out, severity, resistance and fuel
/// log-normal with deviations of ln of 0.45, 0.20 and 0.08; judgement. Halton's points, so the same
/// each time.
[[nodiscard]] Outlook outlook(const Car& car, const Ground& ground);

}  // namespace caseload::pace
