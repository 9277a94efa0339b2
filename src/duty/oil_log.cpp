// SPDX-License-Identifier: MIT
#include "duty/oil_log.hpp"

#include <utility>

namespace caseload::duty {
namespace {

// Judgement: in less than this the oil says little, and with less of it known nothing.
constexpr double shortest_leg_s = 300;
constexpr double least_known = 0.8;
// Judgement: oil this late is still the start's; it moves by tenths of a kelvin meanwhile.
constexpr double latest_start_s = 10;

}  // namespace

void OilLog::halve() {
    std::vector<Piece> halved((pieces_.size() + 1) / 2);
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
        halved[i / 2].weight_s += pieces_[i].weight_s;
        halved[i / 2].moment += pieces_[i].moment;
        halved[i / 2].temp += pieces_[i].temp;
    }
    pieces_ = std::move(halved);
    piece_s_ *= 2;
}

std::vector<OilRow> OilLog::take(double leg_s) {
    std::vector<OilRow> rows;
    if (leg_s >= shortest_leg_s && known_s_ >= least_known * leg_s && first_s_ <= latest_start_s) {
        rows.push_back({0, start_degC_});
        for (const Piece& piece : pieces_)
            if (piece.weight_s > 0)
                rows.push_back({piece.moment / piece.weight_s, piece.temp / piece.weight_s});
    }
    *this = {};
    return rows;
}

}  // namespace caseload::duty
