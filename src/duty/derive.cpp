// SPDX-License-Identifier: MIT
#include "duty/derive.hpp"

#include "caseload/formulas/road_load.hpp"
#include "caseload/units.hpp"
#include "duty/gears.hpp"
#include "pace/engine.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::duty {
namespace {

using C = Channel;

constexpr double stands_below_mps = 0.5;  // judgement
constexpr double stands_below_rpm = 10;   // judgement, where no road speed is logged
constexpr double engine_off_rpm = 50;     // judgement: slower than any engine idles
// Engine speed over road speed within this of a gear's own is that gear: tyre slip of 0.05 to 0.2
// on loose ground. Common practice, no published source.
constexpr double gear_slack = 0.15;
// The gear's speed beyond that of the road by more than tyres slip on loose ground (0.2): the
// clutch or converter slips. Common practice, no published source.
constexpr double most_over_road = 1.25;
// Below this the engine is driven. Judgement.
constexpr double closed_throttle = 0.02;
// Of the slope of road speed to each side, and of slower logs the nearest moment. Judgement.
constexpr double half_window_s = 0.5;
constexpr std::size_t oil_classes = 300;
constexpr double coldest_oil_degC = -50;

}  // namespace

double lever_of(const Car& car) {
    return road_load::input_lever_m({.rolling_radius_m = car.vehicle.rolling_radius_m,
                                     .axle_ratio = car.vehicle.axle_ratio,
                                     .drop_ratio = car.drop_ratio});
}

Derive::Derive(const Sources& sources, const DutyOptions& options, Legs& legs)
    : sources_(sources),
      geared_(sources.speed == SpeedSource::engine_and_gear ||
              sources.torque == TorqueSource::engine_column ||
              sources.torque == TorqueSource::engine_table),
      options_(options),
      legs_(legs),
      oil_s_(oil_classes) {
    if (!options.car) return;
    lever_m_ = lever_of(*options.car);
    for (const double ratio : sources.gears) gears_.push_back({ratio, 0});
}

void Derive::moment(const Instant& instant, double dt_s, bool new_segment) {
    if (instant.has(C::ambient) || instant.has(C::oil)) temperatures(instant, dt_s);
    if (sources_.torque != TorqueSource::road_load) {
        state_of(instant, dt_s, 0);
        return;
    }
    if (new_segment) flush();
    moving_.push_back({instant, dt_s, instant.t_s});
    settle(instant.t_s - half_window_s);
}

void Derive::moments(const Instants& all, std::size_t from, std::size_t to, const double* dt_s) {
    if (sources_.torque == TorqueSource::road_load) {
        for (std::size_t i = from; i < to; ++i) moment(all.at(i), dt_s[i], false);
        return;
    }
    if (sources_.torque == TorqueSource::case_column &&
        sources_.speed == SpeedSource::case_column && sources_.road_column) {
        if (from < to) moments_logged(all, from, to, dt_s);
        return;
    }
    for (std::size_t i = from; i < to; ++i) {
        const InstantOf now{all, i};
        if (now.has(C::ambient) || now.has(C::oil)) temperatures(now, dt_s[i]);
        state_of(now, dt_s[i], 0);
    }
}

/// The columns are the case's own torque and speed and that of the road: what state_of comes to.
void Derive::moments_logged(const Instants& all, std::size_t from, std::size_t to,
                            const double* dt_s) {
    const double* const road_mps = all.of(C::road_speed);
    if (unknown_s_ > 0) close_unknown(road_mps[from]);
    for (std::size_t i = from; i < to; ++i) {
        const InstantOf now{all, i};
        State state;
        state.dt_s = dt_s[i];
        state.engine_off = now.has(C::engine_speed) && now[C::engine_speed] < engine_off_rpm;
        state.stands = road_mps[i] < stands_below_mps;
        state.road_mps = road_mps[i];
        state.speed_rpm = now[C::case_speed];
        if (!state.stands) state.torque_Nm = now[C::case_torque];
        if (now.has(C::ambient) || now.has(C::oil)) {
            temperatures(now, dt_s[i]);
            if (now.has(C::oil)) state.oil_degC = now[C::oil];
            if (now.has(C::ambient)) state.ambient_degC = now[C::ambient];
        }
        last_engine_off_ = state.engine_off;
        legs_.add(state);
    }
    last_mps_ = road_mps[to - 1];
    last_known_ = true;
}

/// States of the moments up to a time; the slope of road speed from the window to each side. Where
/// none is in it, or only its own burst, the nearest beyond.
void Derive::settle(double until_s) {
    while (settled_ < moving_.size() && moving_[settled_].t_s <= until_s) {
        const Moving now = moving_[settled_];
        while (settled_ > 0 && moving_.front().t_s < now.t_s - half_window_s &&
               moving_[1].t_s < now.t_s - sources_.burst_s) {
            moving_.pop_front();
            --settled_;
        }
        std::size_t last = settled_;
        while (last + 1 < moving_.size() && (moving_[last + 1].t_s <= now.t_s + half_window_s ||
                                             moving_[last].t_s <= now.t_s + sources_.burst_s))
            ++last;
        const double span_s = moving_[last].t_s - moving_.front().t_s;
        const double change_mps =
            moving_[last].instant[C::road_speed] - moving_.front().instant[C::road_speed];
        state_of(now.instant, now.dt_s, span_s > 0 ? change_mps / span_s : 0);
        ++settled_;
    }
}

void Derive::flush() {
    settle(1e300);
    moving_.clear();
    settled_ = 0;
}

void Derive::finish() {
    flush();
    if (unknown_s_ > 0) close_unknown(last_known_ ? last_mps_ : 0);
}

template <class At>
std::optional<double> Derive::road_mps_of(const At& instant) const {
    if (sources_.road_column) {
        if (!instant.has(C::road_speed)) return std::nullopt;
        return instant[C::road_speed];
    }
    if (!instant.has(C::case_speed) || lever_m_ <= 0) return std::nullopt;
    return radps_from_rpm(instant[C::case_speed]) * lever_m_;
}

void Derive::unknown(const Instant& instant, double dt_s) {
    flush();
    const auto road_mps = road_mps_of(instant);
    if (!road_mps) {
        unknown_s_ += dt_s;
        return;
    }
    if (unknown_s_ > 0) close_unknown(*road_mps);
    pass_unknown(dt_s, *road_mps * dt_s, *road_mps < stands_below_mps);
    last_mps_ = *road_mps;
    last_known_ = true;
}

void Derive::gap(double dt_s) {
    flush();
    unknown_s_ += dt_s;
}

void Derive::close_unknown(double road_mps) {
    const double before_mps = last_known_ ? last_mps_ : road_mps;
    const double dt_s = unknown_s_;
    unknown_s_ = 0;
    pass_unknown(dt_s, (before_mps + road_mps) / 2 * dt_s,
                 before_mps < stands_below_mps && road_mps < stands_below_mps);
}

void Derive::pass_unknown(double dt_s, double way_m, bool stands) {
    if (!stands) {
        legs_.unknown(dt_s, way_m);
        return;
    }
    // A car that stands still before and after stood still: nothing else has to be known.
    rest_s_ += dt_s;
    State state;
    state.dt_s = dt_s;
    state.road_mps = way_m / dt_s;
    state.stands = true;
    state.engine_off = last_engine_off_;
    legs_.add(state);
}

template <class At>
double Derive::gear_ratio(const At& instant, double dt_s) {
    const double engine_rpm = instant[C::engine_speed];
    if (sources_.ratio_by_speeds) {
        if (instant[C::case_speed] <= stands_below_rpm) return 0;
        const double ratio = engine_rpm / instant[C::case_speed];
        return ratio <= most_ratio ? ratio : -1;
    }
    GearSeen* gear = nullptr;
    if (sources_.gear_column) {
        const double number = std::round(instant[C::gear]);
        if (number < 1) return 0;
        if (number <= static_cast<double>(gears_.size()))
            gear = &gears_[static_cast<std::size_t>(number) - 1];
    } else {
        // Speed of the case by the road, and the gear whose cluster the two speeds lie in.
        const double by_road_rpm = rpm_from_radps(instant[C::road_speed] / lever_m_);
        double nearest = gear_slack;
        for (GearSeen& one : gears_) {
            const double off = std::fabs(engine_rpm / (by_road_rpm * one.ratio) - 1);
            if (off > nearest) continue;
            nearest = off;
            gear = &one;
        }
    }
    if (gear == nullptr) return -1;
    gear->time_s += dt_s;
    return gear->ratio;
}

double Derive::motoring_Nm(double speed_rpm) const {
    return -coast_power_share * options_.car->vehicle.engine_power_W /
           radps_from_rpm(std::max(speed_rpm, stands_below_rpm));
}

template <class At>
double Derive::torque_Nm(const At& instant, const State& state, double ratio,
                         double acceleration_mps2) const {
    switch (sources_.torque) {
        case TorqueSource::case_column:
            return instant[C::case_torque];
        case TorqueSource::engine_column:
            return instant[C::engine_torque] * ratio;
        case TorqueSource::engine_table:
            if (ratio <= 0) return 0;
            if (instant[C::throttle] < closed_throttle) return motoring_Nm(state.speed_rpm);
            // A part throttle gives its part of the full-load torque: judgement.
            return ratio * std::min(instant[C::throttle], 1.0) *
                   engine_torque_Nm(options_.car->vehicle.engine_torque, instant[C::engine_speed]);
        case TorqueSource::road_load:
        case TorqueSource::track:  // has states of its own
            break;
    }
    const Car& car = *options_.car;
    const double force_N =
        road_load::force_N({.mass_kg = car.vehicle.mass_kg,
                            .drag_area_m2 = car.vehicle.drag_area_m2,
                            .rotating_mass_factor = road_load::rotating_mass_factor},
                           {.resistance = *options_.resistance,
                            .grade = 0,
                            .speed_mps = state.road_mps,
                            .acceleration_mps2 = acceleration_mps2,
                            .air_density_kgpm3 = car.air_density_kgpm3});
    // Slower than rolling allows: the brakes do what the engine does not.
    return force_N < 0 ? std::max(force_N * lever_m_, motoring_Nm(state.speed_rpm))
                       : force_N * lever_m_;
}

template <class At>
double Derive::speed_by_gear_rpm(const At& instant, const State& state, double ratio) {
    const double by_road_rpm = lever_m_ > 0 ? rpm_from_radps(state.road_mps / lever_m_) : 0;
    if (ratio <= 0) return by_road_rpm;
    const double by_gear_rpm = instant[C::engine_speed] / ratio;
    if (!sources_.gear_column || !sources_.road_column || lever_m_ <= 0 ||
        by_gear_rpm <= most_over_road * by_road_rpm)
        return by_gear_rpm;
    slip_s_ += state.dt_s;
    return by_road_rpm;
}

template <class At>
void Derive::state_of(const At& instant, double dt_s, double acceleration_mps2) {
    State state;
    state.dt_s = dt_s;
    state.engine_off = instant.has(C::engine_speed) && instant[C::engine_speed] < engine_off_rpm;
    state.stands = sources_.road_column ? instant[C::road_speed] < stands_below_mps
                   : sources_.speed == SpeedSource::case_column
                       ? instant[C::case_speed] < stands_below_rpm
                       : instant[C::engine_speed] < engine_off_rpm;
    if (sources_.road_column) state.road_mps = instant[C::road_speed];
    if (instant.has(C::oil)) state.oil_degC = instant[C::oil];
    if (instant.has(C::ambient)) state.ambient_degC = instant[C::ambient];
    double ratio = 0;
    if (geared_ && !state.stands) {
        ratio = gear_ratio(instant, dt_s);
        if (ratio < 0) {
            no_gear_s_ += dt_s;
            const auto road_mps = road_mps_of(instant);
            if (unknown_s_ > 0 && road_mps) close_unknown(*road_mps);
            if (road_mps)
                legs_.unknown(dt_s, *road_mps * dt_s);
            else
                unknown_s_ += dt_s;
            last_mps_ = road_mps.value_or(last_mps_);
            last_known_ = last_known_ || road_mps;
            return;
        }
    }
    switch (sources_.speed) {
        case SpeedSource::case_column:
            state.speed_rpm = instant[C::case_speed];
            break;
        case SpeedSource::engine_and_gear:
            state.speed_rpm = speed_by_gear_rpm(instant, state, ratio);
            break;
        case SpeedSource::road_speed:
        case SpeedSource::track:
        case SpeedSource::places:
            state.speed_rpm = rpm_from_radps(state.road_mps / lever_m_);
            break;
    }
    if (!sources_.road_column) state.road_mps = radps_from_rpm(state.speed_rpm) * lever_m_;
    if (!state.stands)
        state.torque_Nm = sources_.torque == TorqueSource::case_column
                              ? instant[C::case_torque]
                              : torque_Nm(instant, state, ratio, acceleration_mps2);
    if (unknown_s_ > 0) close_unknown(state.road_mps);
    last_mps_ = state.road_mps;
    last_known_ = true;
    last_engine_off_ = state.engine_off;
    legs_.add(state);
}

template <class At>
void Derive::temperatures(const At& instant, double dt_s) {
    if (instant.has(C::ambient)) {
        ambient_degC_s_ += instant[C::ambient] * dt_s;
        ambient_s_ += dt_s;
    }
    if (instant.has(C::oil)) {
        const double at = std::round(instant[C::oil] - coldest_oil_degC);
        if (at >= 0 && at < static_cast<double>(oil_classes))
            oil_s_[static_cast<std::size_t>(at)] += dt_s;
    }
}

std::optional<double> Derive::ambient_degC() const {
    if (ambient_s_ <= 0) return std::nullopt;
    return ambient_degC_s_ / ambient_s_;
}

std::vector<double> Derive::oil_degC() const {
    double all_s = 0;
    for (const double s : oil_s_) all_s += s;
    std::vector<double> found;
    if (all_s <= 0) return found;
    for (const double share : {0.1, 0.5, 0.9}) {
        double sum_s = 0;
        std::size_t at = 0;
        while (at + 1 < oil_s_.size() && (sum_s += oil_s_[at]) < share * all_s) ++at;
        found.push_back(coldest_oil_degC + static_cast<double>(at));
    }
    return found;
}

}  // namespace caseload::duty
