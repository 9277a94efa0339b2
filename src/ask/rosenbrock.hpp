// SPDX-License-Identifier: MIT
// Steps of the three-node network for the fast case. Oil settles in seconds and steel in an hour:
// an explicit method (heat/event.cpp) must follow the oil all day, a linearly implicit one need
// not.
#pragma once

#include "caseload/heat.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace caseload {

using Three = std::array<double, 3>;

/// Right side with its derivatives by the state and by time.
struct SlopeAt {
    Three f{};
    std::array<Three, 3> by_state{};
    Three by_time{};
};

/// Second order, L-stable, with an error estimate of third order; two solves with one matrix and a
/// third for the estimate.
/// Source: L. F. Shampine, M. W. Reichelt, SIAM J. Sci. Comput. 18 (1997) 1, section 4.1.
class RosenbrockStep {
public:
    struct Result {
        Three y{};
        double error = 0;  ///< largest component
    };

    /// `heat` becomes what flows at the step's end.
    template <class Slope, class Heat>
    Result operator()(Slope& slope, const SlopeAt& here, double t, const Three& y, double h,
                      Heat& heat) {
        const double hd = h * d;
        factor(here.by_state, hd);
        Three rhs{};
        for (std::size_t i = 0; i < 3; ++i) rhs[i] = here.f[i] + hd * here.by_time[i];
        const Three k1 = solve(rhs);
        Three middle{};
        for (std::size_t i = 0; i < 3; ++i) middle[i] = y[i] + h / 2 * k1[i];
        const Three f1 = slope.value(t + h / 2, middle, slope.heat(middle));
        for (std::size_t i = 0; i < 3; ++i) rhs[i] = f1[i] - k1[i];
        Three k2 = solve(rhs);
        Result result;
        for (std::size_t i = 0; i < 3; ++i) {
            k2[i] += k1[i];
            result.y[i] = y[i] + h * k2[i];
        }
        heat = slope.heat(result.y);
        const Three f2 = slope.value(t + h, result.y, heat);
        for (std::size_t i = 0; i < 3; ++i)
            rhs[i] = f2[i] - e32 * (k2[i] - f1[i]) - 2 * (k1[i] - here.f[i]) + hd * here.by_time[i];
        const Three k3 = solve(rhs);
        for (std::size_t i = 0; i < 3; ++i)
            result.error = std::max(result.error, std::fabs(h / 6 * (k1[i] - 2 * k2[i] + k3[i])));
        return result;
    }

private:
    static constexpr double d = 1 / (2 + std::numbers::sqrt2);
    static constexpr double e32 = 6 + std::numbers::sqrt2;

    // Inverse of I - h d J: three by three.
    void factor(const std::array<Three, 3>& J, double hd) {
        std::array<Three, 3> W{};
        for (std::size_t i = 0; i < 3; ++i)
            for (std::size_t j = 0; j < 3; ++j) W[i][j] = (i == j ? 1 : 0) - hd * J[i][j];
        struct Two {
            std::size_t a;
            std::size_t b;
        };
        const auto minor_of = [&W](const Two& rows, const Two& columns) {
            return W[rows.a][columns.a] * W[rows.b][columns.b] -
                   W[rows.a][columns.b] * W[rows.b][columns.a];
        };
        const double c0 = minor_of({1, 2}, {1, 2});
        const double c1 = -minor_of({1, 2}, {0, 2});
        const double c2 = minor_of({1, 2}, {0, 1});
        const double inverse = 1 / (W[0][0] * c0 + W[0][1] * c1 + W[0][2] * c2);
        inverse_ = {{{c0 * inverse, -minor_of({0, 2}, {1, 2}) * inverse,
                      minor_of({0, 1}, {1, 2}) * inverse},
                     {c1 * inverse, minor_of({0, 2}, {0, 2}) * inverse,
                      -minor_of({0, 1}, {0, 2}) * inverse},
                     {c2 * inverse, -minor_of({0, 2}, {0, 1}) * inverse,
                      minor_of({0, 1}, {0, 1}) * inverse}}};
    }
    [[nodiscard]] Three solve(const Three& rhs) const {
        Three x{};
        for (std::size_t i = 0; i < 3; ++i)
            x[i] = inverse_[i][0] * rhs[0] + inverse_[i][1] * rhs[1] + inverse_[i][2] * rhs[2];
        return x;
    }

    std::array<Three, 3> inverse_{};
};

}  // namespace caseload
