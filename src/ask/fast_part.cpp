// SPDX-License-Identifier: MIT
#include "ask/fast_part.hpp"

namespace caseload {

void make_parts(const std::vector<TablesPart*>& parts, const ForEach& for_each) {
    std::vector<std::unique_lock<std::mutex>> locks;
    struct Piece {
        TablesPart* of;
        std::size_t number;
    };
    std::vector<Piece> pieces;
    for (TablesPart* part : parts) {
        locks.emplace_back(part->making_);
        for (std::size_t i = 0; !part->made_ && i < part->pieces(); ++i)
            pieces.push_back({part, i});
    }
    for_each(pieces.size(), [&](std::size_t i) { pieces[i].of->make(pieces[i].number); });
    for (TablesPart* part : parts) part->made_ = true;
}

}  // namespace caseload
