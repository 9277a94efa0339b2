// SPDX-License-Identifier: MIT
#include "caseload/formulas/film_ratio.hpp"
#include "caseload/formulas/iso_6336_20.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/teeth.hpp"
#include "caseload/units.hpp"
#include "damage/mesh_strength.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

// Below this pitch-line speed the film formula does not predict wear in this use. Judgement.
constexpr double least_film_speed_mps = 3;
// Larger margins are not printed; they have no bound where the contact is as cool as the oil.
constexpr double largest_S_B = 100;

double eta_mPas(const Oil& oil, double temp_degC) {
    return astm_d341::viscosity_mm2ps(oil.sheared, temp_degC) * oil_density_kgpm3(oil, temp_degC) /
           1000;
}

class MeshChecks {
public:
    MeshChecks(const Prepared& prepared, const Train& train, std::size_t mesh)
        : prepared_(prepared),
          setup_(*prepared.setup),
          pair_(train.meshes[mesh].pair),
          strength_(setup_, train, mesh),
          shape_(iso_6336_20::flash_shape(pair_)),
          X_L_(prepared.oil.base == oil_thermal::BaseOil::synthetic ? schlenk::X_L_synthetic
                                                                    : schlenk::X_L_mineral) {
        const int driver = train.meshes[mesh].driver;
        speed_ratio_ = std::fabs(train.shafts[static_cast<std::size_t>(driver)].speed_ratio);
        X_S_ =
            setup_.lubrication.method == Method::dip ? iso_6336_20::X_S_dip : iso_6336_20::X_S_jet;
        const int last = static_cast<int>(train.shafts.size()) - 1;
        const bool idler = driver > 0 || train.meshes[mesh].driven < last;
        X_mp_ = idler ? iso_6336_20::X_mp_idler : iso_6336_20::X_mp_one;
    }

    struct Loaded {
        const Bin& bin;
        double load;  ///< on its torque
        double overload;
    };
    void look(const Loaded& at, const LegHottest& hot, FlankChecks& into) const {
        const double n_1_rpm = at.bin.speed_rpm * speed_ratio_;
        const double torque_1_Nm =
            at.load * std::fabs(at.bin.torque_Nm) * strength_.torque_1_per_input();
        if (n_1_rpm <= 0 || torque_1_Nm <= 0) return;
        scuffing({torque_1_Nm * at.overload, n_1_rpm}, hot, into);
        const double v_mps = radps_from_rpm(n_1_rpm) * m_from_mm(pair_.d_w1_mm) / 2;
        if (v_mps > least_film_speed_mps) film({torque_1_Nm, n_1_rpm}, hot, into);
    }

private:
    [[nodiscard]] double F_bt_N(double torque_1_Nm) const {
        return 2000 * torque_1_Nm / (pair_.d_w1_mm * std::cos(pair_.alpha_wt_rad));
    }

    /// What rubbing makes of the teeth.
    struct Rubbed {
        double largest_flash_K;
        double mean_flash_K;
        double tooth_degC;  ///< behind the contact
    };
    [[nodiscard]] Rubbed rubbed(const MeshStrength::Running& running, const LegHottest& hot) const {
        const double w_Npmm = strength_.factors(running).flank() * F_bt_N(running.torque_1_Nm) /
                              setup_.gears.face_width_mm;
        const double mu =
            iso_6336_20::friction(pair_, {.w_Npmm = w_Npmm,
                                          .n_1_rpm = running.n_1_rpm,
                                          .eta_mPas = eta_mPas(prepared_.oil, hot.oil_degC),
                                          .Ra_um = setup_.gears.flank_Ra_um,
                                          .X_L = X_L_});
        const iso_6336_20::Rubbing rubbing{.mu = mu, .w_Npmm = w_Npmm, .n_1_rpm = running.n_1_rpm};
        const double mean_K = iso_6336_20::flash_K(shape_.mean, rubbing);
        return {iso_6336_20::flash_K(shape_.largest, rubbing), mean_K,
                std::max(hot.steel_degC, iso_6336_20::bulk_degC({.oil_degC = hot.oil_degC,
                                                                 .mean_flash_K = mean_K,
                                                                 .X_S = X_S_,
                                                                 .X_mp = X_mp_}))};
    }

    void scuffing(const MeshStrength::Running& running, const LegHottest& hot,
                  FlankChecks& into) const {
        const Rubbed teeth = rubbed(running, hot);
        const double limit_degC =
            iso_6336_20::scuffing_temp_degC({.load_stage = setup_.oil.scuffing_stage, .X_L = X_L_});
        const double contact_degC = teeth.tooth_degC + teeth.largest_flash_K;
        const double S_B = iso_6336_20::safety(
            {.scuffing_degC = limit_degC, .contact_degC = contact_degC, .oil_degC = hot.oil_degC});
        into.scuffing_degC = limit_degC;
        if (S_B >= into.S_B) return;
        into.S_B = S_B;
        into.flash_K = teeth.largest_flash_K;
        into.mean_flash_K = teeth.mean_flash_K;
        into.tooth_degC = teeth.tooth_degC;
        into.contact_degC = contact_degC;
    }

    void film(const MeshStrength::Running& running, const LegHottest& hot,
              FlankChecks& into) const {
        const film_ratio::Line line =
            film_ratio::pitch_contact(pair_, {.F_bt_N = F_bt_N(running.torque_1_Nm),
                                              .face_width_mm = setup_.gears.face_width_mm,
                                              .n_1_rpm = running.n_1_rpm});
        const double tooth_degC = std::min(rubbed(running, hot).tooth_degC, hottest_film_degC);
        const double eta = eta_mPas(prepared_.oil, tooth_degC);
        const double alpha = film_ratio::pressure_viscosity_pGPa(
            prepared_.oil.base, astm_d341::viscosity_mm2ps(prepared_.oil.sheared, tooth_degC));
        const double shear =
            film_ratio::inlet_shear({.p_H_MPa = film_ratio::hertz_pressure_MPa(line),
                                     .slide_roll = 0,
                                     .eta_mPas = eta,
                                     .u_mps = line.u_mps,
                                     .thinning_pK = film_ratio::usual_thinning_pK,
                                     .conductivity_WpmK = film_ratio::usual_conductivity_WpmK});
        const double Rq_um = film_ratio::Rq_um(setup_.gears.flank_Ra_um);
        const double ratio =
            film_ratio::ratio({.h_um = shear * film_ratio::least_film_um(
                                                   line, {.eta_mPas = eta, .alpha_pGPa = alpha}),
                               .Rq_1_um = Rq_um,
                               .Rq_2_um = Rq_um});
        if (into.film_ratio != 0 && ratio >= into.film_ratio) return;
        into.film_ratio = ratio;
        into.film_tooth_degC = tooth_degC;
    }

    const Prepared& prepared_;
    const Setup& setup_;
    const iso_21771::Pair& pair_;
    MeshStrength strength_;
    iso_6336_20::FlashShape shape_;
    double X_L_;
    double X_S_ = 1;
    double X_mp_ = 1;
    double speed_ratio_ = 1;
};

void resonance(const Prepared& prepared, FlankChecks& into) {
    const Setup& setup = *prepared.setup;
    std::vector<iso_6336_1::SpeedRange> ranges;
    for (int train = 0; train <= static_cast<int>(prepared.loads.others.size()); ++train)
        ranges.push_back(MeshStrength(setup, train_of(prepared.loads, train), 0).resonance());
    into.resonance_from_rpm = ranges.front().from_rpm;
    into.resonance_to_rpm = ranges.front().to_rpm;
    double inside_s = 0;
    double driving_s = 0;
    for (const int run : setup.event.run) {
        const auto leg = static_cast<std::size_t>(run);
        const double duration_s = setup.event.legs[leg].duration_s;
        if (setup.event.legs[leg].kind == LegKind::stop) continue;
        driving_s += duration_s;
        const auto& range = ranges[static_cast<std::size_t>(prepared.loads.legs[leg].train)];
        for (const BinLoads& bin : prepared.loads.legs[leg].bins)
            if (bin.bin.speed_rpm > range.from_rpm && bin.bin.speed_rpm < range.to_rpm)
                inside_s += bin.bin.share * duration_s;
    }
    if (driving_s > 0) into.resonance_time_share = inside_s / driving_s;
}

}  // namespace

LegHottest leg_hottest(const Setup& setup, const EventHeat& heat, std::size_t leg) {
    LegHottest out;
    for (const Sample& sample : heat.samples) {
        const int at = setup.event.run[static_cast<std::size_t>(sample.run)];
        if (static_cast<std::size_t>(at) != leg) continue;
        out.oil_degC = std::max(out.oil_degC, std::min(sample.nodes.oil_degC, oil_ceiling_degC));
        out.steel_degC =
            std::max(out.steel_degC, std::min(sample.nodes.steel_degC, oil_ceiling_degC));
        out.above_ceiling =
            out.above_ceiling ||
            std::max(sample.nodes.oil_degC, sample.nodes.steel_degC) > oil_ceiling_degC;
    }
    return out;
}

FlankChecks flanks_of_leg(const Prepared& prepared, std::size_t leg, const LegHottest& hot,
                          double load) {
    FlankChecks result;
    const Loads& loads = prepared.loads;
    const LegLoads& driven = loads.legs[leg];
    const Train& train = train_of(loads, driven.train);
    for (const MeshPlace& mesh : train.meshes)
        if (!MeshStrength::covers(mesh.pair)) return result;
    result.calculated = true;
    result.S_B = largest_S_B;
    for (std::size_t m = 0; m < train.meshes.size(); ++m) {
        const MeshChecks checks(prepared, train, m);
        for (const BinLoads& bin : driven.bins)
            checks.look({bin.bin, load, prepared.setup->event.legs[leg].overload}, hot, result);
    }
    return result;
}

FlankChecks flank_checks(const Prepared& prepared, const EventHeat& heat) {
    FlankChecks result;
    const Loads& loads = prepared.loads;
    const auto trains = static_cast<int>(loads.others.size());
    for (int train = 0; train <= trains; ++train)
        for (const MeshPlace& mesh : train_of(loads, train).meshes)
            if (!MeshStrength::covers(mesh.pair)) return result;
    result.calculated = true;
    result.S_B = largest_S_B;
    const Setup& setup = *prepared.setup;
    for (int train = 0; train <= trains; ++train)
        for (std::size_t m = 0; m < train_of(loads, train).meshes.size(); ++m) {
            const MeshChecks checks(prepared, train_of(loads, train), m);
            for (std::size_t leg = 0; leg < loads.legs.size(); ++leg) {
                if (loads.legs[leg].train != train) continue;
                const LegHottest hot = leg_hottest(setup, heat, leg);
                if (hot.oil_degC <= -oil_ceiling_degC) continue;
                result.above_ceiling = result.above_ceiling || hot.above_ceiling;
                for (const BinLoads& bin : loads.legs[leg].bins)
                    checks.look({bin.bin, 1, setup.event.legs[leg].overload}, hot, result);
            }
        }
    resonance(prepared, result);
    return result;
}

}  // namespace caseload
