// SPDX-License-Identifier: MIT
#include "caseload/formulas/thick_ring.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

namespace caseload::thick_ring {
namespace {

void check(const Material& material) {
    require_positive(material.E_MPa, "E_MPa");
    require_within(material.nu, {0, 0.5}, "nu");
    require_within(material.expansion_pK, {0, 1e-3}, "expansion_pK");
}

void check(const Tube& tube) {
    require_not_negative(tube.inside_mm, "inside_mm");
    require_positive(tube.outside_mm - tube.inside_mm, "outside - inside_mm");
    check(tube.material);
}

void check_temp(double temp_degC) {
    require_within(temp_degC, {-100, 300}, "temp_degC");
}

/// What a body adds to its diameter per mm from 20 degC on.
double strain(const Material& material, double temp_degC) {
    check_temp(temp_degC);
    return material.expansion_pK * (temp_degC - reference_degC);
}

Tube inner_of(const Fit& fit) {
    return {fit.inside_mm, fit.joint_mm, fit.inner};
}
Tube outer_of(const Fit& fit) {
    return {fit.joint_mm, fit.outside_mm, fit.outer};
}

constexpr Pressure from_inside{.inside_MPa = 1, .outside_MPa = 0};
constexpr Pressure from_outside{.inside_MPa = 0, .outside_MPa = 1};

/// Interference a pressure of 1 MPa takes up.
double compliance_mmpMPa(const Fit& fit) {
    return inside_growth_mm(outer_of(fit), from_inside) -
           outside_growth_mm(inner_of(fit), from_outside);
}

struct Closing {
    double interference_mm;
    double compliance_mmpMPa;
};
Joint joint_of(const Closing& closing) {
    if (closing.interference_mm < 0) return {.pressure_MPa = 0, .gap_mm = -closing.interference_mm};
    return {.pressure_MPa = closing.interference_mm / closing.compliance_mmpMPa, .gap_mm = 0};
}

/// The two joints of a nest as fits of their own, and what each pressure does to the other joint.
struct Pair {
    Fit ring;
    Fit retainer;
    double c_11;  // all mm/MPa, positive
    double c_12;
    double c_21;
    double c_22;
};

Pair pair_of(const Nest& nest) {
    const Tube wall{nest.ring_outside_mm, nest.retainer_outside_mm, nest.retainer};
    const Fit ring{.inside_mm = nest.raceway_mm,
                   .joint_mm = nest.ring_outside_mm,
                   .outside_mm = nest.retainer_outside_mm,
                   .inner = nest.ring,
                   .outer = nest.retainer,
                   .interference_mm = nest.ring_interference_mm};
    const Fit retainer{.inside_mm = nest.ring_outside_mm,
                       .joint_mm = nest.retainer_outside_mm,
                       .outside_mm = nest.boss_outside_mm,
                       .inner = nest.retainer,
                       .outer = nest.boss,
                       .interference_mm = nest.retainer_interference_mm};
    return {.ring = ring,
            .retainer = retainer,
            .c_11 = compliance_mmpMPa(ring),
            .c_12 = -inside_growth_mm(wall, from_outside),
            .c_21 = outside_growth_mm(wall, from_inside),
            .c_22 = compliance_mmpMPa(retainer)};
}

double interference_mm(const Fit& fit, const FitTemps& temps) {
    require_within(fit.interference_mm, {-5, 5}, "interference_mm");
    return fit.interference_mm + fit.joint_mm * (strain(fit.inner, temps.inner_degC) -
                                                 strain(fit.outer, temps.outer_degC));
}

/// Loss of interference per kelvin of both bodies.
double loss_mmpK(const Fit& fit) {
    return fit.joint_mm * (fit.outer.expansion_pK - fit.inner.expansion_pK);
}

struct Line {
    double at_20_mm;
    double loss_mmpK;
};
Line line(const Fit& fit) {
    return {.at_20_mm = fit.interference_mm, .loss_mmpK = loss_mmpK(fit)};
}

struct Helped {
    Line own;
    Line other;
    double share;
};
/// Warming from 20 degC at which own + share max(other, 0) = 0.
std::optional<double> warming_K(const Helped& helped) {
    const auto& [own, other, share] = helped;
    const double loss = own.loss_mmpK + share * other.loss_mmpK;
    if (loss > 0) {
        const double helped_K = (own.at_20_mm + share * other.at_20_mm) / loss;
        if (other.at_20_mm - other.loss_mmpK * helped_K >= 0) return helped_K;
    }
    if (own.loss_mmpK > 0) return own.at_20_mm / own.loss_mmpK;
    return std::nullopt;
}

}  // namespace

double inside_growth_mm(const Tube& tube, const Pressure& pressure) {
    check(tube);
    require_positive(tube.inside_mm, "inside_mm");
    const double a2 = tube.inside_mm * tube.inside_mm;
    const double b2 = tube.outside_mm * tube.outside_mm;
    return tube.inside_mm / tube.material.E_MPa *
           (pressure.inside_MPa * ((b2 + a2) / (b2 - a2) + tube.material.nu) -
            pressure.outside_MPa * 2 * b2 / (b2 - a2));
}

double outside_growth_mm(const Tube& tube, const Pressure& pressure) {
    check(tube);
    const double a2 = tube.inside_mm * tube.inside_mm;
    const double b2 = tube.outside_mm * tube.outside_mm;
    return tube.outside_mm / tube.material.E_MPa *
           (pressure.inside_MPa * 2 * a2 / (b2 - a2) -
            pressure.outside_MPa * ((b2 + a2) / (b2 - a2) - tube.material.nu));
}

double inside_hoop_MPa(const Tube& tube, const Pressure& pressure) {
    check(tube);
    require_positive(tube.inside_mm, "inside_mm");
    const double a2 = tube.inside_mm * tube.inside_mm;
    const double b2 = tube.outside_mm * tube.outside_mm;
    return (pressure.inside_MPa * (b2 + a2) - 2 * pressure.outside_MPa * b2) / (b2 - a2);
}

Joint joint(const Fit& fit, const FitTemps& temps) {
    return joint_of({interference_mm(fit, temps), compliance_mmpMPa(fit)});
}

double release_degC(const Fit& fit) {
    check(inner_of(fit));
    check(outer_of(fit));
    const double loss = loss_mmpK(fit);
    require_positive(loss, "outer - inner expansion");
    return reference_degC + fit.interference_mm / loss;
}

NestJoints joints(const Nest& nest, const NestTemps& temps) {
    const Pair pair = pair_of(nest);
    const double delta_1 = interference_mm(pair.ring, {temps.ring_degC, temps.retainer_degC});
    const double delta_2 = interference_mm(pair.retainer, {temps.retainer_degC, temps.boss_degC});
    const double determinant = pair.c_11 * pair.c_22 - pair.c_12 * pair.c_21;
    const double p_1 = (pair.c_22 * delta_1 + pair.c_12 * delta_2) / determinant;
    const double p_2 = (pair.c_11 * delta_2 + pair.c_21 * delta_1) / determinant;
    if (p_1 >= 0 && p_2 >= 0)
        return {.ring = {.pressure_MPa = p_1, .gap_mm = 0},
                .retainer = {.pressure_MPa = p_2, .gap_mm = 0}};
    // At most one joint is pressed. It moves the retainer's other side towards its neighbour.
    const Joint ring = joint_of({delta_1, pair.c_11});
    const Joint retainer = joint_of({delta_2, pair.c_22});
    if (ring.pressure_MPa > 0 && delta_2 + pair.c_21 * ring.pressure_MPa <= 0)
        return {
            .ring = ring,
            .retainer = {.pressure_MPa = 0, .gap_mm = -(delta_2 + pair.c_21 * ring.pressure_MPa)}};
    if (retainer.pressure_MPa > 0)
        return {
            .ring = {.pressure_MPa = 0, .gap_mm = -(delta_1 + pair.c_12 * retainer.pressure_MPa)},
            .retainer = retainer};
    return {.ring = ring, .retainer = retainer};
}

Release release_degC(const Nest& nest) {
    const Pair pair = pair_of(nest);
    const Line ring = line(pair.ring);
    const Line retainer = line(pair.retainer);
    require_not_negative(ring.loss_mmpK, "retainer - ring expansion");
    require_positive(retainer.loss_mmpK, "boss - retainer expansion");
    Release release{};
    if (const auto warmer_K = warming_K({ring, retainer, pair.c_12 / pair.c_22}))
        release.ring_degC = reference_degC + *warmer_K;
    release.retainer_degC =
        reference_degC + warming_K({retainer, ring, pair.c_21 / pair.c_11}).value();
    return release;
}

double slip_torque_Nm(const Contact& contact) {
    require_not_negative(contact.pressure_MPa, "pressure_MPa");
    require_positive(contact.diameter_mm, "diameter_mm");
    require_positive(contact.width_mm, "width_mm");
    require_within(contact.friction, {0, 1}, "friction");
    const double area_mm2 = pi * contact.diameter_mm * contact.width_mm;
    return Nm_from_Nmm(contact.friction * contact.pressure_MPa * area_mm2 * contact.diameter_mm /
                       2);
}

}  // namespace caseload::thick_ring
