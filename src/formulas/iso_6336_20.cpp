// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_6336_20.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/units.hpp"
#include "formulas/fourth_root.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace caseload::iso_6336_20 {
namespace {

// X_W of case-carburised steel with less than 20 % austenite.
constexpr double X_W = 1.0;

/// How pairs follow each other along the path of contact, in base pitches from its start.
struct Path {
    double length;
    double ramp;    ///< where another pair takes over or leaves
    double middle;  ///< share between the ramps
};

Path path(const iso_21771::Pair& pair) {
    require_within(pair.eps_alpha, {1, 2.5}, "eps_alpha");
    const double eps = pair.eps_alpha;
    return {.length = eps, .ramp = std::min(eps - 1, 1.0), .middle = eps <= 2 ? 1.0 : 2.0 / 3};
}

/// Share on the ramp at the start, `part` of its length along; the end mirrors it.
double ramp_share(double part) {
    return (1 + part) / 3;
}

struct Place {
    double x_mm;  ///< from the pitch point
    double share;
};

double shape_at(const iso_21771::Pair& pair, const Place& at) {
    const double rho_1 = pair.d_w1_mm / 2 * std::sin(pair.alpha_wt_rad) + at.x_mm;
    const double rho_2 = pair.T1T2_mm - rho_1;
    const double rho_red = rho_1 * rho_2 / (pair.T1T2_mm * std::cos(pair.beta_b_rad));
    const double u = static_cast<double>(pair.z_2) / pair.z_1;
    const double share = fourth_root(at.share);
    return share * share * share * std::fabs(std::sqrt(rho_1) - std::sqrt(rho_2 / u)) /
           fourth_root(rho_red);
}

}  // namespace

double friction(const iso_21771::Pair& pair, const Contact& contact) {
    require_positive(contact.n_1_rpm, "n_1_rpm");
    require_not_negative(contact.w_Npmm, "w_Npmm");
    require_positive(contact.eta_mPas, "eta_mPas");
    require_positive(contact.Ra_um, "Ra_um");
    require_positive(contact.X_L, "X_L");
    const double v_mps = radps_from_rpm(contact.n_1_rpm) * m_from_mm(pair.d_w1_mm / 2);
    const double v_sumC_mps =
        schlenk::sum_speed_mps({.v_mps = v_mps, .alpha_wt_rad = pair.alpha_wt_rad});
    const double w_Npmm = std::max(contact.w_Npmm, schlenk::least_w_Npmm);
    return 0.060 * std::pow(w_Npmm / (v_sumC_mps * pair.rho_redC_mm), 0.2) * contact.X_L *
           std::pow(contact.eta_mPas, -0.05) * std::pow(contact.Ra_um, 0.25);
}

FlashShape flash_shape(const iso_21771::Pair& pair) {
    require_positive(pair.T1A_mm, "T1A_mm");
    require_positive(pair.T2E_mm, "T2E_mm");
    const Path p = path(pair);
    const auto shape = [&](double from_start, double share) {
        return shape_at(pair, {.x_mm = from_start * pair.p_bt_mm - pair.g_2_mm, .share = share});
    };
    constexpr int steps = 400;
    double largest = 0;
    double ramps = 0;
    double between = 0;
    for (int i = 0; i <= steps; ++i) {
        const double part = static_cast<double>(i) / steps;
        const double on_ramp = part * p.ramp;
        const double first = shape(on_ramp, ramp_share(part));
        const double middle = shape(p.ramp + part * (p.length - 2 * p.ramp), p.middle);
        const double last = shape(p.length - on_ramp, ramp_share(part));
        largest = std::max({largest, first, middle, last});
        const double weight = i == 0 || i == steps ? 0.5 : 1;
        ramps += weight * (first + last);
        between += weight * middle;
    }
    return {.largest = largest,
            .mean = (ramps * p.ramp + between * (p.length - 2 * p.ramp)) / (steps * p.length)};
}

double flash_K(double shape, const Rubbing& rubbing) {
    require_not_negative(shape, "shape");
    require_not_negative(rubbing.mu, "mu");
    require_not_negative(rubbing.w_Npmm, "w_Npmm");
    require_not_negative(rubbing.n_1_rpm, "n_1_rpm");
    const double load = fourth_root(rubbing.w_Npmm);
    return 2.52 * rubbing.mu * load * load * load * std::sqrt(rubbing.n_1_rpm / 60) * shape;
}

double bulk_degC(const Bulk& teeth) {
    require_not_negative(teeth.mean_flash_K, "mean_flash_K");
    require_positive(teeth.X_S, "X_S");
    require_positive(teeth.X_mp, "X_mp");
    return teeth.oil_degC + 0.47 * teeth.X_S * teeth.X_mp * teeth.mean_flash_K;
}

double scuffing_temp_degC(const OilStage& oil) {
    require_within(oil.load_stage, {1, 16}, "load_stage");
    require_positive(oil.X_L, "X_L");
    return 80 + (0.85 + 1.4 * X_W) * oil.X_L * oil.load_stage * oil.load_stage;
}

double safety(const Temperatures& t) {
    if (!(std::isfinite(t.scuffing_degC) && std::isfinite(t.contact_degC) &&
          std::isfinite(t.oil_degC)))
        throw Error(Error::Kind::domain, "a temperature of the scuffing safety is not a number");
    if (t.scuffing_degC <= t.oil_degC) return 0;
    if (t.contact_degC <= t.oil_degC) return std::numeric_limits<double>::infinity();
    return (t.scuffing_degC - t.oil_degC) / (t.contact_degC - t.oil_degC);
}

}  // namespace caseload::iso_6336_20
