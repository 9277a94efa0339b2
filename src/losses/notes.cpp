// SPDX-License-Identifier: MIT
// Where a leg's losses leave the range their formulas were tested in.
#include "caseload/formulas/lip_seal.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/losses.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace caseload {
namespace {

// Above this Reynolds number on the face width the 2007 form of the churning law no longer depends
// on viscosity. From memory.
constexpr double inertial_Re = 9000;
// Usual speeds of lips. ISO 6194 and DIN 3760 practice, from memory: nitrile to 14 m/s,
// fluoro-elastomer to 35 m/s; 25 m/s where the lip's own heat begins to decide.
constexpr double nitrile_lip_mps = 14;
constexpr double lip_mps = 25;

/// Gear and leg a note is about, and the leg's bins.
struct DippingGear {
    const std::string& shaft;
    const PreparedLosses::GearTerm& term;
    std::size_t number;
};

void note_depth(const DippingGear& gear, double tip_depth_m, Notes& notes) {
    const std::string about = "gear." + gear.shaft;
    const double R_m = gear.term.gear.R_m;
    const double depth_mm = gear.term.depth_m * 1000;
    if (gear.term.depth_m > 0)
        add_note(notes, {"losses.depth", about,
                         fmt::format("gear {} dips: its pitch circle is {:.0f} mm deep in the oil",
                                     gear.shaft, depth_mm)});
    else
        add_note(notes, {"losses.depth", about,
                         fmt::format("gear {} runs in air: its pitch circle is {:.0f} mm above "
                                     "the oil",
                                     gear.shaft, -depth_mm)});
    if (gear.term.depth_m <= 0 && tip_depth_m > 0)
        add_note(notes,
                 {"losses.tip_only", about,
                  fmt::format("gear {}: only its teeth touch the oil; counted as running in air, "
                              "churning may be more",
                              gear.shaft)});
    if (gear.term.depth_m > R_m)
        add_note(notes, {"losses.churning_deep", about,
                         fmt::format("gear {} dips deeper than its axis, beyond the tests of the "
                                     "churning formula: advise less oil",
                                     gear.shaft)});
}

void note_churning(const Setup& setup, const DippingGear& gear, const PreparedLosses& leg,
                   double nu_m2ps, Notes& notes) {
    const churning::Gear& g = gear.term.gear;
    const std::string about = "gear." + gear.shaft;
    double fastest_mps = 0;
    double blended_share = 0;
    double slow_Re = 0;
    for (const PreparedLosses::BinTerm& bin : leg.bins) {
        const double omega = bin.shaft_omega_radps[gear.number];
        const double gamma = changenet::branch_acceleration_mps2(g, omega);
        fastest_mps = std::max(fastest_mps, omega * g.R_m);
        if (gamma > changenet::slow_to_mps2 && gamma < changenet::fast_from_mps2)
            blended_share += bin.share;
        if (gamma < changenet::fast_from_mps2)
            slow_Re = std::max(slow_Re, omega * g.R_m * g.b_m / nu_m2ps);
    }
    if (fastest_mps > changenet::tested_speed_mps)
        add_note(notes, {"losses.churning_speed", about,
                         fmt::format(
                             "gear {} dips at up to {:.0f} m/s; churning was tested to {:.0f} m/s: "
                             "its range grows to 0.4 to 2.5 of the value at {:.0f} m/s; advise "
                             "less oil",
                             gear.shaft, fastest_mps, changenet::tested_speed_mps,
                             changenet::fast_range_from_mps)});
    if (blended_share > 0)
        add_note(notes, {"losses.churning_blend", about,
                         fmt::format("gear {}: for {:.0f} % of a leg churning lies between two "
                                     "branches of its formula, good to a factor of 3 there",
                                     gear.shaft, 100 * blended_share)});
    if (slow_Re > inertial_Re)
        add_note(notes,
                 {"losses.churning_Re", about,
                  fmt::format("gear {}: Reynolds number up to {:.0f} where the slow branch of the "
                              "churning formula counts; an older form no longer falls with thinner "
                              "oil above {:.0f}",
                              gear.shaft, slow_Re, inertial_Re)});
    const double D_m = 2 * g.R_m;
    const double volume = m3_from_L(setup.oil.fill_L) / (D_m * D_m * D_m);
    if (volume < changenet::least_volume_ratio)
        add_note(
            notes,
            {"losses.churning_volume", about,
             fmt::format("gear {}: fill over diameter cubed is {:.2f}, below the tested {:.1f}; "
                         "{:.1f} taken",
                         gear.shaft, volume, changenet::least_volume_ratio,
                         changenet::least_volume_ratio)});
}

/// Speed that a shaft has or passes for a twentieth of a leg: seconds harm no lip. Judgement.
double fast_radps(const PreparedLosses& leg, std::size_t shaft) {
    constexpr double fast_share = 0.05;
    std::vector<std::pair<double, double>> share_at;
    double all = 0;
    for (const PreparedLosses::BinTerm& bin : leg.bins) {
        share_at.emplace_back(bin.shaft_omega_radps[shaft], bin.share);
        all += bin.share;
    }
    std::sort(share_at.rbegin(), share_at.rend());
    double above = 0;
    for (const auto& [omega_radps, share] : share_at) {
        above += share;
        if (above >= fast_share * all) return omega_radps;
    }
    return 0;
}

void note_lips(const Setup& setup, const Loads& loads, const PreparedLosses& leg, Notes& notes) {
    for (const SealInput& seal : setup.seals) {
        double fast_mps = 0;
        for (std::size_t s = 0; s < loads.train.shafts.size(); ++s)
            if (loads.train.shafts[s].name == seal.shaft)
                fast_mps = iso_tr_14179_1::lip_speed_mps(
                    {.diameter_mm = seal.diameter_mm, .n_rpm = rpm_from_radps(fast_radps(leg, s))});
        const bool nitrile = seal.material == SealMaterial::NBR;
        const double limit_mps = nitrile ? nitrile_lip_mps : lip_mps;
        if (fast_mps > limit_mps)
            add_note(notes,
                     {"losses.lip_speed", "seal." + seal.name,
                      fmt::format("seal {}: lip speed {:.0f} m/s or more for a twentieth of the "
                                  "time, above the {:.0f} m/s usual for {}",
                                  seal.name, fast_mps, limit_mps,
                                  nitrile ? "nitrile" : "other lips than nitrile")});
    }
}

}  // namespace

Notes loss_notes(const Setup& setup, const Loads& loads, const Oil& oil, const PreparedLosses& leg,
                 double oil_temp_degC) {
    Notes notes;
    if (setup.lubrication.method == Method::dip) {
        const double nu_m2ps =
            m2ps_from_mm2ps(astm_d341::viscosity_mm2ps(oil.fresh, oil_temp_degC));
        for (std::size_t s = 0; s < leg.gears.size(); ++s) {
            const ShaftPlace& shaft = train_of(loads, leg.train).shafts[s];
            const DippingGear gear{shaft.name, leg.gears[s], s};
            const double tip_m = m_from_mm(shaft.tip_diameter_mm) / 2 - gear.term.gear.R_m;
            note_depth(gear, gear.term.depth_m + tip_m, notes);
            if (gear.term.depth_m > 0) note_churning(setup, gear, leg, nu_m2ps, notes);
        }
    }
    double fastest_mps = 0;
    for (const PreparedLosses::BinTerm& bin : leg.bins)
        for (const PreparedLosses::MeshTerm& mesh : bin.meshes)
            fastest_mps = std::max(fastest_mps, mesh.pitch_speed_mps);
    if (fastest_mps > schlenk::largest_v_mps)
        add_note(notes,
                 {"losses.mesh_speed", "gears",
                  fmt::format("pitch-line speed up to {:.0f} m/s; tooth friction was tested to "
                              "{:.0f} m/s and is taken as at that speed: 0.65 to 1.4 of the value",
                              fastest_mps, schlenk::largest_v_mps)});
    if (setup.gears.helix_angle_deg != 0)
        add_note(notes, {"losses.helical", "gears",
                         "helical teeth: friction loss 0.7 to 1.5 of the value, a wider range than "
                         "for spur teeth"});
    note_lips(setup, loads, leg, notes);
    return notes;
}

}  // namespace caseload
