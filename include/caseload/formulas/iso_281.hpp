// SPDX-License-Identifier: MIT
// ISO 281:2007: rating life of rolling bearings. Loads, life, lubrication and cleanliness.
// All constants from memory of the standard. a1, a_ISO and the load factors pass tests a wrong
// digit would fail (table against formula, branches that meet, e = (1 - X)/Y); nu_1 and e_C have no
// independent test.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

#include <optional>

namespace caseload::iso_281 {

/// Life exponent p: 3 for ball, 10/3 for roller bearings.
/// Source   iso-281-2007, 5-8
[[nodiscard]] double life_exponent(BearingKind kind);

struct BasicLife {
    double C_N;
    double P_N;
    double exponent;
};

/// Basic rating life L10 = (C/P)^p, million revolutions, 10 % failing.
/// Range    C, P > 0; P up to C/2 by the standard: the caller says so beyond.
/// Source   iso-281-2007, 5.3
[[nodiscard]] double basic_life_Mrev(const BasicLife& life);

struct Hours {
    double life_Mrev;
    double n_rpm;
};

/// L10h = 1e6 L10 / (60 n).
/// Source   iso-281-2007, 5.3h
[[nodiscard]] double hours_h(const Hours& hours);

/// Probability of surviving a share D of L10: 0.9^(((D - 0.05)/0.95)^1.5), 1 below 0.05. Inverts
/// `reliability_factor`.
///
/// Range    D >= 0.
/// Source   iso-281-2007, 9.2inv
[[nodiscard]] double survival(double life_share);

struct Running {
    double n_rpm;
    double D_pw_mm;
};

/// Reference viscosity nu_1 at operating temperature.
///
///     nu_1 = 45000 n^-0.83 D_pw^-0.5  n < 1000;   4500 n^-0.5 D_pw^-0.5  n >= 1000
///
/// Range    n, D_pw > 0. The mean of bore and outside diameter may be taken for D_pw.
/// Note     the standard steps down 2.3 % at n = 1000; kept.
/// Source   iso-281-2007, 9.3.3.2
[[nodiscard]] double reference_viscosity_mm2ps(const Running& run);

struct LifeFactorState {
    double kappa;  ///< nu / nu_1; above 4 counts as 4
    double e_C;    ///< contamination factor
    double C_u_N;  ///< fatigue load limit
    double P_N;
};

/// a_ISO of radial bearings.
///
///     a_ISO = 0.1 (1 - A(kappa) g(x))^-m,  x = e_C C_u / P <= 5,  a_ISO <= 50
///     ball    A = t_b^0.83, g = x^(1/3), m = 9.3;   t_b = 2.5671 - {2.2649/k^0.054381,
///             1.9987/k^0.19087, 1.9987/k^0.071739} for k < 0.4, < 1, else
///     roller  A = t_r,      g = x^0.4,   m = 9.185; t_r = 1.5859 -
///             {1.3993, 1.2348, 1.2348} over the same powers
///
/// Range    kappa > 0: below 0.1 a_ISO is not defined, 0.1 is returned and the caller says so.
/// Note     x is cut at 5, the careful reading of the standard's limit 50 for x > 5.
/// Source   iso-281-2007, 9.3.3.4
[[nodiscard]] double life_factor(BearingKind kind, const LifeFactorState& state);

/// Terms of a_ISO, so that many loads and classes at one kappa take its powers once; `life_factor`
/// is made of them.
///
/// A(kappa), kappa above 4 as 4.
/// Range    kappa at least 0.1.
/// Source   iso-281-2007, 9.3.3.4
[[nodiscard]] double film_term(BearingKind kind, double kappa);
/// g(x), x = e_C C_u / P, above 5 as 5.
/// Source   iso-281-2007, 9.3.3.4
[[nodiscard]] double clean_term(BearingKind kind, double x);
/// The same without that end: of a product it is the product.
/// Source   iso-281-2007, 9.3.3.4
[[nodiscard]] double clean_power(BearingKind kind, double x);
/// Where g ends.
inline constexpr double most_clean_x = 5;
/// a_ISO of both.
/// Source   iso-281-2007, 9.3.3.4
struct LifeTerms {
    double A;
    double g;
};
[[nodiscard]] double life_factor(BearingKind kind, const LifeTerms& terms);

/// Below this viscosity ratio a_ISO is not defined.
inline constexpr double least_kappa = 0.1;
/// What is returned there.
inline constexpr double least_life_factor = 0.1;
/// The largest with the help of additives.
inline constexpr double most_helped = 3;

/// Contamination factor from which extreme-pressure additives count.
inline constexpr double least_e_C_ep = 0.2;

/// a_ISO with extreme-pressure additives of proven effect: for kappa < 1 and e_C >= 0.2 the value
/// with kappa = 1, at most 3, or the value with the true kappa if that is larger. Below kappa 0.1
/// as `life_factor`. It steps where e_C falls below 0.2, or kappa below 0.1: `ep_end_kappa`.
///
/// Source   iso-281-2007, 9.3.3.5
[[nodiscard]] double life_factor_ep(BearingKind kind, const LifeFactorState& state);

/// The same as if the oil were clean enough and kappa 0.1 or more: one side of its step,
/// `life_factor` being the other.
///
/// Source   iso-281-2007, 9.3.3.5-helped
[[nodiscard]] double life_factor_helped(BearingKind kind, const LifeFactorState& state);

enum class FilterGroup { in_line, off_line_or_bath };

struct Cleanliness {
    FilterGroup group;
    int code_14um;  ///< third number of the ISO 4406 code
};

/// The standard's table ends at this code, and oil from the second on has no e_C left.
inline constexpr int dirtiest_code_14um = 18;
inline constexpr int no_e_C_code_14um = 21;

/// Row of the standard's table a cleanliness code is calculated with: an odd number takes the class
/// one below (13 to 12); outside the table the nearest row.
/// Source   iso-281-2007, A.3
[[nodiscard]] int table_code_14um(const Cleanliness& cleanliness);

struct ContaminationState {
    double kappa;
    double D_pw_mm;
};

/// Contamination factor of circulating oil and oil bath.
///
///     e_C = a (1 - c2 / D_pw^(1/3)),  a = c1 kappa^0.68 D_pw^0.55 <= 1,  kappa <= 4,  e_C >= 0
///
///     in line   10: 0.0864, 0.5663; 12: 0.0432, 0.9987; 14: 0.0288, 1.6329; 16: 0.0216, 2.3362
///     off line  10: 0.0864, 0.6796; 12: 0.0288, 1.141;  14: 0.0133, 1.670;  16: 0.00864, 2.5164;
///               18: 0.00411, 3.8974
///     beyond    code c over 18: e_C(18) (21 - c)/3, from 21 on 0
///
/// Note     severe contamination has e_C 0.1 to 0 and very severe 0 in the standard's words, from
///          memory; the straight line beyond its table is judgement.
/// Source   iso-281-2007, A.4
[[nodiscard]] double contamination_factor(const Cleanliness& cleanliness,
                                          const ContaminationState& state);

/// The same in two steps: what a cleanliness and a bearing make of it once, and the factor at a
/// power of kappa that all classes share.
///
/// Source   iso-281-2007, A.4
class Contamination {
public:
    Contamination(const Cleanliness& cleanliness, double D_pw_mm);
    /// kappa^0.68, kappa above 4 as 4.
    [[nodiscard]] static double power(double kappa);
    [[nodiscard]] double factor(double power) const;

private:
    double c1_;
    double size_;   ///< D_pw^0.55
    double whole_;  ///< 1 - c2 / D_pw^(1/3)
    double dirtier_share_;
};

/// Share of e_C(18) that is left in oil dirtier than the standard's table.
/// Source   bearing-practice, dirtier
[[nodiscard]] double dirtier_share(int code_14um);

/// Viscosity ratio below which `life_factor_ep` no longer counts the additives: where e_C falls
/// below 0.2, not below 0.1. None where e_C is too low at kappa 1 already.
///
/// Range    D_pw > 0.
/// Source   iso-281-2007, 9.3.3.5-end
[[nodiscard]] std::optional<double> ep_end_kappa(const Cleanliness& cleanliness, double D_pw_mm);

struct StaticRating {
    double C_0_N;  ///< ISO 76 basis
    double D_pw_mm;
};

/// Fatigue load limit, simple estimate: ball C0/22, (100/D_pw)^0.5 above 100 mm; roller C0/8.2,
/// (100/D_pw)^0.3 above 100 mm.
/// Source   iso-281-2007, B.3.3
[[nodiscard]] double fatigue_limit_N(BearingKind kind, const StaticRating& rating);

struct Load {
    double F_r_N;
    double F_a_N;
};

struct EquivalentLoad {
    BearingKind kind;
    double contact_angle_deg;
    double f_0;  ///< ISO 76 factor; deep groove, and angular contact below 20 deg
    double C_0_N;
};

struct LoadFactors {
    double X;
    double Y;
};

/// P = max(X F_r + Y F_a, F_r) with factors given by hand.
/// Source   iso-281-2007, 5.2
[[nodiscard]] double combined_load_N(const LoadFactors& factors, const Load& load);

struct AxialFactors {
    double e;
    double Y;
};

/// e and Y of a deep groove bearing at f0 F_a / C0, linear in the standard's table 3, beyond its
/// ends the value there.
/// Source   iso-281-2007, table3
[[nodiscard]] AxialFactors deep_groove_factors(double u);

/// Dynamic equivalent radial load of one bearing of any kind, never below F_r.
///
///     F_a <= e F_r: P = F_r, above: P = X F_r + Y F_a, with
///     deep groove      X 0.56, e and Y from `deep_groove_factors`
///     angular contact  table by contact angle from 15 to 45 deg, linear between its rows; below
///                      20 deg e and Y also depend on f_0 F_a / C0
///     tapered          e = 1.5 tan a; X 0.4, Y 0.4 cot a
///     two rows in one: P = F_r + Y1 F_a below e, X2 F_r + Y2 F_a above:
///     four-point       the pair columns of the table, 20 to 45 deg
///     spherical        e = 1.5 tan a; Y1 0.45 cot a; X2 0.67, Y2 0.67 cot a
///     cylindrical      P = F_r: flange thrust is outside ISO 281
///
/// Range    loads >= 0; tapered and spherical 3 to 45 deg.
/// Source   iso-281-2007, table8
[[nodiscard]] double equivalent_load_N(const EquivalentLoad& bearing, const Load& load);

/// Axial force a tapered (0.5 F_r / Y, Y = 0.4 cot a) or angular contact (e F_r) bearing sets up
/// under radial load; 0 for other kinds.
///
/// Note     half the raceway loaded gives 1.258 (line) and 1.216 tan a F_r (point contact); the
///          contact angle of a ball bearing grows under load, hence e. Below 20 deg e is taken at
///          the induced force itself.
/// Source   bearing-practice, induced-axial
[[nodiscard]] double induced_axial_N(const EquivalentLoad& bearing, double F_r_N);

}  // namespace caseload::iso_281
