// SPDX-License-Identifier: MIT
#include "caseload/formulas/palmgren.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::palmgren {
namespace {

struct F0Row {
    double mist;
    double damp;
    double splash;
    double jet;
};
F0Row deep_groove_f0(std::string_view series) {
    if (series == "02" || series == "22") return {0.85, 1.30, 2.0, 4.0};
    if (series == "03" || series == "23") return {1.0, 1.52, 2.3, 4.6};
    return {0.7, 1.09, 1.7, 3.4};
}

F0Row cylindrical_f0(std::string_view series) {
    if (series == "02" || series == "03") return {1.4, 1.75, 2.2, 3.1};
    if (series == "22") return {2.0, 2.45, 3.0, 4.2};
    if (series == "23") return {2.6, 3.22, 4.0, 5.6};
    return {1.3, 1.61, 2.0, 2.8};
}

F0Row f0_row(BearingKind kind, std::string_view series) {
    switch (kind) {
        case BearingKind::deep_groove_ball:
            return deep_groove_f0(series);
        case BearingKind::angular_contact_ball:
            return {1.7, 2.37, 3.3, 6.6};
        case BearingKind::four_point_ball:
            return {2.5, 3.87, 6, 10.5};
        case BearingKind::cylindrical_roller:
            return cylindrical_f0(series);
        case BearingKind::tapered_roller:
            return {3, 4.06, 5.5, 9};
        case BearingKind::spherical_roller:
            return {2.6, 3.69, 5.25, 10.5};
    }
    return {};
}

}  // namespace

double idle_torque_Nmm(const Idle& idle) {
    require_not_negative(idle.f0, "f0");
    require_positive(idle.nu_mm2ps, "nu_mm2ps");
    require_not_negative(idle.n_rpm, "n_rpm");
    require_positive(idle.d_m_mm, "d_m_mm");
    const double nu_n = idle.nu_mm2ps * idle.n_rpm;
    const double d_m3 = idle.d_m_mm * idle.d_m_mm * idle.d_m_mm;
    return nu_n < least_nu_n ? 160e-7 * idle.f0 * d_m3
                             : 1e-7 * idle.f0 * std::cbrt(nu_n * nu_n) * d_m3;
}

double load_torque_Nmm(const LoadTorque& load) {
    require_not_negative(load.f1, "f1");
    require_not_negative(load.P_1_N, "P_1_N");
    require_positive(load.d_m_mm, "d_m_mm");
    return load.f1 * load.P_1_N * load.d_m_mm;
}

double f0_default(BearingKind kind, std::string_view series, Supply supply) {
    const F0Row row = f0_row(kind, series);
    switch (supply) {
        case Supply::mist:
            return row.mist;
        case Supply::damp:
            return row.damp;
        case Supply::splash:
            return row.splash;
        case Supply::jet:
            return row.jet;
    }
    return row.damp;
}

double f1(BearingKind kind, double static_load_ratio) {
    require_not_negative(static_load_ratio, "static_load_ratio");
    switch (kind) {
        case BearingKind::deep_groove_ball:
            return 0.0005 * std::pow(static_load_ratio, 0.55);
        case BearingKind::angular_contact_ball:
        case BearingKind::four_point_ball:
            return 0.001 * std::pow(static_load_ratio, 0.33);
        case BearingKind::cylindrical_roller:
            return 0.0003;
        case BearingKind::tapered_roller:
            return 0.0004;
        case BearingKind::spherical_roller:
            return 0.00025;
    }
    return 0;
}

double friction_load_P1_N(const FrictionLoad& load) {
    require_not_negative(load.F_r_N, "F_r_N");
    require_not_negative(load.F_a_N, "F_a_N");
    const double F_r = load.F_r_N;
    const double F_a = load.F_a_N;
    const auto tan_a = [&] {
        require_within(load.contact_angle_deg, {3, 45}, "contact_angle_deg");
        return std::tan(rad_from_deg(load.contact_angle_deg));
    };
    double P_1 = F_r;
    switch (load.kind) {
        case BearingKind::deep_groove_ball:
            P_1 = 3 * F_a - 0.1 * F_r;
            break;
        case BearingKind::angular_contact_ball:
            P_1 = F_a - 0.1 * F_r;
            break;
        case BearingKind::four_point_ball: {
            require_positive(load.C_0_N, "C_0_N");
            const double meant = 0.1 * load.C_0_N;
            P_1 = 1.5 * F_a + 3.6 * std::min(F_r, meant) + std::max(F_r - meant, 0.0);
            break;
        }
        case BearingKind::cylindrical_roller:
            break;
        case BearingKind::tapered_roller:
            P_1 = 2 * 0.4 / tan_a() * F_a;
            break;
        case BearingKind::spherical_roller: {
            const double e = 1.5 * tan_a();
            const double ratio = F_r > 0 ? F_a / (e * F_r) : 0;
            P_1 = F_a > e * F_r ? 1.6 * F_a / e : F_r * (1 + 0.6 * ratio * ratio * ratio);
            break;
        }
    }
    return std::max(P_1, F_r);
}

}  // namespace caseload::palmgren
