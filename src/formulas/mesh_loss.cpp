// SPDX-License-Identifier: MIT
#include "caseload/formulas/mesh_loss.hpp"

#include "caseload/error.hpp"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace caseload {
namespace {

// Contact ratios above are not gears: more than three pairs share the load.
constexpr int most_pairs = 4;
constexpr double largest_contact_ratio = most_pairs;

/// Integral of the share of the load times |x| along the path of contact x from -g_2 (start) to g_1
/// (end), pitch point at 0. Another pair is in contact a whole number of base pitches ahead or
/// behind where that point lies on the path too; between the cuts their number is constant.
double along_path_mm2(const iso_21771::Pair& pair) {
    require_within(pair.eps_alpha, {0, largest_contact_ratio}, "eps_alpha");
    const double p = pair.p_bt_mm;
    const double start = -pair.g_2_mm;
    const double end = pair.g_1_mm;
    std::array<double, 2 * most_pairs + 1> cuts{};
    std::size_t count = 0;
    for (int k = 0; k < most_pairs; ++k) {
        cuts.at(count++) = std::min(start + k * p, end);
        cuts.at(count++) = std::max(end - k * p, start);
    }
    cuts.at(count++) = std::clamp(0.0, start, end);  // |x| has a corner there
    std::sort(cuts.begin(), cuts.end());
    double integral = 0;
    for (std::size_t i = 1; i < cuts.size(); ++i) {
        if (!(cuts.at(i) > cuts.at(i - 1))) continue;
        const double middle = (cuts.at(i - 1) + cuts.at(i)) / 2;
        int pairs = 1;
        for (int k = 1; k < most_pairs; ++k)
            pairs += (middle - k * p >= start ? 1 : 0) + (middle + k * p <= end ? 1 : 0);
        const double share = 1.0 / pairs;
        integral += boost::math::quadrature::gauss<double, 15>::integrate(
            [&](double x) { return share * std::fabs(x); }, cuts.at(i - 1), cuts.at(i));
    }
    return integral;
}

}  // namespace

namespace mesh_loss {

double loss_factor(const iso_21771::Pair& pair) {
    return (2 / pair.d_b1_mm + 2 / pair.d_b2_mm) / pair.p_bt_mm * along_path_mm2(pair) /
           std::cos(pair.beta_b_rad);
}

}  // namespace mesh_loss

namespace schlenk {

double sum_speed_mps(const PitchPoint& point) {
    require_not_negative(point.v_mps, "v_mps");
    return 2 * std::min(point.v_mps, largest_v_mps) * std::sin(point.alpha_wt_rad);
}

double friction(const Friction& state) {
    require_not_negative(state.w_Npmm, "w_Npmm");
    Friction limited = state;
    limited.w_Npmm = std::max(state.w_Npmm, least_w_Npmm);
    return friction_unlimited(limited);
}

double friction_unlimited(const Friction& state) {
    require_positive(state.w_Npmm, "w_Npmm");
    require_positive(state.v_sumC_mps, "v_sumC_mps");
    require_positive(state.rho_redC_mm, "rho_redC_mm");
    require_positive(state.eta_mPas, "eta_mPas");
    require_positive(state.Ra_um, "Ra_um");
    require_positive(state.X_L, "X_L");
    return 0.048 * std::pow(state.w_Npmm / (state.v_sumC_mps * state.rho_redC_mm), 0.2) *
           std::pow(state.eta_mPas, -0.05) * std::pow(state.Ra_um, 0.25) * state.X_L;
}

}  // namespace schlenk

}  // namespace caseload
