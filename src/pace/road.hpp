// SPDX-License-Identifier: MIT
// A car on the cells of a lap, with all that does not depend on the drive.
#pragma once

#include "caseload/pace.hpp"
#include "pace/car.hpp"

#include <vector>

namespace caseload::pace {

// What nobody knows of the ground before a drive: deviations of ln; judgement.
inline constexpr double severity_sd = 0.45;
inline constexpr double resistance_sd = 0.20;

class Road {
public:
    /// Throws Error{domain} where a number is outside its range.
    Road(const Car& car, const Ground& ground, std::vector<Segment> segments);

    [[nodiscard]] Lap lap(const Drive& drive) const;
    /// Of that lap, in half the time.
    [[nodiscard]] double pace_mps(const Drive& drive) const;

private:
    struct Cell {
        double length_m;
        double limit_mps;
        double soil_N;  ///< soil and roughness
        double climb_N;
        double grip_N;
        double brake_mps2;
        double pull_share;
    };
    struct Passed {
        double from_mps;
        double to_mps;
        double force_N;
        double most_N;
        double resistance_N;
        bool full;
        bool engine_limited;
    };
    [[nodiscard]] std::vector<Cell> cells_of(const Drive& drive, const Style& style) const;
    [[nodiscard]] std::vector<double> backwards(const std::vector<Cell>& cells) const;
    struct Bounds {
        double from_mps;  ///< where the cell begins
        double next_mps;  ///< at most where it ends
        double push;      ///< share of the surplus force used
    };
    [[nodiscard]] Passed pass(const Cell& cell, const Bounds& bounds) const;
    /// Twice round; the second round counts.
    [[nodiscard]] std::vector<Passed> forwards(const std::vector<Cell>& cells,
                                               const std::vector<double>& speeds_mps,
                                               double push) const;
    struct Top {
        double speed_mps = 0;
        double limit_mps = 0;  ///< there
    };
    [[nodiscard]] Fastest limit_of(const Top& top, const Style& style) const;

    Car car_;
    Ground ground_;
    std::vector<Segment> segments_;
    Ride ride_;
    FullLoad engine_;
    double weight_N_;
    double half_drag_;         ///< rho CdA / 2
    double moving_kg_;         ///< with what turns
    double engine_to_ground_;  ///< efficiency, slip included
    double least_mps_;
};

}  // namespace caseload::pace
