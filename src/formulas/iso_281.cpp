// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_281.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

namespace caseload::iso_281 {
namespace {

constexpr double weibull_slope = 1.5;
constexpr double failure_free_share = 0.05;
constexpr double largest_kappa = 4;

// Constants of t(kappa) = c - d / kappa^q in three ranges; the powers are shared.
struct TCurve {
    double c;
    std::array<double, 3> d;
};
constexpr TCurve t_ball{2.5671, {2.2649, 1.9987, 1.9987}};
constexpr TCurve t_roller{1.5859, {1.3993, 1.2348, 1.2348}};
constexpr std::array<double, 3> t_power{0.054381, 0.19087, 0.071739};

double t(const TCurve& curve, double kappa) {
    const std::size_t range = kappa < 0.4 ? 0 : kappa < 1 ? 1 : 2;
    return std::max(curve.c - curve.d[range] / std::pow(kappa, t_power[range]), 0.0);
}

struct CleanRow {
    int code_14um;
    double c1;
    double c2;
};
constexpr std::array<CleanRow, 4> in_line_rows{
    {{10, 0.0864, 0.5663}, {12, 0.0432, 0.9987}, {14, 0.0288, 1.6329}, {16, 0.0216, 2.3362}}};
constexpr std::array<CleanRow, 5> off_line_rows{{{10, 0.0864, 0.6796},
                                                 {12, 0.0288, 1.141},
                                                 {14, 0.0133, 1.670},
                                                 {16, 0.00864, 2.5164},
                                                 {18, 0.00411, 3.8974}}};

std::span<const CleanRow> rows(FilterGroup group) {
    if (group == FilterGroup::in_line) return in_line_rows;
    return off_line_rows;
}

constexpr double kappa_power = 0.68;

const CleanRow& row_of(const Cleanliness& cleanliness) {
    const auto all = rows(cleanliness.group);
    const int code = table_code_14um(cleanliness);
    return *std::find_if(all.begin(), all.end(),
                         [code](const CleanRow& row) { return row.code_14um == code; });
}

struct Point {
    double u;
    double e;
    double Y;
};
constexpr std::array<Point, 9> deep_groove_table{{{0.172, 0.19, 2.30},
                                                  {0.345, 0.22, 1.99},
                                                  {0.689, 0.26, 1.71},
                                                  {1.03, 0.28, 1.55},
                                                  {1.38, 0.30, 1.45},
                                                  {2.07, 0.34, 1.31},
                                                  {3.45, 0.38, 1.15},
                                                  {5.17, 0.42, 1.04},
                                                  {6.89, 0.44, 1.00}}};

// Single row: e, X, Y. Pair: e, 1 with Y1 below e, X2 with Y2 above.
struct AngularRow {
    double angle_deg;
    double e;
    double X;
    double Y;
    double Y1;
    double X2;
    double Y2;
};
constexpr std::array<AngularRow, 6> angular_table{{{20, 0.57, 0.43, 1.00, 1.09, 0.70, 1.63},
                                                   {25, 0.68, 0.41, 0.87, 0.92, 0.67, 1.41},
                                                   {30, 0.80, 0.39, 0.76, 0.78, 0.63, 1.24},
                                                   {35, 0.95, 0.37, 0.66, 0.66, 0.60, 1.07},
                                                   {40, 1.14, 0.35, 0.57, 0.55, 0.57, 0.93},
                                                   {45, 1.34, 0.33, 0.50, 0.47, 0.54, 0.81}}};

// 15 deg, single row: X 0.44.
constexpr std::array<Point, 9> angular_15_table{{{0.178, 0.38, 1.47},
                                                 {0.357, 0.40, 1.40},
                                                 {0.714, 0.43, 1.30},
                                                 {1.07, 0.46, 1.23},
                                                 {1.43, 0.47, 1.19},
                                                 {2.14, 0.50, 1.12},
                                                 {3.57, 0.55, 1.02},
                                                 {5.35, 0.56, 1.00},
                                                 {7.14, 0.56, 1.00}}};

// Linear between the points, held beyond the ends.
AxialFactors interpolated(const std::array<Point, 9>& table, double u) {
    if (u <= table.front().u) return {table.front().e, table.front().Y};
    for (std::size_t i = 1; i < table.size(); ++i) {
        if (u > table[i].u) continue;
        const double w = (u - table[i - 1].u) / (table[i].u - table[i - 1].u);
        return {table[i - 1].e + w * (table[i].e - table[i - 1].e),
                table[i - 1].Y + w * (table[i].Y - table[i - 1].Y)};
    }
    return {table.back().e, table.back().Y};
}

struct AngularSpan {
    AngularRow low;
    AngularRow high;
};

AngularRow at(double angle_deg, const AngularSpan& span) {
    const auto& [a, b] = span;
    const double w = (angle_deg - a.angle_deg) / (b.angle_deg - a.angle_deg);
    const auto mix = [w](double x, double y) { return x + w * (y - x); };
    return {angle_deg,       mix(a.e, b.e),   mix(a.X, b.X),  mix(a.Y, b.Y),
            mix(a.Y1, b.Y1), mix(a.X2, b.X2), mix(a.Y2, b.Y2)};
}

AngularRow angular(double angle_deg) {
    require_within(angle_deg, {20, 45}, "contact_angle_deg");
    std::size_t i = 1;
    while (i + 1 < angular_table.size() && angular_table[i].angle_deg < angle_deg) ++i;
    return at(angle_deg, {angular_table[i - 1], angular_table[i]});
}

double relative_axial(const EquivalentLoad& bearing, double F_a_N) {
    require_positive(bearing.f_0, "f_0");
    require_positive(bearing.C_0_N, "C_0_N");
    return bearing.f_0 * F_a_N / bearing.C_0_N;
}

/// Factors of a single row angular contact bearing; below 20 deg they depend on the axial load.
AngularRow angular_single(const EquivalentLoad& bearing, double F_a_N) {
    const double angle_deg = bearing.contact_angle_deg;
    require_within(angle_deg, {15, 45}, "contact_angle_deg");
    if (angle_deg >= 20) return angular(angle_deg);
    const AxialFactors at_15 = interpolated(angular_15_table, relative_axial(bearing, F_a_N));
    return at(angle_deg, {{15, at_15.e, 0.44, at_15.Y, 0, 0, 0}, angular_table.front()});
}

double cot_deg(double angle_deg) {
    require_within(angle_deg, {3, 45}, "contact_angle_deg");
    return 1 / std::tan(rad_from_deg(angle_deg));
}

}  // namespace

double life_exponent(BearingKind kind) {
    return is_ball(kind) ? 3 : 10.0 / 3;
}

double basic_life_Mrev(const BasicLife& life) {
    require_positive(life.C_N, "C_N");
    require_positive(life.P_N, "P_N");
    require_positive(life.exponent, "exponent");
    return std::pow(life.C_N / life.P_N, life.exponent);
}

double hours_h(const Hours& hours) {
    require_not_negative(hours.life_Mrev, "life_Mrev");
    require_positive(hours.n_rpm, "n_rpm");
    return hours.life_Mrev * 1e6 / (60 * hours.n_rpm);
}

double survival(double life_share) {
    require_not_negative(life_share, "life_share");
    if (life_share <= failure_free_share) return 1;
    return std::pow(
        0.9, std::pow((life_share - failure_free_share) / (1 - failure_free_share), weibull_slope));
}

double reference_viscosity_mm2ps(const Running& run) {
    require_positive(run.n_rpm, "n_rpm");
    require_positive(run.D_pw_mm, "D_pw_mm");
    const double n = run.n_rpm;
    return (n < 1000 ? 45000 * std::pow(n, -0.83) : 4500 * std::pow(n, -0.5)) *
           std::pow(run.D_pw_mm, -0.5);
}

double film_term(BearingKind kind, double kappa) {
    const double counted = std::min(kappa, largest_kappa);
    return is_ball(kind) ? std::pow(t(t_ball, counted), 0.83) : t(t_roller, counted);
}

double clean_term(BearingKind kind, double x) {
    return clean_power(kind, std::min(x, most_clean_x));
}

double clean_power(BearingKind kind, double x) {
    return is_ball(kind) ? std::cbrt(x) : std::pow(x, 0.4);
}

double life_factor(BearingKind kind, const LifeTerms& terms) {
    constexpr double largest = 50;
    // From here down the power is 58 or more with either exponent.
    constexpr double largest_below = 0.5;
    const double bracket = 1 - terms.A * terms.g;
    if (bracket <= largest_below) return largest;
    return std::min(0.1 * std::pow(bracket, is_ball(kind) ? -9.3 : -9.185), largest);
}

double life_factor(BearingKind kind, const LifeFactorState& state) {
    require_positive(state.kappa, "kappa");
    require_positive(state.P_N, "P_N");
    require_within(state.e_C, {0, 1}, "e_C");
    require_not_negative(state.C_u_N, "C_u_N");
    if (state.kappa < least_kappa) return least_life_factor;
    return life_factor(kind, LifeTerms{film_term(kind, state.kappa),
                                       clean_term(kind, state.e_C * state.C_u_N / state.P_N)});
}

double life_factor_ep(BearingKind kind, const LifeFactorState& state) {
    if (state.kappa < least_kappa || state.e_C < least_e_C_ep) return life_factor(kind, state);
    return life_factor_helped(kind, state);
}

double life_factor_helped(BearingKind kind, const LifeFactorState& state) {
    const double plain = life_factor(kind, state);
    if (state.kappa >= 1) return plain;
    LifeFactorState full = state;
    full.kappa = 1;
    return std::max(plain, std::min(most_helped, life_factor(kind, full)));
}

int table_code_14um(const Cleanliness& cleanliness) {
    const auto all = rows(cleanliness.group);
    const int even = cleanliness.code_14um - (cleanliness.code_14um % 2 != 0 ? 1 : 0);
    return std::clamp(even, all.front().code_14um, all.back().code_14um);
}

double contamination_factor(const Cleanliness& cleanliness, const ContaminationState& state) {
    require_positive(state.kappa, "kappa");
    require_positive(state.D_pw_mm, "D_pw_mm");
    return Contamination(cleanliness, state.D_pw_mm).factor(Contamination::power(state.kappa));
}

Contamination::Contamination(const Cleanliness& cleanliness, double D_pw_mm)
    : dirtier_share_(caseload::iso_281::dirtier_share(cleanliness.code_14um)) {
    require_positive(D_pw_mm, "D_pw_mm");
    const CleanRow& row = row_of(cleanliness);
    c1_ = row.c1;
    size_ = std::pow(D_pw_mm, 0.55);
    whole_ = 1 - row.c2 / std::cbrt(D_pw_mm);
}

double Contamination::power(double kappa) {
    return std::pow(std::min(kappa, largest_kappa), kappa_power);
}

double Contamination::factor(double power) const {
    return dirtier_share_ * std::max(std::min(c1_ * power * size_, 1.0) * whole_, 0.0);
}

double dirtier_share(int code_14um) {
    constexpr double codes = no_e_C_code_14um - dirtiest_code_14um;
    return std::clamp((no_e_C_code_14um - code_14um) / codes, 0.0, 1.0);
}

std::optional<double> ep_end_kappa(const Cleanliness& cleanliness, double D_pw_mm) {
    require_positive(D_pw_mm, "D_pw_mm");
    const CleanRow& row = row_of(cleanliness);
    const double at_most = dirtier_share(cleanliness.code_14um) * (1 - row.c2 / std::cbrt(D_pw_mm));
    if (at_most < least_e_C_ep) return std::nullopt;
    const double kappa =
        std::pow(least_e_C_ep / at_most / (row.c1 * std::pow(D_pw_mm, 0.55)), 1 / kappa_power);
    if (kappa >= 1) return std::nullopt;
    return std::max(kappa, least_kappa);
}

double fatigue_limit_N(BearingKind kind, const StaticRating& rating) {
    require_positive(rating.C_0_N, "C_0_N");
    require_positive(rating.D_pw_mm, "D_pw_mm");
    const bool ball = is_ball(kind);
    const double plain = rating.C_0_N / (ball ? 22 : 8.2);
    if (rating.D_pw_mm <= 100) return plain;
    return plain * std::pow(100 / rating.D_pw_mm, ball ? 0.5 : 0.3);
}

AxialFactors deep_groove_factors(double u) {
    require_not_negative(u, "u");
    return interpolated(deep_groove_table, u);
}

double combined_load_N(const LoadFactors& factors, const Load& load) {
    require_not_negative(factors.X, "X");
    require_not_negative(factors.Y, "Y");
    require_not_negative(load.F_r_N, "F_r_N");
    require_not_negative(load.F_a_N, "F_a_N");
    return std::max(factors.X * load.F_r_N + factors.Y * load.F_a_N, load.F_r_N);
}

double equivalent_load_N(const EquivalentLoad& bearing, const Load& load) {
    require_not_negative(load.F_r_N, "F_r_N");
    require_not_negative(load.F_a_N, "F_a_N");
    const auto beyond = [&load](double e) { return load.F_a_N > e * load.F_r_N; };
    LoadFactors factors{1, 0};
    switch (bearing.kind) {
        case BearingKind::deep_groove_ball: {
            const auto [e, Y] = deep_groove_factors(relative_axial(bearing, load.F_a_N));
            if (beyond(e)) factors = {0.56, Y};
            break;
        }
        case BearingKind::angular_contact_ball: {
            const AngularRow row = angular_single(bearing, load.F_a_N);
            if (beyond(row.e)) factors = {row.X, row.Y};
            break;
        }
        case BearingKind::four_point_ball: {
            const AngularRow row = angular(bearing.contact_angle_deg);
            factors = beyond(row.e) ? LoadFactors{row.X2, row.Y2} : LoadFactors{1, row.Y1};
            break;
        }
        case BearingKind::cylindrical_roller:
            break;
        case BearingKind::tapered_roller: {
            const double cot = cot_deg(bearing.contact_angle_deg);
            if (beyond(1.5 / cot)) factors = {0.4, 0.4 * cot};
            break;
        }
        case BearingKind::spherical_roller: {
            const double cot = cot_deg(bearing.contact_angle_deg);
            factors =
                beyond(1.5 / cot) ? LoadFactors{0.67, 0.67 * cot} : LoadFactors{1, 0.45 * cot};
            break;
        }
    }
    return combined_load_N(factors, load);
}

double induced_axial_N(const EquivalentLoad& bearing, double F_r_N) {
    require_not_negative(F_r_N, "F_r_N");
    if (bearing.kind == BearingKind::tapered_roller)
        return 0.5 * F_r_N / (0.4 * cot_deg(bearing.contact_angle_deg));
    if (bearing.kind != BearingKind::angular_contact_ball) return 0;
    // e rises with the axial force and is bounded: from zero the steps rise to the balance.
    constexpr int most_steps = 200;
    double F_a_N = 0;
    for (int step = 0; step < most_steps; ++step) {
        const double next_N = angular_single(bearing, F_a_N).e * F_r_N;
        if (next_N <= F_a_N * (1 + 1e-12)) return next_N;
        F_a_N = next_N;
    }
    return F_a_N;
}

}  // namespace caseload::iso_281
