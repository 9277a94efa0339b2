// SPDX-License-Identifier: MIT
// Numbers of a car that do not change along a lap.
#pragma once

#include "caseload/formulas/engine_curve.hpp"
#include "caseload/pace.hpp"

#include <vector>

namespace caseload::pace {

/// Throws Error{domain} where a member is outside its range.
void check(const Car& car);

/// Power of the engine at full load over road speed.
class FullLoad {
public:
    FullLoad(const Car& car, double slip);

    [[nodiscard]] double power_W(double speed_mps) const;
    /// Speed of the limiter in the tallest gear; none without gears.
    [[nodiscard]] double limiter_mps() const { return limiter_mps_; }

private:
    struct Gear {
        double engine_radps_per_mps;
        double highest_mps;  ///< at the limiter
        double stall_mps;    ///< below, the engine stays at its stall speed
    };
    [[nodiscard]] double torque_Nm(double engine_radps) const;

    std::vector<Gear> gears_;
    std::vector<TorquePoint> entered_;
    bool turbo_ = false;
    engine_curve::Parabola parabola_{};
    double rated_radps_ = 0;
    double rated_Nm_ = 0;
    double stall_Nm_ = 0;  ///< at the input of the gearbox
    double stall_W_ = 0;
    double flat_W_ = 0;  ///< without gears
    double limiter_mps_ = 1e9;
};

}  // namespace caseload::pace
