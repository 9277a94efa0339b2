// SPDX-License-Identifier: MIT
// Where the heat of a rolling bearing goes: three paths from its oil film, to the housing through
// the outer ring and its seat, to gear and shaft through the inner ring, and with the oil that
// passes. Lengths in mm, conductances in W/K.
#pragma once

namespace caseload::bearing_heat {

/// Bearing steel and steel shafts. Handbooks, from memory.
inline constexpr double steel_WpmK = 45;
/// Through a tight seat. Judgement.
inline constexpr double tight_seat_Wpm2K = 5000;
/// Through the widest gap that oil fills. Judgement.
inline constexpr double loosest_seat_Wpm2K = 600;
/// Through a seat whose fit is not known; 1000 to 6000. Judgement.
inline constexpr double unknown_seat_Wpm2K = 3000;
/// Round an outer ring with clearance on all sides, which takes the axial force only. Judgement.
inline constexpr double free_ring_Wpm2K = 300;
/// Between inner ring and shaft. Judgement.
inline constexpr double shaft_seat_Wpm2K = 6000;

/// Film coefficient of a seat with this diametral gap, W/(m2 K): half the gap filled with oil.
///
///     0.14/(g/2), at most that of a tight seat, at least that of the loosest
///
/// Range    gap not negative; 0 is tight.
/// Note     an oil gap of 83 um on diameter has 3373, one of 200 um 1400.
/// Source   bearing-heat, seat-gap
[[nodiscard]] double seat_film_Wpm2K(double gap_mm);

struct OuterRing {
    double width_mm;
    double raceway_mm;  ///< E: where it carries its elements
    double outside_mm;
    double seat_film_Wpm2K;
    double boss_outside_mm;
    double boss_WpmK;  ///< conductivity of the housing's metal
};
/// From the film to the housing.
///
///     1/(1/(h pi D B) + ln(D/E)/(2 pi 45 B) + ln(D_boss/D)/(2 pi k B))
///
/// k: conductivity of the housing's metal, 160 of aluminium.
///
/// Range    E < D <= D_boss, all positive.
/// Source   bearing-heat, outer-path
[[nodiscard]] double outer_path_WpK(const OuterRing& ring);

/// A steel retainer between ring and boss.
struct Retainer {
    double outside_mm;
    double seat_film_Wpm2K;  ///< between it and the boss
};
/// The same through a retainer: its wall and its own seat come in between.
/// Source   bearing-heat, retainer-path
[[nodiscard]] double outer_path_WpK(const OuterRing& ring, const Retainer& retainer);

struct InnerRing {
    double width_mm;
    double raceway_mm;  ///< F: where it carries its elements
    double bore_mm;
    double shaft_bore_mm;  ///< 0: solid
    double along_mm;       ///< shaft between the bearing's side and the gear's
};
/// From the film to the gear. A shaft is taken for 1.5 times as thick as the bore, in area, on the
/// way to its gear; judgement.
///
///     1/(1/(6000 pi d B) + ln(F/d)/(2 pi 45 B) + L/(1.5 x 45 pi (d^2 - d_s^2)/4))
///
/// Range    0 <= d_s < d < F, L not negative.
/// Source   bearing-heat, inner-path
[[nodiscard]] double inner_path_WpK(const InnerRing& ring);

/// With the oil that passes: rho cp Q.
/// Source   bearing-heat, oil-path
struct PassingOil {
    double density_kgpm3;
    double specific_heat_JpkgK;
    double flow_Lpmin;
};
[[nodiscard]] double oil_path_WpK(const PassingOil& oil);

/// Paths of one bearing's film.
struct Paths {
    double housing_WpK = 0;
    double steel_WpK = 0;
    double oil_WpK = 0;

    bool operator==(const Paths&) const = default;
};
/// What they lead to.
struct Around {
    double housing_degC = 0;
    double steel_degC = 0;
    double oil_degC = 0;
};

/// All three paths together.
/// Source   bearing-heat, star
[[nodiscard]] double all_WpK(const Paths& paths);

/// By which a film without loss is mixed of what its paths lead to, and its loss is shared out.
struct Shares {
    double oil = 1;
    double housing = 0;
    double steel = 0;
};
/// Each path over all three.
/// Source   bearing-heat, star
[[nodiscard]] Shares shares(const Paths& paths);

/// Temperature of a film that makes no heat: the mean of what its paths lead to, by conductance.
/// Each watt of loss adds one over the sum of the paths.
///
///     (G_o T_housing + G_i T_steel + G_q T_oil)/(G_o + G_i + G_q)
///
/// Range    paths not negative, one of them positive.
/// Source   bearing-heat, star
[[nodiscard]] double unheated_film_degC(const Paths& paths, const Around& around);

/// Between two of its ends a film without loss is a bridge of G_a G_b/(G_o + G_i + G_q). With those
/// three bridges, and the loss shared as G/(G_o + G_i + G_q), a network has the flows of the star.
struct Bridges {
    double oil_housing_WpK = 0;
    double oil_steel_WpK = 0;
    double steel_housing_WpK = 0;
};
/// Source   bearing-heat, bridges
[[nodiscard]] Bridges bridges(const Paths& paths);

}  // namespace caseload::bearing_heat
