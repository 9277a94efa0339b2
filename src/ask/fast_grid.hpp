// SPDX-License-Identifier: MIT
// Interpolation of the fast case: polynomial over a factor, linear over a fine temperature grid.
#pragma once

#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
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
    }
    [[nodiscard]] double operator[](std::size_t i) const { return at_[i]; }
    /// Weights of the nodes at x; beyond the ends the value at the end.
    [[nodiscard]] std::array<double, N> weights(double x) const {
        const double inside = std::clamp(x, ends_.low, ends_.high);
        std::array<double, N> w{};
        for (std::size_t i = 0; i < N; ++i) {
            w[i] = 1;
            for (std::size_t j = 0; j < N; ++j)
                if (j != i) w[i] *= (inside - at_[j]) / (at_[i] - at_[j]);
        }
        return w;
    }

private:
    Ends ends_;
    std::array<double, N> at_{};
};

/// Values on equally spaced points, linear between them and beyond the ends.
struct Grid {
    double first = 0;
    double step = 1;
    std::vector<double> y;

    struct At {
        double value;
        double slope;
    };
    [[nodiscard]] At at(double x) const {
        const double position = (x - first) / step;
        const auto last = static_cast<double>(y.size() - 2);
        const auto i = static_cast<std::size_t>(std::clamp(std::floor(position), 0.0, last));
        const double slope = y[i + 1] - y[i];
        return {y[i] + (position - static_cast<double>(i)) * slope, slope / step};
    }
    [[nodiscard]] double x(std::size_t i) const { return first + step * static_cast<double>(i); }
};

/// Cubic through the four neighbours of each fine point, from a coarse grid.
class Refine {
public:
    struct Grids {
        const Grid& coarse;
        const Grid& fine;
    };
    /// Beyond the ceiling the value at the ceiling.
    Refine(const Grids& grids, double ceiling) {
        const auto& [coarse, fine] = grids;
        for (std::size_t i = 0; i < fine.y.size(); ++i) {
            const double position = (std::min(fine.x(i), ceiling) - coarse.first) / coarse.step;
            const auto last = static_cast<double>(coarse.y.size() - 3);
            const double base = std::clamp(std::floor(position), 1.0, last);
            const double u = position - base;
            first_.push_back(static_cast<std::size_t>(base) - 1);
            weights_.push_back({-u * (u - 1) * (u - 2) / 6, (u + 1) * (u - 1) * (u - 2) / 2,
                                -(u + 1) * u * (u - 2) / 2, (u + 1) * u * (u - 1) / 6});
        }
    }
    void operator()(const std::vector<double>& coarse, std::vector<double>& fine) const {
        fine.resize(first_.size());
        for (std::size_t i = 0; i < first_.size(); ++i) {
            const double* y = &coarse[first_[i]];
            const auto& w = weights_[i];
            fine[i] = w[0] * y[0] + w[1] * y[1] + w[2] * y[2] + w[3] * y[3];
        }
    }

private:
    std::vector<std::size_t> first_;
    std::vector<std::array<double, 4>> weights_;
};

}  // namespace caseload
