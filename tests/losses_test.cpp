// SPDX-License-Identifier: MIT
// Losses of whole cases. Expected powers: formulas written out again in Python with the oil and air
// values of the thermal tables (75W-90 synthetic at 80 degC: 826.674 kg/m3, 26.375 mm2/s; air at
// 80 degC: 0.9995 kg/m3, 2.0874e-5 Pa s), all to the figures printed. Long: one loss at a time.
#include "caseload/assess.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/units.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::losses_tests {

namespace {

// 35/39 teeth, module 5 mm, 185 mm: tip circles of 185 and 205 mm, pitch circles of 175 and 195.
Setup dip(const std::string& drop, double depth_mm) {
    return examples::alone("dip.toml",
                           {{"case.drop_direction", "\"" + drop + "\""},
                            {"lubrication.depth", "\"" + std::to_string(depth_mm) + " mm\""}});
}

LossLedger at_80(const Setup& setup, bool pump = true) {
    const Prepared prepared = prepare(setup);
    return losses_at(setup, prepared.loads, prepared.oil, prepared.losses.front(), {80, pump})
        .ledger;
}

LossLedger at_80(const Setup& setup, const Bin& bin) {
    return at_80(examples::with_bins(setup, {bin}));
}

}  // namespace

TEST_CASE("dip: depth of each pitch circle from centres and drop direction, by hand") {
    const auto depths = [](const std::string& drop) {
        const Setup setup = dip(drop, 32);
        return pitch_depths_mm(place_train(setup), *setup.lubrication.depth_mm);
    };
    // Level 32 mm over the lowest tip circle. Straight down: the output's, at -185 - 102.5.
    CHECK(depths("0 deg")[1] == rel(27, 1e-9));
    CHECK(depths("0 deg")[0] == rel(-255.5 + 87.5, 1e-9));
    // 20 deg aside: output centre at -185 cos 20.
    const double level_20 = -185 * std::cos(20 * pi / 180) - 102.5 + 32;
    CHECK(depths("20 deg")[1] == rel(27, 1e-9));
    CHECK(depths("20 deg")[0] == rel(level_20 + 87.5, 1e-9));
    CHECK(depths("-20 deg")[0] == rel(level_20 + 87.5, 1e-9));
    // Side by side: the larger output stands lower, level -70.5.
    CHECK(depths("90 deg")[0] == rel(17, 1e-9));
    CHECK(depths("90 deg")[1] == rel(27, 1e-9));
    // Output on top: the input's tip circle is the lowest.
    CHECK(depths("180 deg")[0] == rel(27, 1e-9));
    CHECK(depths("180 deg")[1] == rel(-60.5 - 87.5, 1e-9));
}

TEST_CASE("dip: churning in the slow branch, between the branches and in the fast one") {
    const double printed = 2e-5;  // viscosity and density have five and six figures
    const Setup one = dip("0 deg", 32);
    CHECK(at_80(one, {1, 300, 1500, 15}).churning_W == rel(44.65173, printed));
    CHECK(at_80(one, {1, 300, 2100, 15}).churning_W == rel(219.2321, printed));
    CHECK(at_80(one, {1, 300, 5000, 15}).churning_W == rel(970.6251, printed));
    const Setup both = dip("90 deg", 32);
    CHECK(at_80(both, {1, 300, 1500, 15}).churning_W == rel(70.17102, printed));
    CHECK(at_80(both, {1, 300, 2100, 15}).churning_W == rel(406.9771, printed));
    CHECK(at_80(both, {1, 300, 5000, 15}).churning_W == rel(1534.817, printed));
    // Coasting turns the gears as well; time shares weigh.
    CHECK(at_80(one, {1, -50, 1500, 15}).churning_W == rel(44.65173, printed));
    const Setup shared = examples::with_bins(one, {{0.25, 300, 1500, 15}, {0.75, 300, 5000, 15}});
    CHECK(at_80(shared).churning_W == rel(0.25 * 44.65173 + 0.75 * 970.6251, printed));
}

TEST_CASE("dip: windage acts on the part of each rim above the oil") {
    const Setup one = dip("0 deg", 32);
    const Bin slow{1, 300, 1500, 15};
    const Bin fast{1, 300, 5000, 15};
    // Air and mist of 0.002 oil by volume round the input gear, which is dry. The output's pitch
    // circle of 195 mm is 27 mm deep: 1 - acos(1 - 27/97.5)/pi = 0.7573 of its rim is above the
    // oil. Touching only with its tips, 5 mm of teeth, all of it.
    const LossLedger touched = at_80(dip("0 deg", 4.9), fast);
    CHECK(touched.churning_W == 0);
    const double input_W = 149.5246;
    const double output_W = touched.windage_W - input_W;
    CHECK(output_W > 50);
    const double dry = 1 - std::acos(1 - 27 / 97.5) / pi;
    CHECK(dry == rel(0.7573, 1e-4));
    CHECK(at_80(one, fast).windage_W == rel(input_W + dry * output_W, 1e-4));
    CHECK(at_80(one, slow).windage_W > 5.455016);  // of the input alone
    // Beyond its axis.
    CHECK(at_80(dip("0 deg", 120), fast).windage_W ==
          rel(input_W + (1 - std::acos(1 - 115 / 97.5) / pi) * output_W, 1e-4));
}

TEST_CASE("dip: heat has no step where a gear begins to dip") {
    // It fell from 137 to 64 W of windage between 5.0 and 5.1 mm of the tip circle.
    double last_W = -1;
    for (double depth_mm = 4.9; depth_mm < 5.3; depth_mm += 0.005) {
        const LossLedger at = at_80(dip("0 deg", depth_mm), {1, 300, 5000, 15});
        const double W = at.windage_W + at.churning_W;
        if (last_W >= 0) CHECK(std::fabs(W - last_W) < 0.03 * W);
        last_W = W;
    }
}

TEST_CASE("scavenged: helix and face width change heat without a step") {
    const Bin fast{1, 300, 5000, 15};
    const auto drag_W = [&](double helix_deg, double width_mm) {
        Setup setup = examples::alone("light.toml");
        setup.gears.helix_angle_deg = helix_deg;
        setup.gears.hand_on_input = helix_deg > 0 ? Hand::right : Hand::none;
        setup.gears.face_width_mm = width_mm;
        return at_80(setup, fast);
    };
    const LossLedger spur = drag_W(0, 45);
    const LossLedger next = drag_W(0.01, 45);
    CHECK(spur.pocketing_W > 1);
    CHECK(next.windage_W == rel(spur.windage_W, 1e-3));
    CHECK(next.pocketing_W == rel(spur.pocketing_W, 2e-3));
    // Teeth that overlap whole: 0.8 of the windage, nothing squeezed.
    const LossLedger helical = drag_W(12, 90);
    CHECK(helical.windage_W == rel(0.8 * drag_W(0, 90).windage_W, 1e-9));
    CHECK(helical.pocketing_W == 0);
    for (const double modules : {5.0, 6.0, 7.0})
        CHECK(drag_W(0, 5.001 * modules).pocketing_W - drag_W(0, 4.999 * modules).pocketing_W <
              0.01 * spur.pocketing_W);
    CHECK(drag_W(0, 24.9).pocketing_W == 0);
    CHECK(drag_W(0, 30).pocketing_W > 0);
}

TEST_CASE("dip: no oil is thrown or squeezed, and a pump makes its own loss only") {
    const std::vector<Change> pump{
        {"lubrication.pump.flow", "\"9 L/min\""},
        {"gears.face_width", "\"45 mm\""}};  // 9 modules: a scavenged mesh squeezes oil
    const Setup dipped = examples::alone("dip.toml", pump);
    Setup scavenged = dipped;
    scavenged.lubrication.method = Method::scavenged;
    const Bin bin{1, 300, 5000, 15};
    CHECK(at_80(dipped, bin).thrown_W == 0);
    CHECK(at_80(dipped, bin).pocketing_W == 0);
    CHECK(at_80(scavenged, bin).thrown_W > 0);
    CHECK(at_80(scavenged, bin).pocketing_W > 0);
    CHECK(at_80(scavenged, bin).churning_W == 0);
    // 2 bar x 9 L/min / 0.5 = 60 W either way.
    CHECK(at_80(dipped, bin).pump_W == rel(60, 1e-12));
    CHECK(at_80(scavenged, bin).pump_W == rel(60, 1e-12));
}

TEST_CASE("dip: the factor of fast churning comes in from 15 to 35 m/s of the pitch circle") {
    Setup setup = dip("0 deg", 32);
    // Output pitch circle 195 mm, ratio 39/35.
    const auto churning_W = [&](double v_mps) {
        return at_80(setup, {1, 300, v_mps / 0.0975 * 30 / pi * 39 / 35, 15}).churning_W;
    };
    const double slow_W = churning_W(14.99);
    const double between_W = churning_W(25);
    const double fast_W = churning_W(35.01);
    setup.factors.churning = 3;
    CHECK(churning_W(14.99) == rel(3 * slow_W, 1e-12));
    CHECK(churning_W(25) == rel(std::sqrt(3) * between_W, 1e-9));
    CHECK(churning_W(35.01) == rel(fast_W, 1e-12));
    setup.factors.churning = 1;
    setup.factors.churning_fast = 2;
    CHECK(churning_W(14.99) == rel(slow_W, 1e-12));
    CHECK(churning_W(25) == rel(std::sqrt(2) * between_W, 1e-9));
    CHECK(churning_W(35.01) == rel(2 * fast_W, 1e-12));
    // No step anywhere between.
    for (double v_mps = 14; v_mps < 36; v_mps += 0.5)
        CHECK(churning_W(1.0005 * v_mps) == rel(churning_W(v_mps), 1e-2));
}

TEST_CASE("dip: deeper churns more, a small fill counts as the least volume tested") {
    double last_W = 0;
    for (double depth_mm = 6; depth_mm < 200; depth_mm += 4) {
        const double W = at_80(dip("90 deg", depth_mm), {1, 300, 3000, 15}).churning_W;
        CHECK(W > last_W);
        last_W = W;
    }
    // 0.3 x (195 mm)^3 = 2.224 L; below it only the density of the fill would move, and it does
    // not.
    Setup setup = dip("0 deg", 32);
    const Bin bin{1, 300, 1500, 15};
    setup.oil.fill_L = 2.2;
    const double at_limit_W = at_80(setup, bin).churning_W;
    setup.oil.fill_L = 1.2;
    CHECK(at_80(setup, bin).churning_W == rel(at_limit_W, 1e-12));
    // Above it the slow branch rises with the 0.1th power: 44.65173 W at 2.4 L.
    setup.oil.fill_L = 4.8;
    CHECK(at_80(setup, bin).churning_W == rel(44.65173 * std::pow(2, 0.1), 2e-5));
}

TEST_CASE("dip: bearings get splash, scavenged ones damp, unless entered") {
    // Friction factors of deep groove and cylindrical roller bearings: both of series 10 in
    // these cases: bath of splashed oil 1.7 and 2, damp 1.09 and 1.61.
    const auto f0 = [](const Setup& setup, std::size_t bearing) {
        return calculate_loads(setup).bearings.at(bearing).f0;
    };
    const Setup dipped = examples::alone("dip.toml");
    CHECK(f0(dipped, 0) == 2);
    CHECK(f0(dipped, 1) == 1.7);
    CHECK(dipped.bearings[1].oil_reaching_Lpmin == 0.3);
    CHECK(dipped.housing.oil_wetted_share == 0.8);
    const Setup scavenged = examples::alone("light.toml");
    CHECK(f0(scavenged, 0) == 1.61);
    CHECK(f0(scavenged, 1) == 1.09);
    CHECK(scavenged.bearings[1].oil_reaching_Lpmin == 0.1);
    CHECK(scavenged.housing.oil_wetted_share == 0.5);
    for (const auto& [word, factor, reaching_Lpmin] :
         {std::tuple{"jet", 3.4, 1.0}, std::tuple{"splash", 1.7, 0.3},
          std::tuple{"damp", 1.09, 0.1}, std::tuple{"mist", 0.7, 0.03}}) {
        const Setup said = examples::alone(
            "dip.toml", {{"bearing.input_rear.oil", "\"" + std::string(word) + "\""}});
        CHECK(f0(said, 1) == factor);
        CHECK(said.bearings[1].oil_reaching_Lpmin == reaching_Lpmin);
    }
    CHECK(f0(examples::alone("dip.toml", {{"bearing.input_rear.f0", "2.2"}}), 1) == 2.2);
}

TEST_CASE("seals: nitrile by its own constant, every other kind as fluoro-elastomer, lips add") {
    Setup setup = dip("0 deg", 32);
    const Bin bin{1, 300, 3000, 15};
    const auto seals_W = [&](const std::string& shaft, SealMaterial material, int lips) {
        setup.seals = {{"one", shaft, 70, material, lips}};
        return at_80(setup, bin).seals_W;
    };
    // 3.737e-3 x 70 mm = 0.26159 N m at 314.159 rad/s; the output turns 35/39 as fast.
    const double fluoro_W = 0.26159 * 100 * pi;
    for (const SealMaterial other : {SealMaterial::FKM, SealMaterial::HNBR, SealMaterial::ACM,
                                     SealMaterial::VMQ, SealMaterial::PTFE})
        CHECK(seals_W("input", other, 1) == rel(fluoro_W, 1e-12));
    CHECK(seals_W("input", SealMaterial::NBR, 1) == rel(2.429e-3 * 70 * 100 * pi, 1e-12));
    CHECK(seals_W("output", SealMaterial::FKM, 1) == rel(fluoro_W * 35 / 39, 1e-12));
    CHECK(seals_W("input", SealMaterial::FKM, 2) == rel(1.5 * fluoro_W, 1e-12));
    CHECK(seals_W("input", SealMaterial::FKM, 3) == rel(2 * fluoro_W, 1e-12));
}

TEST_CASE("pump: an input-driven one follows the input, an electric one does not") {
    const std::vector<Change> input{{"lubrication.pump.drive", "\"input\""},
                                    {"lubrication.pump.rated_speed", "\"4000 rpm\""},
                                    {"lubrication.pump.flow", "\"9 L/min\""}};
    const Setup driven = examples::alone("light.toml", input);
    const Setup electric = examples::alone("light.toml");
    CHECK(pump_flow_Lpmin(driven, 4000) == rel(9, 1e-12));
    CHECK(pump_flow_Lpmin(driven, 1000) == rel(2.25, 1e-12));
    CHECK(pump_flow_Lpmin(electric, 1000) == 9);
    // 2 bar x flow / 0.5: 60 W at 9 L/min, a quarter at a quarter of the speed.
    CHECK(at_80(driven, {1, 300, 1000, 15}).pump_W == rel(15, 1e-12));
    CHECK(at_80(electric, {1, 300, 1000, 15}).pump_W == rel(60, 1e-12));
    // Thrown: 826.674 kg/m3 x 2.25 L/min x v (v - 20 m/s) x 1.5; 33/41 teeth, pitch circle 165 mm.
    const double v = 5000 * pi / 30 * 0.0825;
    CHECK(at_80(driven, {1, 300, 5000, 15}).thrown_W ==
          rel(826.674 * 9 * 1.25 / 60000 * v * (v - 20) * 1.5, 2e-6));
    // Slower than the jet: not below zero.
    CHECK(at_80(electric, {1, 300, 2000, 15}).thrown_W == 0);
    Setup off = examples::with_bins(electric, {{1, 300, 5000, 15}});
    CHECK(at_80(off, false).pump_W == 0);
    CHECK(at_80(off, false).thrown_W == 0);
}

TEST_CASE("losses: force, speed and viscosity given to each mesh, by hand") {
    // Three gears of 30, 36 and 42 teeth in a row: 800 N m at 2500 r/min of the input.
    const Setup setup = examples::with_bins(examples::alone("idler.toml"), {{1, -800, 2500, 20}});
    const Loads loads = calculate_loads(setup);
    const PreparedLosses prepared = prepare_losses(
        setup, loads, loads.legs.front(), bearing_paths(setup, loads, make_oil(setup.oil)));
    REQUIRE(loads.train.meshes.size() == 2);
    const auto& terms = prepared.bins.front().meshes;
    double torque_Nm = 800;
    double omega_radps = 2500 * 2 * pi / 60;
    for (std::size_t m = 0; m < 2; ++m) {
        const iso_21771::Pair& pair = loads.train.meshes[m].pair;
        // Along the line of action: torque over the base circle.
        CHECK(terms[m].F_bt_Npmm ==
              rel(2000 * torque_Nm / pair.d_b1_mm / setup.gears.face_width_mm, 1e-9));
        CHECK(terms[m].power_W == rel(800 * 2500 * 2 * pi / 60, 1e-9));
        CHECK(terms[m].pitch_speed_mps == rel(omega_radps * pair.d_w1_mm / 2000, 1e-9));
        CHECK(terms[m].rho_redC_mm == pair.rho_redC_mm);
        torque_Nm *= static_cast<double>(pair.z_2) / pair.z_1;
        omega_radps *= static_cast<double>(pair.z_1) / pair.z_2;
    }
}

TEST_CASE("losses: a note says where a loss leaves the tested range") {
    const auto notes = [](const Setup& setup, const Bin& bin) {
        return assess(examples::with_bins(setup, {bin})).notes;
    };
    using examples::has_note;
    const Setup one = dip("0 deg", 32);
    const Notes slow = notes(one, {1, 100, 1000, 12});
    CHECK(has_note(slow, "losses.depth", "gear.input"));
    CHECK(has_note(slow, "losses.depth", "gear.output"));
    for (const std::string id :
         {"losses.churning_speed", "losses.churning_blend", "losses.churning_volume",
          "losses.churning_deep", "losses.tip_only"})
        CHECK(!has_note(slow, id, "gear.output"));
    CHECK(!has_note(slow, "losses.mesh_speed", "gears"));
    CHECK(!has_note(slow, "losses.lip_speed", "seal.input"));
    // 25 m/s at 2728 r/min; between 750 and 1250 m/s2 from 1791 to 2313 r/min.
    CHECK(!has_note(notes(one, {1, 100, 2700, 12}), "losses.churning_speed", "gear.output"));
    CHECK(has_note(notes(one, {1, 100, 2760, 12}), "losses.churning_speed", "gear.output"));
    CHECK(!has_note(notes(one, {1, 100, 1780, 12}), "losses.churning_blend", "gear.output"));
    CHECK(has_note(notes(one, {1, 100, 1800, 12}), "losses.churning_blend", "gear.output"));
    CHECK(has_note(notes(one, {1, 100, 2300, 12}), "losses.churning_blend", "gear.output"));
    CHECK(!has_note(notes(one, {1, 100, 2325, 12}), "losses.churning_blend", "gear.output"));
    CHECK(has_note(notes(dip("0 deg", 3), {1, 100, 1000, 12}), "losses.tip_only", "gear.output"));
    CHECK(has_note(notes(dip("0 deg", 110), {1, 100, 1000, 12}), "losses.churning_deep",
                   "gear.output"));
    Setup little = one;
    little.oil.fill_L = 2.2;  // 0.3 x (195 mm)^3 = 2.224 L
    CHECK(has_note(notes(little, {1, 100, 1000, 12}), "losses.churning_volume", "gear.output"));
    // 9000 = omega R b / nu with 26.375 mm2/s at 80 degC: the output at 64.07 rad/s, 681.7 r/min
    // in.
    const auto at_80_degC = [&](double n_rpm) {
        const Setup setup = examples::with_bins(one, {{1, 100, n_rpm, 12}});
        const Loads loads = calculate_loads(setup);
        return loss_notes(setup, loads, make_oil(setup.oil),
                          prepare_losses(setup, loads, loads.legs.front(),
                                         bearing_paths(setup, loads, make_oil(setup.oil))),
                          80);
    };
    CHECK(!has_note(at_80_degC(679), "losses.churning_Re", "gear.output"));
    CHECK(has_note(at_80_degC(684), "losses.churning_Re", "gear.output"));
    // Above 1250 m/s2 the fast branch counts alone.
    CHECK(!has_note(at_80_degC(2400), "losses.churning_Re", "gear.output"));
    // 50 m/s of 87.5 mm radius: 5457 r/min. Lips: 70 mm at 6821 r/min run 25 m/s; nitrile 14 m/s at
    // 3820 r/min.
    CHECK(!has_note(notes(one, {1, 100, 5440, 20}), "losses.mesh_speed", "gears"));
    CHECK(has_note(notes(one, {1, 100, 5480, 20}), "losses.mesh_speed", "gears"));
    CHECK(!has_note(notes(one, {1, 100, 6800, 20}), "losses.lip_speed", "seal.input"));
    CHECK(has_note(notes(one, {1, 100, 6850, 20}), "losses.lip_speed", "seal.input"));
    Setup nitrile = one;
    for (SealInput& seal : nitrile.seals) seal.material = SealMaterial::NBR;
    CHECK(!has_note(notes(nitrile, {1, 100, 3800, 20}), "losses.lip_speed", "seal.input"));
    CHECK(has_note(notes(nitrile, {1, 100, 3840, 20}), "losses.lip_speed", "seal.input"));
    Setup helical = one;
    helical.gears.helix_angle_deg = 15;
    const Loads loads = calculate_loads(one);
    CHECK(has_note(loss_notes(helical, loads, make_oil(one.oil),
                              prepare_losses(one, loads, loads.legs.front(),
                                             bearing_paths(one, loads, make_oil(one.oil))),
                              80),
                   "losses.helical", "gears"));
}

TEST_CASE("dip: a fill that does not go with its depth is asked about") {
    // Floor 148 x 238 mm, 20 + 10 mm deep, without the dipped segment of a gear of 107.5 mm tip
    // radius and 42 mm width: 0.985 L; a factor of two either way.
    const auto asked = [](const std::string& fill) {
        const ReadSetup read =
            Document(examples::text("dip.toml").value(), "dip.toml", examples::text)
                .complete(std::vector<Change>{{"gears.fitted", "[33, 41]"},
                                              {"gears.face_width", "\"42 mm\""},
                                              {"lubrication.depth", "\"20 mm\""},
                                              {"oil.fill", "\"" + fill + "\""}});
        return examples::has_note(read.notes, "ask.fill_depth", "lubrication.depth");
    };
    CHECK(asked("0.490 L"));
    CHECK(!asked("0.495 L"));
    CHECK(!asked("1.965 L"));
    CHECK(asked("1.975 L"));
}

TEST_CASE("pump dead: the fill lies on the floor, the gears are in the middle of the height") {
    // 33/41 teeth at 185 mm: tips of 175 and 215 mm, together 380 mm high; housing 180 x 270 x 450
    // with 16 mm walls: 148 x 238 mm of floor, 418 mm high, so 19 mm under the lowest tip.
    Setup setup = examples::alone("light.toml");
    const auto bottom = [&] { return oil_at_bottom(setup, place_train(setup)); };
    CHECK(bottom().level_mm == rel(2.6e6 / (148.0 * 238), 1e-12));
    CHECK(bottom().tip_depth_mm == rel(2.6e6 / (148.0 * 238) - 19, 1e-9));
    setup.housing.high_mm = 350;  // the gears fill it: nothing under them
    CHECK(bottom().tip_depth_mm == rel(2.6e6 / (148.0 * 238), 1e-12));
}

TEST_CASE("pump dead: the case is that of a dipped setup, and the verdict does not depend on it") {
    const Setup setup = examples::alone("light.toml");
    const Assessment answer = assess(setup);
    const PumpDead& dead = answer.pump_dead;
    CHECK(dead.asked);
    CHECK(dead.reaches_gears);
    // The same case written down as a dipped one without pump and cooler.
    Setup dipped = examples::alone(
        "light.toml", {{"lubrication.method", "\"dip\""},
                       {"lubrication.depth", "\"" + std::to_string(dead.tip_depth_mm) + " mm\""},
                       {"cooler.fit", "false"}});
    dipped.lubrication.pump.reset();
    const Prepared prepared = prepare(dipped);
    double hottest_degC = 0;
    double short_by_W = 0;
    for (std::size_t leg = 0; leg < dipped.event.legs.size(); ++leg) {
        if (dipped.event.legs[leg].kind != LegKind::drive) continue;
        const Steady rest = steady(prepared, leg, {});
        hottest_degC = std::max(hottest_degC, rest.nodes.oil_degC);
        short_by_W = std::max(short_by_W, rest.short_by_W);
    }
    // The depth was printed to 1e-6 mm; without a balance no temperature is told.
    CHECK(dead.oil_degC == rel(dead.found ? hottest_degC : oil_ceiling_degC + 1, 1e-6));
    CHECK(dead.short_by_W == rel(short_by_W, 1e-5));
    CHECK(dead.churning_W > 0);
    CHECK(dead.leg == "loop");
    // The verdict: as if nobody had asked.
    CHECK(answer.stopped_by.empty());
    CHECK(answer.fitted.legs.front().at_rest.losses.ledger.churning_W == 0);
    CHECK(!assess(examples::alone("dip.toml")).pump_dead.asked);
}

TEST_CASE("pump dead: a fill whose level is below the gears does not reach them") {
    Setup setup = examples::alone("light.toml");
    setup.oil.fill_L = 0.6;  // 17 mm deep, 19 mm under the lowest tip
    const PumpDead dead = pump_dead(setup);
    CHECK(dead.asked);
    CHECK(!dead.reaches_gears);
    CHECK(dead.tip_depth_mm < 0);
    setup.oil.fill_L = 0.7;
    CHECK(pump_dead(setup).reaches_gears);
}

namespace {

PreparedLosses::BearingTerm film_term(double n_rpm, double load_torque_Nmm, double friction) {
    return {.n_rpm = n_rpm,
            .f0 = 3,
            .d_m_mm = 120,
            .load_torque_Nmm = load_torque_Nmm,
            .path_WpK = 13,
            .friction = friction};
}

}  // namespace

TEST_CASE("film temperature: film, loss and path are in balance, wherever the search begins") {
    const Oil oil = make_oil(examples::alone("light.toml", {}).oil);
    int searched = 0;
    int two = 0;
    for (const double n_rpm : {30.0, 400.0, 3000.0, 9000.0})
        for (const double load_Nmm : {0.0, 800.0, 9000.0})
            for (const double friction : {0.3, 1.0, 60.0})
                for (double unheated_degC = -40; unheated_degC <= 160; unheated_degC += 0.1) {
                    const auto term = film_term(n_rpm, load_Nmm, friction);
                    const BearingRun run = run_bearing(oil, term, unheated_degC);
                    const double path_WpK = term.path_WpK;
                    CHECK(within(unheated_behind_film_degC(oil, term, run.film_degC), unheated_degC,
                                 0.01));
                    const auto loss_W = [&](double film_degC) {
                        const double nu_mm2ps = astm_d341::viscosity_mm2ps(
                            oil.fresh, std::min(film_degC, hottest_film_degC));
                        return friction *
                               Nm_from_Nmm(palmgren::idle_torque_Nmm({.f0 = term.f0,
                                                                      .nu_mm2ps = nu_mm2ps,
                                                                      .n_rpm = n_rpm,
                                                                      .d_m_mm = term.d_m_mm}) +
                                           load_Nmm) *
                               radps_from_rpm(n_rpm);
                    };
                    // Just below the film the loss is more than it passes on, just above less.
                    const auto check_root = [&](const BearingRun& found) {
                        const auto missing_W = [&](double film_degC) {
                            return path_WpK * (film_degC - unheated_degC) - loss_W(film_degC);
                        };
                        CHECK(missing_W(found.film_degC - 1e-9) < 1e-10 * found.loss_W);
                        CHECK(missing_W(found.film_degC + 1e-9) > -1e-10 * found.loss_W);
                    };
                    check_root(run);
                    for (const double off_K : {-30.0, 0.01, 60.0}) {
                        const BearingRun other =
                            run_bearing_near(oil, term, unheated_degC, run.film_degC + off_K);
                        ++searched;
                        if (std::fabs(other.film_degC - run.film_degC) < 1e-9) continue;
                        check_root(other);
                        CHECK(other.film_degC > run.film_degC);
                        ++two;
                    }
                }
    // Below nu n = 2000 the idle torque is 0.8 % more: two films fit in a tenth of a kelvin of oil.
    MESSAGE("two films: ", two, " of ", searched);
    CHECK(two > 0);
    CHECK(two < searched / 1000);
    CHECK(run_bearing(oil, film_term(0, 100, 1), 90).loss_W == 0);
}

TEST_CASE("losses: each source has its place, and all its heat goes somewhere") {
    double one_W = 1;
    LossLedger ledger;
    for (const LossRow& row : loss_rows) {
        CAPTURE(row.name);
        // That of bearings goes by their own paths.
        const bool placed = row.power_W != &LossLedger::bearings_W;
        CHECK(within(row.to_oil + row.to_steel + row.to_housing, placed ? 1 : 0, 1e-12));
        CHECK(ledger.*row.power_W == 0);
        ledger.*row.power_W = one_W;
        one_W *= 2;
        CHECK(total_W(ledger) == one_W - 1);
        const HeatSplit heat = split(ledger);
        CHECK(heat.oil_W + heat.steel_W + heat.housing_W ==
              rel(one_W - 1 - ledger.bearings_W, 1e-12));
    }
    const std::vector<BearingPaths> paths{{17, 6, 3}, {1, 0, 2}};
    const HeatSplit heat = split(std::vector<double>{260, 30}, paths);
    CHECK(heat.housing_W == rel(170 + 10, 1e-12));
    CHECK(heat.steel_W == rel(60, 1e-12));
    CHECK(heat.oil_W == rel(30 + 20, 1e-12));
}

}  // namespace caseload::losses_tests
