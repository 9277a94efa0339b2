// SPDX-License-Identifier: MIT
#include "caseload/teeth.hpp"

#include "caseload/formulas/iso_6336_2.hpp"
#include "caseload/units.hpp"
#include "damage/mesh_strength.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

/// Adds up what one gear takes, and remembers where it takes most.
class GearSum {
public:
    explicit GearSum(GearDamage& gear) : gear_(gear) {}

    struct Turning {
        const MeshFactors& factors;
        double cycles;  ///< turns of this gear in the event at this load
    };

    void add(bool drive_side, const GearStress& stress, const Turning& turning) {
        const auto& [factors, cycles] = turning;
        ToothSide& side = drive_side ? gear_.drive : gear_.coast;
        const double flank = cycles * stress.flank_damage;
        const double root = cycles * stress.root_damage;
        side.flank_share += flank;
        side.root_share += root;
        const double S_H = stress.limit_H_MPa / stress.sigma_H_MPa;
        if (gear_.S_H == 0 || S_H < gear_.S_H) {
            gear_.S_H = S_H;
            gear_.sigma_H_MPa = stress.sigma_H_MPa;
        }
        const double S_F = stress.limit_F_MPa / stress.sigma_F_MPa;
        if (gear_.S_F == 0 || S_F < gear_.S_F) {
            gear_.S_F = S_F;
            gear_.sigma_F_MPa = stress.sigma_F_MPa;
        }
        gear_.bin_flank_share = std::max(gear_.bin_flank_share, stress.flank_of_static);
        gear_.bin_root_share = std::max(gear_.bin_root_share, stress.root_of_static);
        const double most = std::max(flank, root);
        // Without damage anywhere the bin of highest flank stress is shown.
        if (most < most_damage_ || (most == 0 && stress.sigma_H_MPa <= shown_H_MPa_)) return;
        most_damage_ = most;
        shown_H_MPa_ = stress.sigma_H_MPa;
        gear_.K_v = factors.K_v;
        gear_.K_Hbeta = factors.K_Hbeta;
        gear_.K_Halpha = factors.K_Halpha;
        gear_.K_Falpha = factors.K_Falpha;
    }
    void add_peak(bool drive_side, const GearStress& stress, double times) {
        ToothSide& side = drive_side ? gear_.drive : gear_.coast;
        side.flank_share += times * stress.flank_damage;
        side.root_share += times * stress.root_damage;
        gear_.peak_flank_share = std::max(gear_.peak_flank_share, stress.flank_of_static);
        gear_.peak_root_share = std::max(gear_.peak_root_share, stress.root_of_static);
    }

private:
    GearDamage& gear_;
    double most_damage_ = 0;
    double shown_H_MPa_ = 0;
};

double times_run(const Setup& setup, std::size_t leg) {
    const auto& run = setup.event.run;
    return static_cast<double>(std::count(run.begin(), run.end(), static_cast<int>(leg)));
}

}  // namespace

ToothSide worst(const GearDamage& gear) {
    return {std::max(gear.drive.flank_share, gear.coast.flank_share),
            std::max(gear.drive.root_share, gear.coast.root_share)};
}

std::string gear_address(const GearDamage& gear) {
    return "gear." + gear.shaft + (gear.set.empty() ? "" : " (set " + gear.set + ")");
}

namespace {

/// Gears of one train over the legs that run it.
std::vector<GearDamage> train_damage(const Setup& setup, const Loads& loads, int index,
                                     double load) {
    const Train& train = train_of(loads, index);
    std::vector<GearDamage> gears(train.shafts.size());
    std::vector<GearSum> sums;
    sums.reserve(gears.size());
    for (std::size_t s = 0; s < gears.size(); ++s) {
        if (index > 0) gears[s].set = train.set;
        gears[s].shaft = train.shafts[s].name;
        gears[s].teeth = train.shafts[s].teeth;
        gears[s].calculated = true;
        sums.emplace_back(gears[s]);
    }
    for (std::size_t m = 0; m < train.meshes.size(); ++m) {
        const MeshPlace& mesh = train.meshes[m];
        const auto driver = static_cast<std::size_t>(mesh.driver);
        const auto driven = static_cast<std::size_t>(mesh.driven);
        if (!MeshStrength::covers(mesh.pair)) {
            gears[driver].calculated = gears[driven].calculated = false;
            continue;
        }
        const MeshStrength strength(setup, train, m);
        // Torque and speed of the mesh's driver from those of the case input.
        const double torque_ratio = strength.torque_1_per_input();
        const double speed_ratio = std::fabs(train.shafts[driver].speed_ratio);
        const double driven_ratio = std::fabs(train.shafts[driven].speed_ratio);
        for (std::size_t leg = 0; leg < loads.legs.size(); ++leg) {
            if (loads.legs[leg].train != index) continue;
            const double runs = times_run(setup, leg);
            const LegInput& input = setup.event.legs[leg];
            for (const BinLoads& bin : loads.legs[leg].bins) {
                const double torque_Nm = bin.bin.torque_Nm * input.overload * load;
                const double turns =
                    runs * bin.bin.share * bin.bin.speed_rpm * min_from_s(input.duration_s);
                if (torque_Nm == 0 || turns <= 0) continue;
                const MeshStress stress = strength.at(
                    {std::fabs(torque_Nm) * torque_ratio, bin.bin.speed_rpm * speed_ratio});
                // The flank a driver pushes with when driving is the one it is pushed on when
                // coasting only for an idler's second mesh: there the sides change places.
                const bool drive = torque_Nm > 0;
                sums[driver].add(strength.side_of_driver(drive), stress.driver,
                                 {stress.factors, turns * speed_ratio});
                sums[driven].add(drive, stress.driven, {stress.factors, turns * driven_ratio});
            }
            if (input.kind == LegKind::stop || runs == 0) continue;
            for (const PeakLoads& peak : loads.legs[leg].peaks) {
                if (peak.torque_Nm == 0 || peak.times <= 0) continue;
                const MeshStress stress =
                    strength.at_peak(std::fabs(peak.torque_Nm) * load * torque_ratio);
                const bool drive = peak.torque_Nm > 0;
                sums[driver].add_peak(strength.side_of_driver(drive), stress.driver,
                                      runs * peak.times);
                sums[driven].add_peak(drive, stress.driven, runs * peak.times);
            }
        }
    }
    return gears;
}

}  // namespace

std::vector<GearDamage> gear_damage(const Setup& setup, const Loads& loads, double load) {
    std::vector<GearDamage> all = train_damage(setup, loads, 0, load);
    for (std::size_t k = 1; k <= loads.others.size(); ++k)
        for (GearDamage& gear : train_damage(setup, loads, static_cast<int>(k), load))
            all.push_back(std::move(gear));
    return all;
}

Notes tooth_notes(const Setup& setup, const std::vector<GearDamage>& gears) {
    Notes notes;
    for (const GearDamage& gear : gears)
        if (!setup.gears.face_load_factor && gear.K_Hbeta >= iso_6336_1::largest_K_Hbeta)
            add_note(notes, {"gears.face_load", "gears",
                             "even in the bin that loads the teeth most, they touch at one end of "
                             "the face only: K_Hbeta is taken as 3, where its formula ends"});
    return notes;
}

}  // namespace caseload
