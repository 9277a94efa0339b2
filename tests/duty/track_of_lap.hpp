// SPDX-License-Identifier: MIT
// Tracks made of laps whose duty is known: what a phone would have recorded, with its noise.
#pragma once

#include "caseload/duty/event.hpp"
#include "caseload/pace.hpp"
#include "caseload/units.hpp"
#include "duty/log_text.hpp"
#include "input/courses.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <random>
#include <string>
#include <vector>

namespace track_test {

using namespace caseload;

/// What a duty does: over the time, and over the turns with drive torque.
struct Does {
    double power_W = 0;
    double cube_Nm = 0;
};

class DutySum {
public:
    void add(double time_s, double torque_Nm, double speed_rpm) {
        time_s_ += time_s;
        if (torque_Nm <= 0) return;
        const double turns = speed_rpm * time_s / 60;
        turns_ += turns;
        work_J_ += torque_Nm * 2 * pi * turns;
        cube_ += turns * torque_Nm * torque_Nm * torque_Nm;
    }
    [[nodiscard]] Does does() const { return {work_J_ / time_s_, std::cbrt(cube_ / turns_)}; }

private:
    double time_s_ = 0;
    double turns_ = 0;
    double work_J_ = 0;
    double cube_ = 0;
};

inline Does does(const pace::Lap& lap) {
    DutySum sum;
    for (const pace::State& state : lap.states)
        sum.add(state.time_s, state.torque_Nm, state.speed_rpm);
    return sum.does();
}

inline Does does(const std::vector<LegInput>& legs) {
    DutySum sum;
    for (const LegInput& leg : legs)
        for (const Bin& bin : leg.bins)
            sum.add(bin.share * leg.duration_s, bin.torque_Nm, bin.speed_rpm);
    return sum.does();
}

/// The same on every machine; standard distributions are not.
class Noise {
public:
    explicit Noise(unsigned seed) : bits_(seed) {}
    /// Normal, standard deviation 1.
    double operator()() {
        const double u = (static_cast<double>(bits_()) + 0.5) / 4294967296.0;
        const double w = (static_cast<double>(bits_()) + 0.5) / 4294967296.0;
        return std::sqrt(-2 * std::log(u)) * std::cos(2 * pi * w);
    }

private:
    std::mt19937 bits_;
};

/// Speed, way and height over the time of a lap.
class Course {
public:
    Course(const pace::Lap& lap, const std::vector<pace::Segment>& segments) {
        double t_s = 0;
        for (std::size_t i = 0; i < lap.states.size();) {
            double cell_s = 0;
            double cell_m = 0;
            // Parts of a cell have one speed.
            for (const double rpm = lap.states[i].speed_rpm;
                 i < lap.states.size() && lap.states[i].speed_rpm == rpm; ++i) {
                cell_s += lap.states[i].time_s;
                cell_m += lap.states[i].way_m;
            }
            t_s_.push_back(t_s + cell_s / 2);
            speed_mps_.push_back(cell_m / cell_s);
            t_s += cell_s;
        }
        time_s = t_s;
        way_m_.push_back(0);
        height_m_.push_back(0);
        for (const pace::Segment& segment : segments) {
            way_m_.push_back(way_m_.back() + segment.length_m);
            height_m_.push_back(height_m_.back() + segment.length_m * segment.grade);
        }
    }
    double time_s = 0;
    [[nodiscard]] double speed_mps(double t) const {
        return at(t_s_, speed_mps_, std::fmod(t, time_s));
    }
    [[nodiscard]] double height_m(double way) const {
        return at(way_m_, height_m_, std::fmod(way, way_m_.back()));
    }

private:
    static double at(const std::vector<double>& x, const std::vector<double>& y, double where) {
        const auto above =
            static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), where) - x.begin());
        if (above == 0) return y.front();
        if (above == x.size()) return y.back();
        const double part = (where - x[above - 1]) / (x[above] - x[above - 1]);
        return y[above - 1] + part * (y[above] - y[above - 1]);
    }
    std::vector<double> t_s_;
    std::vector<double> speed_mps_;
    std::vector<double> way_m_;
    std::vector<double> height_m_;
};

struct Recorder {
    unsigned seed = 1;
    double rate_Hz = 1;
    bool speed = true;
    bool altitude = true;
    double laps = 2;
    double noise = 1;  ///< on all of it
    bool feet = false;
};

struct Fix {
    double t_s;
    double latitude_deg;
    double longitude_deg;
    double altitude_m;
    double speed_mps;
};

/// Round and round on a circle as long as the lap.
inline std::vector<Fix> fixes_of(const Course& course, double lap_m, const Recorder& recorder) {
    Noise noise(recorder.seed);
    constexpr double speed_sd_mps = 0.15;
    constexpr double place_sd_m = 0.7;
    constexpr double height_sd_m = 3;  // of errors that stay for half a minute
    constexpr double height_stays_s = 30;
    constexpr double earth_m = 6371e3;
    constexpr double from_deg = 30;
    const double step_s = 1 / recorder.rate_Hz;
    const double keep = std::exp(-step_s / height_stays_s);
    const double radius_m = lap_m / (2 * pi);
    double height_error_m = height_sd_m * noise();
    double way_m = 0;
    std::vector<Fix> fixes;
    constexpr int fine = 20;  // of the way between fixes
    for (double t_s = 0; t_s < recorder.laps * course.time_s; t_s += step_s) {
        Fix fix{};
        fix.t_s = t_s;
        const double east_m =
            radius_m * std::sin(way_m / radius_m) + recorder.noise * place_sd_m * noise();
        const double north_m =
            radius_m * (1 - std::cos(way_m / radius_m)) + recorder.noise * place_sd_m * noise();
        fix.latitude_deg = from_deg + deg_from_rad(north_m / earth_m);
        fix.longitude_deg =
            -110 + deg_from_rad(east_m / (earth_m * std::cos(rad_from_deg(fix.latitude_deg))));
        fix.altitude_m = 900 + course.height_m(way_m) + recorder.noise * height_error_m;
        fix.speed_mps =
            std::max(0.0, course.speed_mps(t_s) + recorder.noise * speed_sd_mps * noise());
        fixes.push_back(fix);
        height_error_m = keep * height_error_m + std::sqrt(1 - keep * keep) * height_sd_m * noise();
        for (int i = 0; i < fine; ++i)
            way_m += course.speed_mps(t_s + (i + 0.5) * step_s / fine) * step_s / fine;
    }
    return fixes;
}

inline std::string csv_of(const std::vector<Fix>& fixes, const Recorder& recorder) {
    std::string text = "time (s),latitude,longitude";
    if (recorder.altitude) text += ",altitude (m)";
    if (recorder.speed) text += ",speed (m/s)";
    text += ",accuracy (m)\n";
    for (const Fix& fix : fixes) {
        text += fmt::format("{:.2f},{:.7f},{:.7f}", fix.t_s, fix.latitude_deg, fix.longitude_deg);
        if (recorder.altitude)
            text += fmt::format(",{:.1f}", fix.altitude_m / (recorder.feet ? foot_m : 1));
        if (recorder.speed) text += fmt::format(",{:.2f}", fix.speed_mps);
        text += ",4\n";
    }
    return text;
}

/// An 850 hp truck as a setup's vehicle, with the numbers a setup takes.
inline duty::Car truck() {
    duty::Car car;
    car.vehicle.mass_kg = 2900;
    car.vehicle.rolling_radius_m = 0.48 * m_from_mm(mm_from_in(40));
    car.vehicle.axle_ratio = 4.86;
    car.vehicle.engine_power_W = W_from_hp(850);
    car.vehicle.drag_area_m2 = 2.4;
    car.vehicle.grip = 0.6;
    car.drop_ratio = 1.25;
    car.air_density_kgpm3 = 1.12;
    return car;
}

inline duty::DutyOptions on(const std::string& course, const duty::Car& car = truck()) {
    duty::DutyOptions options;
    options.car = car;
    options.ground = {course, input::course(course).ground};
    return options;
}

}  // namespace track_test
