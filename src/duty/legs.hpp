// SPDX-License-Identifier: MIT
// States of the case in order become legs: drives with bins and peaks, stops.
#pragma once

#include "caseload/formulas/astm_e1049.hpp"
#include "caseload/model.hpp"
#include "duty/cells.hpp"

#include <cstddef>
#include <vector>

namespace caseload::duty {

struct State {
    double dt_s = 0;
    double torque_Nm = 0;  ///< at the case input
    double speed_rpm = 0;
    double road_mps = 0;
    bool engine_off = false;
    bool stands = false;
};

class Legs {
public:
    explicit Legs(double shortest_stop_s) : shortest_stop_s_(shortest_stop_s) {}

    void add(const State& state) {
        if (!state.stands) {
            if (standing_s_ > 0) end_standing();
            moving_s_ += state.dt_s;
            drive(state);
            return;
        }
        stand(state);
    }
    void finish();

    [[nodiscard]] std::vector<LegInput>& legs() { return legs_; }
    [[nodiscard]] const PowerSums& samples() const { return samples_; }
    [[nodiscard]] double coast_s() const { return coast_s_; }
    [[nodiscard]] double drive_s() const { return drive_s_; }
    [[nodiscard]] double moving_s() const { return moving_s_; }  ///< short rests left out
    [[nodiscard]] double drive_power_J() const { return drive_power_J_; }
    [[nodiscard]] double largest_Nm() const { return largest_Nm_; }
    [[nodiscard]] double gate_Nm() const { return gate_Nm_; }
    [[nodiscard]] const std::vector<double>& largest_ranges_Nm() const { return ranges_; }

private:
    void drive(const State& state) {
        cells_.add(state.torque_Nm, state.speed_rpm, state.road_mps, state.dt_s);
        const double turns = state.speed_rpm * state.dt_s / 60;
        samples_.add(state.torque_Nm, turns);
        leg_s_ += state.dt_s;
        way_m_ += state.road_mps * state.dt_s;
        drive_s_ += state.dt_s;
        if (state.torque_Nm < 0)
            coast_s_ += state.dt_s;
        else
            drive_power_J_ += state.torque_Nm * turns;
        if (state.torque_Nm > leg_high_Nm_) leg_high_Nm_ = state.torque_Nm;
        if (state.torque_Nm < leg_low_Nm_) leg_low_Nm_ = state.torque_Nm;
        counter_.add(state.torque_Nm,
                     [this](double from, double to, double count) { cycle(from, to, count); });
    }
    void cycle(double from, double to, double count) {
        const double high = from > to ? from : to;
        const double range = from > to ? from - to : to - from;
        cycles_[level<5>(range, torque_levels) * torque_levels + level<5>(high, torque_levels)] +=
            count;
    }
    void stand(const State& state);
    void end_standing();
    void end_drive();
    void write_peaks(LegInput& leg);

    double shortest_stop_s_;
    std::vector<LegInput> legs_;
    Cells cells_;
    PowerSums samples_;
    astm_e1049::Counter counter_;
    /// Of the leg, by class of range and of the highest torque.
    std::vector<double> cycles_ = std::vector<double>(torque_levels * torque_levels);
    double leg_s_ = 0;
    double way_m_ = 0;
    double leg_high_Nm_ = 0;
    double leg_low_Nm_ = 0;
    double drive_s_ = 0;
    double moving_s_ = 0;
    double coast_s_ = 0;
    double drive_power_J_ = 0;
    double largest_Nm_ = 0;
    double gate_Nm_ = 0;
    std::vector<double> ranges_;
    std::vector<State> standing_;  ///< until it is long enough for a stop
    double standing_s_ = 0;
    double engine_off_s_ = 0;
};

}  // namespace caseload::duty
