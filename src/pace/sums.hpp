// SPDX-License-Identifier: MIT
// What is summed along a lap, in the order driven.
#pragma once

#include "caseload/pace.hpp"

#include <vector>

namespace caseload::pace {

/// A cell as it was driven.
struct Driven {
    double length_m;
    double from_mps;
    double to_mps;
    double force_N;       ///< at the ground, mean
    double most_N;        ///< engine or grip
    double resistance_N;  ///< soil, roughness, climb and drag together
    double soil_N;        ///< soil and roughness
    double climb_N;
    double pull_share;  ///< of weight: soil and roughness
    bool full;          ///< limited by engine or grip
    bool engine_limited;
};

class Sums {
public:
    Sums(const Car& car, const Ground& ground, const Style& style, std::size_t cells);

    void add(const Driven& cell);
    /// Everything of the lap but its highest speed.
    [[nodiscard]] Lap lap();

private:
    struct Part {
        double time_s;
        double speed_mps;
        double force_N;
        bool open = false;  ///< throttle
    };
    /// True where brakes take what the dragged engine does not.
    bool add_part(const Part& part);
    void fill_torques(Lap& lap) const;
    struct Burnt {
        double crank_J;
        double time_s;
        double efficiency;
    };
    [[nodiscard]] double fuel_J(const Burnt& burnt) const;
    /// Takes the speeds out of their order.
    void fill_fast(Lap& lap);

    struct Timed {
        double speed_mps;
        double time_s;
    };

    const Car& car_;
    const Style& style_;
    bool part_throttle_;
    double slip_;
    double unevenness_;
    double case_radps_per_mps_;
    double drive_Nm_per_N_;
    double coast_Nm_per_N_;
    std::vector<State> states_;
    std::vector<Timed> paces_;
    double time_s_ = 0;
    double way_m_ = 0;
    double resistance_m_ = 0;
    double open_crank_J_ = 0;
    double part_crank_J_ = 0;
    Shares time_s_of_;
    Work work_;
};

}  // namespace caseload::pace
