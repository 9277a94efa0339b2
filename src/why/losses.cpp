// SPDX-License-Identifier: MIT
// Heat made by gears, pump and seals in each bin of a settled leg.
#include "caseload/formulas/lip_seal.hpp"
#include "caseload/units.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload::why_detail {
namespace {

void add_meshes(const Gather& gather, const LegAnswer& leg, std::size_t bin) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const LegLoads& loads = loads_of(gather, leg);
    const Train& train = train_of(prepared.loads, loads.train);
    const PreparedLosses::BinTerm& terms =
        prepared.losses[static_cast<std::size_t>(leg.leg)].bins[bin];
    const bool squeezes = gather.setup.lubrication.method == Method::scavenged;
    double torque_Nm = std::fabs(loads.bins[bin].bin.torque_Nm);
    std::string before;
    for (std::size_t i = 0; i < train.meshes.size(); ++i) {
        const PreparedLosses::MeshTerm& term = terms.meshes[i];
        const Collector::Place place{
            "mesh_run", mesh_part(gather, loads.train, train.meshes[i]), in_bin(leg.name, bin), {}};
        const double omega_radps =
            terms.shaft_omega_radps[static_cast<std::size_t>(train.meshes[i].driver)];
        to.add(place, "n_rpm", rpm_from_radps(omega_radps)).value_of =
            fmt::format("[duty.speed_rpm@{}] * abs([{}.speed_ratio])", place.at,
                        shaft_part(gather, loads.train, train.meshes[i].driver));
        to.add(place, "torque_Nm", torque_Nm).value_of =
            i == 0 ? fmt::format("abs([duty.torque_Nm@{}])", place.at)
                   : fmt::format("[{0}.torque_Nm@{1}] * [{0}.d_w2_mm] / [{0}.d_w1_mm]", before,
                                 place.at);
        torque_Nm *= train.meshes[i].pair.d_w2_mm / train.meshes[i].pair.d_w1_mm;
        before = place.part;
        to.add(place, "power_W", term.power_W);
        Number& H_V = to.add(place, "H_V", term.loss_factor);
        const iso_21771::Pair& pair = train.meshes[i].pair;
        // The closed form holds while no more than two pairs share the load.
        if (pair.eps_alpha < 1 || pair.eps_alpha > 2 || pair.eps_1 > 1 || pair.eps_2 > 1)
            H_V.value_of.clear();
        to.add(place, "w_Npmm", term.F_bt_Npmm);
        to.add(place, "v_mps", term.pitch_speed_mps);
        to.add(place, "v_sumC_mps", term.sum_speed_mps);
        // No power passes the mesh: no friction.
        if (term.power_W <= 0)
            to.add(place, "loss_W", 0).value_of = "0 * power_W";
        else
            to.step(place, "loss_W");
        if (squeezes) to.step(place, "squeezed_W");
    }
}

void add_gears(const Gather& gather, const LegAnswer& leg, std::size_t bin) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const LegLoads& loads = loads_of(gather, leg);
    const Train& train = train_of(prepared.loads, loads.train);
    const PreparedLosses& terms = prepared.losses[static_cast<std::size_t>(leg.leg)];
    for (std::size_t s = 0; s < train.shafts.size(); ++s) {
        const std::string name = of_set(prepared.loads, loads.train) + train.shafts[s].name;
        const std::string shaft = shaft_part(gather, loads.train, static_cast<int>(s));
        const Collector::Place place{"gear_run", "gear." + name, in_bin(leg.name, bin), {}};
        const double omega_radps = terms.bins[bin].shaft_omega_radps[s];
        to.add(place, "n_rpm", loads.bins[bin].shaft_speed_rpm[s],
               quantity("bin", "shaft_speed_rpm"))
            .value_of = fmt::format("[duty.speed_rpm@{}] * abs([{}.speed_ratio])", place.at, shaft);
        if (omega_radps <= 0) continue;
        to.step(place, "air_W");
        if (terms.gears[s].depth_m > 0) to.step(place, "churned_W");
    }
}

/// What a gear brings to every bin: its radius, its side gap, its depth in the oil.
void add_places(const Gather& gather, int index) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const Train& train = train_of(prepared.loads, index);
    std::vector<double> depths_mm;
    if (setup.lubrication.method == Method::dip)
        depths_mm = pitch_depths_mm(train, setup.lubrication.depth_mm.value());
    std::vector<std::string> tips;
    for (std::size_t s = 0; s < train.shafts.size(); ++s) {
        const std::string shaft = shaft_part(gather, index, static_cast<int>(s));
        tips.push_back(fmt::format("[{0}.z_mm] - [{0}.tip_diameter_mm] / 2", shaft));
    }
    for (std::size_t s = 0; s < train.shafts.size(); ++s) {
        const std::string shaft = shaft_part(gather, index, static_cast<int>(s));
        const Collector::Place place{
            "gear_run", "gear." + of_set(prepared.loads, index) + train.shafts[s].name, {}, {}};
        const double R_mm = train.shafts[s].pitch_diameter_mm / 2;
        Number& radius = to.add(place, "R_m", m_from_mm(R_mm));
        radius.value_of = fmt::format("[{}.pitch_diameter_mm] / 2000", shaft);
        to.step(place, "z", fmt::format("[{}.teeth]", shaft));
        if (setup.lubrication.side_gap_mm)
            to.add(place, "gap_mm", *setup.lubrication.side_gap_mm).origin =
                to.origin_of("lubrication.side_gap");
        else
            to.step(place, "gap_mm", "0.1 * R_m * 1000");
        to.step(place, "alpha_t_rad",
                "[" + mesh_part(gather, index, train.meshes.front()) + ".alpha_t_rad]");
        to.step(place, "eps_beta",
                "[" + mesh_part(gather, index, train.meshes.front()) + ".eps_beta]");
        if (depths_mm.empty()) {
            to.step(place, "dry", "1");
            continue;
        }
        to.add(place, "depth_mm", depths_mm[s]).value_of =
            fmt::format("{} + dip_mm - [{}.z_mm] + [{}.pitch_diameter_mm] / 2",
                        extreme_of("min", tips), shaft, shaft);
    }
}

void add_pumped(const Gather& gather, const LegAnswer& leg, std::size_t bin) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const auto& pump = setup.lubrication.pump;
    if (!pump) return;
    const Collector::Place place{"pump_run", "pump", in_bin(leg.name, bin),
                                 pump->drive == PumpDrive::electric ? "electric" : "driven"};
    const auto index = static_cast<std::size_t>(leg.leg);
    const PreparedLosses::BinTerm& term = prepared.losses[index].bins[bin];
    const LegLoads& loads = loads_of(gather, leg);
    to.add(place, "n_rpm", loads.bins[bin].bin.speed_rpm).value_of =
        fmt::format("[duty.speed_rpm@{}]", place.at);
    const MeshPlace& mesh = train_of(prepared.loads, loads.train).meshes.front();
    to.add(place, "v_mps", term.meshes.front().pitch_speed_mps).value_of =
        fmt::format("[{}.v_mps@{}]", mesh_part(gather, loads.train, mesh), place.at);
    to.add(place, "flow_Lpmin",
           pump_flow_Lpmin(setup, rpm_from_radps(term.shaft_omega_radps.front())));
    if (!leg.at_rest.switches.pump) return;
    to.step(place, "power_W");
    // The pump of a dipped case sends oil through a cooler and back to the bath.
    if (setup.lubrication.method == Method::scavenged) to.step(place, "throws_W");
}

}  // namespace

void add_gear_losses(const Gather& gather, const LegAnswer& leg) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    if (!to.has("gear." + prepared.loads.train.shafts.front().name + ".R_m")) {
        if (setup.lubrication.depth_mm)
            to.add({"shared", "shared", {}, {}}, "dip_mm", *setup.lubrication.depth_mm);
        for (int index = 0; index < trains(prepared.loads); ++index) add_places(gather, index);
    }
    for (std::size_t bin = 0; bin < loads_of(gather, leg).bins.size(); ++bin) {
        add_meshes(gather, leg, bin);
        add_gears(gather, leg, bin);
    }
}

void add_oil_losses(const Gather& gather, const LegAnswer& leg) {
    const Setup& setup = gather.setup;
    Collector& to = gather.to;
    const auto& pump = setup.lubrication.pump;
    if (pump && !to.has("pump.nominal_Lpmin")) {
        const Collector::Place place{"pump", "pump", {}, {}};
        to.add(place, "nominal_Lpmin", pump->flow_Lpmin);
        to.add(place, "rated_speed_rpm", pump->rated_speed_rpm);
        to.add(place, "pressure_Pa", pump->pressure_Pa);
        to.add(place, "efficiency", pump->efficiency);
        to.add(place, "jet_mps", setup.lubrication.jet_speed_mps);
        to.add(place, "rehit", setup.lubrication.oil_rehit);
    }
    for (const SealInput& seal : setup.seals) {
        const bool nitrile = seal.material == SealMaterial::NBR;
        const Collector::Place place{
            "seal", "seal." + seal.name, {}, nitrile ? "nitrile" : "other"};
        if (to.has(place.part + ".torque_Nm")) continue;
        to.add(place, "diameter_mm", seal.diameter_mm);
        to.add(place, "lips", seal.lips);
        to.add(place, "torque_Nm",
               iso_tr_14179_1::lip_torque_Nm(nitrile ? iso_tr_14179_1::LipMaterial::nitrile
                                                     : iso_tr_14179_1::LipMaterial::other,
                                             seal.diameter_mm) *
                   iso_tr_14179_1::lips_factor(seal.lips));
    }
    for (std::size_t bin = 0; bin < loads_of(gather, leg).bins.size(); ++bin)
        add_pumped(gather, leg, bin);
}

}  // namespace caseload::why_detail
