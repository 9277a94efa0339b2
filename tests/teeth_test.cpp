// SPDX-License-Identifier: MIT
// Teeth in the chain: exponents, sides, peaks, idlers. The formulas have their own tests.
#include "caseload/teeth.hpp"

#include "caseload/assess.hpp"
#include "caseload/formulas/iso_6336_2.hpp"
#include "caseload/formulas/iso_6336_20.hpp"
#include "caseload/formulas/iso_6336_3.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"
#include "damage/mesh_strength.hpp"
#include "program.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload::teeth_tests {

namespace {

Setup setup_of_ten(const std::vector<Change>& changes = {}) {
    return Document(new_setup_text(), "ten.toml", {}).complete(changes).setup;
}

/// One leg of one bin that does no damage, and blows that do, as even across the face at any load.
Setup with_blows(double torque_Nm) {
    Setup setup = setup_of_ten();
    LegInput& leg = setup.event.legs.front();
    leg.course_lines.clear();
    leg.course_peaks_per_h = 0;
    leg.bins = {{1, 50, 1000, 10}};
    leg.peaks = {{torque_Nm, 100}};
    setup.gears.face_load_factor = 1.15;
    return setup;
}

GearDamage first_gear(const Setup& setup) {
    return gear_damage(setup, calculate_loads(setup)).front();
}

}  // namespace

TEST_CASE("teeth: damage of torque peaks rises with torque as the life curves do") {
    // Below the knees: flank stress goes with the root of torque and its life with stress^13.22
    // (1e5 at 1.6, 5e7 at 1), roots with stress itself and 8.74 (1e3 at 2.5, 3e6 at 1).
    const double flank_slope = std::log(5e7 / 1e5) / std::log(1.6) / 2;
    const double root_slope = std::log(3e6 / 1e3) / std::log(2.5);
    const GearDamage once = first_gear(with_blows(6000));
    const GearDamage more = first_gear(with_blows(6600));
    REQUIRE(once.drive.flank_share > 0);
    REQUIRE(once.drive.root_share > 0);
    CHECK(std::log(more.drive.flank_share / once.drive.flank_share) / std::log(1.1) ==
          rel(flank_slope, 1e-6));
    CHECK(std::log(more.drive.root_share / once.drive.root_share) / std::log(1.1) ==
          rel(root_slope, 1e-6));
    CHECK(more.peak_root_share > once.peak_root_share);
}

TEST_CASE("teeth: the same torque in coast loads the other flank as much") {
    const GearDamage drive = first_gear(with_blows(6000));
    const GearDamage coast = first_gear(with_blows(-6000));
    CHECK(drive.coast.flank_share == 0);
    CHECK(coast.drive.flank_share == 0);
    CHECK(coast.coast.flank_share == rel(drive.drive.flank_share, 1e-12));
    CHECK(coast.coast.root_share == rel(drive.drive.root_share, 1e-12));
    CHECK(worst(coast).root_share == rel(worst(drive).root_share, 1e-12));
}

TEST_CASE(
    "teeth: a torque peak is one load cycle at any speed, and breaks at once above the life "
    "curve") {
    Setup setup = with_blows(6000);
    const GearDamage hundred = first_gear(setup);
    setup.event.legs.front().peaks = {{6000, 200}};
    CHECK(first_gear(setup).drive.flank_share == rel(2 * hundred.drive.flank_share, 1e-12));
    setup.event.legs.front().bins.front().speed_rpm = 5000;
    CHECK(first_gear(setup).drive.flank_share == rel(2 * hundred.drive.flank_share, 1e-12));
    setup.event.legs.front().peaks = {{40000, 1}};
    const GearDamage broken = first_gear(setup);
    CHECK(broken.peak_root_share > 1);
    CHECK(worst(broken).root_share + worst(broken).flank_share >= 1);
}

TEST_CASE("teeth: the load factor multiplies every torque") {
    const Setup setup = with_blows(6000);
    const Loads loads = calculate_loads(setup);
    Setup loaded = setup;
    loaded.factors.load = 1.2;
    CHECK(gear_damage(setup, loads, 1.2).front().drive.flank_share ==
          rel(first_gear(loaded).drive.flank_share, 1e-12));
}

TEST_CASE("teeth: an idler carries both flanks when driving, its mates one each") {
    // Three gears of the same size class: blows at the input only, driving only.
    const std::string path = std::string(CASELOAD_ROOT) + "/docs/examples/idler.toml";
    Setup setup = Document(file_text(path), "idler.toml", {}).complete().setup;
    const Train train = place_train(setup);
    REQUIRE(train.meshes.size() == 2);
    const MeshStrength first(setup, train, 0);
    const MeshStrength second(setup, train, 1);
    CHECK(first.side_of_driver(true));
    CHECK(!first.side_of_driver(false));
    CHECK(!second.side_of_driver(true));
    CHECK(second.side_of_driver(false));
    CHECK(first.torque_1_per_input() == 1);
    // Torque seen by the idler as a driver: input torque times the ratio of its teeth.
    CHECK(second.torque_1_per_input() ==
          rel(static_cast<double>(train.shafts[1].teeth) / train.shafts[0].teeth, 1e-9));
    for (LegInput& leg : setup.event.legs) {
        if (leg.kind == LegKind::stop) continue;
        leg.course_lines.clear();
        leg.course_peaks_per_h = 0;
        leg.bins = {{1, 20, 1000, 10}};
        leg.peaks = {{5000, 100}};
    }
    const std::vector<GearDamage> gears = gear_damage(setup, calculate_loads(setup));
    CHECK(gears[0].drive.root_share > 0);
    CHECK(gears[0].coast.root_share == 0);
    CHECK(gears[1].drive.root_share > 0);
    CHECK(gears[1].coast.root_share > 0);
    CHECK(gears[2].drive.root_share > 0);
    CHECK(gears[2].coast.root_share == 0);
    // Bent both ways, the idler's roots stand 0.7 of a driver's: its limit against its neighbour's.
    const MeshStress blow = first.at_peak(100);
    CHECK(blow.driven.limit_F_MPa == rel(0.7 * blow.driver.limit_F_MPa, 1e-12));
}

TEST_CASE(
    "teeth: torque peaks of a course are what the tyres bring under twice the weight, not below "
    "the "
    "largest bin with overload") {
    Setup setup = setup_of_ten();
    LegInput& leg = setup.event.legs.front();
    const Loads loads = calculate_loads(setup);
    const VehicleInput& vehicle = setup.vehicle;
    const double grip_Nm = vehicle.grip * vehicle.mass_kg * 9.80665 * vehicle.rolling_radius_m /
                           vehicle.axle_ratio / loads.train.ratio;
    REQUIRE(loads.legs.front().peaks.size() == 1);
    CHECK(loads.legs.front().peaks.front().torque_Nm == rel(2 * grip_Nm, 1e-12));
    CHECK(loads.legs.front().peaks.front().times ==
          rel(leg.course_peaks_per_h * leg.duration_s / 3600, 1e-12));
    // The blow comes from the turning engine, not from its torque.
    setup.vehicle.engine_torque = {{2000, 400}, {5000, 500}};
    setup.vehicle.gearbox = {1.0, 1.5};
    CHECK(calculate_loads(setup).legs.front().peaks.front().torque_Nm == rel(2 * grip_Nm, 1e-12));
    // Little grip for a steep line: its bin is held by the grip, and the overload stands above.
    setup.vehicle.engine_torque.clear();
    setup.vehicle.gearbox.clear();
    setup.vehicle.engine_power_W = 5e6;
    leg.overload = 2.5;
    leg.course_lines.front().grade = 0.8;
    const LegLoads steep = calculate_loads(setup).legs.front();
    double largest_Nm = 0;
    for (const BinLoads& bin : steep.bins)
        largest_Nm = std::max(largest_Nm, std::fabs(bin.bin.torque_Nm));
    CHECK(largest_Nm * 2.5 > 2 * grip_Nm);
    CHECK(steep.peaks.front().torque_Nm == rel(2.5 * largest_Nm, 1e-12));
    // As a drawn or entered load multiplies bins, it multiplies peaks.
    setup.factors.load = 1.2;
    CHECK(calculate_loads(setup).legs.front().peaks.front().torque_Nm ==
          rel(1.2 * 2.5 * largest_Nm, 1e-12));
}

TEST_CASE("teeth: pairs outside the formulas are left out, not guessed") {
    const Setup setup = setup_of_ten();
    iso_21771::Pair pair = place_train(setup).meshes.front().pair;
    CHECK(MeshStrength::covers(pair));
    pair.eps_alpha = 0.95;
    CHECK(!MeshStrength::covers(pair));
    pair.eps_alpha = 1.5;
    pair.T1A_mm = -0.1;
    CHECK(!MeshStrength::covers(pair));
}

TEST_CASE("teeth: scuffing and film use the hottest steel and oil of the event") {
    const Setup setup = setup_of_ten();
    const Prepared prepared = prepare(setup);
    EventHeat cool;
    EventHeat hot;
    for (const double t_s : {0.0, 3600.0}) {
        cool.samples.push_back({t_s, 0, {80, 75, 125}});
        hot.samples.push_back({t_s, 0, {120, 110, 150}});
    }
    const FlankChecks at_80 = flank_checks(prepared, cool);
    const FlankChecks at_120 = flank_checks(prepared, hot);
    REQUIRE(at_80.calculated);
    CHECK(at_120.S_B < at_80.S_B);
    CHECK(at_120.film_ratio < at_80.film_ratio);
    // Steel hotter than rubbing makes the teeth.
    CHECK(at_120.tooth_degC == 150);
    CHECK(at_120.film_tooth_degC == 150);
    CHECK(at_120.contact_degC == rel(150 + at_120.flash_K, 1e-12));
    // S_B as its definition says, from the parts shown.
    CHECK(at_80.S_B == rel((at_80.scuffing_degC - 80) / (at_80.contact_degC - 80), 1e-12));
}

TEST_CASE(
    "teeth: rubbing makes the teeth hotter than the steel, an idler's more, and less in dip") {
    const auto at = [](Setup setup) {
        const Prepared prepared = prepare(setup);
        EventHeat heat;
        for (std::size_t run = 0; run < setup.event.run.size(); ++run)
            heat.samples.push_back({0, static_cast<int>(run), {90, 80, 85}});
        return flank_checks(prepared, heat);
    };
    const auto by_hand_degC = [](const FlankChecks& found, double X_S, double X_mp) {
        return 90 + 0.47 * X_S * X_mp * found.mean_flash_K;
    };
    Setup setup = setup_of_ten();
    const FlankChecks jet = at(setup);
    CHECK(jet.mean_flash_K > 1);
    CHECK(jet.mean_flash_K < jet.flash_K);
    CHECK(jet.tooth_degC == rel(by_hand_degC(jet, 1.2, 1), 1e-12));
    CHECK(jet.film_tooth_degC > 90);
    setup.lubrication.method = Method::dip;
    setup.lubrication.depth_mm = 20;
    const FlankChecks dip = at(setup);
    CHECK(dip.flash_K == rel(jet.flash_K, 1e-12));
    CHECK(dip.tooth_degC == rel(by_hand_degC(dip, 1.0, 1), 1e-12));
    CHECK(dip.S_B > jet.S_B);
    CHECK(dip.film_ratio > jet.film_ratio);
    Setup idler = Document(file_text(std::string(CASELOAD_ROOT) + "/docs/examples/idler.toml"),
                           "idler.toml", {})
                      .complete()
                      .setup;
    idler.lubrication.method = Method::scavenged;
    const FlankChecks three = at(idler);
    CHECK(three.tooth_degC == rel(by_hand_degC(three, 1.2, 1.5), 1e-12));
}

TEST_CASE("teeth: uneven load by the load of each bin, constant where it is entered") {
    const auto of = [](const std::vector<Change>& changes) {
        const Setup setup = setup_of_ten(changes);
        return MeshStrength(setup, place_train(setup), 0);
    };
    const MeshStrength::Running light{.torque_1_Nm = 200, .n_1_rpm = 3000};
    const MeshStrength::Running heavy{.torque_1_Nm = 2000, .n_1_rpm = 3000};
    const Setup setup = setup_of_ten();
    const iso_21771::Pair pair = place_train(setup).meshes.front().pair;
    const MeshStrength straddled = of({});
    for (const auto& running : {light, heavy}) {
        const MeshFactors found = straddled.factors(running);
        const double w_m_Npmm =
            found.K_v * 2000 * running.torque_1_Nm / pair.d_1_mm / setup.gears.face_width_mm;
        const double x = 8.25 * 20 / (2 * w_m_Npmm);
        CHECK(found.K_Hbeta == rel(x <= 1 ? 1 + x : std::sqrt(4 * x), 1e-12));
    }
    CHECK(straddled.factors(light).K_Hbeta > straddled.factors(heavy).K_Hbeta);
    const MeshStrength hub = of({{"gears.support", "\"hub\""}});
    CHECK(hub.factors(heavy).K_Hbeta > straddled.factors(heavy).K_Hbeta);
    const MeshStrength entered =
        of({{"gears.support", "\"hub\""}, {"gears.face_load_factor", "1.25"}});
    CHECK(entered.factors(light).K_Hbeta == 1.25);
    CHECK(entered.factors(heavy).K_Hbeta == 1.25);
    // A blow has its own.
    CHECK(hub.at_peak(8000).factors.K_Hbeta < hub.at_peak(800).factors.K_Hbeta);
    CHECK(hub.at_peak(800).factors.K_v == 1);
    // No relief at this grade unless it is entered.
    CHECK(of({{"gears.tip_relief", "\"15 um\""}}).factors(heavy).K_v <
          straddled.factors(heavy).K_v);
    CHECK(of({{"gears.tip_relief", "\"0 um\""}}).factors(heavy).K_v ==
          straddled.factors(heavy).K_v);
}

TEST_CASE("teeth: a load that touches one end of the face only is said") {
    const auto said = [](const std::vector<Change>& changes) {
        Setup setup = setup_of_ten(changes);
        LegInput& leg = setup.event.legs.front();
        leg.course_lines.clear();
        leg.course_peaks_per_h = 0;
        leg.bins = {{1, 150, 1000, 10}};
        const Notes notes = tooth_notes(setup, gear_damage(setup, calculate_loads(setup)));
        return std::count_if(notes.begin(), notes.end(),
                             [](const Note& note) { return note.id == "gears.face_load"; });
    };
    CHECK(said({}) == 0);
    CHECK(said({{"gears.support", "\"overhung\""}}) == 1);
    CHECK(said({{"gears.support", "\"overhung\""}, {"gears.face_load_factor", "3"}}) == 0);
}

TEST_CASE("teeth: stresses of a mesh from the factors of the standards, by hand") {
    const Setup setup = setup_of_ten();
    const Train train = place_train(setup);
    const iso_21771::Pair& pair = train.meshes.front().pair;
    const MeshStrength strength(setup, train, 0);
    const MeshStress at = strength.at({.torque_1_Nm = 900, .n_1_rpm = 3000});
    // F_t at the reference circle; K_A 1, the other factors one behind the other.
    const double b_mm = setup.gears.face_width_mm;
    const iso_6336_1::ToothLoad load{.F_t_N = 2000 * 900 / pair.d_1_mm, .face_width_mm = b_mm};
    const double w_Npmm = load.F_t_N / b_mm;
    const double f_um = iso_6336_1::deviation_um(setup.gears.accuracy);
    const double rim = setup.gears.rim_bore_ratio;
    const double K_v = iso_6336_1::dynamic_factor(pair, {rim, rim},
                                                  {.w_Npmm = w_Npmm,
                                                   .n_1_rpm = 3000,
                                                   .f_pb_um = f_um,
                                                   .f_f_um = f_um,
                                                   .tip_relief_um = setup.gears.tip_relief_um});
    CHECK(at.factors.K_v == rel(K_v, 1e-12));
    CHECK(K_v > 1);
    // Method C: 1 + F_by c_gb/(2 w_m), 8.25 um between bearings.
    const double K_Hbeta = 1 + 8.25 * 20 / (2 * w_Npmm * K_v);
    REQUIRE(K_Hbeta < 2);
    CHECK(at.factors.K_Hbeta == rel(K_Hbeta, 1e-12));
    // Method B, spur: eps/2 (0.9 + 0.4 c_g f_eff/w_H), from 1 to 1/Z_eps^2 on the flank.
    REQUIRE(pair.eps_beta == 0);
    const double K_alpha =
        pair.eps_alpha / 2 *
        (0.9 + 0.4 * 14 * (0.75 * pair.eps_alpha + 0.25) * 0.925 * f_um / (w_Npmm * K_v * K_Hbeta));
    const double K_Halpha = std::clamp(K_alpha, 1.0, 3 / (4 - pair.eps_alpha));
    const double K_Falpha =
        std::clamp(K_alpha, 1.0, pair.eps_alpha / (0.25 * pair.eps_alpha + 0.75));
    CHECK(at.factors.K_Halpha == rel(K_Halpha, 1e-12));
    CHECK(at.factors.K_Falpha == rel(K_Falpha, 1e-12));
    // ISO 6336-1: K_Fbeta = K_Hbeta^N, N = (b/h)^2 / (1 + b/h + (b/h)^2), h 2.25 modules.
    const double b_h = b_mm / (2.25 * setup.gears.module_mm);
    const double K_Fbeta = std::pow(K_Hbeta, b_h * b_h / (1 + b_h + b_h * b_h));
    for (const auto& [gear, found] : {std::pair{iso_6336_3::Gear::driver, at.driver},
                                      std::pair{iso_6336_3::Gear::driven, at.driven}}) {
        const iso_6336_3::RootForm form = iso_6336_3::root_form(pair, gear);
        CHECK(
            found.sigma_F_MPa ==
            rel(iso_6336_3::nominal_stress_MPa(pair, form, load) * K_v * K_Fbeta * K_Falpha, 1e-9));
    }
    const double nominal_H = iso_6336_2::nominal_stress_MPa(pair, load);
    // Single contact of gear 1 lies at the pitch point or worse.
    CHECK(at.driver.sigma_H_MPa >= 0.999999 * nominal_H * std::sqrt(K_v * K_Hbeta * K_Halpha));
    CHECK(at.driven.sigma_H_MPa == rel(nominal_H * std::sqrt(K_v * K_Hbeta * K_Halpha), 0.05));
}

TEST_CASE("teeth: scuffing uses the force along the line of action, by hand") {
    Setup setup = with_blows(50);
    LegInput& leg = setup.event.legs.front();
    leg.peaks.clear();
    leg.overload = 1.3;
    leg.bins = {{1, 900, 3000, 20}};
    const Prepared prepared = prepare(setup);
    EventHeat heat;
    for (const double t_s : {0.0, 3600.0}) heat.samples.push_back({t_s, 0, {90, 80, 100}});
    const FlankChecks found = flank_checks(prepared, heat);
    REQUIRE(found.calculated);
    const Train& train = prepared.loads.train;
    const iso_21771::Pair& pair = train.meshes.front().pair;
    const MeshStrength strength(setup, train, 0);
    // 900 N m and the overload on the base circle of gear 1, with the load factors of the flank.
    const double torque_Nm = 1.3 * 900;
    const double w_Npmm = strength.factors({.torque_1_Nm = torque_Nm, .n_1_rpm = 3000}).flank() *
                          2000 * torque_Nm / pair.d_b1_mm / setup.gears.face_width_mm;
    const bool synthetic = setup.oil.synthetic;
    const double X_L = synthetic ? 0.8 : 1.0;
    const double eta_mPas = astm_d341::viscosity_mm2ps(prepared.oil.sheared, 90) *
                            oil_density_kgpm3(prepared.oil, 90) / 1000;
    const double mu = iso_6336_20::friction(pair, {.w_Npmm = w_Npmm,
                                                   .n_1_rpm = 3000,
                                                   .eta_mPas = eta_mPas,
                                                   .Ra_um = setup.gears.flank_Ra_um,
                                                   .X_L = X_L});
    CHECK(found.flash_K == rel(iso_6336_20::flash_K(iso_6336_20::flash_shape(pair).largest,
                                                    {.mu = mu, .w_Npmm = w_Npmm, .n_1_rpm = 3000}),
                               1e-9));
    CHECK(found.tooth_degC >= 100);
    CHECK(found.contact_degC == rel(found.tooth_degC + found.flash_K, 1e-12));
    // 80 + (0.85 + 1.4) X_L stage^2.
    CHECK(found.scuffing_degC ==
          rel(80 + 2.25 * X_L * setup.oil.scuffing_stage * setup.oil.scuffing_stage, 1e-9));
    // The film of the same bin goes without the overload: more torque, thinner.
    leg.overload = 2;
    CHECK(flank_checks(prepare(setup), heat).film_ratio == found.film_ratio);
    CHECK(flank_checks(prepare(setup), heat).S_B < found.S_B);
}

TEST_CASE(
    "teeth: a film is calculated above 3 m/s of the pitch line, and not without torque or speed") {
    Setup setup = with_blows(50);
    LegInput& leg = setup.event.legs.front();
    leg.peaks.clear();
    EventHeat heat;
    for (const double t_s : {0.0, 3600.0}) heat.samples.push_back({t_s, 0, {90, 80, 100}});
    const double d_w_m = place_train(setup).meshes.front().pair.d_w1_mm / 1000;
    const auto at = [&](double torque_Nm, double v_mps) {
        leg.bins = {{1, torque_Nm, v_mps / (pi * d_w_m) * 60, 5}};
        return flank_checks(prepare(setup), heat);
    };
    CHECK(at(500, 2.999).film_ratio == 0);
    CHECK(at(500, 3.001).film_ratio > 0);
    CHECK(at(500, 2.999).S_B < 100);
    // Coast is torque as well; none at all leaves the margin at its largest.
    CHECK(at(-500, 10).S_B == rel(at(500, 10).S_B, 1e-12));
    CHECK(at(0, 10).S_B == 100);
    CHECK(at(0, 10).film_ratio == 0);
    leg.bins = {{1, 500, 0, 0}};
    CHECK(flank_checks(prepare(setup), heat).S_B == 100);
}

TEST_CASE("teeth: the share of the driving time in the resonance of the mesh, by hand") {
    Setup setup = with_blows(50);
    LegInput& leg = setup.event.legs.front();
    leg.peaks.clear();
    const iso_6336_1::SpeedRange range = MeshStrength(setup, place_train(setup), 0).resonance();
    const double inside_rpm = (range.from_rpm + range.to_rpm) / 2;
    leg.bins = {{0.25, 50, inside_rpm, 10},
                {0.35, 50, range.from_rpm * 0.999, 10},
                {0.40, 50, range.to_rpm * 1.001, 10}};
    leg.duration_s = 1000;
    // A stop counts for nothing, a second drive leg all outside halves it by its time.
    LegInput outside = leg;
    outside.name = "outside";
    outside.bins = {{1, 50, range.from_rpm * 0.5, 10}};
    outside.duration_s = 3000;
    LegInput stop = leg;
    stop.name = "stop";
    stop.kind = LegKind::stop;
    stop.bins.clear();
    setup.event.legs.push_back(outside);
    setup.event.legs.push_back(stop);
    setup.event.run = {0, 1, 2};
    EventHeat heat;
    for (const int run : {0, 0, 1, 2}) heat.samples.push_back({0, run, {90, 80, 100}});
    const FlankChecks found = flank_checks(prepare(setup), heat);
    CHECK(found.resonance_from_rpm == range.from_rpm);
    CHECK(found.resonance_to_rpm == range.to_rpm);
    CHECK(found.resonance_time_share == rel(0.25 * 1000 / 4000, 1e-9));
}

TEST_CASE("teeth: the margins shown are the least of all bins, whichever does most damage") {
    Setup setup = with_blows(50);
    LegInput& leg = setup.event.legs.front();
    leg.peaks.clear();
    // Seconds at a high torque, hours at one that does the damage.
    leg.bins = {{0.0001, 2600, 60, 1}, {0.9999, 2000, 3000, 20}};
    const GearDamage both = first_gear(setup);
    leg.bins = {{1, 2600, 60, 1}};
    const GearDamage high = first_gear(setup);
    leg.bins = {{1, 2000, 3000, 20}};
    const GearDamage low = first_gear(setup);
    REQUIRE(high.S_H < low.S_H);
    REQUIRE(0.9999 * worst(low).flank_share > 0.0001 * worst(high).flank_share);
    CHECK(both.S_H == high.S_H);
    CHECK(both.S_F == high.S_F);
    CHECK(both.sigma_H_MPa == high.sigma_H_MPa);
    CHECK(both.sigma_F_MPa == high.sigma_F_MPa);
    CHECK(both.K_v == low.K_v);  // of the most damaging bin
    CHECK(both.K_Halpha == low.K_Halpha);
    CHECK(both.bin_flank_share == high.bin_flank_share);
    // Root stress goes with torque: S_F times what breaks at once is the first point of the curve.
    CHECK(high.bin_root_share == rel(1 / (2.5 * high.S_F), 1e-12));
    CHECK(high.bin_flank_share == rel(1 / std::pow(1.6 * high.S_H, 2), 1e-12));
}

TEST_CASE(
    "teeth: a load above the static limit counts each cycle as a life, and the check says so") {
    // The static limit of the flank's life curve, 1.6 at 1e5 cycles, lies between both widths.
    const auto flank = [](const std::string& width) {
        const std::string path = std::string(CASELOAD_ROOT) + "/docs/examples/light.toml";
        const Assessment answer =
            assess(Document(file_text(path), "light.toml", {})
                       .complete(std::vector<Change>{{"vehicle.mass", "\"3400 kg\""},
                                                     {"gears.face_load_factor", "1.15"},
                                                     {"gears.tip_relief", "\"15 um\""},
                                                     {"gears.face_width", "\"" + width + "\""}})
                       .setup);
        Check most;
        for (const Check& check : answer.fitted.checked.checks)
            if (check.id == CheckId::gear_flank && check.value > most.value) most = check;
        return most;
    };
    const Check wide = flank("7.5400 mm");
    const Check narrow = flank("7.5390 mm");
    CHECK(wide.value < 200);  // each torque peak, which is above the limit on both widths
    CHECK(wide.words == "flank life used this event");
    CHECK(narrow.value > 1e4);
    CHECK(narrow.words ==
          "flank life used this event, a load above the static limit: each of its cycles counts as "
          "a whole life");
}

TEST_CASE("teeth: margins of an event beyond 160 degC are those at 160, and say so") {
    const Setup setup = setup_of_ten();
    const Prepared prepared = prepare(setup);
    const auto at = [&](double oil_degC) {
        EventHeat heat;
        heat.peak_oil_degC = oil_degC;
        for (const double t_s : {0.0, 3600.0})
            heat.samples.push_back({t_s, 0, {oil_degC, oil_degC - 10, oil_degC - 1}});
        return check_case(prepared, heat, event_damage(prepared, heat));
    };
    const auto words = [](const Checked& checked) {
        for (const Check& check : checked.checks)
            if (check.id == CheckId::gears_scuffing) return check.words;
        return std::string{};
    };
    const Checked at_159 = at(159.9);
    const Checked at_170 = at(170);
    const Checked at_190 = at(190);
    CHECK(!at_159.flanks.above_ceiling);
    CHECK(words(at_159) == "margin against scuffing");
    CHECK(at_170.flanks.above_ceiling);
    CHECK(at_170.flanks.S_B == at_190.flanks.S_B);
    CHECK(words(at_170) == "margin against scuffing, at 160 degC: it runs hotter, with less");
}

}  // namespace caseload::teeth_tests
