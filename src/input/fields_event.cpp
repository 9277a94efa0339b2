// SPDX-License-Identifier: MIT
// Fields of [vehicle], [event] and [leg].
#include "input/field_rows.hpp"

#include "caseload/units.hpp"

namespace caseload::input {
namespace {

constexpr std::string_view courses = "hard-road | graded | rough-desert | sand | rock | forest";

LegInput& leg(Setup& s, const Item& i) {
    return named(s.event.legs, i);
}

// What only the segment model reads: entered for the other it has no effect, and a note says so.
constexpr When with_segments{"event.course_model=segments"};

PropShaft& prop_shaft(Setup& s) {
    return there(s.vehicle.prop_shaft);
}

constexpr Field event_rows[] = {
    row("vehicle.mass", {K::quantity, M::mass_kg, {300, 20000}},
        "ready to race, with crew and half the fuel", needed,
        fills<&Setup::vehicle, &VehicleInput::mass_kg>),
    // 0.96 of the free radius at race pressure. Common practice, no published source.
    row("vehicle.tyre", {K::quantity, M::length_mm, {300, 1500}},
        "outside diameter; rolling radius taken as 0.48 of it", Example{"37 in"},
        [](Setup& s, const Item& i) {
            s.vehicle.tyre_m = m_from_mm(i.number);
            s.vehicle.rolling_radius_m = m_from_mm(0.48 * i.number);
        }),
    row("vehicle.wheel_turns", {K::quantity, M::turns_per_km, {150, 1000}},
        "measured turns per distance, in place of the tyre",
        [](Setup& s, const Item& i) { s.vehicle.rolling_radius_m = 1000 / (2 * pi * i.number); }),
    row("vehicle.axle_ratio", {K::number, {1, 12}}, "of the axles, wheel reductions included",
        needed, fills<&Setup::vehicle, &VehicleInput::axle_ratio>),
    row("vehicle.engine_power", {K::quantity, M::power_W, {10000, 2e6}}, "rated", needed,
        fills<&Setup::vehicle, &VehicleInput::engine_power_W>),
    row("vehicle.engine_limit", {K::quantity, M::turning_rpm, {1000, 20000}},
        "highest engine speed", Example{"7600 rpm"},
        fills<&Setup::vehicle, &VehicleInput::engine_limit_rpm>),
    row("vehicle.gearbox", {K::numbers, {0.3, 20}}, "ratios of the gearbox",
        fills<&Setup::vehicle, &VehicleInput::gearbox>),
    row("vehicle.engine_torque", K::pairs,
        "full-load curve by rising speed: [[\"3000 rpm\", \"700 N m\"], ..]",
        [](Setup& s, const Item& i) {
            for (const std::vector<double>& row : i.rows)
                s.vehicle.engine_torque.push_back({row[0], row[1]});
        }),
    row("vehicle.engine_torque[].speed", {K::quantity, M::turning_rpm, {100, 20000}},
        "engine speed"),
    row("vehicle.engine_torque[].torque", {K::quantity, M::torque_Nm, {0, 5000}},
        "full-load torque"),
    row("vehicle.drag_area", {K::quantity, M::area_m2, {0.3, 8}}, "drag coefficient x frontal area",
        Standard{"\"2.4 m2\"", common_practice}, Credible{"\"2.2 m2\"", "\"2.7 m2\""},
        fills<&Setup::vehicle, &VehicleInput::drag_area_m2>),
    row("vehicle.grip", {K::number, {0.1, 1.5}}, "force the tyres hold over weight",
        Standard{"0.6", common_practice}, Credible{"0.5", "0.8"},
        fills<&Setup::vehicle, &VehicleInput::grip>),
    row("vehicle.suspension", {K::word, "stock | long | race"},
        "how far the wheels move, by a word: 200, 400 or 600 mm", with_segments,
        Standard{"\"race\"", judgement}),
    row("vehicle.wheel_travel", {K::quantity, M::length_mm, {80, 1000}},
        "of a wheel, from full droop to full bump", with_segments, Example{"700 mm"},
        fills<&Setup::vehicle, &VehicleInput::wheel_travel_mm>),
    row("vehicle.driven", {K::word, accepted_words<Driven>}, "wheels that drive", with_segments,
        Standard{"\"all\"", judgement}, fills<&Setup::vehicle, &VehicleInput::driven>),
    row("vehicle.gearbox_kind", {K::word, accepted_words<GearboxKind>},
        "left out: automatic for up to three ratios, else sequential", with_segments,
        [](Setup& s, const Item& i) {
            s.vehicle.gearbox_kind = static_cast<GearboxKind>(i.choice);
        }),
    row("vehicle.rated_speed", {K::quantity, M::turning_rpm, {1000, 20000}},
        "engine speed of the rated power; left out: 0.93 of vehicle.engine_limit, without it "
        "6500 rpm",
        with_segments, Example{"6500 rpm"}, fills<&Setup::vehicle, &VehicleInput::rated_rpm>),
    row("vehicle.fuel", {K::word, accepted_words<Fuel>},
        "for the litres; with diesel the torque of an engine without a curve is that of a turbo",
        with_segments, Standard{"\"petrol\"", judgement},
        fills<&Setup::vehicle, &VehicleInput::fuel>),
    row("vehicle.wheel_mass", {K::quantity, M::mass_kg, {5, 300}},
        "of a wheel with tyre and rim; left out: by the tyre", with_segments, Example{"60 kg"},
        fills<&Setup::vehicle, &VehicleInput::wheel_kg>),
    row("vehicle.prop_shaft.length", {K::quantity, M::length_mm, {100, 5000}}, "between the joints",
        needed, When{"vehicle.prop_shaft"}, Example{"1350 mm"},
        fills<prop_shaft, &PropShaft::length_mm>),
    row("vehicle.prop_shaft.outside", {K::quantity, M::length_mm, {20, 300}},
        "outside diameter of the steel tube", needed, When{"vehicle.prop_shaft"},
        Example{"88.9 mm"}, fills<prop_shaft, &PropShaft::outside_mm>),
    row("vehicle.prop_shaft.wall", {K::quantity, M::length_mm, {0.5, 30}}, "of the tube", needed,
        When{"vehicle.prop_shaft"}, Example{"3.05 mm"}, fills<prop_shaft, &PropShaft::wall_mm>),

    row("event.ambient", {K::quantity, M::temp_degC, {-40, 60}}, "air in the shade", needed,
        fills<&Setup::event, &EventInput::ambient_degC>),
    row("event.altitude", {K::quantity, M::distance_m, {-450, 5000}}, "of the course above the sea",
        Standard{"\"0 m\"", judgement}, Credible{"\"0 m\"", "\"2000 m\""}, Example{"600 m"},
        fills<&Setup::event, &EventInput::altitude_m>),
    row("event.oil_at_start", {K::quantity, M::temp_degC, {-40, 150}},
        "temperature of the whole case; left out: ambient", Example{"60 degC"},
        [](Setup& s, const Item& i) {
            s.event.oil_at_start_degC = i.number;
            s.event.oil_at_start_entered = true;
        }),
    row("event.course", {K::word, courses}, "a built-in duty; or event.run and its legs"),
    row("event.course_model", {K::word, accepted_words<CourseModel>},
        "how a course becomes a duty: its fixed lines at a pace, or a lap of this car over its "
        "ground, which gives the pace; left out: fixed",
        fills<&Setup::event, &EventInput::course_model>),
    row("event.duration", {K::quantity, M::time_s, {60, 360000}},
        "driving time on the course; with course_model segments and a distance it may be left out: "
        "by the pace of the model",
        needed, When{"event.course"}, Example{"6 h"}),
    row("event.pace", {K::quantity, M::speed_mps, {0.5, 70}},
        "mean speed on the course; left out: its usual pace, with course_model segments that of "
        "the car. Entered with segments, the roughness of the ground follows from it",
        When{"event.course"}),
    row("event.distance", {K::quantity, M::distance_m, {100, 5e6}}, "in place of the pace",
        When{"event.course"}),
    row("event.style", {K::word, accepted_words<DrivingStyle>},
        "how it is driven; left out: the range has all three", with_segments),
    row("event.ground_severity", {K::number, {0.05, 10}},
        "on the roughness of the ground; left out: from the pace, without one 1 and varied. With a "
        "pace: the ground on which another car had that pace, as compare keeps it",
        with_segments, Example{"1.2"}),
    row("event.from", K::text,
        "file beside this one with [event] and its legs, as `caseload duty` writes it; entries "
        "of this file override it"),
    row("event.run", K::names, "legs in the order driven: [\"transit\", \"3 x loop\", \"fuel\"]"),

    row("leg.*.kind", {K::word, accepted_words<LegKind>}, "drive or stop", Standard{"\"drive\""},
        fills<leg, &LegInput::kind>),
    row("leg.*.duration", {K::quantity, M::time_s, {1, 360000}}, "of the leg", needed,
        fills<leg, &LegInput::duration_s>),
    row("leg.*.distance", {K::quantity, M::distance_m, {1, 5e6}}, "of the leg",
        When{"leg.*.kind=drive"}, fills<leg, &LegInput::distance_m>),
    row("leg.*.course", {K::word, courses}, "a built-in duty, in place of bins"),
    row("leg.*.pace", {K::quantity, M::speed_mps, {0.5, 70}},
        "mean speed on the course; left out: its usual pace, with course_model segments that of "
        "the car",
        When{"leg.*.course"}),
    row("leg.*.style", {K::word, accepted_words<DrivingStyle>},
        "how it is driven; left out: event.style", with_segments),
    row("leg.*.ground_severity", {K::number, {0.05, 10}},
        "on the roughness of the ground; left out: from the pace, without one "
        "event.ground_severity",
        with_segments, Example{"1.2"}),
    row("leg.*.bins", K::rows,
        "slices of the leg's time at the case input: "
        "[{ share, torque, speed, road_speed }, ..]; where every drive leg has them, [vehicle] "
        "may be left out",
        [](Setup& s, const Item& i) {
            for (const std::vector<double>& row : i.rows)
                leg(s, i).bins.push_back({row[0], row[1], row[2], row[3]});
        }),
    row("leg.*.bins[].share", {K::number, M::share, {0, 1}}, "of the leg's time"),
    row("leg.*.bins[].torque", {K::quantity, M::torque_Nm, {-20000, 20000}},
        "at the case input; negative: coast"),
    row("leg.*.bins[].speed", {K::quantity, M::turning_rpm, {0, 20000}},
        "of the case input, from 1 rpm; 0 rpm with 0 N m: a share of standing still"),
    row("leg.*.bins[].road_speed", {K::quantity, M::speed_mps, {0, 100}}, "for the air"),
    row("leg.*.load_source", {K::word, accepted_words<LoadSource>},
        "where its torques come from, which says how far off they may be; left out: course or "
        "entered, as the leg has a course or bins; written by duty: logged or track",
        When{"leg.*.kind=drive"}, Example{"\"logged\""}, fills<leg, &LegInput::load_source>),
    row("leg.*.overload", {K::number, {1, 4}},
        "torque the bins do not show; for lives, never for heat", When{"leg.*.kind=drive"},
        Standard{"1.25", common_practice}, Credible{"1.0", "1.6"}, fills<leg, &LegInput::overload>),
    row("leg.*.peaks", K::rows,
        "brief torques with their count in the leg: [{ torque, times }, ..]",
        When{"leg.*.kind=drive"},
        [](Setup& s, const Item& i) {
            for (const std::vector<double>& row : i.rows)
                leg(s, i).peaks.push_back({row[0], row[1]});
        }),
    row("leg.*.peaks[].torque", {K::quantity, M::torque_Nm, {1, 50000}}, "at the case input"),
    row("leg.*.peaks[].times", {K::number, {0, 1e6}}, "in the leg"),
    row("leg.*.front_drive", K::flag, "front prop shaft connected", When{"leg.*.kind=drive"},
        Standard{"true", judgement}, fills<leg, &LegInput::front_drive>),
    row("leg.*.set", K::text, "drop set of this leg; left out: the fitted one",
        When{"leg.*.kind=drive"}, fills<leg, &LegInput::set>),
    row("leg.*.engine", {K::word, accepted_words<Engine>}, "in the stop", When{"leg.*.kind=stop"},
        Standard{"\"off\"", judgement}, fills<leg, &LegInput::engine>),
    row("leg.*.pump", {K::word, "on | off"}, "electric pump in the stop", When{"leg.*.kind=stop"},
        Standard{"\"on\"", judgement}, Other{"leg.*.engine=off", "\"off\""},
        Credible{"\"off\"", "\"on\""},
        [](Setup& s, const Item& i) { leg(s, i).pump_on = i.choice == 0; }),
    row("leg.*.fan", {K::word, "on | off"}, "fan in the stop", When{"leg.*.kind=stop"},
        Standard{"\"on\"", judgement}, Other{"leg.*.engine=off", "\"off\""},
        Credible{"\"off\"", "\"on\""},
        [](Setup& s, const Item& i) { leg(s, i).fan_on = i.choice == 0; }),
};

}  // namespace

std::span<const Field> event_fields() {
    return event_rows;
}

}  // namespace caseload::input
