// SPDX-License-Identifier: MIT
// States of the case in order become legs: drives with bins and peaks, stops.
#pragma once

#include "bins/cells.hpp"
#include "bins/measures.hpp"
#include "caseload/formulas/astm_e1049.hpp"
#include "caseload/model.hpp"
#include "duty/oil_log.hpp"

#include <array>
#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace caseload::duty {

struct State {
    double dt_s = 0;
    double torque_Nm = 0;  ///< at the case input
    double speed_rpm = 0;
    double road_mps = 0;
    bool engine_off = false;
    bool stands = false;
    std::optional<double> oil_degC;
    std::optional<double> ambient_degC;
};

/// Sample-by-sample sums that say what binning loses: revolutions x |T|^p.
struct PowerSums {
    double turns = 0;
    double p1 = 0;  ///< work, but for 2 pi: what friction losses follow
    double p3 = 0;
    double p7 = 0;
    double p9 = 0;

    void add(double torque_Nm, double turns_of) {
        const double t = torque_Nm < 0 ? -torque_Nm : torque_Nm;
        const double t3 = t * t * t;
        turns += turns_of;
        p1 += turns_of * t;
        p3 += turns_of * t3;
        p7 += turns_of * t3 * t3 * t;
        p9 += turns_of * t3 * t3 * t3;
    }
};

class Legs {
public:
    Legs(double shortest_stop_s, const bins::Measures& measures, std::string file);

    void add(const State& state) {
        if (!state.stands) {
            if (standing_s_ > 0) end_standing();
            moving_s_ += state.dt_s;
            drive(state);
            return;
        }
        stand(State(state));  // a copy: the state of a drive need not lie in memory
    }
    /// Driving of which only time and way are known: its leg is longer by them, and the rest of the
    /// leg shows how it was driven.
    void unknown(double dt_s, double way_m);
    void finish();

    [[nodiscard]] double unknown_s() const { return all_unknown_s_; }
    [[nodiscard]] double unknown_m() const { return all_unknown_m_; }
    /// Of each leg the time that was read.
    [[nodiscard]] const std::vector<double>& known_s() const { return known_s_; }
    [[nodiscard]] std::vector<LegInput>& legs() { return legs_; }
    [[nodiscard]] const PowerSums& samples() const { return samples_; }
    /// Oil by number of the leg in legs().
    [[nodiscard]] std::map<std::size_t, OilSeries>& oil() { return oil_; }
    /// Each measure over all legs, as the cells have it and as the bins.
    [[nodiscard]] const std::vector<double>& by_cells() const { return by_cells_; }
    [[nodiscard]] const std::vector<double>& by_bins() const { return by_bins_; }
    [[nodiscard]] double coast_s() const { return coast_s_; }
    [[nodiscard]] double drive_s() const { return drive_s_; }
    [[nodiscard]] double moving_s() const { return moving_s_; }  ///< short standstills left out
    [[nodiscard]] double drive_power_J() const { return drive_power_J_; }
    [[nodiscard]] double largest_Nm() const { return largest_Nm_; }
    [[nodiscard]] double gate_Nm() const { return gate_Nm_; }
    [[nodiscard]] const std::vector<double>& largest_ranges_Nm() const { return ranges_; }

private:
    [[gnu::always_inline]] void drive(const State& state) {
        const double turns = state.speed_rpm * state.dt_s / 60;
        cells_.add(state.torque_Nm, state.speed_rpm,
                   {state.dt_s, turns, 0, state.road_mps * state.dt_s});
        samples_.add(state.torque_Nm, turns);
        if (state.oil_degC) oil_log_.add(leg_s_ + unknown_s_, state.dt_s, *state.oil_degC);
        if (state.ambient_degC) {
            ambient_degC_s_ += *state.ambient_degC * state.dt_s;
            ambient_s_ += state.dt_s;
        }
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
        std::unique_ptr<CyclesOfRange>& of_range = cycles_[bins::level<5>(range, cycle_levels)];
        if (!of_range) of_range = std::make_unique<CyclesOfRange>();
        (*of_range)[bins::level<5>(high, cycle_levels)] += count;
    }
    void stand(const State& state);
    void end_standing();
    void end_drive();
    /// Makes a drive longer by what is not known of it.
    void lengthen(LegInput& leg);
    void write_peaks(LegInput& leg);

    static constexpr std::size_t cycle_levels = 15 * 32 + 1;  ///< 1 to 32768 N m, and below
    using CyclesOfRange = std::array<double, cycle_levels>;   ///< by class of the highest torque

    double shortest_stop_s_;
    const bins::Measures& measures_;
    std::string file_;
    std::vector<double> by_cells_;
    std::vector<double> by_bins_;
    std::vector<LegInput> legs_;
    bins::Cells cells_;
    PowerSums samples_;
    astm_e1049::Counter counter_;
    /// Of the leg, by class of range; most hold nothing.
    std::array<std::unique_ptr<CyclesOfRange>, cycle_levels> cycles_;
    OilLog oil_log_;
    std::map<std::size_t, OilSeries> oil_;
    double ambient_degC_s_ = 0;
    double ambient_s_ = 0;
    double leg_s_ = 0;
    double way_m_ = 0;
    double unknown_s_ = 0;  ///< of this leg, and of what before it was no leg
    double unknown_m_ = 0;
    double all_unknown_s_ = 0;
    double all_unknown_m_ = 0;
    std::vector<double> known_s_;
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
