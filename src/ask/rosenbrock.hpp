// SPDX-License-Identifier: MIT
// Steps of the three-node network for the fast case. Oil settles in seconds and steel in an hour:
// an explicit method (heat/event.cpp) must follow the oil all day, a linearly implicit one need
// not. Four events side by side, each at its own time and with its own step.
#pragma once

#include "ask/fast_four.hpp"

#include <array>
#include <cstddef>
#include <numbers>

namespace caseload {

/// Of oil, housing and steel, each in four events.
using Three = std::array<Four, 3>;

/// Right side with its derivatives by the state, and that of the housing by time: exhaust heat dies
/// out.
struct SlopeAt {
    Three f{};
    std::array<Three, 3> by_state{};
    Four housing_by_time{};
};

/// Inverse of a three by three matrix, in each event.
class InverseOfThree {
public:
    [[gnu::always_inline]] inline explicit InverseOfThree(const std::array<Three, 3>& m)
        : of_(inverse(m)) {}
    [[nodiscard, gnu::always_inline]] inline Three times(const Three& v) const {
        return {of_[0][0] * v[0] + of_[0][1] * v[1] + of_[0][2] * v[2],
                of_[1][0] * v[0] + of_[1][1] * v[1] + of_[1][2] * v[2],
                of_[2][0] * v[0] + of_[2][1] * v[1] + of_[2][2] * v[2]};
    }

private:
    [[gnu::always_inline]] static inline std::array<Three, 3> inverse(
        const std::array<Three, 3>& m) {
        const Four c00 = m[1][1] * m[2][2] - m[1][2] * m[2][1];
        const Four c01 = m[1][2] * m[2][0] - m[1][0] * m[2][2];
        const Four c02 = m[1][0] * m[2][1] - m[1][1] * m[2][0];
        const Four by = 1.0 / (m[0][0] * c00 + m[0][1] * c01 + m[0][2] * c02);
        return {{{c00 * by, (m[0][2] * m[2][1] - m[0][1] * m[2][2]) * by,
                  (m[0][1] * m[1][2] - m[0][2] * m[1][1]) * by},
                 {c01 * by, (m[0][0] * m[2][2] - m[0][2] * m[2][0]) * by,
                  (m[0][2] * m[1][0] - m[0][0] * m[1][2]) * by},
                 {c02 * by, (m[0][1] * m[2][0] - m[0][0] * m[2][1]) * by,
                  (m[0][0] * m[1][1] - m[0][1] * m[1][0]) * by}}};
    }

    std::array<Three, 3> of_;
};

struct RosenbrockResult {
    Three y{};
    Three f{};     ///< right side there
    Four error{};  ///< largest component
};

/// One step of h. Second order, L-stable, with an error estimate of third order; two solves with
/// one matrix and a third for the estimate. `flows` becomes what flows at the step's end.
/// Source: L. F. Shampine, M. W. Reichelt, SIAM J. Sci. Comput. 18 (1997) 1, section 4.1.
template <class Slope, class Flows>
[[gnu::always_inline]] inline void rosenbrock_step(Slope& slope, const SlopeAt& here, const Four& t,
                                                   const Three& y, const Four& h, Flows& flows,
                                                   RosenbrockResult& result) {
    constexpr double d = 1 / (2 + std::numbers::sqrt2);
    constexpr double e32 = 6 + std::numbers::sqrt2;
    const Four hd = h * d;
    std::array<Three, 3> W{};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j)
            W[i][j] = (i == j ? 1.0 : 0.0) - hd * here.by_state[i][j];
    const InverseOfThree solve(W);
    const Four by_time = hd * here.housing_by_time;
    Three rhs{here.f[0], here.f[1] + by_time, here.f[2]};
    const Three k1 = solve.times(rhs);
    Three middle{};
    for (std::size_t i = 0; i < 3; ++i) middle[i] = y[i] + h / 2.0 * k1[i];
    slope.template flows<false>(t + h / 2.0, middle, flows);
    const Three f1 = slope.value(middle, flows);
    for (std::size_t i = 0; i < 3; ++i) rhs[i] = f1[i] - k1[i];
    Three k2 = solve.times(rhs);
    for (std::size_t i = 0; i < 3; ++i) {
        k2[i] += k1[i];
        result.y[i] = y[i] + h * k2[i];
    }
    slope.flows(t + h, result.y, flows);
    result.f = slope.value(result.y, flows);
    for (std::size_t i = 0; i < 3; ++i)
        rhs[i] = result.f[i] - e32 * (k2[i] - f1[i]) - 2.0 * (k1[i] - here.f[i]);
    rhs[1] += by_time;
    const Three k3 = solve.times(rhs);
    result.error = Four{};
    for (std::size_t i = 0; i < 3; ++i)
        result.error = larger(result.error, magnitude(h / 6.0 * (k1[i] - 2.0 * k2[i] + k3[i])));
}

}  // namespace caseload
