// SPDX-License-Identifier: MIT
// Every addressed number of an answer. The steps of a bearing's life are taken at rest, in each
// bin.
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/lip_seal.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/units.hpp"
#include "caseload/why.hpp"
#include "input/nearest.hpp"
#include "why/collector.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <type_traits>
#include <utility>

namespace caseload {
namespace {

using why_detail::Collector;
using why_detail::kind_word;

/// "[a@leg/1] * [b@leg/1] + ..." over bins or parts.
std::string sum_of(const std::vector<std::string>& terms) {
    std::string out;
    for (const std::string& term : terms) out += (out.empty() ? "" : " + ") + term;
    return out;
}

std::string shaft_name(const Train& train, int shaft) {
    return train.shafts[static_cast<std::size_t>(shaft)].name;
}

/// Parts of a train another leg runs carry the name of its set.
std::string of_set(const Loads& loads, int train) {
    return train == 0 ? std::string{} : train_of(loads, train).set + ".";
}

void add_train(const Loads& loads, int index, Collector& to) {
    const Train& train = train_of(loads, index);
    const std::string set = of_set(loads, index);
    for (const MeshPlace& mesh : train.meshes)
        to.members({"mesh",
                    fmt::format("mesh.{}{}-{}", set, shaft_name(train, mesh.driver),
                                shaft_name(train, mesh.driven)),
                    {},
                    {}},
                   mesh.pair);
    for (const ShaftPlace& shaft : train.shafts)
        to.add({"shaft", "shaft." + set + shaft.name, {}, {}}, "speed_ratio", shaft.speed_ratio,
               quantity("shaft", "speed_ratio"));
}

void add_shared(const Setup& setup, const Oil& oil, Collector& to) {
    const Collector::Place place{"shared", "shared", {}, {}};
    const bool in_line = setup.oil.filter == Filter::in_line;
    to.add(place, "A", oil.sheared.A);
    to.add(place, "B", oil.sheared.B);
    to.add(place, "A_fresh", oil.fresh.A);
    to.add(place, "B_fresh", oil.fresh.B);
    to.add(place, "rho_15_kgpm3", oil.density_15C_kgpm3);
    to.add(place, "synthetic", setup.oil.synthetic ? 1 : 0);
    to.add(place, "ep_additive", setup.oil.ep_additive ? 1 : 0);
    to.add(place, "in_line", in_line ? 1 : 0);
    to.add(place, "code",
           iso_281::table_code_14um(
               {in_line ? iso_281::FilterGroup::in_line : iso_281::FilterGroup::off_line_or_bath,
                setup.oil.code_14um}));
    to.add(place, "Ra_um", setup.gears.flank_Ra_um);
    to.add(place, "face_width_mm", setup.gears.face_width_mm);
    to.add(place, "exhaust_heat_W", setup.housing.exhaust_heat_W);
}

/// What bins take from the leg: the oil its losses stand at.
void add_leg_oil(const LegAnswer& leg, const Oil& oil, Collector& to) {
    const Collector::Place place{"rest", "rest", leg.name, {}};
    const double at_degC = std::min(leg.at_rest.nodes.oil_degC, oil_ceiling_degC);
    to.add(place, "at_degC", at_degC);
    to.add(place, "rho_kgpm3", oil_density_kgpm3(oil, at_degC));
    to.add(place, "cp_JpkgK", oil_specific_heat_JpkgK(oil, at_degC));
    to.add(place, "oil_nu_mm2ps", astm_d341::viscosity_mm2ps(oil.fresh, at_degC));
    to.steps_of(place);
    to.step(place, "oil_eta_mPas");
}

void add_rest(const Prepared& prepared, const LegAnswer& leg, Collector& to) {
    const Collector::Place place{"rest", "rest", leg.name, {}};
    const Steady& rest = leg.at_rest;
    const LegLoads& loads = prepared.loads.legs[static_cast<std::size_t>(leg.leg)];
    const Train& train = train_of(prepared.loads, loads.train);
    const std::string set = of_set(prepared.loads, loads.train);
    to.members(place, rest.losses.ledger);
    to.members(place, rest.outside);
    to.add(place, "made_W", total_W(rest.losses.ledger));
    to.add(place, "cooler_W", rest.cooler_W, quantity("rest", "cooler_W"));
    to.add(place, "exhaust_W", rest.exhaust_W, quantity("rest", "exhaust_W"));
    // Without a balance there is no solved temperature to give reasons for.
    if (rest.found) to.members(place, rest.nodes);
    std::vector<std::string> speeds;
    std::vector<std::string> teeth;
    std::vector<std::string> bearings;
    for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
        const std::string at = fmt::format("{}/{}", leg.name, bin + 1);
        speeds.push_back(fmt::format("[duty.share@{0}] * [duty.speed_rpm@{0}]", at));
        for (const MeshPlace& mesh : train.meshes)
            teeth.push_back(fmt::format("[duty.share@{0}] * [mesh.{1}{2}-{3}.loss_W@{0}]", at, set,
                                        shaft_name(train, mesh.driver),
                                        shaft_name(train, mesh.driven)));
    }
    to.add(place, "mean_speed_rpm", loads.mean_speed_rpm, quantity("leg_load", "mean_speed_rpm"))
        .value_of = sum_of(speeds);
    for (std::size_t b = 0; b < prepared.loads.bearings.size(); ++b) {
        const std::string part = "bearing." + prepared.loads.bearings[b].name;
        std::vector<std::string> bins;
        for (std::size_t bin = 0; bin < loads.bins.size(); ++bin)
            if (rest.losses.runs[bin][b].n_rpm > 0)
                bins.push_back(fmt::format("[duty.share@{0}/{1}] * [{2}.loss_W@{0}/{1}]", leg.name,
                                           bin + 1, part));
        if (bins.empty()) continue;
        bearings.push_back(fmt::format("[{}.mean_loss_W@{}]", part, leg.name));
        to.add({"bearing", part, leg.name, {}}, "mean_loss_W", rest.losses.bearing_W[b],
               quantity("losses_at", "bearing_W"))
            .value_of = sum_of(bins);
    }
    std::vector<std::string> seals;
    for (const SealInput& seal : prepared.setup->seals)
        seals.push_back(
            fmt::format("[seal.{}.torque_Nm] * abs([shaft.{}{}.speed_ratio]) * pi / 30 * "
                        "[rest.mean_speed_rpm@{}]",
                        seal.name, set, seal.shaft, leg.name));
    std::vector<std::string> powers;
    for (std::size_t bin = 0; bin < loads.bins.size(); ++bin)
        powers.push_back(fmt::format(
            "[duty.share@{0}/{1}] * max([duty.torque_Nm@{0}/{1}], 0) * [duty.speed_rpm@{0}/{1}] * "
            "pi / 30",
            leg.name, bin + 1));
    to.add(place, "drive_power_W", loads.drive_power_W, quantity("leg_load", "drive_power_W"))
        .value_of = sum_of(powers);
    const auto& pump = prepared.setup->lubrication.pump;
    if (pump && rest.switches.pump) {
        std::vector<std::string> pumped;
        std::vector<std::string> thrown;
        for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
            const std::string at = fmt::format("{}/{}", leg.name, bin + 1);
            pumped.push_back(fmt::format("[duty.share@{0}] * [pump.power_W@{0}]", at));
            thrown.push_back(fmt::format("[duty.share@{0}] * [pump.throws_W@{0}]", at));
        }
        to.number("rest.pump_W@" + leg.name).value_of = sum_of(pumped);
        if (prepared.setup->lubrication.method == Method::scavenged)
            to.number("rest.thrown_W@" + leg.name).value_of = sum_of(thrown);
    }
    to.number("rest.bearings_W@" + leg.name).value_of = sum_of(bearings);
    to.number("rest.mesh_W@" + leg.name).value_of = sum_of(teeth);
    to.number("rest.seals_W@" + leg.name).value_of = sum_of(seals);
}

void add_pump(const Setup& setup, Collector& to) {
    const auto& pump = setup.lubrication.pump;
    if (!pump) return;
    const Collector::Place place{"pump", "pump", {}, {}};
    to.add(place, "nominal_Lpmin", pump->flow_Lpmin);
    to.add(place, "rated_speed_rpm", pump->rated_speed_rpm);
    to.add(place, "pressure_Pa", pump->pressure_Pa);
    to.add(place, "efficiency", pump->efficiency);
    to.add(place, "jet_mps", setup.lubrication.jet_speed_mps);
    to.add(place, "rehit", setup.lubrication.oil_rehit);
}

/// What the pump takes and what its oil takes from the first mesh.
void add_pumped(const Prepared& prepared, const LegAnswer& leg, std::size_t bin, Collector& to) {
    const Setup& setup = *prepared.setup;
    const auto& pump = setup.lubrication.pump;
    if (!pump) return;
    const Collector::Place place{"pump_run", "pump", fmt::format("{}/{}", leg.name, bin + 1),
                                 pump->drive == PumpDrive::electric ? "electric" : "driven"};
    const auto index = static_cast<std::size_t>(leg.leg);
    const PreparedLosses::BinTerm& term = prepared.losses[index].bins[bin];
    to.add(place, "n_rpm", prepared.loads.legs[index].bins[bin].bin.speed_rpm).value_of =
        fmt::format("[duty.speed_rpm@{}]", place.at);
    to.add(place, "v_mps", term.meshes.front().pitch_speed_mps);
    to.add(place, "flow_Lpmin",
           pump_flow_Lpmin(setup, rpm_from_radps(term.shaft_omega_radps.front())));
    to.step(place, "power_W");
    to.step(place, "throws_W");
}

void add_seals(const Setup& setup, Collector& to) {
    for (const SealInput& seal : setup.seals) {
        const Collector::Place place{"seal",
                                     "seal." + seal.name,
                                     {},
                                     seal.material == SealMaterial::NBR ? "nitrile" : "other"};
        to.add(place, "diameter_mm", seal.diameter_mm);
        to.add(place, "lips", seal.lips);
        to.add(place, "torque_Nm",
               iso_tr_14179_1::lip_torque_Nm(seal.material == SealMaterial::NBR
                                                 ? iso_tr_14179_1::LipMaterial::nitrile
                                                 : iso_tr_14179_1::LipMaterial::other,
                                             seal.diameter_mm) *
                   iso_tr_14179_1::lips_factor(seal.lips));
    }
}

void add_mesh(const Prepared& prepared, const LegAnswer& leg, std::size_t bin, Collector& to) {
    const auto index = static_cast<std::size_t>(leg.leg);
    const LegLoads& loads = prepared.loads.legs[index];
    const Train& train = train_of(prepared.loads, loads.train);
    double torque_Nm = std::fabs(loads.bins[bin].bin.torque_Nm);
    std::string before;
    for (std::size_t i = 0; i < train.meshes.size(); ++i) {
        const PreparedLosses::MeshTerm& term = prepared.losses[index].bins[bin].meshes[i];
        const Collector::Place place{
            "mesh_run",
            fmt::format("mesh.{}{}-{}", of_set(prepared.loads, loads.train),
                        shaft_name(train, train.meshes[i].driver),
                        shaft_name(train, train.meshes[i].driven)),
            fmt::format("{}/{}", leg.name, bin + 1),
            {}};
        const auto driver = static_cast<std::size_t>(train.meshes[i].driver);
        const double omega_radps = prepared.losses[index].bins[bin].shaft_omega_radps[driver];
        to.add(place, "n_rpm", rpm_from_radps(omega_radps)).value_of =
            fmt::format("[duty.speed_rpm@{}] * abs([shaft.{}{}.speed_ratio])", place.at,
                        of_set(prepared.loads, loads.train), train.shafts[driver].name);
        to.add(place, "torque_Nm", torque_Nm).value_of =
            i == 0 ? fmt::format("abs([duty.torque_Nm@{}])", place.at)
                   : fmt::format("[{0}.torque_Nm@{1}] * [{0}.d_w2_mm] / [{0}.d_w1_mm]", before,
                                 place.at);
        torque_Nm *= train.meshes[i].pair.d_w2_mm / train.meshes[i].pair.d_w1_mm;
        before = place.part;
        to.add(place, "power_W", term.power_W);
        to.add(place, "H_V", term.loss_factor);
        to.add(place, "w_Npmm", term.F_bt_Npmm);
        to.add(place, "v_mps", term.pitch_speed_mps);
        to.add(place, "v_sumC_mps", term.sum_speed_mps);
        // Nothing passes: no friction to give reasons for.
        if (term.power_W <= 0)
            to.add(place, "loss_W", 0).value_of = "0 * power_W";
        else
            to.step(place, "loss_W");
    }
}

/// The state of the slip joints that loads the bearing most.
BearingLoad most_loaded(const Prepared& prepared, const BearingPlace& in) {
    const BearingData& data = prepared.loads.bearings[in.bearing];
    BearingLoad worst;
    double most_N = 0;
    for (const LoadState& state : prepared.loads.legs[in.leg].bins[in.bin].for_life) {
        const BearingLoad& load = state.bearings[in.bearing];
        const double P_N = iso_281::equivalent_load_N(
            {data.kind, data.contact_angle_deg, data.f_0, data.C_0_N}, {load.F_r_N, load.F_a_N});
        if (P_N <= most_N) continue;
        most_N = P_N;
        worst = load;
    }
    return worst;
}

void add_friction(const Prepared& prepared, const Collector::Place& place, const BearingPlace& in,
                  double film_degC, Collector& to) {
    const BearingData& data = prepared.loads.bearings[in.bearing];
    const BearingLoad& load = prepared.loads.legs[in.leg].bins[in.bin].nominal[in.bearing];
    const PreparedLosses::BearingTerm& term =
        prepared.losses[in.leg].bins[in.bin].bearings[in.bearing];
    const double nu_mm2ps = astm_d341::viscosity_mm2ps(prepared.oil.fresh, film_degC);
    const double P_0_N =
        iso_76::static_equivalent_N(data.kind, data.contact_angle_deg, {load.F_r_N, load.F_a_N});
    to.add(place, "F_r_heat_N", load.F_r_N, quantity("bearing_load", "F_r_N"));
    to.add(place, "F_a_heat_N", load.F_a_N, quantity("bearing_load", "F_a_N"));
    to.add(place, "P_0_N", P_0_N);
    to.add(place, "P_1_N",
           palmgren::friction_load_P1_N(
               {data.kind, data.contact_angle_deg, load.F_r_N, load.F_a_N, data.C_0_N}));
    to.add(place, "f_1", palmgren::f1(data.kind, P_0_N / data.C_0_N));
    to.add(place, "nu_fresh_mm2ps", nu_mm2ps);
    to.add(place, "M_0_Nmm",
           palmgren::idle_torque_Nmm({data.f0, nu_mm2ps, term.n_rpm, data.d_m_mm}));
    to.add(place, "M_1_Nmm", term.load_torque_Nmm);
    // Where the idle torque steps the film settles between both values.
    if (std::fabs(nu_mm2ps * term.n_rpm - 2000) < 1e-3)
        to.number(place.part + ".loss_W@" + place.at).value_of.clear();
}

void add_bearing(const Prepared& prepared, const LegAnswer& leg, const BearingPlace& in,
                 Collector& to) {
    const BearingData& data = prepared.loads.bearings[in.bearing];
    const BearingRun& run = leg.at_rest.losses.runs[in.bin][in.bearing];
    if (run.n_rpm <= 0) return;
    const LegLoads& loads = prepared.loads.legs[in.leg];
    const Collector::Place place{"bearing", "bearing." + data.name,
                                 fmt::format("{}/{}", leg.name, in.bin + 1), kind_word(data.kind)};
    const BearingCondition state = bearing_at_film(prepared, in, run.film_degC);
    const double film_degC = std::min(run.film_degC, hottest_film_degC);
    to.members(place, run);
    to.number(fmt::format("{}.n_rpm@{}", place.part, place.at)).value_of =
        fmt::format("[duty.speed_rpm@{}] * abs([shaft.{}{}.speed_ratio])", place.at,
                    of_set(prepared.loads, loads.train),
                    shaft_name(train_of(prepared.loads, loads.train), data.shaft));
    to.add(place, "nu_1_mm2ps",
           iso_281::reference_viscosity_mm2ps({.n_rpm = run.n_rpm, .D_pw_mm = data.d_m_mm}));
    to.add(place, "nu_mm2ps", astm_d341::viscosity_mm2ps(prepared.oil.sheared, film_degC));
    to.add(place, "kappa", state.kappa);
    add_friction(prepared, place, in, film_degC, to);
    if (state.P_N > 0) {
        const BearingLoad load = most_loaded(prepared, in);
        const double p = iso_281::life_exponent(data.kind);
        const double life_Mrev = iso_281::basic_life_Mrev({data.C_N, state.P_N, p});
        to.add(place, "F_r_N", load.F_r_N, quantity("bearing_load", "F_r_N"));
        to.add(place, "F_a_N", load.F_a_N, quantity("bearing_load", "F_a_N"));
        to.add(place, "p", p);
        to.add(place, "P_N", state.P_N);
        to.add(place, "e_C", state.e_C);
        to.add(place, "a_ISO", state.a_ISO);
        to.add(place, "L_10_Mrev", life_Mrev);
        to.add(place, "L_10_h", iso_281::hours_h({life_Mrev, run.n_rpm}));
    }
    to.steps_of(place);
}

}  // namespace

Reasons::Reasons(const ReadSetup& read, const Assessment& answer) {
    Collector to(read);
    const Prepared prepared = prepare(read.setup);
    const Loads& loads = prepared.loads;
    add_shared(read.setup, prepared.oil, to);
    for (int train = 0; train <= static_cast<int>(loads.others.size()); ++train)
        add_train(loads, train, to);
    add_seals(read.setup, to);
    add_pump(read.setup, to);
    for (const BearingData& bearing : loads.bearings)
        to.members({"bearing", "bearing." + bearing.name, {}, kind_word(bearing.kind)}, bearing);
    for (const LegAnswer& leg : answer.fitted.legs) {
        add_leg_oil(leg, prepared.oil, to);
        add_rest(prepared, leg, to);
        const auto index = static_cast<std::size_t>(leg.leg);
        for (std::size_t bin = 0; bin < loads.legs[index].bins.size(); ++bin) {
            to.members({"duty", "duty", fmt::format("{}/{}", leg.name, bin + 1), {}},
                       loads.legs[index].bins[bin].bin);
            add_mesh(prepared, leg, bin, to);
            add_pumped(prepared, leg, bin, to);
            for (std::size_t b = 0; b < loads.bearings.size(); ++b)
                add_bearing(prepared, leg, {index, bin, b}, to);
        }
    }
    all_ = std::move(to.all);
    index_ = std::move(to.index);
    const LegAnswer* hottest = hottest_leg(read.setup, answer.fitted);
    if (hottest != nullptr)
        deciding_ = (hottest->at_rest.found ? "rest.oil_degC@" : "rest.made_W@") + hottest->name;
}

Why Reasons::why(std::string_view address) const {
    const auto found = index_.find(address);
    if (found == index_.end()) {
        std::vector<std::pair<int, std::string>> near;
        for (const Number& one : all_)
            near.emplace_back(input::edit_distance(address, one.address), one.address);
        std::stable_sort(near.begin(), near.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        std::string names;
        for (std::size_t i = 0; i < std::min<std::size_t>(3, near.size()); ++i)
            names += (i == 0 ? "" : ", ") + near[i].second;
        throw Error(Error::Kind::input,
                    fmt::format("{}: no number has this address; nearest: {}; all of them: --list",
                                address, names));
    }
    const Number& number = all_[found->second];
    Why why{number, {}, {}};
    const std::string& expression = number.equation.empty() ? number.value_of : number.equation;
    if (expression.empty()) return why;
    for (const std::string& name : names_in(expression)) {
        const Number* input = why_detail::meant(all_, index_, number, name);
        if (input == nullptr)
            throw std::logic_error("tables/why.toml: " + number.address + " wants " + name);
        why.names.push_back(name);
        why.inputs.push_back(*input);
    }
    return why;
}

}  // namespace caseload
