// SPDX-License-Identifier: MIT
#include "bins/groups.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <memory>
#include <utility>

namespace caseload::bins {
namespace {

// Judgement; with it the claims of tests/duty/bins_test.cpp are true.
constexpr double largest_total_loss = 0.002;  // of all losses together, over the leg
constexpr std::size_t cut_places = 48;  // a group may be cut between them, along torque and speed
constexpr double speed_spread = 0.2;  // how much less a spread in speed matters than one in torque

double speed_of(const CellSums& sums) {
    return sums.time_s > 0 ? 60 * sums.turns / sums.time_s : 0;
}

/// What is summed over cells to find a loss, in one row of numbers: a cell is added in one loop.
enum Place : std::size_t {
    at_time,
    at_turns,
    at_weight,                 ///< its part of all measures together
    at_first,                  ///< weight x log of torque and of speed
    at_second = at_first + 2,  ///< weight x log^2
    at_parts = at_second + 2,  ///< of each measure's scale
};

// Rows are a multiple of so many long: some vectors of two numbers, added one after the other.
constexpr std::size_t at_once = 4;
using Lanes [[gnu::vector_size(2 * sizeof(double))]] = double;

Lanes lanes(const double* from) {
    Lanes two;
    std::memcpy(&two, from, sizeof two);
    return two;
}

void add_row(double* to, const double* more, std::size_t width) {
    for (std::size_t k = 0; k < width; k += at_once) {
        const Lanes a = lanes(to + k) + lanes(more + k);
        const Lanes b = lanes(to + k + 2) + lanes(more + k + 2);
        std::memcpy(to + k, &a, sizeof a);
        std::memcpy(to + k + 2, &b, sizeof b);
    }
}

/// Cells put together; what a loss is found from.
struct Sum {
    std::vector<double> row;
    std::size_t points = 0;

    explicit Sum(std::size_t width) : row(width, 0.0) {}
    void add(const double* more, std::size_t points_of) {
        add_row(row.data(), more, row.size());
        points += points_of;
    }
    void add(const Sum& more) { add(more.row.data(), more.points); }
    [[nodiscard]] double speed_rpm() const {
        return row[at_time] > 0 ? 60 * row[at_turns] / row[at_time] : 0;
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
        // Not value-initialised: there are millions, and each is filled in.
        rows_.reset(new double[cells.size() * width_]);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const CellSums& sums = cells[i].sums;
            const double size_Nm =
                sums.turns > 0 ? std::cbrt(sums.torque_3_turns / sums.turns) : 0.0;
            const double speed_rpm = speed_of(sums);
            const double log_torque = Measures::log_of_size(size_Nm);
            const double log_speed = Measures::log_of_size(speed_rpm);
            // Those below 1 lie at one place.
            log_at_[0].push_back(std::max(log_torque, 0.0));
            log_at_[1].push_back(std::max(log_speed, 0.0));
            double* const row = row_of(i);
            row[at_time] = sums.time_s;
            row[at_turns] = sums.turns;
            measures.values(sums.turns, cells[i].coast ? -size_Nm : size_Nm, speed_rpm, log_torque,
                            log_speed, row + at_parts);
            std::fill(row + at_parts + count_, row + width_, 0.0);
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
            Gathered part(width_);
            for (std::size_t i = 0; i < cells.size(); ++i)
                if (cells[i].coast == coast) gather(part, i);
            if (!part.members.empty()) keep(std::move(part), coast ? -1 : 1);
        }
        while (pieces_.size() < most) {
            double sum = 0;
            std::size_t worst = 0;
            for (std::size_t i = 0; i < pieces_.size(); ++i) {
                sum += pieces_[i].loss;
                if (pieces_[i].loss > pieces_[worst].loss) worst = i;
            }
            if (pieces_.empty() || sum <= largest_total_loss || pieces_[worst].loss <= 0) break;
            split(worst);
        }
        Grouped result;
        for (const Piece& piece : pieces_) {
            Group& group = result.groups.emplace_back(Group{{}, piece.torque_Nm, piece.speed_rpm});
            for (const std::size_t i : piece.members) group.sums.add(cells[i].sums);
        }
        result.by_cells = by_cells_;
        return result;
    }

private:
    using Members = std::vector<std::uint32_t>;  // of at most some ten thousand cells
    struct Range {
        double low = 1e300;
        double high = -1e300;
        [[nodiscard]] bool any() const { return high > low; }
        void widen(double x) {
            low = std::min(low, x);
            high = std::max(high, x);
        }
        [[nodiscard]] std::size_t slot(double x) const {
            const double part = (x - low) / (high - low);
            return std::min(cut_places - 1, static_cast<std::size_t>(part * cut_places));
        }
    };
    using Ranges = std::array<Range, 2>;  ///< along torque and speed
    struct Piece {
        Members members;
        Ranges ranges;
        double sign = 1;
        double torque_Nm = 0;  ///< as Group has it
        double speed_rpm = 0;
        double loss = 0;
    };
    /// A piece to be, its cells one after the other.
    struct Gathered {
        Members members;
        Ranges ranges;
        Sum sum;
        explicit Gathered(std::size_t width) : sum(width) {}
    };
    struct Cut {
        double loss = 1e300;
        std::size_t axis = 2;
        std::size_t slot = 0;  ///< the last below
    };

    [[nodiscard]] double* row_of(std::size_t cell) { return rows_.get() + cell * width_; }

    /// The power mean of the sum's torque over its turns, between those of the measures' powers.
    [[nodiscard]] double mean_torque_Nm(const Sum& sum, double exponent) const {
        const double turns = sum.row[at_turns];
        if (turns <= 0) return 0;
        const auto power_mean_Nm = [&](std::size_t k) {
            return std::pow(sum.part(k) * scale_[k] / turns, 1 / measures_.kept()[k].torque);
        };
        std::size_t before = count_;  // none
        for (std::size_t k = 0; k < measures_.first_tooth(); ++k) {
            const Measures::Kept& kept = measures_.kept()[k];
            if (kept.torque <= 0 || !kept.of_torque_alone) continue;
            if (kept.torque >= exponent) {
                const double Nm = power_mean_Nm(k);
                if (before == count_) return Nm;
                const double before_Nm = power_mean_Nm(before);
                const double below = measures_.kept()[before].torque;
                return before_Nm + (Nm - before_Nm) * (exponent - below) / (kept.torque - below);
            }
            before = k;
        }
        return before == count_ ? 0 : power_mean_Nm(before);
    }

    /// Torque of the sum's cells as one bin: it keeps what they mostly do.
    [[nodiscard]] double torque_of(const Sum& sum, double sign) const {
        double all = 0;
        double exponents = 0;
        for (std::size_t k = 0; k < count_; ++k) {
            const Measures::Kept& kept = measures_.kept()[k];
            if (kept.torque <= 0) continue;
            all += kept.importance * sum.part(k);
            exponents += kept.importance * sum.part(k) * kept.torque;
        }
        return sign * mean_torque_Nm(sum, all > 0 ? exponents / all : 1);
    }

    /// How much the measures change, and a little for cells that lie apart all the same: another
    /// setup may tell them apart.
    double loss(const Sum& sum, double torque_Nm) {
        if (sum.points < 2) return 0;
        measures_.values(sum.row[at_turns], torque_Nm, sum.speed_rpm(), bin_.data());
        double lost = sum.spread(0) + speed_spread * sum.spread(1);
        for (std::size_t k = 0; k < count_; ++k)
            if (scale_[k] > 0)
                lost +=
                    measures_.kept()[k].importance * std::fabs(bin_[k] / scale_[k] - sum.part(k));
        return lost;
    }

    void gather(Gathered& part, std::size_t cell) {
        part.members.push_back(static_cast<std::uint32_t>(cell));
        part.sum.add(row_of(cell), 1);
        for (std::size_t axis = 0; axis < log_at_.size(); ++axis)
            part.ranges[axis].widen(log_at_[axis][cell]);
    }

    void keep(Gathered part, double sign) {
        const double torque_Nm = torque_of(part.sum, sign);
        const double lost = loss(part.sum, torque_Nm);
        pieces_.push_back(
            {std::move(part.members), part.ranges, sign, torque_Nm, part.sum.speed_rpm(), lost});
    }

    /// The sums of a piece's cut_places along each axis, in one way through its cells.
    void fill_slots(const Piece& piece) {
        for (std::size_t axis = 0; axis < slot_rows_.size(); ++axis) {
            slot_rows_[axis].assign(cut_places * width_, 0.0);
            slot_points_[axis].fill(0);
        }
        for (const std::size_t i : piece.members)
            for (std::size_t axis = 0; axis < slot_rows_.size(); ++axis) {
                if (!piece.ranges[axis].any()) continue;
                const std::size_t slot = piece.ranges[axis].slot(log_at_[axis][i]);
                add_row(slot_rows_[axis].data() + slot * width_, row_of(i), width_);
                ++slot_points_[axis][slot];
            }
    }

    void try_cuts(const Piece& piece, std::size_t axis, Cut& best) {
        if (!piece.ranges[axis].any()) return;
        const double* const in = slot_rows_[axis].data();
        const std::array<std::size_t, cut_places>& points = slot_points_[axis];
        above_.resize(cut_places, Sum(width_));  // a slot and all later
        for (std::size_t s = cut_places; s-- > 0;) {
            above_[s].row.assign(in + s * width_, in + (s + 1) * width_);
            above_[s].points = points[s];
            if (s + 1 < cut_places) above_[s].add(above_[s + 1]);
        }
        Sum below(width_);
        for (std::size_t s = 0; s + 1 < cut_places; ++s) {
            below.add(in + s * width_, points[s]);
            if (points[s] == 0 || above_[s + 1].points == 0) continue;
            const double lost = loss(below, torque_of(below, piece.sign)) +
                                loss(above_[s + 1], torque_of(above_[s + 1], piece.sign));
            if (lost < best.loss) best = {lost, axis, s};
        }
    }

    void split(std::size_t which) {
        Cut best;
        fill_slots(pieces_[which]);
        try_cuts(pieces_[which], 0, best);
        try_cuts(pieces_[which], 1, best);
        if (best.axis == 2) {
            pieces_[which].loss = 0;  // all at one place
            return;
        }
        const Piece piece = std::move(pieces_[which]);
        pieces_.erase(pieces_.begin() + static_cast<std::ptrdiff_t>(which));
        Gathered lower(width_);
        Gathered upper(width_);
        const Range& range = piece.ranges[best.axis];
        for (const std::size_t i : piece.members)
            gather(range.slot(log_at_[best.axis][i]) <= best.slot ? lower : upper, i);
        keep(std::move(lower), piece.sign);
        keep(std::move(upper), piece.sign);
    }

    const Measures& measures_;
    std::size_t count_;
    std::size_t width_;                          ///< of a row
    std::unique_ptr<double[]> rows_;             ///< by cell, as Place says
    std::array<std::vector<double>, 2> log_at_;  ///< of torque and of speed, by cell
    std::vector<double> by_cells_;
    std::vector<double> scale_;
    std::vector<double> bin_;
    std::vector<Piece> pieces_;
    // Of the piece that is cut, by axis.
    std::array<std::vector<double>, 2> slot_rows_;
    std::array<std::array<std::size_t, cut_places>, 2> slot_points_{};
    std::vector<Sum> above_;
};

}  // namespace

Grouped grouped(const std::vector<Cells::Taken>& cells, const Measures& measures,
                std::size_t most) {
    return Grouper(cells, measures).run(cells, most);
}

}  // namespace caseload::bins
