// SPDX-License-Identifier: MIT
// Strength of one mesh: everything that does not depend on load and speed once, then stresses.
#pragma once

#include "caseload/formulas/iso_6336_1.hpp"
#include "caseload/formulas/iso_6336_3.hpp"
#include "caseload/loads.hpp"

#include <cstddef>
#include <optional>

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

/// Factors on the load of a mesh, in the order of the standard: each by the load times those
/// before.
struct MeshFactors {
    double K_v = 1;
    double K_Hbeta = 1;
    double K_Fbeta = 1;
    double K_Halpha = 1;
    double K_Falpha = 1;

    [[nodiscard]] double flank() const { return K_v * K_Hbeta * K_Halpha; }
    [[nodiscard]] double root() const { return K_v * K_Fbeta * K_Falpha; }
};

struct MeshStress {
    MeshFactors factors;
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

    [[nodiscard]] MeshFactors factors(const Running& running) const;
    [[nodiscard]] iso_6336_1::SpeedRange resonance() const;  ///< of the mesh's driver

private:
    struct GearSide {
        double sigma_H_MPa = 0;  ///< at 1 N/mm without load factors
        double sigma_F_MPa = 0;  ///< the same of the root
        double limit_F_MPa = 0;
    };
    struct MeshRun {
        double w_Npmm;  ///< F_t / b
        MeshFactors factors;
        double v_mps;
    };
    [[nodiscard]] double w_Npmm(double torque_1_Nm) const;
    [[nodiscard]] MeshFactors factors_at(double w_Npmm, double K_v) const;
    [[nodiscard]] MeshStress stresses(const MeshRun& run) const;

    const iso_21771::Pair pair_;
    iso_6336_1::Rims rims_{};
    double module_mm_ = 0;
    double face_width_mm_ = 0;
    double tip_relief_um_ = 0;
    double deviation_um_ = 0;
    std::optional<double> face_load_factor_;
    double misalignment_um_ = 0;
    double Z_eps_squared_ = 1;
    double sigma_Hlim_MPa_ = 0;
    double Z_L_ = 0;
    double Z_R_ = 0;
    double torque_1_per_input_ = 1;
    bool driver_idles_ = false;
    GearSide driver_;
    GearSide driven_;
};

}  // namespace caseload
