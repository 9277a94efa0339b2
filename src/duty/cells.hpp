// SPDX-License-Identifier: MIT
// Revolutions at torque level, fine enough to lose nothing: 32 classes of torque and 8 of speed to
// the doubling, each with exact sums. And the few bins they become.
#pragma once

#include "caseload/model.hpp"

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <vector>

namespace caseload::duty {

/// Sums over the samples of one class. A sample counts with its own time.
struct CellSums {
    double time_s = 0;
    double turns = 0;           ///< of the case input
    double torque_turns = 0;    ///< signed
    double torque_3_turns = 0;  ///< |T|^3
    double way_m = 0;
};

/// Sample-by-sample sums that say what binning loses: revolutions x |T|^p.
struct PowerSums {
    double turns = 0;
    double p1 = 0;  ///< work, but for 2 pi: what friction losses follow
    double p3 = 0;
    double p7 = 0;
    double p9 = 0;

    void add(double torque_Nm, double turns_of, double times = 1) {
        const double t = torque_Nm < 0 ? -torque_Nm : torque_Nm;
        const double n = turns_of * times;
        const double t3 = t * t * t;
        turns += n;
        p1 += n * t;
        p3 += n * t3;
        p7 += n * t3 * t3 * t;
        p9 += n * t3 * t3 * t3;
    }
};

inline constexpr std::size_t torque_levels = 15 * 32 + 1;  ///< 1 to 32768 N m, and below

/// Class of a number >= 0 by its exponent and leading bits: no logarithm.
template <unsigned Bits>
std::size_t level(double x, std::size_t most) {
    if (!(x >= 1)) return 0;
    std::uint64_t bits = 0;
    std::memcpy(&bits, &x, sizeof bits);
    const std::size_t k = (bits >> (52 - Bits)) - (std::uint64_t{1023} << Bits) + 1;
    return k < most ? k : most - 1;
}
/// Upper end of a torque class.
inline double top_of_level(std::size_t k) {
    if (k == 0) return 1;
    const std::uint64_t bits = ((std::uint64_t{1023} << 5U) + k) << 47U;
    double x = 0;
    std::memcpy(&x, &bits, sizeof x);
    return x;
}

class Cells {
public:
    Cells() : cells_(torques * 2 * speeds) {}

    void add(double torque_Nm, double speed_rpm, double road_mps, double dt_s) {
        const std::size_t at = place(torque_Nm, speed_rpm);
        CellSums& cell = cells_[at];
        if (cell.time_s == 0) touched_.push_back(static_cast<std::uint32_t>(at));
        const double turns = speed_rpm * dt_s / 60;
        const double size = torque_Nm < 0 ? -torque_Nm : torque_Nm;
        cell.time_s += dt_s;
        cell.turns += turns;
        cell.torque_turns += torque_Nm * turns;
        cell.torque_3_turns += size * size * size * turns;
        cell.way_m += road_mps * dt_s;
    }

    /// What was counted, drive before coast; clears it.
    [[nodiscard]] std::vector<CellSums> take();

private:
    static constexpr std::size_t torques = torque_levels;
    static constexpr std::size_t speeds = 14 * 8 + 1;  ///< 1 to 16384 r/min, and below

    static std::size_t place(double torque_Nm, double speed_rpm) {
        const bool coast = torque_Nm < 0;
        const std::size_t t = level<5>(coast ? -torque_Nm : torque_Nm, torques);
        return ((coast ? torques : 0) + t) * speeds + level<3>(speed_rpm, speeds);
    }

    std::vector<CellSums> cells_;
    std::vector<std::uint32_t> touched_;
};

/// At most so many bins for a leg; most legs need fewer.
inline constexpr std::size_t most_bins = 64;

/// Bins of a leg whose damage and heat follow the cells': the group that loses most is split until
/// nothing changes by more than a thousandth or there are `most` of them. Coast stands apart.
[[nodiscard]] std::vector<Bin> bins_of(const std::vector<CellSums>& cells, std::size_t most);

}  // namespace caseload::duty
