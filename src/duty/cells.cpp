// SPDX-License-Identifier: MIT
#include "duty/cells.hpp"

#include <algorithm>

namespace caseload::duty {
namespace {

// 60 000 cells and their sums stay under the 64 MiB a log may take; beyond, classes double.
constexpr std::size_t most_cells = 60000;

}  // namespace

std::vector<const Cells::Row*> Cells::rows_of(bool coast, std::size_t from, std::size_t to) const {
    std::vector<const Row*> rows;
    for (std::size_t i = from; i < to; ++i)
        if (const auto& row = rows_[(coast ? torques : 0) + i]) rows.push_back(row.get());
    return rows;
}

std::vector<Cells::Taken> Cells::take() {
    settle();
    waiting_ = nullptr;
    std::size_t count = 0;
    for (const auto& row : rows_)
        if (row)
            for (const CellSums& cell : row->cells) count += cell.time_s > 0 ? 1 : 0;
    std::size_t step = 1;
    while (count / (step * step) > most_cells) step *= 2;
    std::vector<Taken> taken;
    for (const bool coast : {false, true})
        for (std::size_t t = 0; t < torques; t += step) {
            const std::vector<const Row*> rows = rows_of(coast, t, std::min(t + step, torques));
            for (std::size_t s = 0; s < speeds && !rows.empty(); s += step) {
                Taken one{{}, coast};
                for (const Row* const row : rows)
                    for (std::size_t j = s; j < std::min(s + step, speeds); ++j)
                        one.sums.add(row->cells[j]);
                if (one.sums.time_s > 0) taken.push_back(one);
            }
        }
    for (auto& row : rows_) row.reset();
    return taken;
}

}  // namespace caseload::duty
