// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_76.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace caseload::iso_76 {
namespace {

// gamma 0.00, 0.01, ... 0.40
constexpr std::array<double, 41> f_0_table{
    14.7, 14.9, 15.1, 15.3, 15.5, 15.7, 15.9, 16.1, 16.3, 16.5, 16.4, 16.1, 15.9, 15.6,
    15.4, 15.2, 14.9, 14.7, 14.4, 14.2, 14.0, 13.7, 13.5, 13.2, 13.0, 12.8, 12.5, 12.3,
    12.1, 11.8, 11.6, 11.4, 11.2, 10.9, 10.7, 10.5, 10.3, 10.0, 9.8,  9.6,  9.4};

// Y0 of angular contact, single row, every 5 deg from 15 deg; X0 0.5.
constexpr std::array<double, 7> Y_0_angular{0.46, 0.42, 0.38, 0.33, 0.29, 0.26, 0.22};

double angular_Y_0(double angle_deg) {
    require_within(angle_deg, {15, 45}, "contact_angle_deg");
    const double at = (angle_deg - 15) / 5;
    const auto i = std::min(static_cast<std::size_t>(at), Y_0_angular.size() - 2);
    return Y_0_angular[i] + (at - static_cast<double>(i)) * (Y_0_angular[i + 1] - Y_0_angular[i]);
}

}  // namespace

double f_0(double gamma) {
    require_within(gamma, {0, 0.40}, "gamma");
    const double at = gamma * 100;
    const auto i = std::min(static_cast<std::size_t>(at), f_0_table.size() - 2);
    return f_0_table[i] + (at - static_cast<double>(i)) * (f_0_table[i + 1] - f_0_table[i]);
}

double ball_rating_N(const iso_281::BallSet& set) {
    require_possible(set);
    return f_0(set.D_w_mm * set.cos_alpha / set.D_pw_mm) * set.Z * set.D_w_mm * set.D_w_mm *
           set.cos_alpha;
}

double roller_rating_N(const iso_281::RollerSet& set) {
    require_possible(set);
    require_within(set.D_we_mm * set.cos_alpha / set.D_pw_mm, {0, 0.45}, "gamma");
    return 44 * (1 - set.D_we_mm * set.cos_alpha / set.D_pw_mm) * set.Z * set.L_we_mm *
           set.D_we_mm * set.cos_alpha;
}

double static_equivalent_N(BearingKind kind, double contact_angle_deg, const iso_281::Load& load) {
    double X_0 = 1;
    double Y_0 = 0;
    require_not_negative(load.F_r_N, "F_r_N");
    require_not_negative(load.F_a_N, "F_a_N");
    const auto cot = [&] {
        require_within(contact_angle_deg, {3, 45}, "contact_angle_deg");
        return 1 / std::tan(rad_from_deg(contact_angle_deg));
    };
    switch (kind) {
        case BearingKind::deep_groove_ball:
            X_0 = 0.6;
            Y_0 = 0.5;
            break;
        case BearingKind::angular_contact_ball:
            X_0 = 0.5;
            Y_0 = angular_Y_0(contact_angle_deg);
            break;
        case BearingKind::four_point_ball:
            Y_0 = 2 * angular_Y_0(contact_angle_deg);
            break;
        case BearingKind::cylindrical_roller:
            break;
        case BearingKind::tapered_roller:
            X_0 = 0.5;
            Y_0 = 0.22 * cot();
            break;
        case BearingKind::spherical_roller:
            Y_0 = 0.44 * cot();
            break;
    }
    return std::max(X_0 * load.F_r_N + Y_0 * load.F_a_N, load.F_r_N);
}

}  // namespace caseload::iso_76
