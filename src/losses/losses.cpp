// SPDX-License-Identifier: MIT
#include "caseload/losses.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/astm_d1250.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/lip_seal.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/formulas/oil_acceleration.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/formulas/pocketing.hpp"
#include "caseload/formulas/pump.hpp"
#include "caseload/formulas/windage.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace caseload {
namespace {

// Distance gear side to wall when none is entered. Judgement: a tight machined case.
constexpr double side_gap_over_radius = 0.1;
struct MediumAt {
    double air_density_kgpm3 = 0;
    double air_mu_Pas = 0;
    double mist_density_kgpm3 = 0;
    double oil_density_kgpm3 = 0;
    double nu_mm2ps = 0;
    double eta_mPas = 0;
};

MediumAt medium(const Setup& setup, const Oil& oil, double temp_degC) {
    MediumAt m;
    const auto air = us_standard_atmosphere::air(
        {.temp_degC = temp_degC, .pressure_Pa = site_pressure_Pa(setup)});
    m.air_density_kgpm3 = air.density_kgpm3;
    m.air_mu_Pas = air.mu_Pas;
    m.oil_density_kgpm3 = oil_density_kgpm3(oil, temp_degC);
    m.mist_density_kgpm3 = air.density_kgpm3 + setup.factors.mist *
                                                   setup.lubrication.mist_oil_fraction *
                                                   m.oil_density_kgpm3;
    m.nu_mm2ps = astm_d341::viscosity_mm2ps(oil.fresh, temp_degC);
    m.eta_mPas = m.nu_mm2ps * m.oil_density_kgpm3 / 1000;
    return m;
}

void add_mesh_losses(const Setup& setup, const Train& train, const Oil& oil, const MediumAt& m,
                     const PreparedLosses::BinTerm& bin, LossLedger& into) {
    for (std::size_t i = 0; i < bin.meshes.size(); ++i) {
        const PreparedLosses::MeshTerm& mesh = bin.meshes[i];
        if (mesh.power_W > 0) {
            const double X_L = oil.base == oil_thermal::BaseOil::synthetic ? schlenk::X_L_synthetic
                                                                           : schlenk::X_L_mineral;
            const double mu = schlenk::friction({.w_Npmm = mesh.F_bt_Npmm,
                                                 .v_sumC_mps = mesh.sum_speed_mps,
                                                 .rho_redC_mm = mesh.rho_redC_mm,
                                                 .eta_mPas = m.eta_mPas,
                                                 .Ra_um = setup.gears.flank_Ra_um,
                                                 .X_L = X_L});
            into.mesh_W += setup.factors.mesh * bin.share * mesh.power_W * mesh.loss_factor * mu;
        }
        if (setup.lubrication.method == Method::scavenged) {
            const MeshPlace& place = train.meshes[i];
            const auto n_rpm = [&](int shaft) {
                return rpm_from_radps(bin.shaft_omega_radps[static_cast<std::size_t>(shaft)]);
            };
            into.pocketing_W +=
                setup.factors.pocketing * bin.share *
                pocketing::power_W(
                    {.z_1 = train.shafts[static_cast<std::size_t>(place.driver)].teeth,
                     .n_1_rpm = n_rpm(place.driver),
                     .module_mm = setup.gears.module_mm,
                     .face_width_mm = setup.gears.face_width_mm,
                     .pitch_speed_mps = mesh.pitch_speed_mps,
                     .density_kgpm3 = m.mist_density_kgpm3,
                     .overlap_ratio = place.pair.eps_beta});
        }
    }
}

void add_windage(const Setup& setup, const MediumAt& m, const PreparedLosses& leg,
                 const PreparedLosses::BinTerm& bin, LossLedger& into) {
    for (std::size_t s = 0; s < leg.gears.size(); ++s) {
        const churning::Gear& gear = leg.gears[s].gear;
        const double R_m = gear.R_m;
        const double gap_m = setup.lubrication.side_gap_mm
                                 ? m_from_mm(*setup.lubrication.side_gap_mm)
                                 : side_gap_over_radius * R_m;
        const double omega = bin.shaft_omega_radps[s];
        if (omega <= 0) continue;
        const double torque_Nm = diab::windage_torque_Nm(
            {.R_m = R_m, .b_m = gear.b_m, .z = gear.z, .h_1_m = gap_m, .h_2_m = gap_m},
            {.omega_radps = omega, .density_kgpm3 = m.mist_density_kgpm3, .mu_Pas = m.air_mu_Pas});
        const double dry = churning::dry_share({.R_m = R_m, .depth_m = leg.gears[s].depth_m});
        into.windage_W += setup.factors.windage * bin.share * leg.gears[s].helical_share * dry *
                          torque_Nm * omega;
    }
}

void add_churning(const Setup& setup, const MediumAt& m, const PreparedLosses& leg,
                  const PreparedLosses::BinTerm& bin, LossLedger& into) {
    for (std::size_t s = 0; s < leg.gears.size(); ++s) {
        const PreparedLosses::GearTerm& term = leg.gears[s];
        const double omega = bin.shaft_omega_radps[s];
        if (term.depth_m <= 0 || omega <= 0) continue;
        const double torque_Nm =
            changenet::churning_torque_Nm(term.gear, {.omega_radps = omega,
                                                      .depth_m = term.depth_m,
                                                      .oil_volume_m3 = m3_from_L(setup.oil.fill_L),
                                                      .density_kgpm3 = m.oil_density_kgpm3,
                                                      .nu_m2ps = m2ps_from_mm2ps(m.nu_mm2ps)});
        into.churning_W +=
            churning_factor(setup.factors, omega * term.gear.R_m) * bin.share * torque_Nm * omega;
    }
}

void add_seals(const Setup& setup, const Loads& loads, const PreparedLosses::BinTerm& bin,
               LossLedger& into) {
    for (const SealInput& seal : setup.seals) {
        for (std::size_t s = 0; s < loads.train.shafts.size(); ++s) {
            if (loads.train.shafts[s].name != seal.shaft || bin.shaft_omega_radps[s] <= 0) continue;
            const double power_W = iso_tr_14179_1::lip_power_W(
                seal.material == SealMaterial::NBR ? iso_tr_14179_1::LipMaterial::nitrile
                                                   : iso_tr_14179_1::LipMaterial::other,
                {.diameter_mm = seal.diameter_mm,
                 .n_rpm = rpm_from_radps(bin.shaft_omega_radps[s])});
            into.seals_W +=
                setup.factors.seals * bin.share * power_W * iso_tr_14179_1::lips_factor(seal.lips);
        }
    }
}

std::vector<PreparedLosses::GearTerm> gear_terms(const Setup& setup, const Train& train) {
    std::vector<double> depths_mm(train.shafts.size(), 0.0);
    if (setup.lubrication.method == Method::dip)
        depths_mm = pitch_depths_mm(train, setup.lubrication.depth_mm.value());
    std::vector<PreparedLosses::GearTerm> terms;
    terms.reserve(train.shafts.size());
    for (std::size_t s = 0; s < train.shafts.size(); ++s)
        terms.push_back({.gear = {.R_m = m_from_mm(train.shafts[s].pitch_diameter_mm) / 2,
                                  .b_m = m_from_mm(setup.gears.face_width_mm),
                                  .module_m = m_from_mm(setup.gears.module_mm),
                                  .z = train.shafts[s].teeth,
                                  .alpha_t_rad = train.meshes.front().pair.alpha_t_rad,
                                  .beta_rad = rad_from_deg(setup.gears.helix_angle_deg)},
                         .depth_m = m_from_mm(depths_mm[s]),
                         .helical_share = diab::helical_share(train.meshes.front().pair.eps_beta)});
    return terms;
}

}  // namespace

Oil make_oil(const OilInput& input) {
    Oil oil;
    oil.fresh = astm_d341::line(
        {.nu_40C_mm2ps = input.viscosity_40C_mm2ps, .nu_100C_mm2ps = input.viscosity_100C_mm2ps});
    const double left = 1 - input.shear_loss;
    oil.sheared = astm_d341::line({.nu_40C_mm2ps = input.viscosity_40C_mm2ps * left,
                                   .nu_100C_mm2ps = input.viscosity_100C_mm2ps * left});
    oil.density_15C_kgpm3 = input.density_15C_kgpm3;
    oil.base = input.synthetic ? oil_thermal::BaseOil::synthetic : oil_thermal::BaseOil::mineral;
    return oil;
}

double oil_density_kgpm3(const Oil& oil, double temp_degC) {
    return astm_d1250::density_kgpm3(
        {.density_15C_kgpm3 = oil.density_15C_kgpm3, .temp_degC = temp_degC});
}

double oil_specific_heat_JpkgK(const Oil& oil, double temp_degC) {
    return oil_thermal::specific_heat_JpkgK(oil.base, temp_degC);
}

double total_W(const LossLedger& losses) {
    double sum_W = 0;
    for (const LossRow& row : loss_rows) sum_W += losses.*row.power_W;
    return sum_W;
}

HeatSplit split(const LossLedger& losses) {
    HeatSplit heat;
    double all_to_oil_W = 0;
    for (const LossRow& row : loss_rows) {
        const double power_W = losses.*row.power_W;
        if (row.to_oil == 1) {
            all_to_oil_W += power_W;
        } else {
            heat.oil_W += row.to_oil * power_W;
            heat.steel_W += row.to_steel * power_W;
            heat.housing_W += row.to_housing * power_W;
        }
    }
    heat.oil_W += all_to_oil_W;
    return heat;
}

double pump_flow_Lpmin(const Setup& setup, double input_rpm) {
    const auto& pump = setup.lubrication.pump;
    if (!pump) return 0;
    if (pump->drive == PumpDrive::electric) return pump->flow_Lpmin;
    return pump->flow_Lpmin * input_rpm / pump->rated_speed_rpm;
}

std::vector<double> pitch_depths_mm(const Train& train, double lowest_tip_depth_mm) {
    double lowest_tip_mm = std::numeric_limits<double>::max();
    for (const ShaftPlace& shaft : train.shafts)
        lowest_tip_mm = std::min(lowest_tip_mm, shaft.z_mm - shaft.tip_diameter_mm / 2);
    const double level_mm = lowest_tip_mm + lowest_tip_depth_mm;
    std::vector<double> depths_mm;
    depths_mm.reserve(train.shafts.size());
    for (const ShaftPlace& shaft : train.shafts)
        depths_mm.push_back(level_mm - (shaft.z_mm - shaft.pitch_diameter_mm / 2));
    return depths_mm;
}

double churning_factor(const Factors& factors, double v_mps) {
    if (factors.churning == factors.churning_fast) return factors.churning;
    const double fast = changenet::fast_range_share(v_mps);
    return std::pow(factors.churning, 1 - fast) * std::pow(factors.churning_fast, fast);
}

PreparedLosses prepare_losses(const Setup& setup, const Loads& loads, const LegLoads& leg,
                              const std::vector<BearingPaths>& paths) {
    PreparedLosses prepared;
    prepared.train = leg.train;
    const Train& train = train_of(loads, leg.train);
    prepared.gears = gear_terms(setup, train);
    for (const BinLoads& bin : leg.bins) {
        PreparedLosses::BinTerm term;
        term.share = bin.bin.share;
        for (const double n_rpm : bin.shaft_speed_rpm)
            term.shaft_omega_radps.push_back(radps_from_rpm(n_rpm));
        for (std::size_t b = 0; b < loads.bearings.size(); ++b) {
            const BearingData& bearing = loads.bearings[b];
            const BearingLoad& load = bin.nominal[b];
            const double P_0_N =
                iso_76::static_equivalent_N(bearing.kind, bearing.contact_angle_deg,
                                            {.F_r_N = load.F_r_N, .F_a_N = load.F_a_N});
            const double P_1_N =
                palmgren::friction_load_P1_N({.kind = bearing.kind,
                                              .contact_angle_deg = bearing.contact_angle_deg,
                                              .F_r_N = load.F_r_N,
                                              .F_a_N = load.F_a_N,
                                              .C_0_N = bearing.C_0_N});
            const double f1 =
                setup.bearings[b].f1.value_or(palmgren::f1(bearing.kind, P_0_N / bearing.C_0_N));
            term.bearings.push_back(
                {.n_rpm = bin.shaft_speed_rpm[static_cast<std::size_t>(bearing.shaft)],
                 .f0 = bearing.f0,
                 .d_m_mm = bearing.d_m_mm,
                 .load_torque_Nmm = play_factors(bearing, load.F_r_N).moment *
                                    palmgren::load_torque_Nmm(
                                        {.f1 = f1, .P_1_N = P_1_N, .d_m_mm = bearing.d_m_mm}),
                 .path_WpK = bearing_heat::all_WpK(paths[b]),
                 .friction = setup.factors.bearing_friction});
        }
        double torque_Nm = std::fabs(bin.bin.torque_Nm);
        for (const MeshPlace& mesh : train.meshes) {
            const iso_21771::Pair& pair = mesh.pair;
            const auto driver = static_cast<std::size_t>(mesh.driver);
            const double omega_1 = term.shaft_omega_radps[driver];
            const double pitch_speed_mps = omega_1 * m_from_mm(pair.d_w1_mm) / 2;
            term.meshes.push_back(
                {.power_W = torque_Nm * omega_1,
                 .loss_factor = mesh_loss::loss_factor(pair),
                 .F_bt_Npmm = 2000 * torque_Nm / (pair.d_w1_mm * std::cos(pair.alpha_wt_rad)) /
                              setup.gears.face_width_mm,
                 .sum_speed_mps = schlenk::sum_speed_mps(
                     {.v_mps = pitch_speed_mps, .alpha_wt_rad = pair.alpha_wt_rad}),
                 .rho_redC_mm = pair.rho_redC_mm,
                 .pitch_speed_mps = pitch_speed_mps});
            torque_Nm *= pair.d_w2_mm / pair.d_w1_mm;
        }
        prepared.bins.push_back(std::move(term));
    }
    return prepared;
}

LossesAt losses_at(const Setup& setup, const Loads& loads, const Oil& oil,
                   const PreparedLosses& leg, const OilState& state) {
    std::vector<std::vector<BearingRun>> runs(leg.bins.size());
    for (std::size_t k = 0; k < runs.size(); ++k)
        for (const PreparedLosses::BearingTerm& bearing : leg.bins[k].bearings)
            runs[k].push_back(run_bearing(oil, bearing, state.temp_degC));
    return losses_at(setup, loads, oil, leg, state, std::move(runs));
}

LossesAt losses_at(const Setup& setup, const Loads& loads, const Oil& oil,
                   const PreparedLosses& leg, const OilState& state,
                   std::vector<std::vector<BearingRun>> runs) {
    LossesAt result;
    result.runs = std::move(runs);
    result.bearing_W.assign(loads.bearings.size(), 0.0);
    const MediumAt m = medium(setup, oil, state.temp_degC);
    const auto& pump = setup.lubrication.pump;
    for (std::size_t k = 0; k < leg.bins.size(); ++k) {
        const PreparedLosses::BinTerm& bin = leg.bins[k];
        for (std::size_t b = 0; b < bin.bearings.size(); ++b) {
            result.bearing_W[b] += bin.share * result.runs[k][b].loss_W;
            result.ledger.bearings_W += bin.share * result.runs[k][b].loss_W;
        }
        add_mesh_losses(setup, train_of(loads, leg.train), oil, m, bin, result.ledger);
        add_windage(setup, m, leg, bin, result.ledger);
        add_churning(setup, m, leg, bin, result.ledger);
        add_seals(setup, loads, bin, result.ledger);
        if (pump && state.pump_runs) {
            const double flow_Lpmin =
                pump_flow_Lpmin(setup, rpm_from_radps(bin.shaft_omega_radps.front()));
            // The pump of a dipped case sends oil through a cooler and back to the bath.
            if (setup.lubrication.method == Method::scavenged)
                result.ledger.thrown_W +=
                    setup.factors.thrown * setup.factors.pump_flow * bin.share *
                    oil_acceleration::power_W(
                        {.mass_flow_kgps = m.oil_density_kgpm3 * m3ps_from_Lpmin(flow_Lpmin),
                         .v_mps = bin.meshes.front().pitch_speed_mps,
                         .jet_speed_mps = setup.lubrication.jet_speed_mps,
                         .rehit = setup.factors.rehit * setup.lubrication.oil_rehit});
            if (flow_Lpmin > 0)
                result.ledger.pump_W += setup.factors.pump * bin.share *
                                        pump::shaft_power_W({.flow_Lpmin = flow_Lpmin,
                                                             .pressure_Pa = pump->pressure_Pa,
                                                             .efficiency = pump->efficiency});
        }
    }
    if (leg.bins.empty() && pump && state.pump_runs && pump->drive == PumpDrive::electric)
        result.ledger.pump_W =
            setup.factors.pump * pump::shaft_power_W({.flow_Lpmin = pump->flow_Lpmin,
                                                      .pressure_Pa = pump->pressure_Pa,
                                                      .efficiency = pump->efficiency});
    return result;
}

}  // namespace caseload
