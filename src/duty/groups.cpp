// SPDX-License-Identifier: MIT
#include "duty/groups.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <utility>

namespace caseload::duty {
namespace {

// Judgement; tests/duty/bins_test.cpp holds its promises with it.
constexpr double enough = 0.002;      // of all losses together, over the leg
constexpr std::size_t slots = 48;     // a group may be cut between them, along torque and speed
constexpr double speed_spread = 0.2;  // how much less a spread in speed matters than one in torque

double speed_of(const CellSums& sums) {
    return sums.time_s > 0 ? 60 * sums.turns / sums.time_s : 0;
}

/// What is summed over cells, in one row of numbers: a cell is added in one loop.
enum Place : std::size_t {
    at_time,
    at_turns,
    at_torque_3_turns,
    at_way,
    at_weight,                 ///< its part of all measures together
    at_first,                  ///< weight x log of torque and of speed
    at_second = at_first + 2,  ///< weight x log^2
    at_parts = at_second + 2,  ///< of each measure's scale
};

// Rows are a multiple of so many long.
constexpr std::size_t at_once = 2;
using Lanes [[gnu::vector_size(at_once * sizeof(double))]] = double;

/// Cells put together; what a loss is found from.
struct Sum {
    std::vector<double> row;
    std::size_t points = 0;

    explicit Sum(std::size_t width) : row(width, 0.0) {}
    void add(const double* more, std::size_t points_of) {
        double* const to = row.data();
        const std::size_t width = row.size();
        for (std::size_t k = 0; k < width; k += at_once) {
            Lanes a;
            Lanes b;
            std::memcpy(&a, to + k, sizeof a);
            std::memcpy(&b, more + k, sizeof b);
            a += b;
            std::memcpy(to + k, &a, sizeof a);
        }
        points += points_of;
    }
    void add(const Sum& more) { add(more.row.data(), more.points); }
    [[nodiscard]] CellSums sums() const {
        return {row[at_time], row[at_turns], row[at_torque_3_turns], row[at_way]};
    }
    [[nodiscard]] double part(std::size_t measure) const { return row[at_parts + measure]; }
    [[nodiscard]] double spread(std::size_t axis) const {
        const double weight = row[at_weight];
        const double first = row[at_first + axis];
        return weight > 0 ? std::max(0.0, row[at_second + axis] - first * first / weight) : 0;
    }
};

class Grouper {
public:
    Grouper(const std::vector<Cells::Taken>& cells, const Measures& measures)
        : measures_(measures),
          count_(measures.count()),
          width_((at_parts + count_ + at_once - 1) / at_once * at_once),
          by_cells_(count_, 0.0),
          scale_(count_),
          bin_(count_) {
        for (std::vector<double>& of_axis : log_at_) of_axis.reserve(cells.size());
        rows_.resize(cells.size() * width_);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const CellSums& sums = cells[i].sums;
            const double size_Nm =
                sums.turns > 0 ? std::cbrt(sums.torque_3_turns / sums.turns) : 0.0;
            log_at_[0].push_back(std::log(std::max(size_Nm, 1.0)));
            log_at_[1].push_back(std::log(std::max(speed_of(sums), 1.0)));
            double* const row = row_of(i);
            row[at_time] = sums.time_s;
            row[at_turns] = sums.turns;
            row[at_torque_3_turns] = sums.torque_3_turns;
            row[at_way] = sums.way_m;
            measures.values(sums.turns, cells[i].coast ? -size_Nm : size_Nm, speed_of(sums),
                            row + at_parts);
            for (std::size_t k = 0; k < count_; ++k) by_cells_[k] += row[at_parts + k];
        }
        for (std::size_t k = 0; k < count_; ++k)
            scale_[k] = std::max(by_cells_[k], by_cells_[measures.kept()[k].scale]);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            double* const row = row_of(i);
            double weight = 0;
            for (std::size_t k = 0; k < count_; ++k) {
                double& part = row[at_parts + k];
                part = scale_[k] > 0 ? part / scale_[k] : 0;
                weight += measures.kept()[k].importance * part;
            }
            row[at_weight] = weight;
            for (std::size_t axis = 0; axis < log_at_.size(); ++axis) {
                row[at_first + axis] = weight * log_at_[axis][i];
                row[at_second + axis] = weight * log_at_[axis][i] * log_at_[axis][i];
            }
        }
    }

    Grouped run(const std::vector<Cells::Taken>& cells, std::size_t most) {
        for (const bool coast : {false, true}) {
            Members members;
            for (std::size_t i = 0; i < cells.size(); ++i)
                if (cells[i].coast == coast) members.push_back(i);
            if (!members.empty()) keep(std::move(members), coast ? -1 : 1);
        }
        while (pieces_.size() < most) {
            double sum = 0;
            std::size_t worst = 0;
            for (std::size_t i = 0; i < pieces_.size(); ++i) {
                sum += pieces_[i].loss;
                if (pieces_[i].loss > pieces_[worst].loss) worst = i;
            }
            if (pieces_.empty() || sum <= enough || pieces_[worst].loss <= 0) break;
            split(worst);
        }
        Grouped result;
        for (const Piece& piece : pieces_) result.groups.push_back(piece.group);
        result.by_cells = by_cells_;
        return result;
    }

private:
    using Members = std::vector<std::size_t>;
    struct Piece {
        Members members;
        double sign = 1;
        Group group;
        double loss = 0;
    };
    struct Range {
        double low = 1e300;
        double high = -1e300;
        [[nodiscard]] std::size_t slot(double x) const {
            const double part = (x - low) / (high - low);
            return std::min(slots - 1, static_cast<std::size_t>(part * slots));
        }
    };
    struct Cut {
        double loss = 1e300;
        std::size_t axis = 2;
        std::size_t slot = 0;  ///< the last below
        Range range;
    };

    [[nodiscard]] double* row_of(std::size_t cell) { return rows_.data() + cell * width_; }

    /// The power mean of the sum's torque over its turns, between those of the measures' powers.
    [[nodiscard]] double mean_torque_Nm(const Sum& sum, double exponent) const {
        double before = 0;
        double before_Nm = 0;
        const double turns = sum.row[at_turns];
        for (std::size_t k = 0; k < measures_.first_tooth(); ++k) {
            const Measures::Kept& kept = measures_.kept()[k];
            if (kept.torque <= 0 || !kept.of_torque_alone || turns <= 0) continue;
            const double Nm = std::pow(sum.part(k) * scale_[k] / turns, 1 / kept.torque);
            if (kept.torque >= exponent)
                return before > 0 ? before_Nm + (Nm - before_Nm) * (exponent - before) /
                                                    (kept.torque - before)
                                  : Nm;
            before = kept.torque;
            before_Nm = Nm;
        }
        return before_Nm;
    }

    /// The sum's cells as one bin. Its torque keeps what they mostly do.
    [[nodiscard]] Group group_of(const Sum& sum, double sign) const {
        double all = 0;
        double exponents = 0;
        for (std::size_t k = 0; k < count_; ++k) {
            const Measures::Kept& kept = measures_.kept()[k];
            if (kept.torque <= 0) continue;
            all += kept.importance * sum.part(k);
            exponents += kept.importance * sum.part(k) * kept.torque;
        }
        return {sum.sums(), sign * mean_torque_Nm(sum, all > 0 ? exponents / all : 1),
                speed_of(sum.sums())};
    }

    /// How much the measures change, and a little for cells that lie apart all the same: another
    /// setup may tell them apart.
    double loss(const Sum& sum, const Group& group) {
        if (sum.points < 2) return 0;
        measures_.values(sum.row[at_turns], group.torque_Nm, group.speed_rpm, bin_.data());
        double lost = sum.spread(0) + speed_spread * sum.spread(1);
        for (std::size_t k = 0; k < count_; ++k)
            if (scale_[k] > 0)
                lost +=
                    measures_.kept()[k].importance * std::fabs(bin_[k] / scale_[k] - sum.part(k));
        return lost;
    }

    void keep(Members members, double sign) {
        Sum sum(width_);
        for (const std::size_t i : members) sum.add(row_of(i), 1);
        const Group group = group_of(sum, sign);
        const double lost = loss(sum, group);
        pieces_.push_back({std::move(members), sign, group, lost});
    }

    [[nodiscard]] Range range_of(const Members& members, std::size_t axis) const {
        Range range;
        for (const std::size_t i : members) {
            range.low = std::min(range.low, log_at_[axis][i]);
            range.high = std::max(range.high, log_at_[axis][i]);
        }
        return range;
    }

    void try_cuts(const Piece& piece, std::size_t axis, Cut& best) {
        const Range range = range_of(piece.members, axis);
        if (!(range.high > range.low)) return;
        std::vector<Sum> above(slots, Sum(width_));  // first a slot alone, then it and all later
        for (const std::size_t i : piece.members)
            above[range.slot(log_at_[axis][i])].add(row_of(i), 1);
        const std::vector<Sum> in = above;
        for (std::size_t s = slots - 1; s-- > 0;) above[s].add(above[s + 1]);
        Sum below(width_);
        for (std::size_t s = 0; s + 1 < slots; ++s) {
            below.add(in[s]);
            if (in[s].points == 0 || above[s + 1].points == 0) continue;
            const double lost = loss(below, group_of(below, piece.sign)) +
                                loss(above[s + 1], group_of(above[s + 1], piece.sign));
            if (lost < best.loss) best = {lost, axis, s, range};
        }
    }

    void split(std::size_t which) {
        Cut best;
        try_cuts(pieces_[which], 0, best);
        try_cuts(pieces_[which], 1, best);
        if (best.axis == 2) {
            pieces_[which].loss = 0;  // all at one place
            return;
        }
        const Piece piece = std::move(pieces_[which]);
        pieces_.erase(pieces_.begin() + static_cast<std::ptrdiff_t>(which));
        Members lower;
        Members upper;
        for (const std::size_t i : piece.members)
            (best.range.slot(log_at_[best.axis][i]) <= best.slot ? lower : upper).push_back(i);
        keep(std::move(lower), piece.sign);
        keep(std::move(upper), piece.sign);
    }

    const Measures& measures_;
    std::size_t count_;
    std::size_t width_;                          ///< of a row
    std::vector<double> rows_;                   ///< by cell, as Place says
    std::array<std::vector<double>, 2> log_at_;  ///< of torque and of speed, by cell
    std::vector<double> by_cells_;
    std::vector<double> scale_;
    std::vector<double> bin_;
    std::vector<Piece> pieces_;
};

}  // namespace

Grouped grouped(const std::vector<Cells::Taken>& cells, const Measures& measures,
                std::size_t most) {
    return Grouper(cells, measures).run(cells, most);
}

}  // namespace caseload::duty
