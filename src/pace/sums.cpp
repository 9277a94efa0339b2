// SPDX-License-Identifier: MIT
#include "pace/sums.hpp"

#include "caseload/formulas/willans_fuel.hpp"
#include "caseload/units.hpp"
#include "pace/engine.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::pace {
namespace {

constexpr double fast_share = 0.95;
constexpr double root_exponent = 8.74;  // of tooth roots, ISO 6336-3 (from memory)

}  // namespace

Sums::Sums(const Car& car, const Ground& ground, const Style& style, std::size_t cells)
    : car_(car),
      style_(style),
      part_throttle_(ground.throttle.has_value()),
      slip_(ground.slip),
      unevenness_(style.unevenness * ground.unevenness) {
    const double lever_m = rolling_radius_m(car) / (car.axle_ratio * car.case_ratio);
    case_radps_per_mps_ = 1 / ((1 - slip_) * lever_m);
    drive_Nm_per_N_ = lever_m / car.to_ground;
    coast_Nm_per_N_ = lever_m * car.to_ground;
    states_.reserve(3 * cells);
    paces_.reserve(cells);
}

bool Sums::add_part(const Part& part) {
    const auto [time_s, speed_mps, force_N, open] = part;
    const double case_radps = speed_mps * case_radps_per_mps_;
    double torque_Nm = force_N * drive_Nm_per_N_;
    double crank_W = 0;
    bool brakes = false;
    const double wheel_J = force_N * speed_mps * time_s;
    if (force_N < 0) {
        torque_Nm = force_N * coast_Nm_per_N_;
        const double dragged_Nm = -coast_power_share * car_.engine_power_W / case_radps;
        brakes = torque_Nm < dragged_Nm;
        if (brakes) torque_Nm = dragged_Nm;
        time_s_of_.coast += time_s;
        const double engine_J = -torque_Nm * case_radps * time_s;
        const double at_wheels_J = engine_J * (1 - slip_) / car_.to_ground;
        work_.coast += engine_J;
        work_.losses += at_wheels_J - engine_J;
        if (brakes) work_.brakes += -wheel_J - at_wheels_J;
    } else {
        const double case_J = torque_Nm * case_radps * time_s;
        work_.drive += case_J;
        work_.losses += case_J - wheel_J;
        crank_W = torque_Nm * case_radps / car_.to_case;
    }
    (open ? open_crank_J_ : part_crank_J_) += crank_W * time_s;
    if (open) time_s_of_.open_throttle += time_s;
    states_.push_back({time_s, torque_Nm, rpm_from_radps(case_radps), speed_mps * time_s});
    return brakes;
}

void Sums::add(const Driven& cell) {
    const double speed_mps = (cell.from_mps + cell.to_mps) / 2;
    const double time_s = cell.length_m / speed_mps;
    time_s_ += time_s;
    way_m_ += cell.length_m;
    resistance_m_ += cell.pull_share * cell.length_m;
    paces_.push_back({speed_mps, time_s});
    work_.resistance += cell.soil_N * cell.length_m;
    work_.climb += cell.climb_N * cell.length_m;
    work_.drag += (cell.resistance_N - cell.soil_N - cell.climb_N) * cell.length_m;
    if (cell.full && !part_throttle_) {
        const double open_s = style_.push * time_s;
        add_part({open_s, speed_mps, cell.most_N, true});
        add_part({time_s - open_s, speed_mps, std::min(cell.resistance_N, cell.most_N)});
        (cell.engine_limited ? time_s_of_.engine : time_s_of_.grip) += time_s;
        if (cell.engine_limited) time_s_of_.open_at_engine += open_s;
        return;
    }
    if (cell.force_N > 0) {
        for (const double factor : {1 - unevenness_, 1.0, 1 + unevenness_})
            add_part({time_s / 3, speed_mps, std::min(cell.force_N * factor, cell.most_N)});
        time_s_of_.ride_and_slow += time_s;
        return;
    }
    const bool brakes = add_part({time_s, speed_mps, cell.force_N});
    (brakes ? time_s_of_.brake : time_s_of_.ride_and_slow) += time_s;
}

void Sums::fill_torques(Lap& lap) const {
    double turns = 0;
    double drive_s = 0;
    double first = 0;
    double third = 0;
    double high = 0;
    for (const State& state : states_)
        lap.torque_largest_Nm = std::max(lap.torque_largest_Nm, state.torque_Nm);
    if (lap.torque_largest_Nm <= 0) return;
    for (const State& state : states_) {
        if (state.torque_Nm <= 0) continue;
        const double turns_of = state.speed_rpm * state.time_s / 60;
        const double share = state.torque_Nm / lap.torque_largest_Nm;
        turns += turns_of;
        drive_s += state.time_s;
        first += turns_of * share;
        third += turns_of * share * share * share;
        high += turns_of * std::pow(share, root_exponent);
    }
    lap.torque_mean_Nm = lap.torque_largest_Nm * first / turns;
    lap.torque_cube_Nm = lap.torque_largest_Nm * std::cbrt(third / turns);
    lap.torque_874_Nm = lap.torque_largest_Nm * std::pow(high / turns, 1 / root_exponent);
    lap.drive_rpm = 60 * turns / drive_s;
    lap.drive_rpm_of_all = 60 * turns / time_s_;
}

void Sums::fill_fast(Lap& lap) {
    const auto slower = [](const Timed& a, const Timed& b) {
        return a.speed_mps != b.speed_mps ? a.speed_mps < b.speed_mps : a.time_s < b.time_s;
    };
    // From the fastest down: few cells lie above.
    std::make_heap(paces_.begin(), paces_.end(), slower);
    double above_s = (1 - fast_share) * time_s_;
    auto end = paces_.end();
    while (end - paces_.begin() > 1) {
        const Timed one = paces_.front();
        std::pop_heap(paces_.begin(), end, slower);
        --end;
        if (one.time_s >= above_s) {
            const double below_mps = paces_.front().speed_mps;
            lap.fast_mps = one.speed_mps - (one.speed_mps - below_mps) * above_s / one.time_s;
            return;
        }
        above_s -= one.time_s;
    }
    lap.fast_mps = paces_.front().speed_mps;
}

double Sums::fuel_J(const Burnt& burnt) const {
    if (burnt.time_s <= 0) return 0;
    return burnt.time_s * willans_fuel::fuel_power_W({.rated_W = car_.engine_power_W,
                                                      .drag_share = car_.engine_drag,
                                                      .efficiency = burnt.efficiency},
                                                     burnt.crank_J / burnt.time_s);
}

Lap Sums::lap() {
    Lap lap;
    lap.way_m = way_m_;
    lap.time_s = time_s_;
    lap.cells = static_cast<int>(paces_.size());
    lap.pace_mps = way_m_ / time_s_;
    lap.resistance = resistance_m_ / way_m_;
    lap.work = work_;
    lap.crank_W = work_.drive / car_.to_case / time_s_;
    const double open_s = time_s_of_.open_throttle;
    const double all_J = fuel_J({open_crank_J_, open_s, car_.full_load_efficiency}) +
                         fuel_J({part_crank_J_, time_s_ - open_s, car_.part_load_efficiency});
    const double fuel_L = all_J / (car_.fuel_MJpL * 1e6);
    lap.fuel_Lph = fuel_L / h_from_s(time_s_);
    lap.fuel_Lp100km = fuel_L / (way_m_ / 1e5);
    for (double Shares::* const share :
         {&Shares::engine, &Shares::grip, &Shares::ride_and_slow, &Shares::brake,
          &Shares::open_throttle, &Shares::open_at_engine, &Shares::coast})
        lap.shares.*share = time_s_of_.*share / time_s_;
    fill_torques(lap);
    fill_fast(lap);
    lap.states = std::move(states_);
    return lap;
}

}  // namespace caseload::pace
