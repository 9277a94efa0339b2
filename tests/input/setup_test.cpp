// SPDX-License-Identifier: MIT
// Setup text -> the numbers the chain consumes.
#include "input/fields.hpp"
#include "input/item.hpp"
#include "input/setup_files.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::setup_tests {

using namespace caseload::input_test;

TEST_CASE("setup: the shortest useful file completes") {
    CHECK(file_text(golden_folder() + "shortest.toml") ==
          shortest());  // tests of the program use it
    const Setup s = read(shortest()).setup;
    CHECK(s.name == "setup.toml");
    CHECK(s.gears.teeth == std::vector<int>{33, 41});
    CHECK(s.gears.train == std::vector<std::string>{"input", "output"});
    CHECK(s.vehicle.rolling_radius_m == rel(0.451104, 1e-6));  // 0.48 x 37 in
    CHECK(s.vehicle.engine_power_W == rel(650 * 745.69987, 1e-7));
    CHECK(s.event.oil_at_start_degC == 38);
    CHECK_FALSE(s.event.oil_at_start_entered);
    REQUIRE(s.event.legs.size() == 1);
    const LegInput& leg = s.event.legs[0];
    CHECK(leg.name == "rough-desert");
    CHECK(leg.duration_s == 6 * 3600);
    CHECK(leg.course_pace_mps == 26);
    CHECK(leg.distance_m == rel(26.0 * 6 * 3600, 1e-12));
    CHECK(leg.overload == 1.25);
    CHECK(leg.course_lines.size() == 6);
    CHECK(leg.course_peaks_per_h == 30);
    CHECK(leg.peaks.empty());
    CHECK(s.event.run == std::vector<int>{0});
    CHECK(s.bearings.size() == 4);
    CHECK(s.bearings[0].name == "input_front");
    CHECK(s.bearings[3].name == "output_rear");
    CHECK_FALSE(s.bearings[0].dynamic_rating_N);
    CHECK(s.lubrication.pump);
    CHECK_FALSE(s.cooler.fit);
    CHECK_FALSE(s.imperial);
}

TEST_CASE("setup: each word has the numbers of its row") {
    struct Row {
        const char* line;
        double (*got)(const Setup&);
        double expected;
    };
    const Row rows[] = {
        {"housing.place = \"open\"", [](const Setup& s) { return s.housing.air_speed_share; },
         0.60},
        {"housing.place = \"tunnel\"", [](const Setup& s) { return s.housing.air_speed_share; },
         0.20},
        {"housing.dirt = \"clean\"", [](const Setup& s) { return s.housing.emissivity; }, 0.80},
        {"housing.dirt = \"clean\"\nhousing.finish = \"bare\"",
         [](const Setup& s) { return s.housing.emissivity; }, 0.10},
        {"housing.dirt = \"mud\"\nhousing.finish = \"bare\"",
         [](const Setup& s) { return s.housing.emissivity; }, 0.90},
        {"housing.dirt = \"mud\"\nhousing.emissivity = 0.5",
         [](const Setup& s) { return s.housing.emissivity; }, 0.5},
        {"housing.dirt = \"mud\"", [](const Setup& s) { return s.housing.dirt_thickness_mm; }, 3},
        {"housing.dirt = \"mud\"", [](const Setup& s) { return s.housing.dirt_area_share; }, 0.5},
        {"housing.dirt = \"mud\"\nhousing.dirt_thickness = \"7 mm\"",
         [](const Setup& s) { return s.housing.dirt_area_share; }, 0.5},
        {"housing.dirt = \"clean\"\nhousing.dirt_thickness = \"2 mm\"",
         [](const Setup& s) { return s.housing.dirt_thickness_mm * s.housing.dirt_area_share; }, 2},
        {"housing.exhaust = \"near-shielded\"",
         [](const Setup& s) { return s.housing.exhaust_heat_W; }, 300},
        {"housing.exhaust = \"near-bare\"", [](const Setup& s) { return s.housing.exhaust_heat_W; },
         1500},
        {"housing.neighbour = \"adapter\"", [](const Setup& s) { return s.housing.neighbour_WpK; },
         6},
        {"housing.neighbour = \"frame\"",
         [](const Setup& s) { return s.housing.neighbour_warmer_K; }, 10},
        {"housing.neighbour = \"gearbox\"\nhousing.neighbour_conductance = \"20 W/K\"",
         [](const Setup& s) { return s.housing.neighbour_WpK; }, 20},
        {"housing.neighbour = \"gearbox\"\nhousing.neighbour_conductance = \"20 W/K\"",
         [](const Setup& s) { return s.housing.neighbour_warmer_K; }, 65},
        {"lubrication.drain = \"fair\"",
         [](const Setup& s) { return s.lubrication.mist_oil_fraction; }, 0.008},
        {"lubrication.drain = \"poor\"", [](const Setup& s) { return s.lubrication.oil_rehit; },
         3.0},
        {"bearing.input_rear.oil = \"jet\"",
         [](const Setup& s) { return s.bearings[1].oil_reaching_Lpmin; }, 1.0},
        {"bearing.input_rear.oil = \"splash\"",
         [](const Setup& s) { return s.bearings[1].oil_reaching_Lpmin; }, 0.3},
        {"bearing.input_rear.oil = \"mist\"",
         [](const Setup& s) { return s.bearings[1].oil_reaching_Lpmin; }, 0.03},
        {"", [](const Setup& s) { return s.bearings[1].oil_reaching_Lpmin; }, 0.1},
        {"lubrication.method = \"dip\"\nlubrication.depth = \"30 mm\"",
         [](const Setup& s) { return s.bearings[1].oil_reaching_Lpmin; }, 0.3},
        {"lubrication.method = \"dip\"\nlubrication.depth = \"30 mm\"",
         [](const Setup& s) { return s.housing.oil_wetted_share; }, 0.8},
        {"", [](const Setup& s) { return s.housing.oil_wetted_share; }, 0.5},
        {"gears.finish = \"superfinished\"", [](const Setup& s) { return s.gears.flank_Ra_um; },
         0.1},
        {"gears.finish = \"shaved\"", [](const Setup& s) { return s.gears.flank_Rz_um; }, 6},
        {"gears.finish = \"shaved\"", [](const Setup& s) { return double(s.gears.accuracy); }, 8},
        {"", [](const Setup& s) { return s.gears.misalignment_um; }, 8.25},
        {"gears.support = \"hub\"", [](const Setup& s) { return s.gears.misalignment_um; }, 16.5},
        {"gears.support = \"overhung\"", [](const Setup& s) { return s.gears.misalignment_um; },
         27.5},
        {"", [](const Setup& s) { return s.gears.face_load_factor.value_or(-1); }, -1},
        {"gears.face_load_factor = 1.25",
         [](const Setup& s) { return s.gears.face_load_factor.value_or(-1); }, 1.25},
        {"oil.state = \"fresh-filtered\"", [](const Setup& s) { return double(s.oil.code_6um); },
         15},
        {"oil.state = \"dirty\"", [](const Setup& s) { return double(s.oil.code_14um); }, 18},
        {"joint.rear.slip = \"coated\"", [](const Setup& s) { return s.joints[1].slip_friction; },
         0.08},
        {"joint.rear.slip = \"rolling\"", [](const Setup& s) { return s.joints[1].slip_friction; },
         0.03},
        {"", [](const Setup& s) { return s.joints[1].slip_friction; }, 0.12},
        {"cooler.duct = \"open\"", [](const Setup& s) { return s.cooler.face_speed_share; }, 0.15},
        {"cooler.duct = \"none\"", [](const Setup& s) { return s.cooler.face_speed_share; }, 0.10},
        {"", [](const Setup& s) { return s.limits.oil_watch_degC; }, 121},
        {"", [](const Setup& s) { return s.limits.oil_stop_degC; }, 135},
        {"", [](const Setup& s) { return s.oil.shear_loss; }, 0.05},
        {"", [](const Setup& s) { return s.oil.scuffing_stage; }, 12},
        {"", [](const Setup& s) { return s.lubrication.jet_speed_mps; }, 20},
        {"", [](const Setup& s) { return s.lubrication.pump->pressure_Pa; }, 2e5},
        {"", [](const Setup& s) { return s.lubrication.pump->efficiency; }, 0.5},
        {"", [](const Setup& s) { return s.cooler.bypass_opens_Pa; }, 250e3},
        {"", [](const Setup& s) { return s.cooler.rating.rated_air_degC; }, 40},
        {"", [](const Setup& s) { return s.vehicle.drag_area_m2; }, 2.4},
        {"", [](const Setup& s) { return s.vehicle.grip; }, 0.6},
        {"", [](const Setup& s) { return s.housing.oil_film_coefficient_Wpm2K; }, 200},
        {"", [](const Setup& s) { return s.rules.open_case_events; }, 4},
        {"", [](const Setup& s) { return s.aims.rebuild_reliability; }, 0.95},
    };
    for (const Row& row : rows) {
        CAPTURE(row.line);
        std::string text = shortest();
        if (std::string(row.line).find("housing.place") == 0) {
            const std::size_t at = text.find("housing.place");
            text.erase(at, text.find('\n', at) - at + 1);
        }
        CHECK(row.got(read(text + row.line + "\n").setup) == rel(row.expected, 1e-12));
    }
}

TEST_CASE("setup: words such as none and clean give exactly 0") {
    const Setup s = read(shortest() +
                         "joint.rear.slip = \"none\"\nhousing.dirt = \"clean\"\nhousing.exhaust = "
                         "\"none\"\nhousing.neighbour = \"none\"\n")
                        .setup;
    CHECK(s.joints[1].slip_friction == 0);
    CHECK(s.housing.dirt_thickness_mm == 0);
    CHECK(s.housing.exhaust_heat_W == 0);
    CHECK(s.housing.neighbour_WpK == 0);
    CHECK(s.cooler.fan_face_speed_mps == 0);
    CHECK(s.cooler.air_warmer_by_K == 0);
}

TEST_CASE("setup: mineral oil has its own limits and shear loss") {
    std::string text = shortest();
    text.replace(text.find("75W-90 synthetic"), 16, "80W-90 mineral");
    const Setup s = read(text).setup;
    CHECK_FALSE(s.oil.synthetic);
    CHECK(s.oil.viscosity_40C_mm2ps == 140);
    CHECK(s.oil.viscosity_100C_mm2ps == 14.6);
    CHECK(s.oil.density_15C_kgpm3 == 892);
    CHECK(s.oil.shear_loss == 0.10);
    CHECK(s.limits.oil_watch_degC == 105);
    CHECK(s.limits.oil_stop_degC == 120);
}

TEST_CASE("setup: tip relief counts for grade 5 and finer, and where it is entered") {
    const auto relief_um = [](const std::string& lines) {
        return read(shortest() + lines).setup.gears.tip_relief_um;
    };
    CHECK(relief_um("") == 0);
    CHECK(relief_um("gears.accuracy = 5\n") == 15);
    CHECK(relief_um("gears.accuracy = 3\n") == 15);
    CHECK(relief_um("gears.finish = \"superfinished\"\n") == 15);
    CHECK(relief_um("gears.finish = \"superfinished\"\ngears.accuracy = 6\n") == 0);
    CHECK(relief_um("gears.finish = \"shaved\"\n") == 0);
    CHECK(relief_um("gears.tip_relief = \"12 um\"\n") == 12);
    CHECK(relief_um("gears.accuracy = 4\ngears.tip_relief = \"12 um\"\n") == 12);
}

TEST_CASE("setup: the complete file, number by number") {
    const Setup s = read(file_text(golden_folder() + "full.toml")).setup;
    CHECK(s.title == "every key, two shafts");
    CHECK(s.transfer_case.centre_distance_mm == std::vector<double>{185});
    CHECK_FALSE(s.transfer_case.input_turns_clockwise);
    CHECK(s.transfer_case.drop_direction_deg == 10);
    CHECK(*s.transfer_case.steel_mass_kg == 22);
    CHECK(s.gears.helix_angle_deg == 15);
    CHECK(s.gears.hand_on_input == Hand::right);
    CHECK(s.gears.ground);
    CHECK(s.gears.flank_Ra_um == 0.3);
    CHECK(s.gears.material == "carburised-ME");
    CHECK(s.gears.fitted_name == "B");
    CHECK(s.gears.teeth == std::vector<int>{31, 40});
    CHECK_FALSE(s.sets.at("C").in_trailer);
    CHECK(s.shafts.at("input").bore_mm == 40);
    REQUIRE(s.bearings.size() == 5);
    const BearingInput& rear = s.bearings[3];
    CHECK(rear.name == "output_rear");
    CHECK(rear.clearance == ClearanceClass::C3);
    CHECK(*rear.dynamic_rating_N == 58000);
    CHECK(rear.oil == OilSupply::jet);
    CHECK_FALSE(rear.locating);
    CHECK(rear.has_seat);
    CHECK(rear.seat.carrier == Carrier::steel_retainer);
    CHECK(*rear.seat.ring_interference_mm == 0.03);
    CHECK(*rear.seat.retainer_outside_mm == 160);
    const BearingInput& thrust = s.bearings[4];
    CHECK(thrust.kind == BearingKind::four_point_ball);
    CHECK_FALSE(thrust.radial);
    CHECK(thrust.locating);
    CHECK(*thrust.contact_angle_deg == 35);
    CHECK(*s.bearings[1].f0 == 1.5);
    CHECK(s.bearings[1].seat.assumed);
    REQUIRE(s.joints.size() == 3);
    CHECK(s.joints[0].end == End::front);
    CHECK(s.joints[0].torque_share == rel(0.45, 1e-15));
    CHECK(s.joints[1].end == End::rear);
    CHECK(s.joints[1].slip_diameter_mm == 58);
    CHECK(s.seals[0].shaft == "input");
    CHECK(s.seals[0].material == SealMaterial::PTFE);
    CHECK(s.seals[0].lips == 2);
    CHECK(s.oil.density_15C_kgpm3 == 866);
    CHECK(s.oil.code_6um == 18);
    CHECK(s.oil.code_14um == 15);
    CHECK(s.oil.filter == Filter::in_line);
    CHECK_FALSE(s.oil.ep_additive);
    CHECK(s.lubrication.pump->drive == PumpDrive::input);
    CHECK(s.lubrication.pump->rated_speed_rpm == 4000);
    CHECK(*s.lubrication.pump->on_above_degC == 50);
    CHECK(*s.lubrication.side_gap_mm == 9);
    CHECK(*s.housing.mass_kg == 19);
    CHECK(s.cooler.fit);
    CHECK_FALSE(s.cooler.rating_estimated);
    CHECK(s.cooler.rating.heat_W == 6000);
    CHECK(s.cooler.rating.rated_air_degC == 35);
    CHECK(*s.cooler.fan_on_above_degC == 90);
    CHECK(s.vehicle.rolling_radius_m == rel(0.4508636, 1e-6));  // 1000/(2 pi 353)
    CHECK(s.vehicle.engine_torque[1].speed_rpm == 5000);
    CHECK(s.vehicle.engine_torque[1].torque_Nm == 820);
    CHECK(s.vehicle.prop_shaft->length_mm == 1350);
    CHECK(s.event.oil_at_start_degC == 60);
    CHECK(s.event.oil_at_start_entered);
    CHECK(s.event.words == "transit, 3 x loop, fuel, 3 x loop");
    CHECK(s.event.run == std::vector<int>{0, 1, 1, 1, 2, 1, 1, 1});
    const LegInput& transit = s.event.legs[0];
    CHECK(transit.course == "hard-road");
    CHECK(transit.course_pace_mps == rel(85 / 3.6, 1e-12));
    CHECK_FALSE(transit.front_drive);
    CHECK(transit.set == "A");
    const LegInput& loop = s.event.legs[1];
    CHECK(loop.bins.size() == 3);
    CHECK(loop.bins[0].torque_Nm == 1300);
    CHECK(loop.bins[2].torque_Nm == -120);
    CHECK(loop.bins[0].road_speed_mps == rel(65 / 3.6, 1e-12));
    CHECK(loop.peaks[0].torque_Nm == 3200);
    CHECK(loop.peaks[0].times == 40);
    const LegInput& fuel = s.event.legs[2];
    CHECK(fuel.kind == LegKind::stop);
    CHECK(fuel.engine == Engine::idle);
    CHECK_FALSE(fuel.pump_on);
    CHECK_FALSE(fuel.fan_on);
    CHECK(s.rules.change_oil_events == 2);
    CHECK(s.rules.change_oil_own);
    CHECK(s.limits.oil_watch_degC == 118);
    REQUIRE(s.costs);
    CHECK(s.costs->planned == 2500);
    CHECK(s.costs->failure == 18000);
    CHECK(s.costs->currency == "USD");
}

TEST_CASE("setup: three shafts, facing pairs, dip and imperial units are read") {
    const ReadSetup result = read(file_text(golden_folder() + "idler.toml"));
    const Setup& s = result.setup;
    CHECK(s.imperial);
    REQUIRE(s.transfer_case.centre_distance_mm.size() == 2);
    CHECK(s.transfer_case.centre_distance_mm[1] == rel(152.4, 1e-12));
    CHECK(*s.transfer_case.idler_angle_deg == 170);
    CHECK(s.gears.module_mm == rel(5.08, 1e-12));
    CHECK(s.gears.teeth == std::vector<int>{28, 32, 29});
    CHECK(s.lubrication.method == Method::dip);
    CHECK(*s.lubrication.depth_mm == rel(31.75, 1e-12));
    CHECK_FALSE(s.lubrication.pump);
    CHECK(s.bearings[0].kind == BearingKind::tapered_roller);
    CHECK(*s.bearings[0].contact_angle_deg == 16);
    CHECK(*s.bearings[0].big_end == Facing::front);
    CHECK(*s.bearings[2].contact_angle_deg == 40);
    CHECK(s.bearings[4].seat.ring_fit == "N7");
    CHECK(*s.bearings[4].dynamic_rating_N == rel(23000 * 4.448222, 2e-7));
    CHECK(s.oil.fill_L == rel(3 * 0.9463529, 1e-7));
    CHECK(s.event.ambient_degC == rel(37.77778, 1e-6));
    CHECK(s.event.altitude_m == rel(609.6, 1e-12));
    CHECK(s.event.legs[0].course_pace_mps == rel(55 * 1609.344 / 5400, 1e-12));
    CHECK(has_note(result, "input.contact_angle", "bearing.input_1"));
    CHECK(has_note(result, "input.unit", "oil.fill"));
}

TEST_CASE("setup: cooler rating estimated from size") {
    const ReadSetup result =
        read(shortest() + "cooler.fit = true\ncooler.core = \"280x150x45 mm\"\n");
    const CoolerInput& cooler = result.setup.cooler;
    CHECK(cooler.rating_estimated);
    // 4000 W/(K m2) x 0.28 m x 0.15 m at the reference depth.
    CHECK(cooler.conductance_WpK == rel(4000 * 0.28 * 0.15, 1e-12));
    CHECK(cooler.rating.heat_W > 0);
    CHECK(cooler.rating.heat_W < cooler.conductance_WpK * 60);
    CHECK(cooler.rating.difference_K == 60);
    CHECK(cooler.rating.oil_flow_Lpmin == 8);
    CHECK(cooler.rating.face_speed_mps == 8);
    CHECK(has_note(result, "input.cooler_estimated", "cooler"));
    CHECK(entry(result, "cooler.rating.heat").origin == Origin::estimated);
    const Entry& heat = entry(result, "cooler.rating.heat");
    const auto watts = [](const std::string& toml) { return std::stod(toml.substr(1)); };
    CHECK(watts(heat.toml) == rel(cooler.rating.heat_W, 1e-15));
    CHECK(watts(heat.low) < watts(heat.toml));
    CHECK(watts(heat.toml) < watts(heat.high));
    const Setup deep =
        read(shortest() + "cooler.fit = true\ncooler.core = \"280x150x90 mm\"\n").setup;
    CHECK(deep.cooler.conductance_WpK / cooler.conductance_WpK == rel(std::pow(2, 0.6), 1e-12));
    const Setup tube = read(shortest() +
                            "cooler.fit = true\ncooler.core = \"280x150x45 mm\"\n"
                            "cooler.construction = \"tube-fin\"\n")
                           .setup;
    CHECK(tube.cooler.conductance_WpK / cooler.conductance_WpK == rel(1800.0 / 4000, 1e-12));
}

TEST_CASE("setup: shares within 2 % of 1 are scaled to 1, with a note") {
    const auto with_share = [](const std::string& share) {
        std::string text = shortest();
        text.erase(text.find("event.course"));
        return text +
               "event.run = [\"a\"]\nleg.a = { duration = \"1 h\", bins = [{ share = 0.5, torque = "
               "\"500 N m\", "
               "speed = \"3000 rpm\", road_speed = \"60 km/h\" }, { share = " +
               share +
               ", torque = \"-50 N m\", speed = \"3000 rpm\", road_speed = \"60 km/h\" }] }\n";
    };
    const ReadSetup exact = read(with_share("0.5"));
    CHECK_FALSE(has_note(exact, "input.shares", "leg.a"));
    const ReadSetup near = read(with_share("0.515"));
    CHECK(has_note(near, "input.shares", "leg.a"));
    CHECK(near.setup.event.legs[0].bins[0].share == rel(0.5 / 1.015, 1e-12));
    CHECK(near.setup.event.legs[0].bins[0].share + near.setup.event.legs[0].bins[1].share ==
          rel(1, 1e-12));
    CHECK_THROWS_AS(read(with_share("0.525")), Error);
    CHECK_THROWS_AS(read(with_share("0.475")), Error);
}

TEST_CASE("setup: items of event.run with and without counts") {
    const auto run = [](const std::string& item) {
        std::string text = shortest();
        text.erase(text.find("event.course"));
        return read(text + "event.run = [" + item +
                    "]\nleg.x2 = { duration = \"1 h\", course = \"sand\" }\n")
            .setup.event.run.size();
    };
    CHECK(run("\"x2\"") == 1);  // a name may begin like a count
    CHECK(run("\"3 x x2\"") == 3);
    CHECK(run("\"3x x2\"") == 3);
    CHECK(run("\"3 × x2\"") == 3);
    CHECK_THROWS_AS(static_cast<void>(run("\"3 loop\"")), Error);
    CHECK_THROWS_AS(static_cast<void>(run("\"0 x x2\"")), Error);
}

TEST_CASE("gears: a ratio is read as its teeth, with and without quotes") {
    const auto with = [](const std::string& teeth) {
        std::string text = shortest();
        const std::string line = "gears.fitted = [33, 41]";
        return read(text.replace(text.find(line), line.size(), "gears.fitted = " + teeth));
    };
    const ReadSetup list = with("[31, 43]");
    for (const std::string teeth : {"31/43", "\"31/43\"", "31 / 43", "\"31 / 43\"", "31/43 # it's",
                                    "31/43\t", "31/43# \"x\""}) {
        CAPTURE(teeth);
        const ReadSetup ratio = with(teeth);
        CHECK(ratio.setup.gears == list.setup.gears);
        CHECK(completed_text(ratio) == completed_text(list));
    }
    // Every place of the line stays what it is.
    const Error error = refused_by([&] {
        static_cast<void>(
            read(shortest() + "set = { \"A\" = { teeth = 31/43, in_trailer = 7 } }\n"));
    });
    CHECK(error.problems().front().text.starts_with("set.A.in_trailer = 7"));
    CHECK(error.problems().front().where.column == 45);
    CHECK(read(shortest() + "set.A.teeth = 31/43\n").setup.sets.at("A").teeth ==
          std::vector<int>{31, 43});
    CHECK(read(shortest() + "title = \"a = 31/43\" # fitted = 31/43\n").setup.gears ==
          read(shortest()).setup.gears);
    // Nothing else takes a ratio.
    for (const std::string wrong : {"31/", "/43", "31//43", "31/43.5", "31/x", "31.0/43", "-31/43",
                                    "\"31/43.5\"", "\"31/\"", "[31/43]", "31/43 50"}) {
        CAPTURE(wrong);
        CHECK_THROWS_AS(static_cast<void>(with(wrong)), Error);
    }
    CHECK_THROWS_AS(static_cast<void>(read(shortest() + "gears.module = 10/2\n")), Error);
}

}  // namespace caseload::setup_tests
