// SPDX-License-Identifier: MIT
// Teeth against scuffing, through their film, and in resonance: at the mesh, leg and bin where each
// is least.
#include "caseload/formulas/film_ratio.hpp"
#include "caseload/formulas/iso_6336_20.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/teeth.hpp"
#include "caseload/units.hpp"
#include "damage/mesh_strength.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::why_detail {
namespace {

struct Found {
    int train = 0;
    std::size_t mesh = 0;
    std::size_t leg = 0;
    std::size_t bin = 0;
};

/// Calls see(found, mesh's strength, torque, speed) for every loaded mesh of every bin.
template <class See>
void each_contact(const Gather& gather, const See& see) {
    const Prepared& prepared = gather.prepared;
    for (int train = 0; train < trains(prepared.loads); ++train) {
        const Train& all = train_of(prepared.loads, train);
        for (std::size_t m = 0; m < all.meshes.size(); ++m) {
            const MeshStrength strength(gather.setup, all, m);
            const double ratio =
                std::fabs(all.shafts[static_cast<std::size_t>(all.meshes[m].driver)].speed_ratio);
            for (std::size_t leg = 0; leg < prepared.loads.legs.size(); ++leg) {
                const LegLoads& loads = prepared.loads.legs[leg];
                if (loads.train != train || !gather.to.has("event.hottest_oil_degC@" + loads.name))
                    continue;
                for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
                    const Bin& duty = loads.bins[bin].bin;
                    const double torque_Nm =
                        std::fabs(duty.torque_Nm) * strength.torque_1_per_input();
                    if (torque_Nm > 0 && duty.speed_rpm > 0)
                        see(Found{train, m, leg, bin}, strength, torque_Nm, duty.speed_rpm * ratio);
                }
            }
        }
    }
}

double hot(const Gather& gather, const std::string& member, const std::string& leg) {
    return std::min(gather.to.number("event." + member + "@" + leg).value, oil_ceiling_degC);
}

double eta_mPas(const Oil& oil, double temp_degC) {
    return astm_d341::viscosity_mm2ps(oil.sheared, temp_degC) * oil_density_kgpm3(oil, temp_degC) /
           1000;
}

struct Lent {
    std::string part;  ///< what it is called
    std::string in;    ///< "" or the bin's place with this in front
    std::vector<std::string> from_mesh;
    std::vector<std::string> from_bin;
};

/// A check with what it borrows from its mesh and bin, under the same names.
Collector::Place borrow(const Gather& gather, const char* kind, const Found& at, const Lent& lent) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const std::string part =
        mesh_part(gather, at.train, train_of(prepared.loads, at.train).meshes[at.mesh]);
    const LegLoads& loads = prepared.loads.legs[at.leg];
    const Collector::Place place{kind, lent.part, {}, {}};
    for (const std::string& name : lent.from_mesh)
        to.step(place, name, fmt::format("[{}.{}]", part, name));
    for (const std::string& name : lent.from_bin)
        to.step(place, name,
                fmt::format("[{}.{}@{}{}]", part, name, lent.in, in_bin(loads.name, at.bin)));
    return place;
}

/// How hot the teeth get that rub in this bin; at its torque with overload or without.
Collector::Place add_rubbing(const Gather& gather, const Found& at, bool with_overload) {
    Collector& to = gather.to;
    const LegLoads& loads = gather.prepared.loads.legs[at.leg];
    const Train& train = train_of(gather.prepared.loads, at.train);
    const std::string bin = in_bin(loads.name, at.bin);
    const std::string in = with_overload ? "" : "steady/";
    if (!with_overload) {
        const std::string part = mesh_part(gather, at.train, train.meshes[at.mesh]);
        const Collector::Place steady{"stress", part, in + bin, face_variant(gather.setup)};
        to.step(steady, "torque_Nm", fmt::format("[{}.torque_Nm@{}]", part, bin));
        to.step(steady, "n_rpm", fmt::format("[{}.n_rpm@{}]", part, bin));
        to.step(steady, "F_t_N_life", "2000 * torque_Nm / d_1_mm");
        to.step(steady, "K_v");
        to.step(steady, "K_Hbeta");
        to.step(steady, "K_Halpha");
    }
    const Collector::Place place =
        borrow(gather, "scuffing", at,
               {with_overload ? "scuffing" : "film_teeth",
                in,
                {"d_w1_mm", "alpha_wt_rad", "beta_b_rad", "T1T2_mm", "rho_redC_mm", "p_bt_mm",
                 "g_2_mm", "eps_alpha", "z_1", "z_2", "idles_1", "idles_2"},
                {"torque_Nm", "n_rpm", "K_v", "K_Hbeta", "K_Halpha"}});
    to.step(place, "hot_oil_degC",
            fmt::format("min([event.hottest_oil_degC@{}], 160)", loads.name));
    to.step(place, "hot_steel_degC",
            fmt::format("min([event.hottest_steel_degC@{}], 160)", loads.name));
    to.step(place, "overload", with_overload ? fmt::format("[rest.overload@{}]", loads.name) : "1");
    to.step(place, "X_S", gather.setup.lubrication.method == Method::dip ? "1.0" : "1.2");
    return place;
}

/// As the check calculates it.
struct Rubbed {
    double flash_K;
    double tooth_degC;
};
Rubbed rubbed(const Gather& gather, const Found& at, const MeshStrength& strength,
              const MeshStrength::Running& running) {
    const Prepared& prepared = gather.prepared;
    const Train& train = train_of(prepared.loads, at.train);
    const MeshPlace& mesh = train.meshes[at.mesh];
    const std::string& leg = prepared.loads.legs[at.leg].name;
    const double oil_degC = hot(gather, "hottest_oil_degC", leg);
    const double w_Npmm = strength.factors(running).flank() * 2000 * running.torque_1_Nm /
                          (mesh.pair.d_w1_mm * std::cos(mesh.pair.alpha_wt_rad)) /
                          gather.setup.gears.face_width_mm;
    const double X_L = prepared.oil.base == oil_thermal::BaseOil::synthetic ? schlenk::X_L_synthetic
                                                                            : schlenk::X_L_mineral;
    const double mu =
        iso_6336_20::friction(mesh.pair, {w_Npmm, running.n_1_rpm, eta_mPas(prepared.oil, oil_degC),
                                          gather.setup.gears.flank_Ra_um, X_L});
    const iso_6336_20::FlashShape shape = iso_6336_20::flash_shape(mesh.pair);
    const bool dip = gather.setup.lubrication.method == Method::dip;
    const bool idler = mesh.driver > 0 || mesh.driven < static_cast<int>(train.shafts.size()) - 1;
    const double bulk_degC = iso_6336_20::bulk_degC(
        {oil_degC, iso_6336_20::flash_K(shape.mean, {mu, w_Npmm, running.n_1_rpm}),
         dip ? iso_6336_20::X_S_dip : iso_6336_20::X_S_jet,
         idler ? iso_6336_20::X_mp_idler : iso_6336_20::X_mp_one});
    return {iso_6336_20::flash_K(shape.largest, {mu, w_Npmm, running.n_1_rpm}),
            std::max(hot(gather, "hottest_steel_degC", leg), bulk_degC)};
}

void add_scuffing(const Gather& gather) {
    Collector& to = gather.to;
    const FlankChecks& flanks = gather.answer.fitted.checked.flanks;
    Found worst;
    bool found = false;
    each_contact(gather, [&](const Found& at, const MeshStrength& strength, double torque_Nm,
                             double n_1_rpm) {
        if (found) return;
        const Rubbed teeth = rubbed(
            gather, at, strength, {torque_Nm * gather.setup.event.legs[at.leg].overload, n_1_rpm});
        // The one the answer shows: the same calculation, so the same numbers.
        if (std::fabs(teeth.flash_K - flanks.flash_K) > 1e-9 * teeth.flash_K ||
            std::fabs(teeth.tooth_degC - flanks.tooth_degC) > 1e-9)
            return;
        worst = at;
        found = true;
    });
    if (!found) return;
    const Collector::Place place = add_rubbing(gather, worst, true);
    const auto add = [&](const char* member, double value) {
        to.add(place, value, quantity("flank_checks", member));
    };
    add("flash_K", flanks.flash_K);
    add("mean_flash_K", flanks.mean_flash_K);
    add("tooth_degC", flanks.tooth_degC);
    add("contact_degC", flanks.contact_degC);
    add("scuffing_degC", flanks.scuffing_degC);
    add("S_B", flanks.S_B);
    to.steps_of(place);
}

void add_film(const Gather& gather) {
    const Oil& oil = gather.prepared.oil;
    const FlankChecks& flanks = gather.answer.fitted.checked.flanks;
    Collector& to = gather.to;
    Found worst;
    double least = 0;
    each_contact(gather, [&](const Found& at, const MeshStrength& strength, double torque_Nm,
                             double n_1_rpm) {
        const iso_21771::Pair& pair =
            train_of(gather.prepared.loads, at.train).meshes[at.mesh].pair;
        if (radps_from_rpm(n_1_rpm) * m_from_mm(pair.d_w1_mm) / 2 <= 3) return;
        const double tooth_degC = std::min(
            rubbed(gather, at, strength, {torque_Nm, n_1_rpm}).tooth_degC, hottest_film_degC);
        const film_ratio::Line line = film_ratio::pitch_contact(
            pair, {2000 * torque_Nm / (pair.d_w1_mm * std::cos(pair.alpha_wt_rad)),
                   gather.setup.gears.face_width_mm, n_1_rpm});
        const double eta = eta_mPas(oil, tooth_degC);
        const double alpha = film_ratio::pressure_viscosity_pGPa(
            oil.base, astm_d341::viscosity_mm2ps(oil.sheared, tooth_degC));
        const double film_um =
            film_ratio::inlet_shear({film_ratio::hertz_pressure_MPa(line), 0, eta, line.u_mps,
                                     film_ratio::usual_thinning_pK,
                                     film_ratio::usual_conductivity_WpmK}) *
            film_ratio::least_film_um(line, {eta, alpha});
        if (least != 0 && film_um >= least) return;
        least = film_um;
        worst = at;
    });
    if (least == 0) return;
    const Collector::Place teeth = add_rubbing(gather, worst, false);
    to.step(teeth, "tooth_degC");
    const Collector::Place place = borrow(gather, "film", worst,
                                          {"film",
                                           "",
                                           {"d_w1_mm", "alpha_wt_rad", "beta_b_rad", "rho_redC_mm"},
                                           {"torque_Nm", "n_rpm"}});
    to.add(place, flanks.film_tooth_degC, quantity("flank_checks", "film_tooth_degC"));
    to.add(place, flanks.film_ratio, quantity("flank_checks", "film_ratio"));
    to.steps_of(place);
}

void add_resonance(const Gather& gather) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    const FlankChecks& flanks = gather.answer.fitted.checked.flanks;
    const Collector::Place place{"resonance", "resonance", {}, {}};
    const auto n_E = [&](int train) {
        return "[" + mesh_part(gather, train, train_of(prepared.loads, train).meshes.front()) +
               ".n_E1_rpm]";
    };
    const auto add = [&](const char* member, double value, const std::string& formula) {
        gather.to.add(place, value, quantity("flank_checks", member)).value_of = formula;
    };
    add("resonance_from_rpm", flanks.resonance_from_rpm, "0.85 * " + n_E(0));
    add("resonance_to_rpm", flanks.resonance_to_rpm, "1.15 * " + n_E(0));
    std::vector<std::string> inside;
    std::vector<std::string> driving;
    for (const int run : setup.event.run) {
        const auto leg = static_cast<std::size_t>(run);
        const LegLoads& loads = prepared.loads.legs[leg];
        if (setup.event.legs[leg].kind == LegKind::stop) continue;
        driving.push_back(fmt::format("[rest.duration_s@{}]", loads.name));
        for (std::size_t bin = 0; bin < loads.bins.size(); ++bin)
            inside.push_back(fmt::format(
                "if(0.85 * {2} < [duty.speed_rpm@{0}], if([duty.speed_rpm@{0}] < 1.15 * {2}, "
                "[duty.share@{0}] * [rest.duration_s@{1}], 0), 0)",
                in_bin(loads.name, bin), loads.name, n_E(loads.train)));
    }
    if (!driving.empty())
        add("resonance_time_share", flanks.resonance_time_share,
            "(" + sum_of(inside) + ") / (" + sum_of(driving) + ")");
}

}  // namespace

void add_flanks(const Gather& gather) {
    if (!gather.answer.fitted.checked.flanks.calculated) return;
    add_scuffing(gather);
    add_film(gather);
    add_resonance(gather);
}

}  // namespace caseload::why_detail
