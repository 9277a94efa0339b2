// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_heat.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::bearing_heat {
namespace {

constexpr double oil_WpmK = 0.14;      // mineral and synthetic gear oil; handbooks, from memory
constexpr double shaft_thicker = 1.5;  // in area, on the way to its gear; judgement

double film_KpW(double film_Wpm2K, double diameter_mm, double width_mm) {
    return 1 / (film_Wpm2K * pi * m_from_mm(diameter_mm) * m_from_mm(width_mm));
}

/// A ring of this conductivity between two diameters.
double ring_KpW(double conductivity_WpmK, double from_mm, double to_mm, double width_mm) {
    return std::log(to_mm / from_mm) / (2 * pi * conductivity_WpmK * m_from_mm(width_mm));
}

double up_to_seat_KpW(const OuterRing& ring) {
    require_positive(ring.width_mm, "width_mm");
    require_positive(ring.raceway_mm, "raceway_mm");
    require_positive(ring.seat_film_Wpm2K, "seat_film_Wpm2K");
    return film_KpW(ring.seat_film_Wpm2K, ring.outside_mm, ring.width_mm) +
           ring_KpW(steel_WpmK, ring.raceway_mm, ring.outside_mm, ring.width_mm);
}

double boss_KpW(const OuterRing& ring, double inside_mm) {
    require_positive(ring.boss_WpmK, "boss_WpmK");
    return ring_KpW(ring.boss_WpmK, inside_mm, std::max(ring.boss_outside_mm, inside_mm),
                    ring.width_mm);
}

}  // namespace

double seat_film_Wpm2K(double gap_mm) {
    require_not_negative(gap_mm, "gap_mm");
    if (gap_mm <= 0) return tight_seat_Wpm2K;
    return std::clamp(oil_WpmK / (m_from_mm(gap_mm) / 2), loosest_seat_Wpm2K, tight_seat_Wpm2K);
}

double outer_path_WpK(const OuterRing& ring) {
    return 1 / (up_to_seat_KpW(ring) + boss_KpW(ring, ring.outside_mm));
}

double outer_path_WpK(const OuterRing& ring, const Retainer& retainer) {
    require_positive(retainer.seat_film_Wpm2K, "seat_film_Wpm2K");
    const double outside_mm = std::max(retainer.outside_mm, ring.outside_mm);
    return 1 / (up_to_seat_KpW(ring) +
                ring_KpW(steel_WpmK, ring.outside_mm, outside_mm, ring.width_mm) +
                film_KpW(retainer.seat_film_Wpm2K, outside_mm, ring.width_mm) +
                boss_KpW(ring, outside_mm));
}

double inner_path_WpK(const InnerRing& ring) {
    require_positive(ring.width_mm, "width_mm");
    require_positive(ring.bore_mm, "bore_mm");
    require_not_negative(ring.along_mm, "along_mm");
    const double bore_m = m_from_mm(ring.bore_mm);
    const double shaft_bore_m = m_from_mm(ring.shaft_bore_mm);
    const double section_m2 = pi / 4 * (bore_m * bore_m - shaft_bore_m * shaft_bore_m);
    return 1 / (film_KpW(shaft_seat_Wpm2K, ring.bore_mm, ring.width_mm) +
                ring_KpW(steel_WpmK, ring.bore_mm, ring.raceway_mm, ring.width_mm) +
                m_from_mm(ring.along_mm) / (shaft_thicker * steel_WpmK * section_m2));
}

double oil_path_WpK(const PassingOil& oil) {
    require_not_negative(oil.flow_Lpmin, "flow_Lpmin");
    return oil.density_kgpm3 * oil.specific_heat_JpkgK * m3ps_from_Lpmin(oil.flow_Lpmin);
}

double all_WpK(const Paths& paths) {
    return paths.housing_WpK + paths.steel_WpK + paths.oil_WpK;
}

double unheated_film_degC(const Paths& paths, const Around& around) {
    return (paths.housing_WpK * around.housing_degC + paths.steel_WpK * around.steel_degC +
            paths.oil_WpK * around.oil_degC) /
           all_WpK(paths);
}

Shares shares(const Paths& paths) {
    const double all = all_WpK(paths);
    return {paths.oil_WpK / all, paths.housing_WpK / all, paths.steel_WpK / all};
}

Bridges bridges(const Paths& paths) {
    const double all = all_WpK(paths);
    return {paths.oil_WpK * paths.housing_WpK / all, paths.oil_WpK * paths.steel_WpK / all,
            paths.steel_WpK * paths.housing_WpK / all};
}

}  // namespace caseload::bearing_heat
