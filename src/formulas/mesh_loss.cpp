// SPDX-License-Identifier: MIT
#include "caseload/formulas/mesh_loss.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace caseload::mesh_loss {

double loss_factor_closed(const iso_21771::Pair& pair) {
    const double u = static_cast<double>(pair.z_2) / pair.z_1;
    return pi * (u + 1) / (pair.z_1 * u * std::cos(pair.beta_b_rad)) *
           (1 - pair.eps_alpha + pair.eps_1 * pair.eps_1 + pair.eps_2 * pair.eps_2);
}

double loss_factor(const iso_21771::Pair& pair) {
    // Along the path of contact x from -g_2 (start) to g_1 (end), pitch point at 0. A second pair is
    // in contact one base pitch ahead or behind where that point lies on the path too.
    const double p = pair.p_bt_mm;
    const double start = -pair.g_2_mm;
    const double end = pair.g_1_mm;
    const auto pairs_in_contact = [&](double x) {
        int count = 1;
        for (int k = 1; k < 4; ++k) {
            if (x - k * p >= start) ++count;
            if (x + k * p <= end) ++count;
        }
        return count;
    };
    std::vector<double> cuts{start, end};
    if (start < 0 && end > 0) cuts.push_back(0);
    for (int k = 1; k < 4; ++k) {
        if (start + k * p < end) cuts.push_back(start + k * p);
        if (end - k * p > start) cuts.push_back(end - k * p);
    }
    std::sort(cuts.begin(), cuts.end());
    double integral = 0;
    for (std::size_t i = 1; i < cuts.size(); ++i) {
        if (cuts[i] - cuts[i - 1] <= 0) continue;
        const double share = 1.0 / pairs_in_contact((cuts[i - 1] + cuts[i]) / 2);
        integral += share * boost::math::quadrature::gauss<double, 7>::integrate(
                                [](double x) { return std::fabs(x); }, cuts[i - 1], cuts[i]);
    }
    return (2 / pair.d_b1_mm + 2 / pair.d_b2_mm) / p * integral / std::cos(pair.beta_b_rad);
}

}  // namespace caseload::mesh_loss

namespace caseload::schlenk {

double friction(const Friction& state) {
    require_positive(state.v_sumC_mps, "v_sumC_mps");
    require_positive(state.eta_mPas, "eta_mPas");
    constexpr double least_w = 150;
    const double w = std::max(state.w_Npmm, least_w);
    return 0.048 * std::pow(w / (state.v_sumC_mps * state.rho_redC_mm), 0.2) *
           std::pow(state.eta_mPas, -0.05) * std::pow(state.Ra_um, 0.25) * state.X_L;
}

}  // namespace caseload::schlenk
