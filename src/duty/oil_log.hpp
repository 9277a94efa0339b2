// SPDX-License-Identifier: MIT
// The oil's temperature over one leg in few rows, however long it is.
#pragma once

#include "caseload/duty/event.hpp"

#include <cstddef>
#include <vector>

namespace caseload::duty {

/// Means over equal pieces of the leg; the pieces double when there are too many.
class OilLog {
public:
    void add(double from_start_s, double dt_s, double temp_degC) {
        if (pieces_.empty()) {
            start_degC_ = temp_degC;
            first_s_ = from_start_s;
        }
        const auto at = static_cast<std::size_t>(from_start_s / piece_s_);
        if (at >= most_pieces) {
            halve();
            add(from_start_s, dt_s, temp_degC);
            return;
        }
        if (at >= pieces_.size()) pieces_.resize(at + 1);
        Piece& piece = pieces_[at];
        piece.weight_s += dt_s;
        piece.moment += dt_s * (from_start_s + dt_s / 2);
        piece.temp += dt_s * temp_degC;
        known_s_ += dt_s;
    }

    /// First the start, then the means; clears it. Nothing of a leg too short, with
    /// little known, or whose start is not.
    [[nodiscard]] std::vector<OilRow> take(double leg_s);

private:
    struct Piece {
        double weight_s = 0;
        double moment = 0;
        double temp = 0;
    };
    void halve();

    static constexpr std::size_t most_pieces = 24;
    double piece_s_ = 1;
    double start_degC_ = 0;
    double first_s_ = 0;
    double known_s_ = 0;
    std::vector<Piece> pieces_;
};

}  // namespace caseload::duty
