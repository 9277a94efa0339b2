// SPDX-License-Identifier: MIT
// Revolutions at torque level, fine enough to lose nothing: 128 classes of torque and 32 of speed
// to the doubling, each with exact sums. At a tooth's endurance limit damage rises with the 50th
// power of torque: within a class of 0.8 % by 0.6 % at most.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <memory>
#include <vector>

namespace caseload::bins {

/// Sums over the samples of one class. A sample counts with its own time.
struct CellSums {
    double time_s = 0;
    double turns = 0;           ///< of the case input
    double torque_3_turns = 0;  ///< |T|^3
    double way_m = 0;

    void add(const CellSums& more) {
        time_s += more.time_s;
        turns += more.turns;
        torque_3_turns += more.torque_3_turns;
        way_m += more.way_m;
    }
};

/// Class of a number by its exponent and leading bits, 2^Bits to the doubling from 2^First on; no
/// logarithm. Class 0 is all below.
template <unsigned Bits, unsigned First = 0>
std::size_t level(double x, std::size_t most) {
    if (!(x >= static_cast<double>(1U << First))) return 0;
    std::uint64_t bits = 0;
    std::memcpy(&bits, &x, sizeof bits);
    const std::size_t k = (bits >> (52 - Bits)) - (std::uint64_t{1023 + First} << Bits) + 1;
    return k < most ? k : most - 1;
}

class Cells {
public:
    struct Taken {
        CellSums sums;
        bool coast = false;
    };

    /// Time, turns and way at a torque; its third power is filled in.
    void add(double torque_Nm, double speed_rpm, const CellSums& sums) {
        const bool coast = torque_Nm < 0;
        const double size = coast ? -torque_Nm : torque_Nm;
        // The cell is seldom in the cache: it is fetched while the next line is read.
        settle();
        waiting_ = &cell(coast, level<7, 3>(size, torques), level<5, 6>(speed_rpm, speeds));
        __builtin_prefetch(waiting_, 1);
        more_ = sums;
        more_.torque_3_turns = size * size * size * sums.turns;
    }

    /// What was counted, drive before coast; clears it. Neighbours go together until there are at
    /// most so many.
    [[nodiscard]] std::vector<Taken> take();

private:
    static constexpr std::size_t torques = 12 * 128 + 1;  ///< 8 to 32768 N m, and below
    static constexpr std::size_t speeds = 8 * 32 + 1;     ///< 64 to 16384 r/min, and below
    // Speeds seldom spread over more than two doublings: a class of torque has cells by the
    // doubling.
    static constexpr std::size_t in_piece = 32;
    static constexpr std::size_t pieces = (speeds + in_piece - 1) / in_piece;
    using Piece = std::array<CellSums, in_piece>;

    /// Neighbours in torque lie side by side.
    static std::size_t piece_at(bool coast, std::size_t torque, std::size_t speed) {
        return speed / in_piece * 2 * torques + (coast ? torques : 0) + torque;
    }
    CellSums& cell(bool coast, std::size_t torque, std::size_t speed) {
        auto& piece = pieces_[piece_at(coast, torque, speed)];
        if (!piece) piece = std::make_unique<Piece>();
        return (*piece)[speed % in_piece];
    }

    /// Of one piece of speeds, torques that go together.
    static void take_from(const std::vector<const Piece*>& side_by_side, std::size_t step,
                          bool coast, std::vector<Taken>& to);

    void settle() {
        if (waiting_ != nullptr) waiting_->add(more_);
    }

    CellSums* waiting_ = nullptr;  ///< where more_ belongs
    CellSums more_;

    std::vector<std::unique_ptr<Piece>> pieces_ =
        std::vector<std::unique_ptr<Piece>>(2 * torques * pieces);
};

}  // namespace caseload::bins
