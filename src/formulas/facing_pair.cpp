// SPDX-License-Identifier: MIT
#include "caseload/formulas/facing_pair.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/formulas/thick_ring.hpp"
#include "caseload/units.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>

namespace caseload::facing_pair {
namespace {

double give_mm(const Spring& spring, double structure_Npum, double F_N) {
    constexpr double um_in_mm = 1000;
    return std::pow(F_N / spring.k_a, 1 / spring.n) + F_N / (2 * structure_Npum * um_in_mm);
}

double two_tan(const Rings& rings) {
    require_within(rings.contact_angle_deg, {5, 60}, "contact_angle_deg");
    return 2 * std::tan(rad_from_deg(rings.contact_angle_deg));
}

}  // namespace

Spring spring(const Bearing& bearing) {
    require_within(bearing.contact_angle_deg, {5, 60}, "contact_angle_deg");
    require_positive(bearing.Z, "Z");
    require_positive(bearing.K_n, "K_n");
    const double n = element_stiffness::exponent(bearing.contact);
    const double sine = std::sin(rad_from_deg(bearing.contact_angle_deg));
    return {bearing.Z * bearing.K_n * std::pow(sine, n + 1), n};
}

double over_mm(const Pair& pair, double preload_N) {
    require_not_negative(preload_N, "preload_N");
    return give_mm(pair.a, pair.structure_Npum, preload_N) +
           give_mm(pair.b, pair.structure_Npum, preload_N);
}

Forces forces(const Pair& pair, double K_N, double over_mm) {
    require_not_negative(K_N, "K_N");
    require_positive(pair.structure_Npum, "structure_Npum");
    const auto too_short_mm = [&](double F_B_N) {
        return give_mm(pair.a, pair.structure_Npum, F_B_N + K_N) +
               give_mm(pair.b, pair.structure_Npum, F_B_N) - over_mm;
    };
    if (over_mm <= 0 || too_short_mm(0) >= 0) return {K_N, 0};
    double high_N = 1000;
    while (too_short_mm(high_N) < 0) high_N *= 2;
    std::uintmax_t steps = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        too_short_mm, 0.0, high_N, boost::math::tools::eps_tolerance<double>(50), steps);
    const double F_B_N = (low + high) / 2;
    return {F_B_N + K_N, F_B_N};
}

double warm_cone_mm(const Rings& rings, double warmer_K) {
    return thick_ring::steel.expansion_pK * rings.D_pw_mm * warmer_K / two_tan(rings);
}

double squeeze_lost_mm(const Rings& rings, double shrink_lost_mm) {
    return shrink_lost_mm / two_tan(rings);
}

double torque_Nmm_per_N(const Turned& bearing) {
    require_positive(bearing.f1, "f1");
    return bearing.f1 * 2 * bearing.Y * bearing.d_m_mm;
}

Turned turned_under(const iso_281::EquivalentLoad& bearing, double d_m_mm, double force_N) {
    require_positive(force_N, "force_N");
    const double P_0_N = iso_76::static_equivalent_N(bearing.kind, bearing.contact_angle_deg,
                                                     {.F_r_N = 0, .F_a_N = force_N});
    return {.f1 = palmgren::f1(bearing.kind, P_0_N / bearing.C_0_N),
            .Y = iso_281::equivalent_load_N(bearing, {0, force_N}) / force_N,
            .d_m_mm = d_m_mm};
}

}  // namespace caseload::facing_pair
