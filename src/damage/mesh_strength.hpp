// SPDX-License-Identifier: MIT
// Strength of one mesh: everything that does not depend on load and speed once, then stresses.
#pragma once

#include "caseload/formulas/iso_6336_1.hpp"
#include "caseload/formulas/iso_6336_3.hpp"
#include "caseload/loads.hpp"

#include <cstddef>

namespace caseload {

struct GearStress {
    double sigma_H_MPa = 0;
    double sigma_F_MPa = 0;
    double limit_H_MPa = 0;  ///< at life factor 1
    double limit_F_MPa = 0;
    double flank_damage = 0;  ///< of one load cycle
    double root_damage = 0;
    double flank_of_static = 0;  ///< torque over that at which one load cycle indents the flank
    double root_of_static = 0;   ///< torque over that at which one load cycle breaks the root
};

struct MeshStress {
    double K_v = 1;
    GearStress driver;
    GearStress driven;
};

class MeshStrength {
public:
    /// True when the pair lies inside what the standards' formulas cover.
    static bool covers(const iso_21771::Pair& pair);

    MeshStrength(const Setup& setup, const Train& train, std::size_t mesh);

    /// Torque of the mesh's driver over torque of the case input.
    [[nodiscard]] double torque_1_per_input() const { return torque_1_per_input_; }

    /// Which side of the driver's teeth is loaded: true is the side named `drive` in GearDamage. An
    /// idler drives its mate with the other flank than the one its own driver pushes.
    [[nodiscard]] bool side_of_driver(bool drive) const { return driver_idles_ ? !drive : drive; }

    struct Running {
        double torque_1_Nm;  ///< of the mesh's driver, not negative
        double n_1_rpm;
    };
    [[nodiscard]] MeshStress at(const Running& running) const;
    /// A torque peak: no dynamic factor, speed unknown.
    [[nodiscard]] MeshStress at_peak(double torque_1_Nm) const;

    [[nodiscard]] double dynamic_factor(const Running& running) const;
    [[nodiscard]] iso_6336_1::SpeedRange resonance() const;  ///< of the mesh's driver

private:
    struct GearSide {
        iso_6336_3::RootForm form{};
        double limit_F_MPa = 0;
    };
    struct MeshRun {
        double F_t_N;
        double K_v;
        double v_mps;
    };
    struct Contact {
        double sigma_H_MPa;
        double limit_H_MPa;
    };
    [[nodiscard]] MeshStress stresses(const MeshRun& run) const;
    [[nodiscard]] GearStress gear(const GearSide& side, const Contact& contact,
                                  const iso_6336_1::ToothLoad& load,
                                  const iso_6336_1::LoadFactors& root_factors) const;

    const iso_21771::Pair pair_;
    iso_6336_1::Rims rims_{};
    double face_width_mm_ = 0;
    double tip_relief_um_ = 0;
    double deviation_um_ = 0;
    double K_Hbeta_ = 1;
    double K_Fbeta_ = 1;
    double sigma_Hlim_MPa_ = 0;
    double Z_L_ = 0;
    double Z_R_ = 0;
    double torque_1_per_input_ = 1;
    bool driver_idles_ = false;
    GearSide driver_;
    GearSide driven_;
};

}  // namespace caseload
