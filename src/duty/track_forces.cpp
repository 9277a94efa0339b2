// SPDX-License-Identifier: MIT
#include "duty/track_forces.hpp"

#include "caseload/formulas/road_load.hpp"
#include "caseload/formulas/track_noise.hpp"
#include "caseload/units.hpp"
#include "pace/engine.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::duty {
namespace {

constexpr double grip_of_courses = 0.6;  // vehicle.grip at which a course's own grip is entered
// Share of the surplus force from which the throttle is taken as open for that share of the time: a
// driver who wants to finish. Judgement.
constexpr double least_push = 0.6;
constexpr double noisy_share = 1.0 / 3;  // of mean power, from which noise is taken off
constexpr double over_limiter = 1.05;
constexpr double least_mps = 0.5;  // power over speed goes no further down

/// a F + b, F > 0, that changes the mean power and the cube mean over the turns by their factors.
Corrected corrected_for(const LostBursts& lost, const double (&sums)[4]) {
    Corrected found;
    if (!(sums[1] > 0)) return found;
    const double mean_N = sums[1] / sums[0];
    const auto cube = [&](double a) {
        const double b = (lost.power_factor - a) * mean_N;
        return a * a * a * sums[3] + 3 * a * a * b * sums[2] + 3 * a * b * b * sums[1] +
               b * b * b * sums[0];
    };
    const double wanted = std::pow(lost.force_factor, 3) * sums[3];
    // No less than a constant force has, no more than all forces by the same factor.
    double low = 0;
    double high = lost.power_factor;
    constexpr int halvings = 60;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (cube(middle) > wanted ? high : low) = middle;
    }
    found.factor = high;
    found.more_N = (lost.power_factor - high) * mean_N;
    return found;
}

}  // namespace

TrackForces::TrackForces(const pace::Car& car, const OnGround& ground, const Motion& motion)
    : car_(car),
      ground_(ground),
      engine_(car, ground.slip),
      rotating_(pace::rotating_mass_factor(car)),
      sd_mps2_(motion.acceleration_sd_mps2),
      lever_m_(pace::rolling_radius_m(car) / (car.axle_ratio * car.case_ratio)),
      grip_N_(ground.grip * car.grip / grip_of_courses * car.mass_kg * g_mps2) {}

double TrackForces::force_N(const TrackSample& sample) const {
    return road_load::force_N({.mass_kg = car_.mass_kg,
                               .drag_area_m2 = car_.drag_area_m2,
                               .rotating_mass_factor = rotating_},
                              {.resistance = ground_.resistance,
                               .grade = sample.grade,
                               .speed_mps = sample.speed_mps,
                               .acceleration_mps2 = sample.acceleration_mps2,
                               .air_density_kgpm3 = car_.air_density_kgpm3});
}

double TrackForces::engine_N(double speed_mps) const {
    const double at_mps = std::clamp(speed_mps, least_mps, engine_.limiter_mps());
    return engine_.power_W(at_mps) * car_.to_case * car_.to_ground * (1 - ground_.slip) / at_mps;
}

double TrackForces::grip_N(double grade) const {
    return grip_N_ / std::sqrt(1 + grade * grade);
}

double TrackForces::most_N(const TrackSample& sample) const {
    return std::min(engine_N(sample.speed_mps), grip_N(sample.grade));
}

bool TrackForces::beyond_limiter(double speed_mps) const {
    return speed_mps > over_limiter * engine_.limiter_mps();
}

double TrackForces::noise_W(double speed_mps) const {
    return car_.mass_kg * speed_mps * sd_mps2_;
}

void TrackForces::measure(const Motion& motion, const LostBursts& lost, TrackFacts& facts) {
    double drive_s = 0;
    double over_s = 0;
    double grip_s = 0;
    double steep_s = 0;
    double power_J = 0;
    double noise_J = 0;
    double excess_J = 0;
    double sums[4] = {};  // over the turns with drive force, of its powers
    for (const MotionPiece& piece : motion.pieces)
        for (const TrackSample& sample : piece.samples) {
            if (sample.stands) continue;
            const double force = force_N(sample);
            const double power_W = force * sample.speed_mps;
            const double sd_W = noise_W(sample.speed_mps);
            drive_s += sample.dt_s;
            noise_J += sd_W * sample.dt_s;
            power_J += std::max(power_W, 0.0) * sample.dt_s;
            excess_J += (track_noise::positive_mean_W(power_W, sd_W) - std::max(power_W, 0.0)) *
                        sample.dt_s;
            if (force > over_margin * most_N(sample) || beyond_limiter(sample.speed_mps)) {
                over_s += sample.dt_s;
                if (grip_N(sample.grade) < engine_N(sample.speed_mps)) grip_s += sample.dt_s;
            }
            if (car_.mass_kg * g_mps2 * sample.grade * sample.speed_mps > car_.engine_power_W)
                steep_s += sample.dt_s;
            if (force <= 0) continue;
            double turns = sample.speed_mps * sample.dt_s;
            for (double& sum : sums) {
                sum += turns;
                turns *= force;
            }
        }
    if (drive_s <= 0) return;
    if (noise_J > noisy_share * power_J && power_J > 0) {
        noise_factor_ = 1 - excess_J / power_J;
        facts.noise_share = excess_J / power_J;
    }
    corrected_ = corrected_for(lost, sums);
    facts.over_share = over_s / drive_s;
    facts.by_grip = 2 * grip_s > over_s;
    facts.steep_share = steep_s / drive_s;
}

void TrackForces::add_state(State state, double force_N, Legs& legs) const {
    if (force_N >= 0) {
        state.torque_Nm = force_N * lever_m_ / car_.to_ground;
    } else {
        const double case_radps = radps_from_rpm(state.speed_rpm);
        const double dragged_Nm = -coast_power_share * car_.engine_power_W / case_radps;
        state.torque_Nm = std::max(force_N * lever_m_ * car_.to_ground, dragged_Nm);
    }
    legs.add(state);
}

void TrackForces::add(const TrackSample& sample, Legs& legs) const {
    State state;
    state.dt_s = sample.dt_s;
    state.road_mps = sample.speed_mps;
    state.stands = sample.stands;
    state.speed_rpm = rpm_from_radps(sample.speed_mps / ((1 - ground_.slip) * lever_m_));
    if (sample.stands || sample.speed_mps <= 0) {
        legs.add(state);
        return;
    }
    const double raw_N = force_N(sample);
    const double most = most_N(sample);
    const double force = std::min(corrected_.of(raw_N > 0 ? noise_factor_ * raw_N : raw_N), most);
    if (force <= 0 || force >= most) {
        add_state(state, force, legs);
        return;
    }
    // As the parts of a cell of the segment model, but for the mean, which stays.
    const double rolls_N = force_N(sample) - rotating_ * car_.mass_kg * sample.acceleration_mps2;
    const double push = (force - rolls_N) / (most - rolls_N);
    if (!ground_.part_throttle && rolls_N < force && push >= least_push) {
        state.dt_s = push * sample.dt_s;
        add_state(state, most, legs);
        state.dt_s = (1 - push) * sample.dt_s;
        add_state(state, rolls_N, legs);
        return;
    }
    // Feet on rough ground are not steady.
    const double uneven = std::min(ground_.unevenness, most / force - 1);
    state.dt_s = sample.dt_s / 3;
    for (const double part : {1 - uneven, 1.0, 1 + uneven}) add_state(state, force * part, legs);
}

}  // namespace caseload::duty
