// SPDX-License-Identifier: MIT
// Interpolation of the fast case: polynomial over a factor, linear over a fine temperature grid.
#pragma once

#include "ask/fast_four.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstring>
#include <vector>

namespace caseload {

/// Chebyshev points of an interval and Lagrange weights between them.
template <std::size_t N>
class FactorNodes {
public:
    struct Ends {
        double low;
        double high;
    };
    explicit FactorNodes(Ends ends) : ends_(ends) {
        for (std::size_t i = 0; i < N; ++i)
            at_[i] =
                (ends.low + ends.high) / 2 - (ends.high - ends.low) / 2 *
                                                 std::cos(pi * (2.0 * static_cast<double>(i) + 1) /
                                                          (2.0 * static_cast<double>(N)));
        for (std::size_t i = 0; i < N; ++i) {
            double apart = 1;
            for (std::size_t j = 0; j < N; ++j)
                if (j != i) apart *= at_[i] - at_[j];
            scale_[i] = 1 / apart;
        }
    }
    [[nodiscard]] double operator[](std::size_t i) const { return at_[i]; }
    /// Weights of the nodes at x; beyond the ends the value at the end.
    [[nodiscard]] std::array<double, N> weights(double x) const {
        const double inside = std::clamp(x, ends_.low, ends_.high);
        std::array<double, N> w = scale_;
        double before = 1;
        for (std::size_t i = 0; i < N; ++i) {
            w[i] *= before;
            before *= inside - at_[i];
        }
        double after = 1;
        for (std::size_t i = N; i-- > 0;) {
            w[i] *= after;
            after *= inside - at_[i];
        }
        return w;
    }
    [[nodiscard]] bool operator==(const FactorNodes& other) const { return at_ == other.at_; }

private:
    Ends ends_;
    std::array<double, N> at_{};
    std::array<double, N> scale_{};
};

/// Values on equally spaced points, linear between them and beyond the ends.
struct Grid {
    double first = 0;
    double step = 1;
    std::vector<double> y;

    /// Value at a place.
    [[nodiscard]] double at(double x) const {
        const double position = (x - first) / step;
        const auto last = static_cast<double>(y.size() - 2);
        const auto i = static_cast<std::size_t>(std::clamp(std::floor(position), 0.0, last));
        return y[i] + (position - static_cast<double>(i)) * (y[i + 1] - y[i]);
    }
    [[nodiscard]] double x(std::size_t i) const { return first + step * static_cast<double>(i); }

    bool operator==(const Grid&) const = default;
};

/// Where a value lies between two points of a grid whose step is a power of two, so that to
/// multiply by its inverse is to divide by it.
class GridPlaces {
public:
    struct Place {
        std::size_t i;  ///< between this point and the next, or beyond an end
        double part;
    };
    explicit GridPlaces(const Grid& grid)
        : first_(grid.first),
          points_per_x_(1 / grid.step),
          last_(static_cast<double>(grid.y.size() - 2)),
          four_{first_, points_per_x_, last_} {}
    [[nodiscard]] Place of(double x) const {
        const double position = (x - first_) * points_per_x_;
        // Not below 0, so that what is cut off is what std::floor cuts off.
        const auto i = static_cast<int>(std::clamp(position, 0.0, last_));
        return {static_cast<std::size_t>(i), position - i};
    }
    /// Of four values, each with its own place.
    struct FourPlaces {
        FourWhole i;
        Four part;
    };
    [[nodiscard, gnu::always_inline]] inline FourPlaces of(const Four& x) const {
        const Four position = (x - four_.first) * four_.points_per_x;
        const FourWhole i(larger(smaller(position, four_.last), 0.0));  // as std::clamp does
        return {i, position - i.as_four()};
    }
    [[nodiscard]] double points_per_x() const { return points_per_x_; }

private:
    /// The same number four times each: kept so, as a compiler spreads them anew in every loop.
    struct Spread {
        Four first;
        Four points_per_x;
        Four last;
    };
    double first_;
    double points_per_x_;
    double last_;
    Spread four_;
};

/// Values on the points of a grid at each of some nodes, in blocks of neighbouring points, which
/// are blended at once.
template <std::size_t Nodes>
class NodeTable {
public:
    static constexpr std::size_t block_points = at_once;
    using Weights = std::array<double, Nodes>;
    using Block = std::array<double, block_points>;

    NodeTable() = default;
    explicit NodeTable(std::size_t points) : blocks_((points + block_points - 1) / block_points) {}
    [[nodiscard]] bool empty() const { return blocks_.empty(); }
    [[nodiscard]] std::size_t blocks() const { return blocks_.size(); }
    [[nodiscard]] double& at(std::size_t node, std::size_t point) {
        return blocks_[point / block_points][node][point % block_points];
    }
    [[nodiscard]] double at(std::size_t node, std::size_t point) const {
        return blocks_[point / block_points][node][point % block_points];
    }
    void set(std::size_t node, const std::vector<double>& row) {
        for (std::size_t i = 0; i < row.size(); ++i) at(node, i) = row[i];
    }
    /// The points of one block.
    [[nodiscard, gnu::always_inline]] inline Four blend(const Weights& by_node,
                                                        std::size_t block) const {
        Four sum{};
        for (std::size_t n = 0; n < Nodes; ++n)
            sum += by_node[n] * Four::at(blocks_[block][n].data());
        return sum;
    }
    /// Of one point alone.
    [[nodiscard]] double blend_at(const Weights& by_node, std::size_t point) const {
        double sum = 0;
        for (std::size_t n = 0; n < Nodes; ++n)
            sum += by_node[n] * blocks_[point / block_points][n][point % block_points];
        return sum;
    }
    /// Of all points, and up to three beyond.
    [[nodiscard]] std::vector<double> blend(const Weights& by_node) const {
        std::vector<double> row(blocks_.size() * block_points);
        for (std::size_t b = 0; b < blocks_.size(); ++b) {
            const Four sum = blend(by_node, b);
            std::memcpy(&row[b * block_points], &sum.of, sizeof sum.of);
        }
        return row;
    }

private:
    std::vector<std::array<Block, Nodes>> blocks_;
};

/// Weights of a table over two factors: nodes of the second follow each other.
template <std::size_t A, std::size_t B>
std::array<double, A * B> by_both(const std::array<double, A>& a, const std::array<double, B>& b) {
    std::array<double, A * B> w{};
    for (std::size_t i = 0; i < A; ++i)
        for (std::size_t j = 0; j < B; ++j) w[i * B + j] = a[i] * b[j];
    return w;
}

/// Cubic through the four neighbours of each fine point, from a coarse grid.
class Refine {
public:
    struct Grids {
        const Grid& coarse;
        const Grid& fine;
    };
    struct Neighbours {
        std::size_t first;
        std::array<double, 4> weights;
    };
    /// Beyond the ceiling the value at the ceiling.
    Refine(const Grids& grids, double ceiling) {
        const auto& [coarse, fine] = grids;
        for (std::size_t i = 0; i < fine.y.size(); ++i) {
            const double position = (std::min(fine.x(i), ceiling) - coarse.first) / coarse.step;
            const auto last = static_cast<double>(coarse.y.size() - 3);
            const double base = std::clamp(std::floor(position), 1.0, last);
            const double u = position - base;
            of_.push_back({static_cast<std::size_t>(base) - 1,
                           {-u * (u - 1) * (u - 2) / 6, (u + 1) * (u - 1) * (u - 2) / 2,
                            -(u + 1) * u * (u - 2) / 2, (u + 1) * u * (u - 1) / 6}});
        }
    }
    [[nodiscard]] const Neighbours& operator[](std::size_t i) const { return of_[i]; }
    /// One fine point.
    [[nodiscard]] double at(const std::vector<double>& coarse, std::size_t i) const {
        const double* y = &coarse[of_[i].first];
        const auto& w = of_[i].weights;
        return w[0] * y[0] + w[1] * y[1] + w[2] * y[2] + w[3] * y[3];
    }

private:
    std::vector<Neighbours> of_;
};

}  // namespace caseload
