// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_15312.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/units.hpp"

#include <array>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

namespace caseload::iso_15312 {
namespace {

using BK = BearingKind;

struct Row {
    BK kind;
    std::string_view series;
    Factors factors;
};
// Series 160 stands with 10, "thin" with 18.
constexpr std::array<Row, 32> table{
    {{BK::deep_groove_ball, "18", {1.7, 0.00010}},   {BK::deep_groove_ball, "thin", {1.7, 0.00010}},
     {BK::deep_groove_ball, "19", {1.7, 0.00015}},   {BK::deep_groove_ball, "160", {1.7, 0.00015}},
     {BK::deep_groove_ball, "10", {1.7, 0.00015}},   {BK::deep_groove_ball, "02", {2, 0.0002}},
     {BK::deep_groove_ball, "03", {2.3, 0.0002}},    {BK::deep_groove_ball, "04", {2.3, 0.0002}},
     {BK::angular_contact_ball, "02", {2, 0.00025}}, {BK::angular_contact_ball, "03", {3, 0.00035}},
     {BK::four_point_ball, "02", {2, 0.00037}},      {BK::four_point_ball, "03", {3, 0.00037}},
     {BK::cylindrical_roller, "10", {2, 0.0002}},    {BK::cylindrical_roller, "02", {2, 0.0003}},
     {BK::cylindrical_roller, "22", {3, 0.0004}},    {BK::cylindrical_roller, "03", {2, 0.00035}},
     {BK::cylindrical_roller, "23", {4, 0.0004}},    {BK::tapered_roller, "02", {3, 0.0004}},
     {BK::tapered_roller, "03", {3, 0.0004}},        {BK::tapered_roller, "30", {3, 0.0004}},
     {BK::tapered_roller, "29", {3, 0.0004}},        {BK::tapered_roller, "20", {3, 0.0004}},
     {BK::tapered_roller, "22", {4.5, 0.0004}},      {BK::tapered_roller, "23", {4.5, 0.0004}},
     {BK::tapered_roller, "13", {4.5, 0.0004}},      {BK::tapered_roller, "31", {4.5, 0.0004}},
     {BK::tapered_roller, "32", {4.5, 0.0004}},      {BK::spherical_roller, "30", {4.5, 0.00017}},
     {BK::spherical_roller, "22", {4, 0.00019}},     {BK::spherical_roller, "32", {6, 0.00036}},
     {BK::spherical_roller, "23", {4.5, 0.0003}},    {BK::spherical_roller, "03", {3.5, 0.00019}}}};

constexpr double slowest_rpm = 1e-3;
constexpr double fastest_rpm = 1e8;

}  // namespace

std::optional<Factors> factors(BearingKind kind, std::string_view series) {
    for (const Row& row : table)
        if (row.kind == kind && row.series == series) return row.factors;
    return std::nullopt;
}

double reference_surface_mm2(const Boundary& boundary) {
    require_positive(boundary.bore_mm, "bore_mm");
    require_positive(boundary.outside_mm - boundary.bore_mm, "outside_mm - bore_mm");
    require_positive(boundary.width_mm, "width_mm");
    return pi * boundary.width_mm * (boundary.outside_mm + boundary.bore_mm);
}

double reference_heat_W(double surface_mm2) {
    require_positive(surface_mm2, "surface_mm2");
    constexpr double flux_Wpmm2 = 0.016;
    constexpr double largest_mm2 = 50000;
    if (surface_mm2 <= largest_mm2) return flux_Wpmm2 * surface_mm2;
    return flux_Wpmm2 * std::pow(surface_mm2 / largest_mm2, -0.34) * surface_mm2;
}

double thermal_speed_rpm(const Rated& bearing, const Factors& friction) {
    require_positive(bearing.C_0_N, "C_0_N");
    require_positive(friction.f_0r, "f_0r");
    require_positive(friction.f_1r, "f_1r");
    const double d_m_mm = (bearing.boundary.bore_mm + bearing.boundary.outside_mm) / 2;
    const double heat_W = reference_heat_W(reference_surface_mm2(bearing.boundary));
    const double load_Nmm = palmgren::load_torque_Nmm(
        {.f1 = friction.f_1r, .P_1_N = reference_load_share * bearing.C_0_N, .d_m_mm = d_m_mm});
    const auto surplus_W = [&](double n_rpm) {
        const double idle_Nmm = palmgren::idle_torque_Nmm({.f0 = friction.f_0r,
                                                           .nu_mm2ps = reference_nu_mm2ps,
                                                           .n_rpm = n_rpm,
                                                           .d_m_mm = d_m_mm});
        return Nm_from_Nmm(idle_Nmm + load_Nmm) * radps_from_rpm(n_rpm) - heat_W;
    };
    std::uintmax_t iterations = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        surplus_W, slowest_rpm, fastest_rpm, boost::math::tools::eps_tolerance<double>(46),
        iterations);
    if (iterations >= 200)
        throw Error(Error::Kind::convergence, "thermal speed rating not found in 200 steps");
    return (low + high) / 2;
}

}  // namespace caseload::iso_15312
