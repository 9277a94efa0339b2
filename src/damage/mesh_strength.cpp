// SPDX-License-Identifier: MIT
#include "damage/mesh_strength.hpp"

#include "caseload/formulas/iso_6336_2.hpp"

#include "caseload/formulas/iso_6336_5.hpp"
#include "caseload/formulas/iso_6336_6.hpp"
#include "caseload/units.hpp"

namespace caseload {
namespace {

// The pitch-line speed of a torque peak is not known; the flank limit is taken at this one, where
// the speed factor is that of a slow gear. Judgement, on the safe side.
constexpr double peak_speed_mps = 1;

}  // namespace

bool MeshStrength::covers(const iso_21771::Pair& pair) {
    return pair.eps_alpha >= 1 && pair.eps_alpha <= 2.5 && pair.T1A_mm > 0 && pair.T2E_mm > 0;
}

MeshStrength::MeshStrength(const Setup& setup, const Train& train, std::size_t mesh)
    : pair_(train.meshes[mesh].pair),
      rims_{setup.gears.rim_bore_ratio, setup.gears.rim_bore_ratio},
      face_width_mm_(setup.gears.face_width_mm),
      tip_relief_um_(setup.gears.tip_relief_um),
      deviation_um_(iso_6336_1::deviation_um(setup.gears.accuracy)),
      K_Hbeta_(setup.gears.face_load_factor),
      driver_idles_(train.meshes[mesh].driver > 0) {
    K_Fbeta_ = iso_6336_1::root_face_factor(
        {.K_Hbeta = K_Hbeta_, .face_width_mm = face_width_mm_, .module_mm = setup.gears.module_mm});
    const iso_6336_5::Material steel = iso_6336_5::material(setup.gears.material);
    sigma_Hlim_MPa_ = steel.sigma_Hlim_MPa;
    Z_L_ = iso_6336_2::oil_factor(setup.oil.viscosity_40C_mm2ps * (1 - setup.oil.shear_loss));
    Z_R_ = iso_6336_2::roughness_factor(pair_, setup.gears.flank_Rz_um);
    const auto last = static_cast<int>(train.shafts.size()) - 1;
    const auto side = [&](iso_6336_3::Gear gear, int shaft) {
        return GearSide{iso_6336_3::root_form(pair_, gear),
                        iso_6336_3::limit_MPa({.sigma_Flim_MPa = steel.sigma_Flim_MPa,
                                               .Rz_um = setup.gears.flank_Rz_um,
                                               .module_mm = setup.gears.module_mm,
                                               .reversed = shaft > 0 && shaft < last})};
    };
    driver_ = side(iso_6336_3::Gear::driver, train.meshes[mesh].driver);
    driven_ = side(iso_6336_3::Gear::driven, train.meshes[mesh].driven);
    for (std::size_t m = 0; m < mesh; ++m)
        torque_1_per_input_ *= train.meshes[m].pair.d_w2_mm / train.meshes[m].pair.d_w1_mm;
}

double MeshStrength::dynamic_factor(const Running& running) const {
    return iso_6336_1::dynamic_factor(
        pair_, rims_,
        {.w_Npmm = iso_6336_1::reference_force_N(pair_, running.torque_1_Nm) / face_width_mm_,
         .n_1_rpm = running.n_1_rpm,
         .f_pb_um = deviation_um_,
         .f_f_um = deviation_um_,
         .tip_relief_um = tip_relief_um_});
}

iso_6336_1::SpeedRange MeshStrength::resonance() const {
    return iso_6336_1::resonance_range(pair_, rims_);
}

MeshStress MeshStrength::at(const Running& running) const {
    return stresses({.F_t_N = iso_6336_1::reference_force_N(pair_, running.torque_1_Nm),
                     .K_v = dynamic_factor(running),
                     .v_mps = radps_from_rpm(running.n_1_rpm) * m_from_mm(pair_.d_w1_mm) / 2});
}

MeshStress MeshStrength::at_peak(double torque_1_Nm) const {
    return stresses({.F_t_N = iso_6336_1::reference_force_N(pair_, torque_1_Nm),
                     .K_v = 1,
                     .v_mps = peak_speed_mps});
}

MeshStress MeshStrength::stresses(const MeshRun& run) const {
    const auto& [F_t_N, K_v, v_mps] = run;
    const iso_6336_1::ToothLoad load{.F_t_N = F_t_N, .face_width_mm = face_width_mm_};
    const iso_6336_2::FlankStress flanks =
        iso_6336_2::stress(pair_, load, {.K_A = 1, .K_v = K_v, .K_beta = K_Hbeta_, .K_alpha = 1});
    const double limit_H_MPa = iso_6336_2::limit_MPa({.sigma_Hlim_MPa = sigma_Hlim_MPa_,
                                                      .Z_L = Z_L_,
                                                      .Z_v = iso_6336_2::speed_factor(v_mps),
                                                      .Z_R = Z_R_});
    const iso_6336_1::LoadFactors root{.K_A = 1, .K_v = K_v, .K_beta = K_Fbeta_, .K_alpha = 1};
    return {K_v, gear(driver_, {flanks.sigma_H1_MPa, limit_H_MPa}, load, root),
            gear(driven_, {flanks.sigma_H2_MPa, limit_H_MPa}, load, root)};
}

GearStress MeshStrength::gear(const GearSide& side, const Contact& contact,
                              const iso_6336_1::ToothLoad& load,
                              const iso_6336_1::LoadFactors& root_factors) const {
    GearStress out;
    out.sigma_H_MPa = contact.sigma_H_MPa;
    out.limit_H_MPa = contact.limit_H_MPa;
    out.limit_F_MPa = side.limit_F_MPa;
    out.sigma_F_MPa = iso_6336_3::stress_MPa(pair_, side.form, load, root_factors);
    const double flank = contact.sigma_H_MPa / contact.limit_H_MPa;
    const double root = out.sigma_F_MPa / side.limit_F_MPa;
    out.flank_damage = iso_6336_6::damage_per_cycle(iso_6336_2::no_pitting, flank);
    out.root_damage = iso_6336_6::damage_per_cycle(iso_6336_3::root_life, root);
    // Flank stress goes with the root of torque, root stress with torque.
    const double indents = flank / iso_6336_2::no_pitting.front().factor;
    out.flank_of_static = indents * indents;
    out.root_of_static = root / iso_6336_3::root_life.front().factor;
    return out;
}

}  // namespace caseload
