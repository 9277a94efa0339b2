// SPDX-License-Identifier: MIT
#include "duty/tooth_damage.hpp"

#include "caseload/error.hpp"
#include "input/fields.hpp"

#include <cmath>
#include <cstdlib>

namespace caseload::duty {
namespace {

// Parts of a gear in order: its two sides, flank and root of each.
constexpr std::size_t parts_of_gear = 4;
constexpr std::size_t part(std::size_t first, bool drive, bool root) {
    return first + (drive ? 0U : 2U) + (root ? 1U : 0U);
}

}  // namespace

ToothDamage::ToothDamage(const Setup& setup, std::optional<double> overload)
    : overload_(overload
                    ? *overload
                    : std::strtod(std::string(input::field_of("leg.*.overload").fallback).c_str(),
                                  nullptr)) {
    place(setup, true);
    for (const auto& [name, set] : setup.sets) {
        if (name == setup.gears.fitted_name || set.teeth == setup.gears.teeth) continue;
        Setup other = setup;
        other.gears.teeth = set.teeth;
        other.gears.fitted_name = name;
        try {
            place(other, false);
        } catch (const Error&) {
            // Gears that cannot mesh get no damage here; a setup with them fitted is refused.
        }
    }
}

void ToothDamage::place(const Setup& setup, bool fitted) {
    const Train train = place_train(setup);
    const std::size_t first = parts_.size();
    for (const auto& shaft : train.shafts)
        for (int side = 0; side < 2; ++side)  // drive, coast
            for (const bool root : {false, true})
                parts_.push_back({"gear." + shaft.name + (fitted ? "" : " (set " + train.set + ")"),
                                  root, fitted});
    for (std::size_t m = 0; m < train.meshes.size(); ++m) {
        const MeshPlace& mesh = train.meshes[m];
        if (!MeshStrength::covers(mesh.pair)) continue;
        const auto driver = static_cast<std::size_t>(mesh.driver);
        const auto driven = static_cast<std::size_t>(mesh.driven);
        MeshStrength strength(setup, train, m);
        const double torque_ratio = strength.torque_1_per_input();
        meshes_.push_back({std::move(strength), torque_ratio,
                           std::fabs(train.shafts[driver].speed_ratio),
                           std::fabs(train.shafts[driven].speed_ratio),
                           first + driver * parts_of_gear, first + driven * parts_of_gear});
    }
}

void ToothDamage::add(double turns, double torque_Nm, double speed_rpm, double* to) const {
    if (torque_Nm == 0 || turns <= 0) return;
    const bool drive = torque_Nm > 0;
    for (const Mesh& mesh : meshes_) {
        const MeshStress stress = mesh.strength.at(
            {std::fabs(torque_Nm) * overload_ * mesh.torque_ratio, speed_rpm * mesh.speed_ratio});
        const bool side = mesh.strength.side_of_driver(drive);
        to[part(mesh.driver, side, false)] += turns * mesh.speed_ratio * stress.driver.flank_damage;
        to[part(mesh.driver, side, true)] += turns * mesh.speed_ratio * stress.driver.root_damage;
        to[part(mesh.driven, drive, false)] +=
            turns * mesh.driven_ratio * stress.driven.flank_damage;
        to[part(mesh.driven, drive, true)] += turns * mesh.driven_ratio * stress.driven.root_damage;
    }
}

}  // namespace caseload::duty
