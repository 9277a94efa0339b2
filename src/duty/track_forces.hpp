// SPDX-License-Identifier: MIT
// Forces at the ground of a track's samples, and the torques they ask of the case.
#pragma once

#include "caseload/pace_car.hpp"
#include "duty/legs.hpp"
#include "duty/track.hpp"
#include "pace/car.hpp"

namespace caseload::duty {

struct OnGround {
    double resistance = 0;
    double slip = 0;
    double grip = 0;
    double unevenness = 0;
    bool part_throttle = false;  ///< the course's: never open
};

/// Force at the ground, linear above 0 for what bursts lost.
struct Corrected {
    double factor = 1;
    double more_N = 0;
    [[nodiscard]] double of(double force_N) const {
        return force_N > 0 ? factor * force_N + more_N : force_N;
    }
};

class TrackForces {
public:
    TrackForces(const pace::Car& car, const OnGround& ground, const Motion& motion);

    /// Counts what the track asks for, adds it to the legs with the corrections.
    void measure(const Motion& motion, const LostBursts& lost, TrackFacts& facts);
    void add(const TrackSample& sample, Legs& legs) const;

private:
    [[nodiscard]] double force_N(const TrackSample& sample) const;
    [[nodiscard]] double engine_N(double speed_mps) const;
    [[nodiscard]] double grip_N(double grade) const;
    [[nodiscard]] double most_N(const TrackSample& sample) const;
    [[nodiscard]] bool beyond_limiter(double speed_mps) const;
    [[nodiscard]] double noise_W(double speed_mps) const;
    void add_state(State state, double force_N, Legs& legs) const;

    const pace::Car& car_;
    const OnGround& ground_;
    pace::FullLoad engine_;
    double rotating_;
    double sd_mps2_;
    double lever_m_ = 0;
    double grip_N_ = 0;
    double noise_factor_ = 1;
    Corrected corrected_;
};

}  // namespace caseload::duty
