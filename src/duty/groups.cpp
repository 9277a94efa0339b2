// SPDX-License-Identifier: MIT
#include "duty/groups.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace caseload::duty {
namespace {

// Judgement; tests/duty/bins_test.cpp holds its promises with it.
constexpr double enough = 0.002;      // of all losses together, over the leg
constexpr std::size_t slots = 48;     // a group may be cut between them, along torque and speed
constexpr double speed_spread = 0.2;  // how much less a spread in speed matters than one in torque

struct Point {
    CellSums sums;
    double torque_Nm = 0;  ///< size
    double speed_rpm = 0;
    std::array<double, 2> log_at{};  ///< of torque and of speed
    double weight = 0;               ///< its part of all measures together
};

double speed_of(const CellSums& sums) {
    return sums.time_s > 0 ? 60 * sums.turns / sums.time_s : 0;
}

/// Cells put together; what a loss is found from.
struct Sum {
    CellSums sums;
    double weight = 0;
    std::array<double, 2> first{};   ///< weight x log
    std::array<double, 2> second{};  ///< weight x log^2
    std::vector<double> parts;       ///< of each measure's scale
    std::size_t points = 0;

    explicit Sum(std::size_t measures) : parts(measures, 0.0) {}
    void add(const Point& point, const double* of_point) {
        sums.add(point.sums);
        weight += point.weight;
        for (std::size_t a = 0; a < 2; ++a) {
            first[a] += point.weight * point.log_at[a];
            second[a] += point.weight * point.log_at[a] * point.log_at[a];
        }
        for (std::size_t k = 0; k < parts.size(); ++k) parts[k] += of_point[k];
        ++points;
    }
    void add(const Sum& more) {
        sums.add(more.sums);
        weight += more.weight;
        for (std::size_t a = 0; a < 2; ++a) {
            first[a] += more.first[a];
            second[a] += more.second[a];
        }
        for (std::size_t k = 0; k < parts.size(); ++k) parts[k] += more.parts[k];
        points += more.points;
    }
    [[nodiscard]] double spread(std::size_t axis) const {
        return weight > 0 ? std::max(0.0, second[axis] - first[axis] * first[axis] / weight) : 0;
    }
};

class Grouper {
public:
    Grouper(const std::vector<Cells::Taken>& cells, const Measures& measures)
        : measures_(measures), count_(measures.count()), scale_(count_), bin_(count_) {
        by_cells_.resize(count_);
        parts_.resize(cells.size() * count_);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const CellSums& sums = cells[i].sums;
            Point point{sums, 0, speed_of(sums), {}, 0};
            if (sums.turns > 0) point.torque_Nm = std::cbrt(sums.torque_3_turns / sums.turns);
            point.log_at = {std::log(std::max(point.torque_Nm, 1.0)),
                            std::log(std::max(point.speed_rpm, 1.0))};
            double* const values = parts_.data() + i * count_;
            measures.values(sums.turns, cells[i].coast ? -point.torque_Nm : point.torque_Nm,
                            point.speed_rpm, values);
            for (std::size_t k = 0; k < count_; ++k) by_cells_[k] += values[k];
            points_.push_back(point);
        }
        for (std::size_t k = 0; k < count_; ++k)
            scale_[k] = std::max(by_cells_[k], by_cells_[measures.kept()[k].scale]);
        for (std::size_t i = 0; i < points_.size(); ++i)
            for (std::size_t k = 0; k < count_; ++k) {
                double& part = parts_[i * count_ + k];
                part = scale_[k] > 0 ? part / scale_[k] : 0;
                points_[i].weight += measures.kept()[k].importance * part;
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
    struct Cut {
        double loss = 1e300;
        std::size_t axis = 2;
        std::size_t slot = 0;  ///< the last below
    };

    /// The power mean of the sum's torque over its turns, between those of the measures' powers.
    [[nodiscard]] double mean_torque_Nm(const Sum& sum, double exponent) const {
        double before = 0;
        double before_Nm = 0;
        for (std::size_t k = 0; k < measures_.first_tooth(); ++k) {
            const Measures::Kept& kept = measures_.kept()[k];
            if (kept.torque <= 0 || !kept.of_torque_alone || sum.sums.turns <= 0) continue;
            const double Nm = std::pow(sum.parts[k] * scale_[k] / sum.sums.turns, 1 / kept.torque);
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
            all += kept.importance * sum.parts[k];
            exponents += kept.importance * sum.parts[k] * kept.torque;
        }
        return {sum.sums, sign * mean_torque_Nm(sum, all > 0 ? exponents / all : 1),
                speed_of(sum.sums)};
    }

    /// How much the measures change, and a little for cells that lie apart all the same: another
    /// setup may tell them apart.
    double loss(const Sum& sum, const Group& group) {
        if (sum.points < 2) return 0;
        measures_.values(sum.sums.turns, group.torque_Nm, group.speed_rpm, bin_.data());
        double lost = sum.spread(0) + speed_spread * sum.spread(1);
        for (std::size_t k = 0; k < count_; ++k)
            if (scale_[k] > 0)
                lost +=
                    measures_.kept()[k].importance * std::fabs(bin_[k] / scale_[k] - sum.parts[k]);
        return lost;
    }

    void keep(Members members, double sign) {
        Sum sum(count_);
        for (const std::size_t i : members) sum.add(points_[i], &parts_[i * count_]);
        const Group group = group_of(sum, sign);
        const double lost = loss(sum, group);
        pieces_.push_back({std::move(members), sign, group, lost});
    }

    struct Range {
        double low = 1e300;
        double high = -1e300;
        [[nodiscard]] std::size_t slot(double x) const {
            const double part = (x - low) / (high - low);
            return std::min(slots - 1, static_cast<std::size_t>(part * slots));
        }
    };
    [[nodiscard]] Range range_of(const Members& members, std::size_t axis) const {
        Range range;
        for (const std::size_t i : members) {
            range.low = std::min(range.low, points_[i].log_at[axis]);
            range.high = std::max(range.high, points_[i].log_at[axis]);
        }
        return range;
    }

    void try_cuts(const Piece& piece, std::size_t axis, Cut& best) {
        const Range range = range_of(piece.members, axis);
        if (!(range.high > range.low)) return;
        std::vector<Sum> above(slots, Sum(count_));  // first a slot alone, then it and all later
        for (const std::size_t i : piece.members)
            above[range.slot(points_[i].log_at[axis])].add(points_[i], &parts_[i * count_]);
        const std::vector<Sum> in = above;
        for (std::size_t s = slots - 1; s-- > 0;) above[s].add(above[s + 1]);
        Sum below(count_);
        for (std::size_t s = 0; s + 1 < slots; ++s) {
            below.add(in[s]);
            if (in[s].points == 0 || above[s + 1].points == 0) continue;
            const double lost = loss(below, group_of(below, piece.sign)) +
                                loss(above[s + 1], group_of(above[s + 1], piece.sign));
            if (lost < best.loss) best = {lost, axis, s};
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
        const Range range = range_of(piece.members, best.axis);
        Members lower;
        Members upper;
        for (const std::size_t i : piece.members)
            (range.slot(points_[i].log_at[best.axis]) <= best.slot ? lower : upper).push_back(i);
        keep(std::move(lower), piece.sign);
        keep(std::move(upper), piece.sign);
    }

    const Measures& measures_;
    std::size_t count_;
    std::vector<Point> points_;
    std::vector<double> parts_;  ///< by cell, of each measure's scale
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
