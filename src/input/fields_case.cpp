// SPDX-License-Identifier: MIT
// Fields of the file itself, [case], [gears], [set] and [shaft].
#include "input/field_rows.hpp"

#include "caseload/units.hpp"

namespace caseload::input {
namespace {

SetInput& set(Setup& s, const Item& i) {
    return s.sets[i.name];
}

ShaftInput& shaft(Setup& s, const Item& i) {
    return s.shafts[i.name];
}

constexpr Field case_rows[] = {
    row("caseload", K::integer, "version of the file format: 1"),
    row("title", K::text, "a line to recognise the setup by", fills<&Setup::title>),
    row("base", K::text, "setup this one starts from: a file beside it, or pattern:NAME"),
    row("library", K::text,
        "file beside this one with oils, cores, bearings and joints of your own; see below"),
    row("units", {K::word, "metric | imperial"}, "units of the answer", Standard{"\"metric\""},
        [](Setup& s, const Item& i) { s.imperial = i.choice == 1; }),

    row("case.centre_distance", {K::quantities, M::length_mm, {40, 600}},
        "between the shafts of a mesh; a list with one per mesh in train order", needed,
        Example{"185 mm"}, fills<&Setup::transfer_case, &CaseInput::centre_distance_mm>),
    row("case.idler_angle", {K::quantity, M::angle_deg, {0, 360}},
        "at the idler, from its line to the input to its line to the output, positive as it "
        "turns driving; left out: 180 deg",
        Example{"180 deg"}, fills<&Setup::transfer_case, &CaseInput::idler_angle_deg>),
    row("case.input_turns", {K::word, "clockwise | counter-clockwise"},
        "driving forward, looking forward from behind", Standard{"\"clockwise\"", judgement},
        [](Setup& s, const Item& i) { s.transfer_case.input_turns_clockwise = i.choice == 0; }),
    row("case.drop_direction", {K::quantity, M::angle_deg, {-180, 180}},
        "of the output from the input; 0 straight below, positive to the right",
        Standard{"\"0 deg\"", judgement},
        fills<&Setup::transfer_case, &CaseInput::drop_direction_deg>),
    row("case.steel_mass", {K::quantity, M::mass_kg, {0.5, 300}},
        "gears and shafts; left out: 1.2 x the gears as solid discs", Example{"22 kg"},
        fills<&Setup::transfer_case, &CaseInput::steel_mass_kg>),
    row("case.structure_stiffness", {K::quantity, M::stiffness_Npum, {20, 1000}},
        "along the shaft between the two seats of a facing pair; left out: 150 N/um",
        Example{"150 N/um"}, fills<&Setup::transfer_case, &CaseInput::structure_Npum>),

    row("gears.module", {K::quantity, M::length_mm, {1, 20}}, "normal module", Example{"5 mm"},
        fills<&Setup::gears, &GearsInput::module_mm>),
    row("gears.diametral_pitch", {K::quantity, M::pitch_per_in, {1.27, 25.4}},
        "normal diametral pitch, in place of the module",
        [](Setup& s, const Item& i) { s.gears.module_mm = mm_from_in(1) / i.number; }),
    row("gears.pressure_angle", {K::quantity, M::angle_deg, {14, 30}}, "normal pressure angle",
        Standard{"\"20 deg\"", "ISO 53 basic rack"}, Example{"20 deg"},
        fills<&Setup::gears, &GearsInput::pressure_angle_deg>),
    row("gears.helix_angle", {K::quantity, M::angle_deg, {0, 35}}, "0: spur",
        Standard{"\"0 deg\"", judgement}, Example{"15 deg"},
        fills<&Setup::gears, &GearsInput::helix_angle_deg>),
    row("gears.hand_on_input", {K::word, accepted_words<Hand>},
        "hand of the helix on the input gear", fills<&Setup::gears, &GearsInput::hand_on_input>),
    row("gears.face_width", {K::quantity, M::length_mm, {5, 200}}, "common face width", needed,
        Example{"42 mm"}, fills<&Setup::gears, &GearsInput::face_width_mm>),
    row("gears.finish", {K::word, "superfinished | ground | shaved"}, "of the flanks",
        Standard{"\"ground\"", judgement},
        [](Setup& s, const Item& i) { s.gears.ground = i.choice == 1; }),
    row("gears.flank_Ra", {K::quantity, M::roughness_um, {0.02, 5}}, "mean roughness of a flank",
        fills<&Setup::gears, &GearsInput::flank_Ra_um>),
    row("gears.flank_Rz", {K::quantity, M::roughness_um, {0.1, 40}}, "roughness depth of a flank",
        Example{"3 um"}, fills<&Setup::gears, &GearsInput::flank_Rz_um>),
    row("gears.accuracy", {K::integer, {3, 12}}, "ISO 1328 grade",
        fills<&Setup::gears, &GearsInput::accuracy>),
    row("gears.material", {K::word, "carburised-ML | carburised-MQ | carburised-ME"},
        "steel and its quality, ISO 6336-5", Standard{"\"carburised-MQ\"", judgement},
        Credible{"\"carburised-ML\"", "\"carburised-ME\""},
        fills<&Setup::gears, &GearsInput::material>),
    row("gears.support", {K::word, accepted_words<Support>},
        "how the gears sit between the bearings", Standard{"\"straddled\"", judgement},
        [](Setup& s, const Item& i) {
            s.gears.support = chosen<Support>(i);
            s.gears.misalignment_um = i.preset.at(0);
        }),
    row("gears.face_load_factor", {K::number, {1, 3}},
        "uneven load over the face, ISO 6336 K_Hbeta, at every load; left out: by load and "
        "gears.support",
        Example{"1.2"}, fills<&Setup::gears, &GearsInput::face_load_factor>),
    row("gears.tip_relief", {K::quantity, M::roughness_um, {0, 100}},
        "tip relief as measured; 0: not counted",
        Standard{"\"0 um\"", "ISO 6336-1 counts none from grade 6 on; 15 um before, judgement"},
        Other{"gears.accuracy=3 | 4 | 5", "\"15 um\""}, Credible{"\"0 um\"", "\"30 um\""},
        Example{"15 um"}, fills<&Setup::gears, &GearsInput::tip_relief_um>),
    row("gears.rim_bore_ratio", {K::number, {0, 0.95}},
        "bore of the rim over mean tooth diameter; 0: solid", Standard{"0.0", judgement},
        fills<&Setup::gears, &GearsInput::rim_bore_ratio>),
    row("gears.train", K::names, "shafts in power order; an idler comes between",
        Standard{"[\"input\", \"output\"]", judgement}, fills<&Setup::gears, &GearsInput::train>),
    row("gears.fitted", {K::teeth, "a name under [set]"},
        "teeth in train order, or the name of a set", needed,
        [](Setup& s, const Item& i) {
            fill(s.gears.teeth, i);
            s.gears.fitted_name = i.text();
        }),

    row("gears.profile_shift", {K::numbers, {-0.6, 0.8}},
        "profile shift of each fitted gear in train order, modules; left out: half of the sum that "
        "the centre distance asks for on each",
        Example{"[0.05, -0.05]"},
        [](Setup& s, const Item& i) { s.gears.cut.profile_shift = i.numbers; }),
    row("gears.tip_diameter", {K::quantities, M::length_mm, {15, 1500}},
        "outside diameter of each fitted gear in train order, measured, in place of the profile "
        "shift; taken as topped alike",
        Example{"190 mm"},
        [](Setup& s, const Item& i) { s.gears.cut.tip_diameter_mm = i.numbers; }),

    row("set.*.teeth", K::teeth, "teeth in train order", needed, fills<set, &SetInput::teeth>),
    row("set.*.in_trailer", K::flag, "owned and at hand", Standard{"true", judgement},
        fills<set, &SetInput::in_trailer>),

    row("shaft.*.gear_at", {K::quantity, M::length_mm, {-500, 1000}},
        "middle of the gear, from the front inside face rearwards", needed, Example{"66 mm"},
        fills<shaft, &ShaftInput::gear_at_mm>),
    row("shaft.*.bore", {K::quantity, M::length_mm, {0, 300}}, "hollow shaft; 0: solid",
        Standard{"\"0 mm\"", judgement}, fills<shaft, &ShaftInput::bore_mm>),
    row("shaft.*.end_play", {K::quantity, M::length_mm, {-0.2, 0.5}},
        "of its facing pair, as set at 20 degC; negative: preload as a length; left out: 0.05 mm",
        Example{"0.08 mm"}, fills<shaft, &ShaftInput::end_play_mm>),
    row("shaft.*.preload", {K::quantity, M::force_N, {0, 1e6}},
        "of its facing pair as set, in place of end_play", Example{"500 N"},
        fills<shaft, &ShaftInput::preload_N>),
    row("shaft.*.turning_torque", {K::quantity, M::torque_Nm, {0, 50}},
        "of its facing pair, turned slowly by hand, in place of end_play", Example{"1.2 N m"},
        fills<shaft, &ShaftInput::turning_torque_Nm>),
};

}  // namespace

std::span<const Field> case_fields() {
    return case_rows;
}

}  // namespace caseload::input
