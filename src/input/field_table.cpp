// SPDX-License-Identifier: MIT
// Every key of a setup file. One row a key; the order is that of the completed file.
#include "input/fields.hpp"


namespace caseload::input {
namespace {

using K = FieldKind;
using M = Measure;


constexpr std::string_view J = "judgement";
constexpr std::string_view CP = "common practice, no published source";

constexpr Field table[] = {
    {"caseload", K::integer, M::none, 1, 1, "", "", "version of the file format: 1", ""},
    {"title", K::text, M::none, 0, 0, "\"\"", "", "a line to recognise the setup by", ""},
    {"base", K::text, M::none, 0, 0, "", "", "setup this one starts from: a file beside it or pattern:NAME", ""},
    {"units", K::word, M::none, 0, 0, "\"metric\"", "metric | imperial", "units of the answer", ""},

    {"case.centre_distance", K::quantity, M::length, 40, 600, "", "", "between input and output shaft", ""},
    {"case.input_turns", K::word, M::none, 0, 0, "\"clockwise\"", "clockwise | counter-clockwise", "driving forward, looking forward from behind", J},
    {"case.drop_direction", K::quantity, M::angle, -180, 180, "\"0 deg\"", "", "of the output from the input; 0 straight below, positive to the right", J},
    {"case.steel_mass", K::quantity, M::mass, 0.5, 300, "", "", "gears and shafts; left out: 1.2 x the gears as solid discs", ""},

    {"gears.module", K::quantity, M::length, 1, 20, "", "", "normal module", ""},
    {"gears.diametral_pitch", K::quantity, M::pitch, 1.27, 25.4, "", "", "normal diametral pitch, in place of the module", ""},
    {"gears.pressure_angle", K::quantity, M::angle, 14, 30, "\"20 deg\"", "", "normal pressure angle", "iso-21771"},
    {"gears.helix_angle", K::quantity, M::angle, 0, 35, "\"0 deg\"", "", "0: spur", ""},
    {"gears.hand_on_input", K::word, M::none, 0, 0, "", "right | left", "hand of the helix on the input gear", ""},
    {"gears.face_width", K::quantity, M::length, 5, 200, "", "", "common face width", ""},
    {"gears.finish", K::word, M::none, 0, 0, "\"ground\"", "superfinished | ground | shaved", "of the flanks", J},
    {"gears.flank_Ra", K::quantity, M::roughness, 0.02, 5, "", "", "mean roughness of a flank", ""},
    {"gears.flank_Rz", K::quantity, M::roughness, 0.1, 40, "", "", "roughness depth of a flank", ""},
    {"gears.accuracy", K::integer, M::none, 3, 12, "", "", "ISO 1328 grade", ""},
    {"gears.material", K::word, M::none, 0, 0, "\"carburised-MQ\"", "carburised-ML | carburised-MQ | carburised-ME", "steel quality, ISO 6336-5", J},
    {"gears.support", K::word, M::none, 0, 0, "\"straddled\"", "straddled | hub | overhung", "how the gears sit between the bearings", J},
    {"gears.face_load_factor", K::number, M::none, 1, 3, "", "", "uneven load over the face", ""},
    {"gears.tip_relief", K::quantity, M::roughness, 0, 100, "\"15 um\"", "", "tip relief", J},
    {"gears.rim_bore_ratio", K::number, M::none, 0, 0.95, "0.0", "", "bore of the rim over mean tooth diameter; 0: solid", J},
    {"gears.train", K::texts, M::none, 0, 0, "[\"input\", \"output\"]", "", "shafts in power order", J},
    {"gears.fitted", K::integers, M::none, 0, 0, "", "", "teeth in train order, or the name of a set", ""},
    {"set.*.teeth", K::integers, M::none, 0, 0, "", "", "teeth in train order", ""},
    {"set.*.in_trailer", K::flag, M::none, 0, 0, "true", "", "owned and at hand", J},

    {"shaft.*.gear_at", K::quantity, M::length, 0, 1000, "", "", "middle of the gear, from the front inside face rearwards", ""},
    {"shaft.*.bore", K::quantity, M::length, 0, 300, "\"0 mm\"", "", "hollow shaft; 0: solid", J},

    {"bearing.*.shaft", K::text, M::none, 0, 0, "", "", "the shaft it carries", ""},
    {"bearing.*.at", K::quantity, M::length, 0, 1000, "", "", "middle, from the front inside face rearwards", ""},
    {"bearing.*.type", K::word, M::none, 0, 0, "", "deep-groove-ball | angular-contact-ball | four-point-ball | cylindrical-roller | tapered-roller | spherical-roller", "kind of bearing", ""},
    {"bearing.*.size", K::size, M::length, 5, 1000, "", "", "bore x outside x width", ""},
    {"bearing.*.locating", K::flag, M::none, 0, 0, "false", "", "holds the shaft along its axis", J},
    {"bearing.*.dynamic_rating", K::quantity, M::force, 100, 1e7, "", "", "C; left out: estimated from size", ""},
    {"bearing.*.static_rating", K::quantity, M::force, 100, 1e7, "", "", "C0 (ISO 76); left out: estimated from size", ""},
    {"bearing.*.fatigue_limit", K::quantity, M::force, 1, 1e6, "", "", "C_u; left out: from C0", ""},
    {"bearing.*.f0", K::number, M::none, 0.1, 20, "", "", "friction factor; left out: by kind and oil", ""},
    {"bearing.*.oil", K::word, M::none, 0, 0, "\"damp\"", "jet | splash | damp | mist", "what reaches this bearing", J},
    {"bearing.*.clearance", K::word, M::none, 0, 0, "\"CN\"", "C2 | CN | C3 | C4 | C5", "ISO 5753 class", J},

    {"joint.*.shaft", K::text, M::none, 0, 0, "", "", "the shaft it sits on", ""},
    {"joint.*.end", K::word, M::none, 0, 0, "", "front | rear", "end of the shaft; a joint named front or rear sits there", ""},
    {"joint.*.angle_down", K::quantity, M::angle, -45, 45, "\"0 deg\"", "", "the prop shaft, followed away from the case, goes down", J},
    {"joint.*.angle_right", K::quantity, M::angle, -45, 45, "\"0 deg\"", "", "and to the right", J},
    {"joint.*.torque_share", K::number, M::none, 0, 1, "1.0", "", "of the shaft's torque", J},
    {"joint.*.slip", K::word, M::none, 0, 0, "\"none\"", "greased-steel | coated | rolling | none", "sliding spline of the prop shaft", J},
    {"joint.*.slip_diameter", K::quantity, M::length, 10, 200, "", "", "of the sliding spline", ""},

    {"seal.*.shaft", K::text, M::none, 0, 0, "", "", "the shaft it runs on; left out: the shaft of its name, else the output", ""},
    {"seal.*.diameter", K::quantity, M::length, 5, 400, "", "", "of the running surface", ""},
    {"seal.*.material", K::word, M::none, 0, 0, "\"FKM\"", "FKM | NBR | HNBR | ACM | VMQ | PTFE", "of the lip", J},
    {"seal.*.lips", K::integer, M::none, 1, 3, "1", "", "running lips", J},

    {"oil.grade", K::word, M::none, 0, 0, "", "", "a grade of tables/oils.toml", ""},
    {"oil.base_oil", K::word, M::none, 0, 0, "", "synthetic | mineral", "of an oil given by viscosity", ""},
    {"oil.viscosity_40C", K::quantity, M::viscosity, 2, 20000, "", "", "kinematic, at 40 degC", ""},
    {"oil.viscosity_100C", K::quantity, M::viscosity, 1, 2000, "", "", "kinematic, at 100 degC", ""},
    {"oil.density_15C", K::quantity, M::density, 750, 1200, "", "", "at 15 degC", ""},
    {"oil.state", K::word, M::none, 0, 0, "\"one-event\"", "fresh-filtered | fresh | one-event | dirty", "how clean the oil is", J},
    {"oil.cleanliness", K::text, M::none, 0, 0, "", "", "ISO 4406 code, in place of the word", ""},
    {"oil.filter", K::word, M::none, 0, 0, "\"off-line\"", "in-line | off-line | none", "in-line: all oil passes it before the bearings", J},
    {"oil.fill", K::quantity, M::volume, 0.1, 50, "", "", "oil in the case and its circuit", ""},
    {"oil.shear_loss", K::number, M::none, 0, 0.6, "", "", "permanent share of viscosity lost in use", ""},
    {"oil.ep_additive", K::flag, M::none, 0, 0, "true", "", "extreme-pressure additive of proven effect", J},

    {"lubrication.method", K::word, M::none, 0, 0, "\"scavenged\"", "scavenged | dip", "scavenged: no gear dips", J},
    {"lubrication.drain", K::word, M::none, 0, 0, "\"good\"", "good | fair | poor", "how well thrown oil leaves the gears", J},
    {"lubrication.mist_oil_fraction", K::number, M::none, 0, 0.1, "", "", "oil in the air round the gears, by volume", ""},
    {"lubrication.oil_rehit", K::number, M::none, 1, 5, "", "", "times the same oil meets the teeth", ""},
    {"lubrication.jet_speed", K::quantity, M::road_speed, 0, 60, "\"20 m/s\"", "", "of the oil jet at the mesh", J},
    {"lubrication.side_gap", K::quantity, M::length, 1, 200, "", "", "gear side to wall; left out: 0.1 x pitch radius", ""},
    {"lubrication.depth", K::quantity, M::length, 1, 300, "", "", "dip: immersion of the lowest tip circle", ""},
    {"lubrication.pump.drive", K::word, M::none, 0, 0, "", "electric | input", "what turns the pump", ""},
    {"lubrication.pump.flow", K::quantity, M::flow, 0.1, 100, "", "", "delivered to the teeth and through the cooler", ""},
    {"lubrication.pump.rated_speed", K::quantity, M::turning, 100, 20000, "", "", "input speed of that flow, for a pump driven by the input", ""},
    {"lubrication.pump.pressure", K::quantity, M::pressure, 1e4, 3e6, "\"2 bar\"", "", "at the pump", J},
    {"lubrication.pump.efficiency", K::number, M::none, 0.1, 0.95, "0.5", "", "of the pump, overall", J},
    {"lubrication.pump.on_above", K::quantity, M::temperature, 0, 160, "", "", "switched on above this oil temperature, off 5 K below", ""},

    {"housing.size", K::size, M::length, 50, 2000, "", "", "along the car x across x high", ""},
    {"housing.wall", K::quantity, M::length, 2, 80, "\"16 mm\"", "", "mean wall thickness", J},
    {"housing.mass", K::quantity, M::mass, 1, 300, "", "", "left out: a box of solid walls", ""},
    {"housing.finish", K::word, M::none, 0, 0, "\"anodised\"", "bare | anodised | painted | dusty", "outside", J},
    {"housing.emissivity", K::number, M::none, 0.02, 1, "", "", "of the outside, for radiation", ""},
    {"housing.place", K::word, M::none, 0, 0, "", "open | behind-skid-plate | tunnel", "what shields it from the air", ""},
    {"housing.air_speed_share", K::number, M::none, 0, 1.5, "", "", "air speed at the case over road speed", ""},
    {"housing.dirt", K::word, M::none, 0, 0, "\"dust\"", "clean | dust | mud", "on the outside", J},
    {"housing.dirt_thickness", K::quantity, M::length, 0, 50, "", "", "of the coat, in place of the word's", ""},
    {"housing.air_warmer_by", K::quantity, M::difference, 0, 60, "\"8 K\"", "", "air at the case over ambient", J},
    {"housing.exhaust", K::word, M::none, 0, 0, "\"none\"", "none | near-shielded | near-bare", "exhaust beside the case", J},
    {"housing.exhaust_heat", K::quantity, M::power, 0, 10000, "", "", "into the case at 150 kW mean drive power", ""},
    {"housing.oil_film_coefficient", K::quantity, M::film, 20, 2000, "\"200 W/m2K\"", "", "oil to the inside wall", "iso-tr-14179-2"},
    {"housing.oil_wetted_share", K::number, M::none, 0.05, 1, "", "", "share of the wall oil runs down", ""},

    {"cooler.fit", K::flag, M::none, 0, 0, "false", "", "a cooler is fitted", J},
    {"cooler.core", K::size, M::length, 10, 1500, "", "", "width x height x depth", ""},
    {"cooler.construction", K::word, M::none, 0, 0, "\"plate-fin\"", "plate-fin | tube-fin", "of the core", J},
    {"cooler.rating.heat", K::quantity, M::power, 100, 200000, "", "", "rated heat", ""},
    {"cooler.rating.difference", K::quantity, M::difference, 5, 150, "", "", "oil inlet over air inlet at the rating", ""},
    {"cooler.rating.oil_flow", K::quantity, M::flow, 0.5, 200, "", "", "at the rating", ""},
    {"cooler.rating.face_speed", K::quantity, M::road_speed, 0.5, 40, "", "", "of the air at the rating", ""},
    {"cooler.rated_air", K::quantity, M::temperature, -20, 80, "\"40 degC\"", "", "air inlet at the rating", J},
    {"cooler.duct", K::word, M::none, 0, 0, "\"sealed\"", "sealed | open | none", "in front of the core", J},
    {"cooler.face_speed_share", K::number, M::none, 0, 1, "", "", "air speed at the core's face over road speed", ""},
    {"cooler.fan_face_speed", K::quantity, M::road_speed, 0, 30, "\"0 m/s\"", "", "air speed the fan makes; 0: no fan", J},
    {"cooler.fan_on_above", K::quantity, M::temperature, 0, 160, "", "", "fan on above this oil temperature, off 5 K below", ""},
    {"cooler.air_warmer_by", K::quantity, M::difference, 0, 80, "\"0 K\"", "", "air at the core over ambient", J},
    {"cooler.thermostat_opens", K::quantity, M::temperature, 20, 140, "", "", "oil bypasses the core below", ""},
    {"cooler.bypass_opens", K::quantity, M::pressure, 1e4, 2e6, "\"250 kPa\"", "", "pressure bypass over the core", J},

    {"vehicle.mass", K::quantity, M::mass, 300, 20000, "", "", "ready to race, with crew and half the fuel", ""},
    {"vehicle.tyre", K::quantity, M::length, 300, 1500, "", "", "outside diameter; rolling radius taken as 0.48 of it", ""},
    {"vehicle.wheel_turns", K::quantity, M::per_distance, 150, 1000, "", "", "measured turns per distance, in place of the tyre", ""},
    {"vehicle.axle_ratio", K::number, M::none, 1, 12, "", "", "of the axles", ""},
    {"vehicle.engine_power", K::quantity, M::power, 10000, 2e6, "", "", "rated", ""},
    {"vehicle.engine_limit", K::quantity, M::turning, 1000, 20000, "", "", "highest engine speed", ""},
    {"vehicle.gearbox", K::numbers, M::none, 0.1, 20, "", "", "gearbox ratios", ""},
    {"vehicle.engine_torque", K::torque_points, M::none, 0, 0, "", "", "full-load curve: [[\"3000 rpm\", \"700 N m\"], ..]", ""},
    {"vehicle.drag_area", K::quantity, M::area, 0.3, 8, "\"2.4 m2\"", "", "drag coefficient x frontal area", J},
    {"vehicle.grip", K::number, M::none, 0.1, 1.5, "0.6", "", "force the tyres hold over weight", J},

    {"event.ambient", K::quantity, M::temperature, -40, 60, "", "", "air in the shade", ""},
    {"event.altitude", K::quantity, M::distance, -400, 5000, "\"0 m\"", "", "of the course", J},
    {"event.oil_at_start", K::quantity, M::temperature, -40, 150, "", "", "of the whole case; left out: ambient", ""},
    {"event.course", K::word, M::none, 0, 0, "", "hard-road | graded | rough-desert | sand | rock | forest", "a built-in duty", ""},
    {"event.duration", K::quantity, M::time, 60, 720000, "", "", "of the course", ""},
    {"event.pace", K::quantity, M::road_speed, 0.5, 70, "", "", "mean speed on the course; left out: its usual pace", ""},
    {"event.run", K::texts, M::none, 0, 0, "", "", "legs in the order driven: [\"transit\", \"3 x loop\"]", ""},

    {"leg.*.kind", K::word, M::none, 0, 0, "\"drive\"", "drive | stop", "drive or stop", J},
    {"leg.*.duration", K::quantity, M::time, 1, 360000, "", "", "of the leg", ""},
    {"leg.*.distance", K::quantity, M::distance, 1, 5e6, "", "", "of the leg", ""},
    {"leg.*.course", K::word, M::none, 0, 0, "", "hard-road | graded | rough-desert | sand | rock | forest", "a built-in duty", ""},
    {"leg.*.pace", K::quantity, M::road_speed, 0.5, 70, "", "", "mean speed on the course", ""},
    {"leg.*.bins", K::bins, M::none, 0, 0, "", "", "list of { share, torque, speed, road_speed }", ""},
    {"leg.*.overload", K::number, M::none, 1, 4, "1.25", "", "torque the bins do not show; never used for heat", J},
    {"leg.*.peaks", K::peaks, M::none, 0, 0, "", "", "list of { torque, times }", ""},
    {"leg.*.engine", K::word, M::none, 0, 0, "\"off\"", "off | idle", "in a stop", J},
    {"leg.*.pump", K::word, M::none, 0, 0, "\"on\"", "on | off", "in a stop", J},
    {"leg.*.fan", K::word, M::none, 0, 0, "\"on\"", "on | off", "in a stop", J},

    {"limits.oil_watch", K::quantity, M::temperature, 50, 160, "", "", "oil above this: look at it", ""},
    {"limits.oil_stop", K::quantity, M::temperature, 60, 160, "", "", "oil above this: stop", ""},
    {"rules.change_oil", K::quantity, M::count, 1, 100, "\"1 event\"", "", "your own practice", CP},
    {"rules.look", K::quantity, M::count, 1, 100, "\"1 event\"", "", "drain, magnet, end play", CP},
    {"rules.open_case", K::quantity, M::count, 1, 100, "\"4 events\"", "", "strip and inspect", CP},
    {"aims.rebuild_reliability", K::number, M::none, 0.5, 0.99, "0.95", "", "least chance to finish the last event before opening", J},
};

}  // namespace

std::span<const Field> fields() { return table; }

}  // namespace caseload::input
