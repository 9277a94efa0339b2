// SPDX-License-Identifier: MIT
#include "bins/cells.hpp"

#include <algorithm>

namespace caseload::bins {
namespace {

// 60 000 cells and their sums stay under the 64 MiB a log may take; beyond, classes double.
constexpr std::size_t most_cells = 60000;

}  // namespace

std::vector<Cells::Taken> Cells::take() {
    settle();
    waiting_ = nullptr;
    std::size_t count = 0;
    for (const auto& piece : pieces_)
        if (piece)
            for (const CellSums& cell : *piece) count += cell.time_s > 0 ? 1 : 0;
    std::size_t step = 1;  // of classes of torque and of speed; it divides a piece
    while (count / (step * step) > most_cells) step *= 2;
    std::vector<Taken> taken;
    taken.reserve(std::min(count, most_cells));
    std::vector<const Piece*> side_by_side;
    for (const bool coast : {false, true})
        for (std::size_t t = 0; t < torques; t += step)
            for (std::size_t s = 0; s < speeds; s += in_piece) {
                side_by_side.clear();
                for (std::size_t i = t; i < std::min(t + step, torques); ++i)
                    if (const auto& piece = pieces_[piece_at(coast, i, s)])
                        side_by_side.push_back(piece.get());
                if (!side_by_side.empty()) take_from(side_by_side, step, coast, taken);
            }
    for (auto& piece : pieces_) piece.reset();
    return taken;
}

void Cells::take_from(const std::vector<const Piece*>& side_by_side, std::size_t step, bool coast,
                      std::vector<Taken>& to) {
    for (std::size_t s = 0; s < in_piece; s += step) {
        Taken one{{}, coast};
        for (const Piece* const piece : side_by_side)
            for (std::size_t j = s; j < s + step; ++j) one.sums.add((*piece)[j]);
        if (one.sums.time_s > 0) to.push_back(one);
    }
}

}  // namespace caseload::bins
