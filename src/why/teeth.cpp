// SPDX-License-Identifier: MIT
// Strength of the teeth: what does not depend on the load, then each bin and torque peak, then the
// life they use of each gear.
#include "caseload/teeth.hpp"
#include "caseload/formulas/iso_6336_5.hpp"
#include "damage/mesh_strength.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace caseload::why_detail {
namespace {

/// The angle of the root's tangent, by the steps of src/formulas/iso_6336_3.cpp.
double tangent_rad(double G, double H, double z_n) {
    double theta = 3.14159265358979323846 / 6;
    for (int i = 0; i < 60; ++i) theta = 2 * G / z_n * std::tan(theta) - H;
    return theta;
}

void add_fixed(const Gather& gather, int index, std::size_t m) {
    Collector& to = gather.to;
    const Train& train = train_of(gather.prepared.loads, index);
    const MeshPlace& mesh = train.meshes[m];
    const std::string part = mesh_part(gather, index, mesh);
    const Collector::Place place{"strength", part, {}, {}};
    const int last = static_cast<int>(train.shafts.size()) - 1;
    const auto reversed = [&](int shaft) { return shaft > 0 && shaft < last ? 1 : 0; };
    to.add(place, "idles_1", reversed(mesh.driver));
    to.add(place, "idles_2", reversed(mesh.driven));
    const Collector::Place stress{"stress", part, {}, {}};
    for (const char* member : {"Z_H", "Z_eps", "Z_beta", "Z_L", "Z_R", "Y_beta", "slender", "C_v2",
                               "C_v3", "C_v4", "C_v6", "C_v7"})
        to.step(stress, member);
    to.step({"mesh", part, {}, {}}, "n_E1_rpm");
    for (const char* gear : {"1", "2"}) {
        to.step(place, fmt::format("Z_in_{}", gear));
        to.step(place, fmt::format("G_{}", gear));
        to.step(place, fmt::format("H_{}", gear));
        const auto value = [&](const char* name) {
            return to.number(fmt::format("{}.{}_{}", part, name, gear)).value;
        };
        Number& theta = to.add(place, fmt::format("theta_{}", gear),
                               tangent_rad(value("G"), value("H"), value("z_n")));
        theta.is_intermediate = true;
        to.step(place, fmt::format("Y_F_{}", gear));
        to.step(place, fmt::format("Y_S_{}", gear));
    }
}

/// Stresses of a mesh in a bin or under a torque peak.
void add_stress(const Gather& gather, const Collector::Place& place, const MeshStress& stress) {
    Collector& to = gather.to;
    const auto add = [&](const char* member, double value) { to.add(place, member, value); };
    add("K_Hbeta", stress.factors.K_Hbeta);
    add("K_Fbeta", stress.factors.K_Fbeta);
    add("K_Halpha", stress.factors.K_Halpha);
    add("K_Falpha", stress.factors.K_Falpha);
    add("sigma_H1_MPa", stress.driver.sigma_H_MPa);
    add("sigma_H2_MPa", stress.driven.sigma_H_MPa);
    add("sigma_F1_MPa", stress.driver.sigma_F_MPa);
    add("sigma_F2_MPa", stress.driven.sigma_F_MPa);
    add("limit_H_MPa", stress.driver.limit_H_MPa);
    add("limit_F1_MPa", stress.driver.limit_F_MPa);
    add("limit_F2_MPa", stress.driven.limit_F_MPa);
    add("flank_damage_1", stress.driver.flank_damage);
    add("flank_damage_2", stress.driven.flank_damage);
    add("root_damage_1", stress.driver.root_damage);
    add("root_damage_2", stress.driven.root_damage);
    to.steps_of(place);
}

/// What uses up one gear: terms of its sums, and where it is shown.
struct Used {
    std::array<std::vector<std::string>, 4>
        terms;  ///< drive flank, drive root, coast flank, coast root
    std::vector<std::string> peak_flank;
    std::vector<std::string> peak_root;
    std::vector<std::string> bin_flank;
    std::vector<std::string> bin_root;
    std::vector<std::string> S_H;
    std::vector<std::string> S_F;
    std::string factors;     ///< part that has the factors shown
    std::string factors_at;  ///< in this bin
    std::string sigma_H;
    std::string sigma_F;
};

class TrainTeeth {
public:
    TrainTeeth(const Gather& gather, int index)
        : gather_(gather), index_(index), train_(train_of(gather.prepared.loads, index)) {
        used_.resize(train_.shafts.size());
    }

    void add() {
        for (std::size_t m = 0; m < train_.meshes.size(); ++m) {
            if (!MeshStrength::covers(train_.meshes[m].pair)) continue;
            add_fixed(gather_, index_, m);
            const auto& legs = gather_.prepared.loads.legs;
            for (std::size_t leg = 0; leg < legs.size(); ++leg)
                if (legs[leg].train == index_) add_leg(m, leg);
        }
        for (const GearDamage& gear : gather_.answer.fitted.checked.gears) {
            if (!gear.calculated || gear.set != (index_ > 0 ? train_.set : "")) continue;
            for (std::size_t s = 0; s < train_.shafts.size(); ++s)
                if (train_.shafts[s].name == gear.shaft) add_gear(gear, used_[s]);
        }
    }

private:
    void add_leg(std::size_t m, std::size_t leg) {
        const Setup& setup = gather_.setup;
        Collector& to = gather_.to;
        const LegLoads& loads = gather_.prepared.loads.legs[leg];
        const LegInput& input = setup.event.legs[leg];
        const MeshPlace& mesh = train_.meshes[m];
        const MeshStrength strength(setup, train_, m);
        const std::string part = mesh_part(gather_, index_, mesh);
        const double speed_ratio =
            std::fabs(train_.shafts[static_cast<std::size_t>(mesh.driver)].speed_ratio);
        const int runs = times_run(setup, leg);
        for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
            const Bin& duty = loads.bins[bin].bin;
            const Collector::Place place{"stress", part, in_bin(loads.name, bin),
                                         face_variant(setup)};
            if (duty.torque_Nm == 0 || duty.speed_rpm <= 0) continue;
            const MeshStress stress = strength.at(
                {std::fabs(duty.torque_Nm * input.overload) * strength.torque_1_per_input(),
                 duty.speed_rpm * speed_ratio});
            to.step(place, "F_t_N_life",
                    fmt::format("2000 * torque_Nm * [rest.overload@{}] / d_1_mm", loads.name));
            to.add(place, "K_v", stress.factors.K_v);
            add_stress(gather_, place, stress);
            if (runs == 0) continue;
            const std::string turns = fmt::format(
                "{0} * [duty.share@{1}] * [duty.speed_rpm@{1}] * [rest.duration_s@{2}] / 60", runs,
                place.at, loads.name);
            use(m, strength, duty.torque_Nm > 0, place, turns, stress);
        }
        if (input.kind == LegKind::stop || runs == 0) return;
        for (std::size_t k = 0; k < loads.peaks.size(); ++k) {
            const PeakLoads& peak = loads.peaks[k];
            if (peak.torque_Nm == 0 || peak.times <= 0) continue;
            const std::string at = in_bin(loads.name, k);
            const Collector::Place place{"stress", part, "peak/" + at, face_variant(setup)};
            const MeshStress stress =
                strength.at_peak(std::fabs(peak.torque_Nm) * strength.torque_1_per_input());
            std::string torque = fmt::format("abs([peak.torque_Nm@{}])", at);
            for (std::size_t before = 0; before < m; ++before) {
                const std::string of = mesh_part(gather_, index_, train_.meshes[before]);
                torque += fmt::format(" * [{0}.d_w2_mm] / [{0}.d_w1_mm]", of);
            }
            to.step(place, "F_t_N_life", fmt::format("2000 * {} / d_1_mm", torque));
            mark_as_zero(to.add(place, "K_v", 1), "a blow has no dynamic factor");
            mark_as_zero(to.add(place, "v_mps", 1), "speed taken for a blow, judgement");
            add_stress(gather_, place, stress);
            const std::string times = fmt::format("{} * [peak.times@{}]", runs, at);
            use_peak(m, strength, peak.torque_Nm > 0, place, times, stress);
        }
    }

    struct Side {
        std::size_t shaft;
        bool drive;
        int number;  ///< 1 driver, 2 driven
        const GearStress& stress;
    };
    std::vector<Side> sides(std::size_t m, const MeshStrength& strength, bool drive,
                            const MeshStress& stress) const {
        const MeshPlace& mesh = train_.meshes[m];
        return {{static_cast<std::size_t>(mesh.driver), strength.side_of_driver(drive), 1,
                 stress.driver},
                {static_cast<std::size_t>(mesh.driven), drive, 2, stress.driven}};
    }

    void take(Used& used, const Side& side, const Collector::Place& place,
              const std::string& times) const {
        const std::size_t at = side.drive ? 0 : 2;
        // A stress below the last point of the life curve uses nothing.
        if (side.stress.flank_damage > 0)
            used.terms[at].push_back(fmt::format("{} * [{}.flank_damage_{}@{}]", times, place.part,
                                                 side.number, place.at));
        if (side.stress.root_damage > 0)
            used.terms[at + 1].push_back(fmt::format("{} * [{}.root_damage_{}@{}]", times,
                                                     place.part, side.number, place.at));
    }

    void use(std::size_t m, const MeshStrength& strength, bool drive, const Collector::Place& place,
             const std::string& turns, const MeshStress& stress) {
        for (const Side& side : sides(m, strength, drive, stress)) {
            Used& used = used_[side.shaft];
            take(used, side, place,
                 fmt::format("{} * abs([{}.speed_ratio])", turns,
                             shaft_part(gather_, index_, static_cast<int>(side.shaft))));
            const auto at = [&](const std::string& member) {
                return fmt::format("[{}.{}@{}]", place.part, member, place.at);
            };
            const std::string H = at(fmt::format("sigma_H{}_MPa", side.number));
            const std::string F = at(fmt::format("sigma_F{}_MPa", side.number));
            const std::string limit_F = at(fmt::format("limit_F{}_MPa", side.number));
            used.S_H.push_back(at("limit_H_MPa") + " / " + H);
            used.S_F.push_back(limit_F + " / " + F);
            used.bin_flank.push_back("(" + H + " / " + at("limit_H_MPa") + " / 1.6)^2");
            used.bin_root.push_back(F + " / " + limit_F + " / 2.5");
            for (const GearDamage& gear : gather_.answer.fitted.checked.gears) {
                if (gear.set != (index_ > 0 ? train_.set : "") ||
                    gear.shaft != train_.shafts[side.shaft].name)
                    continue;
                if (used.factors.empty() && gear.K_v == stress.factors.K_v &&
                    gear.K_Hbeta == stress.factors.K_Hbeta &&
                    gear.K_Halpha == stress.factors.K_Halpha &&
                    gear.K_Falpha == stress.factors.K_Falpha) {
                    used.factors = place.part;
                    used.factors_at = place.at;
                }
                if (gear.sigma_H_MPa == side.stress.sigma_H_MPa && used.sigma_H.empty())
                    used.sigma_H = H;
                if (gear.sigma_F_MPa == side.stress.sigma_F_MPa && used.sigma_F.empty())
                    used.sigma_F = F;
            }
        }
    }

    void use_peak(std::size_t m, const MeshStrength& strength, bool drive,
                  const Collector::Place& place, const std::string& times,
                  const MeshStress& stress) {
        for (const Side& side : sides(m, strength, drive, stress)) {
            Used& used = used_[side.shaft];
            take(used, side, place, times);
            used.peak_flank.push_back(
                fmt::format("([{0}.sigma_H{1}_MPa@{2}] / [{0}.limit_H_MPa@{2}] / 1.6)^2",
                            place.part, side.number, place.at));
            used.peak_root.push_back(
                fmt::format("[{0}.sigma_F{1}_MPa@{2}] / [{0}.limit_F{1}_MPa@{2}] / 2.5", place.part,
                            side.number, place.at));
        }
    }

    void add_gear(const GearDamage& gear, const Used& used) {
        const Collector::Place place{
            "gear", "gear." + of_set(gather_.prepared.loads, index_) + gear.shaft, {}, {}};
        const char* none = "every stress lies below the last point of the life curve";
        const auto add = [&](const char* member, double value, const Quantity& row,
                             const std::string& formula, const char* otherwise) {
            Number& number = gather_.to.add(place, member, value, row);
            if (formula.empty())
                mark_as_zero(number, otherwise);
            else
                number.value_of = formula;
        };
        const struct {
            const char* member;
            double value;
            const char* row;
        } shares[] = {{"drive_flank_share", gear.drive.flank_share, "flank_share"},
                      {"drive_root_share", gear.drive.root_share, "root_share"},
                      {"coast_flank_share", gear.coast.flank_share, "flank_share"},
                      {"coast_root_share", gear.coast.root_share, "root_share"}};
        for (std::size_t i = 0; i < 4; ++i)
            add(shares[i].member, shares[i].value, quantity("tooth_side", shares[i].row),
                sum_of(used.terms[i]), none);
        const char* no_blow = "no torque peak";
        add("peak_flank_share", gear.peak_flank_share, quantity("gear_damage", "peak_flank_share"),
            extreme_of("max", used.peak_flank), no_blow);
        add("peak_root_share", gear.peak_root_share, quantity("gear_damage", "peak_root_share"),
            extreme_of("max", used.peak_root), no_blow);
        const auto shown = [&](const char* member, double value, const std::string& formula) {
            if (!formula.empty()) add(member, value, quantity("gear_damage", member), formula, "");
        };
        shown("bin_flank_share", gear.bin_flank_share, extreme_of("max", used.bin_flank));
        shown("bin_root_share", gear.bin_root_share, extreme_of("max", used.bin_root));
        const auto factor = [&](const char* member, double value) {
            if (!used.factors.empty())
                shown(member, value,
                      fmt::format("[{}.{}@{}]", used.factors, member, used.factors_at));
        };
        factor("K_v", gear.K_v);
        factor("K_Hbeta", gear.K_Hbeta);
        factor("K_Halpha", gear.K_Halpha);
        factor("K_Falpha", gear.K_Falpha);
        shown("sigma_H_MPa", gear.sigma_H_MPa, used.sigma_H);
        shown("sigma_F_MPa", gear.sigma_F_MPa, used.sigma_F);
        shown("S_H", gear.S_H, extreme_of("min", used.S_H));
        shown("S_F", gear.S_F, extreme_of("min", used.S_F));
    }

    const Gather& gather_;
    int index_;
    const Train& train_;
    std::vector<Used> used_;
};

}  // namespace

void add_teeth(const Gather& gather) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const Collector::Place shared{"shared", "shared", {}, {}};
    const iso_6336_5::Material steel = iso_6336_5::material(setup.gears.material);
    to.add(shared, "sigma_Hlim_MPa", steel.sigma_Hlim_MPa);
    to.add(shared, "sigma_Flim_MPa", steel.sigma_Flim_MPa);
    if (setup.gears.face_load_factor)
        to.add(shared, "face_load_factor", *setup.gears.face_load_factor);
    else
        to.add(shared, "misalignment_um", setup.gears.misalignment_um);
    to.add(shared, "grade", setup.gears.accuracy);
    to.step(shared, "deviation_um");
    to.add(shared, "tip_relief_um", setup.gears.tip_relief_um);
    to.add(shared, "rim_ratio", setup.gears.rim_bore_ratio);
    to.add(shared, "scuffing_stage", setup.oil.scuffing_stage);
    for (int index = 0; index < trains(prepared.loads); ++index) TrainTeeth(gather, index).add();
}

}  // namespace caseload::why_detail
