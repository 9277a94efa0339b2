// SPDX-License-Identifier: MIT
#include "damage/mesh_strength.hpp"

#include "caseload/formulas/iso_6336_2.hpp"

#include "caseload/formulas/iso_6336_5.hpp"
#include "caseload/formulas/iso_6336_6.hpp"
#include "caseload/units.hpp"

#include <cmath>

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
      module_mm_(setup.gears.module_mm),
      face_width_mm_(setup.gears.face_width_mm),
      tip_relief_um_(setup.gears.tip_relief_um),
      deviation_um_(iso_6336_1::deviation_um(setup.gears.accuracy)),
      face_load_factor_(setup.gears.face_load_factor),
      misalignment_um_(setup.gears.misalignment_um),
      driver_idles_(train.meshes[mesh].driver > 0) {
    const double Z_eps = iso_6336_2::contact_ratio_factor(pair_);
    Z_eps_squared_ = Z_eps * Z_eps;
    const iso_6336_5::Material steel = iso_6336_5::material(setup.gears.material);
    sigma_Hlim_MPa_ = steel.sigma_Hlim_MPa;
    Z_L_ = iso_6336_2::oil_factor(setup.oil.viscosity_40C_mm2ps * (1 - setup.oil.shear_loss));
    Z_R_ = iso_6336_2::roughness_factor(pair_, setup.gears.flank_Rz_um);
    const iso_6336_1::ToothLoad of_one_Npmm{.F_t_N = face_width_mm_,
                                            .face_width_mm = face_width_mm_};
    constexpr iso_6336_1::LoadFactors none{.K_A = 1, .K_v = 1, .K_beta = 1, .K_alpha = 1};
    const iso_6336_2::FlankStress flanks = iso_6336_2::stress(pair_, of_one_Npmm, none);
    const auto last = static_cast<int>(train.shafts.size()) - 1;
    const auto side = [&](iso_6336_3::Gear gear, double sigma_H_MPa, int shaft) {
        return GearSide{
            sigma_H_MPa,
            iso_6336_3::stress_MPa(pair_, iso_6336_3::root_form(pair_, gear), of_one_Npmm, none),
            iso_6336_3::limit_MPa({.sigma_Flim_MPa = steel.sigma_Flim_MPa,
                                   .Rz_um = setup.gears.flank_Rz_um,
                                   .module_mm = setup.gears.module_mm,
                                   .reversed = shaft > 0 && shaft < last})};
    };
    driver_ = side(iso_6336_3::Gear::driver, flanks.sigma_H1_MPa, train.meshes[mesh].driver);
    driven_ = side(iso_6336_3::Gear::driven, flanks.sigma_H2_MPa, train.meshes[mesh].driven);
    for (std::size_t m = 0; m < mesh; ++m)
        torque_1_per_input_ *= train.meshes[m].pair.d_w2_mm / train.meshes[m].pair.d_w1_mm;
}

double MeshStrength::w_Npmm(double torque_1_Nm) const {
    return iso_6336_1::reference_force_N(pair_, torque_1_Nm) / face_width_mm_;
}

MeshFactors MeshStrength::factors_at(double w_Npmm, double K_v) const {
    MeshFactors found;
    found.K_v = K_v;
    found.K_Hbeta = face_load_factor_ ? *face_load_factor_
                                      : iso_6336_1::face_factor({misalignment_um_, w_Npmm * K_v});
    found.K_Fbeta = iso_6336_1::root_face_factor(
        {.K_Hbeta = found.K_Hbeta, .face_width_mm = face_width_mm_, .module_mm = module_mm_});
    const iso_6336_1::TransverseFactors shared =
        iso_6336_1::transverse_factors(pair_, {.w_H_Npmm = w_Npmm * K_v * found.K_Hbeta,
                                               .deviation_um = deviation_um_,
                                               .Z_eps_squared = Z_eps_squared_});
    found.K_Halpha = shared.K_Halpha;
    found.K_Falpha = shared.K_Falpha;
    return found;
}

MeshFactors MeshStrength::factors(const Running& running) const {
    const double w = w_Npmm(running.torque_1_Nm);
    return factors_at(w, iso_6336_1::dynamic_factor(pair_, rims_,
                                                    {.w_Npmm = w,
                                                     .n_1_rpm = running.n_1_rpm,
                                                     .f_pb_um = deviation_um_,
                                                     .f_f_um = deviation_um_,
                                                     .tip_relief_um = tip_relief_um_}));
}

iso_6336_1::SpeedRange MeshStrength::resonance() const {
    return iso_6336_1::resonance_range(pair_, rims_);
}

MeshStress MeshStrength::at(const Running& running) const {
    return stresses({.w_Npmm = w_Npmm(running.torque_1_Nm),
                     .factors = factors(running),
                     .v_mps = radps_from_rpm(running.n_1_rpm) * m_from_mm(pair_.d_w1_mm) / 2});
}

MeshStress MeshStrength::at_peak(double torque_1_Nm) const {
    const double w = w_Npmm(torque_1_Nm);
    return stresses({.w_Npmm = w, .factors = factors_at(w, 1), .v_mps = peak_speed_mps});
}

MeshStress MeshStrength::stresses(const MeshRun& run) const {
    const double limit_H_MPa = iso_6336_2::limit_MPa({.sigma_Hlim_MPa = sigma_Hlim_MPa_,
                                                      .Z_L = Z_L_,
                                                      .Z_v = iso_6336_2::speed_factor(run.v_mps),
                                                      .Z_R = Z_R_});
    // Flank stress goes with the root of the load, root stress with the load.
    const double flank_load = std::sqrt(run.w_Npmm * run.factors.flank());
    const double root_load = run.w_Npmm * run.factors.root();
    const auto gear = [&](const GearSide& side) {
        GearStress out;
        out.sigma_H_MPa = side.sigma_H_MPa * flank_load;
        out.limit_H_MPa = limit_H_MPa;
        out.sigma_F_MPa = side.sigma_F_MPa * root_load;
        out.limit_F_MPa = side.limit_F_MPa;
        const double flank = out.sigma_H_MPa / out.limit_H_MPa;
        const double root = out.sigma_F_MPa / out.limit_F_MPa;
        out.flank_damage = iso_6336_6::damage_per_cycle(iso_6336_2::no_pitting, flank);
        out.root_damage = iso_6336_6::damage_per_cycle(iso_6336_3::root_life, root);
        const double indents = flank / iso_6336_2::no_pitting.front().factor;
        out.flank_of_static = indents * indents;
        out.root_of_static = root / iso_6336_3::root_life.front().factor;
        return out;
    };
    return {run.factors, gear(driver_), gear(driven_)};
}

}  // namespace caseload
