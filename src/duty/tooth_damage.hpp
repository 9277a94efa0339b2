// SPDX-License-Identifier: MIT
// Damage of one turn of the case input to each tooth side of a setup's gears.
#pragma once

#include "bins/measures.hpp"
#include "caseload/model.hpp"
#include "damage/mesh_strength.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace caseload::duty {

/// As gear_damage takes a bin (caseload/teeth.hpp), for the gears fitted and for every other set.
class ToothDamage : public bins::TurnDamage {
public:
    /// overload: of legs that do not say theirs where it is left out.
    explicit ToothDamage(const Setup& setup, std::optional<double> overload = {});

    [[nodiscard]] const std::vector<Part>& parts() const override { return parts_; }
    [[nodiscard]] std::size_t other_side(std::size_t part) const override { return part ^ 2U; }
    void add(double turns, double torque_Nm, double speed_rpm, double* to) const override;

private:
    struct Mesh {
        MeshStrength strength;
        double torque_ratio;  ///< of the mesh's driver over the case input
        double speed_ratio;
        double driven_ratio;
        std::size_t driver;  ///< its first part
        std::size_t driven;
    };
    void place(const Setup& setup, bool fitted);

    std::vector<Mesh> meshes_;
    std::vector<Part> parts_;
    double overload_ = 1;
};

}  // namespace caseload::duty
