// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"
#include "caseload/loads.hpp"
#include "caseload/units.hpp"
#include "input/gears.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace caseload {
namespace {

[[noreturn]] void refuse(const std::string& text, const std::string& hint) {
    throw Error(Error::Kind::domain, {Problem{{}, text, hint}});
}

double centre_distance_mm(const Setup& setup, std::size_t mesh) {
    const auto& all = setup.transfer_case.centre_distance_mm;
    return all.size() == 1 ? all.front() : all.at(mesh);
}

void check_fits(const Setup& setup, int teeth_1, int teeth_2, double centre_mm) {
    const double helix = rad_from_deg(setup.gears.helix_angle_deg);
    const double sum_at_zero_shift = 2 * centre_mm * std::cos(helix) / setup.gears.module_mm;
    const iso_21771::PairInput input = input::pair_input(setup, teeth_1, teeth_2, centre_mm);
    const std::vector<int> fitting = iso_21771::fitting_tooth_sums(input);
    const int sum = teeth_1 + teeth_2;
    if (std::find(fitting.begin(), fitting.end(), sum) != fitting.end()) return;
    std::string sums;
    for (const int fit : fitting) sums += fmt::format("{}{}", sums.empty() ? "" : ", ", fit);
    refuse(
        fmt::format("gears.fitted {}/{}: {} teeth together do not mesh on {} mm with module {} mm",
                    teeth_1, teeth_2, sum, centre_mm, setup.gears.module_mm),
        fmt::format("tooth sums that fit this centre distance: {} (no profile shift at {:.1f})",
                    sums, sum_at_zero_shift));
}

// Positions: input at the origin; the output in the drop direction. With an idler the three
// centres form a triangle with the given angle at the idler.
void place_centres(const Setup& setup, Train& train) {
    const double drop = rad_from_deg(setup.transfer_case.drop_direction_deg);
    if (train.shafts.size() == 2) {
        const double a_mm = centre_distance_mm(setup, 0);
        train.shafts[1].y_mm = a_mm * std::sin(drop);
        train.shafts[1].z_mm = -a_mm * std::cos(drop);
        return;
    }
    const double a_mm = centre_distance_mm(setup, 0);
    const double b_mm = centre_distance_mm(setup, 1);
    const double at_idler = rad_from_deg(setup.transfer_case.idler_angle_deg.value_or(180));
    // Idler frame: the input lies at angle 0, the output at +angle in the idler's sense of turning.
    // The idler turns against the input: clockwise input, idler counter-clockwise for the viewer,
    // which is the positive sense about x.
    const double sense = train.shafts[1].clockwise ? -1 : 1;
    const double output_y = b_mm * std::cos(sense * at_idler) - a_mm;
    const double output_z = b_mm * std::sin(sense * at_idler);
    // Relative to the input, still in the idler frame; the idler itself lies at (-a, 0).
    const double reach_mm = std::hypot(output_y, output_z);
    if (reach_mm <= 0) refuse("case.idler_angle: input and output would share one axis", "");
    const double turn =
        std::atan2(-std::cos(drop), std::sin(drop)) - std::atan2(output_z, output_y);
    train.shafts[1].y_mm = -a_mm * std::cos(turn);
    train.shafts[1].z_mm = -a_mm * std::sin(turn);
    train.shafts[2].y_mm = output_y * std::cos(turn) - output_z * std::sin(turn);
    train.shafts[2].z_mm = output_y * std::sin(turn) + output_z * std::cos(turn);
}

void share_weight(const Setup& setup, Train& train) {
    std::vector<double> disc_kg;
    double discs_kg = 0;
    for (const ShaftPlace& shaft : train.shafts) {
        const double r_m = m_from_mm(shaft.pitch_diameter_mm) / 2;
        disc_kg.push_back(pi * r_m * r_m * m_from_mm(setup.gears.face_width_mm) *
                          input::steel_density_kgpm3);
        discs_kg += disc_kg.back();
    }
    train.steel_mass_kg =
        setup.transfer_case.steel_mass_kg.value_or(input::steel_over_discs * discs_kg);
    for (std::size_t i = 0; i < train.shafts.size(); ++i)
        train.shafts[i].weight_N = train.steel_mass_kg * disc_kg[i] / discs_kg * g_mps2;
}

void add_findings(std::vector<iso_21771::Finding>& all,
                  const std::vector<iso_21771::Finding>& more) {
    for (const iso_21771::Finding& one : more) {
        // An idler meshes twice: what is wrong with it alone is said once.
        const bool known = std::any_of(all.begin(), all.end(), [&](const auto& other) {
            return other.id == one.id && other.text == one.text;
        });
        if (!known) all.push_back(one);
    }
}

/// Steel between roots and bore of every gear: the bore of its shaft, or of a turned-out rim.
void check_rims(const Setup& setup, Train& train) {
    for (std::size_t i = 0; i < train.shafts.size(); ++i) {
        const iso_21771::Pair& pair = train.meshes[i == 0 ? 0 : i - 1].pair;
        const double d_a_mm = i == 0 ? pair.d_a1_mm : pair.d_a2_mm;
        const double d_f_mm = i == 0 ? pair.d_f1_mm : pair.d_f2_mm;
        const double bore_mm = std::max(setup.shafts.at(train.shafts[i].name).bore_mm,
                                        setup.gears.rim_bore_ratio * (d_a_mm + d_f_mm) / 2);
        if (bore_mm > 0)
            add_findings(train.findings, iso_21771::rim_findings({.z = train.shafts[i].teeth,
                                                                  .module_mm = pair.module_mm,
                                                                  .d_f_mm = d_f_mm,
                                                                  .bore_mm = bore_mm}));
    }
    if (setup.gears.helix_angle_deg > 0 && train.shafts.size() == 2)
        train.findings.push_back(
            {iso_21771::Finding::Severity::note, "thrust_turns",
             "helical: exchanging the two gears exchanges their hands, and the thrust on both "
             "shafts turns round; change gears.hand_on_input with gears.fitted"});
}

/// Which bearings carry each shaft, and which takes its thrust.
void place_bearings(const Setup& setup, Train& train) {
    for (std::size_t b = 0; b < setup.bearings.size(); ++b) {
        const BearingInput& bearing = setup.bearings[b];
        for (ShaftPlace& shaft : train.shafts) {
            if (shaft.name != bearing.shaft) continue;
            if (bearing.radial) shaft.bearings.push_back(static_cast<int>(b));
            if (bearing.locating || !bearing.radial) shaft.thrust_bearing = static_cast<int>(b);
        }
    }
    // A bearing that carries no radial load takes the thrust alone, whatever else is locating.
    for (std::size_t b = 0; b < setup.bearings.size(); ++b)
        for (ShaftPlace& shaft : train.shafts)
            if (!setup.bearings[b].radial && setup.bearings[b].shaft == shaft.name)
                shaft.thrust_bearing = static_cast<int>(b);
    for (ShaftPlace& shaft : train.shafts)
        std::sort(shaft.bearings.begin(), shaft.bearings.end(), [&](int a, int b) {
            return setup.bearings[static_cast<std::size_t>(a)].at_mm <
                   setup.bearings[static_cast<std::size_t>(b)].at_mm;
        });
}

}  // namespace

Train place_train(const Setup& setup) {
    Train train;
    train.set = setup.gears.fitted_name;
    const auto& names = setup.gears.train;
    const auto& teeth = setup.gears.teeth;
    bool clockwise = setup.transfer_case.input_turns_clockwise;
    double ratio = 1;
    for (std::size_t i = 0; i < names.size(); ++i) {
        ShaftPlace shaft;
        shaft.name = names[i];
        shaft.teeth = teeth[i];
        shaft.gear_at_mm = setup.shafts.at(names[i]).gear_at_mm;
        if (i > 0) {
            ratio *= -static_cast<double>(teeth[i - 1]) / teeth[i];
            clockwise = !clockwise;
        }
        shaft.speed_ratio = ratio;
        shaft.clockwise = clockwise;
        shaft.takes_torque_in = i == 0;
        const bool idles = i > 0 && i + 1 < names.size();
        shaft.torque_ratio = idles ? 0 : 1 / std::fabs(ratio);
        train.shafts.push_back(std::move(shaft));
    }
    train.ratio = 1 / std::fabs(ratio);
    for (std::size_t i = 0; i + 1 < names.size(); ++i) {
        const double centre_mm = centre_distance_mm(setup, i);
        check_fits(setup, teeth[i], teeth[i + 1], centre_mm);
        const iso_21771::PairInput input =
            input::pair_input(setup, teeth[i], teeth[i + 1], centre_mm);
        const MeshPlace mesh{static_cast<int>(i), static_cast<int>(i + 1),
                             input::mesh_pair(setup, teeth, i)};
        add_findings(train.findings, iso_21771::findings(input, mesh.pair));
        if (i == 0) {
            train.shafts[0].pitch_diameter_mm = mesh.pair.d_w1_mm;
            train.shafts[0].tip_diameter_mm = mesh.pair.d_a1_mm;
        }
        train.shafts[i + 1].pitch_diameter_mm = mesh.pair.d_w2_mm;
        train.shafts[i + 1].tip_diameter_mm = mesh.pair.d_a2_mm;
        train.meshes.push_back(mesh);
    }
    if (setup.gears.cut.entered() && input::cut_gears(setup, teeth).shifts.empty())
        train.findings.push_back({iso_21771::Finding::Severity::note, "not_as_cut",
                                  input::not_as_cut_words(setup.gears.cut, teeth)});
    check_rims(setup, train);
    place_bearings(setup, train);
    place_centres(setup, train);
    share_weight(setup, train);
    return train;
}

}  // namespace caseload
