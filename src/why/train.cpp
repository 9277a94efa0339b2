// SPDX-License-Identifier: MIT
// Gears and shafts in their places, and the duty at the case input.
#include "input/gears.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::why_detail {
namespace {

std::vector<int> teeth_of(const Train& train) {
    std::vector<int> teeth;
    for (const ShaftPlace& shaft : train.shafts) teeth.push_back(shaft.teeth);
    return teeth;
}

/// Shifts or tips that were entered, and what follows from them: in place of the formulas of the
/// table, which are those of gears that share the sum of shifts alike.
void as_cut(const Gather& gather, int index) {
    const Train& train = train_of(gather.prepared.loads, index);
    const input::CutGears cut = input::cut_gears(gather.setup, teeth_of(train));
    if (cut.shifts.empty()) return;
    Collector& to = gather.to;
    const bool tips = !cut.tips_mm.empty();
    const std::string entered =
        to.origin_of(std::string(tips ? input::tip_diameter_key : input::profile_shift_key));
    std::vector<std::string> parts;
    for (const MeshPlace& mesh : train.meshes) parts.push_back(mesh_part(gather, index, mesh));
    for (const std::string& part : parts)
        for (const char* gear : {"1", "2"})
            mark_as_zero(to.number(tips ? fmt::format("{}.d_a{}_mm", part, gear)
                                        : fmt::format("{}.x_{}", part, gear)),
                         entered);
    if (!tips) {
        // An idler's one tip: what its nearer mate leaves it.
        if (parts.size() == 2)
            for (const std::size_t m : {0U, 1U})
                to.number(fmt::format("{}.d_a{}_mm", parts[m], 2 - m)).value_of = fmt::format(
                    "d_{0}_mm + 2 * module_mm * (1 + x_{0} + min(tip_shortening, "
                    "[{1}.tip_shortening]))",
                    2 - m, parts[1 - m]);
        return;
    }
    // Of iso_21771::shifts_of_tips: k of each mesh, then the shift of the second gear.
    std::vector<std::string> topped;
    for (const std::string& part : parts)
        topped.push_back(
            fmt::format("(([{0}.d_a1_mm] - [{0}.d_1_mm] + [{0}.d_a2_mm] - [{0}.d_2_mm]) / (2 * "
                        "[{0}.module_mm]) - 2 - [{0}.x_sum]) / {1}",
                        part, 2 * parts.size()));
    const std::string& first = parts.front();
    to.number(first + ".x_2").value_of =
        fmt::format("(d_a2_mm - d_2_mm) / (2 * module_mm) - 1 - ({})", sum_of(topped));
    to.number(first + ".x_1").value_of = "x_sum - x_2";
    if (parts.size() == 2)
        to.number(parts.back() + ".x_1").value_of = fmt::format("[{}.x_2]", first);
}

void add_meshes(const Gather& gather, int index) {
    Collector& to = gather.to;
    const Train& train = train_of(gather.prepared.loads, index);
    for (std::size_t m = 0; m < train.meshes.size(); ++m) {
        const MeshPlace& mesh = train.meshes[m];
        const Collector::Place place{"mesh", mesh_part(gather, index, mesh), {}, {}};
        const auto& centres = gather.setup.transfer_case.centre_distance_mm;
        to.add(place, "centre_mm", centres.size() == 1 ? centres.front() : centres.at(m));
        to.members(place, mesh.pair);
        const std::string teeth =
            index > 0 ? to.origin_of("set." + train.set + ".teeth") : to.origin_of("gears.fitted");
        to.number(place.part + ".z_1").origin = teeth;
        to.number(place.part + ".z_2").origin = teeth;
    }
    as_cut(gather, index);
}

/// Where the axes lie: the input at the origin, the output below it; with an idler a triangle.
void place_axes(const Gather& gather, int index) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const Train& train = train_of(prepared.loads, index);
    const auto set = [&](int shaft, const char* member, const std::string& formula) {
        to.number(shaft_part(gather, index, shaft) + "." + member).value_of = formula;
    };
    for (const char* member : {"y_mm", "z_mm"})
        mark_as_zero(to.number(shaft_part(gather, index, 0) + "." + member),
                     "the axes begin there");
    const std::string a = "[" + mesh_part(gather, index, train.meshes[0]) + ".centre_mm]";
    if (train.shafts.size() == 2) {
        set(1, "y_mm", a + " * sin(drop_deg * pi / 180)");
        set(1, "z_mm", "-" + a + " * cos(drop_deg * pi / 180)");
        return;
    }
    const std::string b = "[" + mesh_part(gather, index, train.meshes[1]) + ".centre_mm]";
    const Collector::Place place{
        "train", "train." + of_set(prepared.loads, index) + "axes", {}, {}};
    to.add(place, "idler_deg", gather.setup.transfer_case.idler_angle_deg.value_or(180)).origin =
        to.origin_of("case.idler_angle");
    to.add(place, "sense", train.shafts[1].clockwise ? -1 : 1).origin =
        to.origin_of("case.input_turns");
    to.step(place, "across_mm", b + " * cos(sense * idler_deg * pi / 180) - " + a);
    to.step(place, "up_mm", b + " * sin(sense * idler_deg * pi / 180)");
    to.step(place, "turn_rad");
    const std::string axes = "[" + place.part;
    const std::string turn = axes + ".turn_rad]";
    set(1, "y_mm", fmt::format("-{} * cos({})", a, turn));
    set(1, "z_mm", fmt::format("-{} * sin({})", a, turn));
    set(2, "y_mm", fmt::format("{0}.across_mm] * cos({1}) - {0}.up_mm] * sin({1})", axes, turn));
    set(2, "z_mm", fmt::format("{0}.across_mm] * sin({1}) + {0}.up_mm] * cos({1})", axes, turn));
}

void add_shafts(const Gather& gather, int index) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const Train& train = train_of(prepared.loads, index);
    std::vector<std::string> discs;
    for (std::size_t s = 0; s < train.shafts.size(); ++s) {
        const ShaftPlace& shaft = train.shafts[s];
        const std::string part = shaft_part(gather, index, static_cast<int>(s));
        const Collector::Place place{"shaft", part, {}, {}};
        const auto add = [&](const char* member, double value) -> Number& {
            return to.add(place, value, quantity("shaft", member));
        };
        add("teeth", shaft.teeth).origin =
            index > 0 ? to.origin_of("set." + train.set + ".teeth") : to.origin_of("gears.fitted");
        add("gear_at_mm", shaft.gear_at_mm).origin =
            to.origin_of("shaft." + shaft.name + ".gear_at");
        add("y_mm", shaft.y_mm);
        add("z_mm", shaft.z_mm);
        Number& speed = add("speed_ratio", shaft.speed_ratio);
        if (s == 0) {
            mark_as_zero(speed, "the input itself");
        } else {
            const std::string before = shaft_part(gather, index, static_cast<int>(s) - 1);
            speed.value_of =
                fmt::format("-[{0}.speed_ratio] * [{0}.teeth] / [{1}.teeth]", before, part);
        }
        Number& torque = add("torque_ratio", shaft.torque_ratio);
        if (shaft.torque_ratio > 0)
            torque.value_of = "1 / abs(speed_ratio)";
        else
            mark_as_zero(torque, "an idler passes torque on to its gear's mates alone");
        const MeshPlace& mesh = train.meshes[s == 0 ? 0 : s - 1];
        const std::string of = mesh_part(gather, index, mesh);
        add("pitch_diameter_mm", shaft.pitch_diameter_mm).value_of =
            fmt::format("[{}.d_w{}_mm]", of, s == 0 ? 1 : 2);
        add("tip_diameter_mm", shaft.tip_diameter_mm).value_of =
            fmt::format("[{}.d_a{}_mm]", of, s == 0 ? 1 : 2);
        discs.push_back(fmt::format("[{}.pitch_diameter_mm]^2", part));
    }
    const Collector::Place place{"train", train_part(prepared.loads, index), {}, {}};
    Number& mass = to.add(place, train.steel_mass_kg, quantity("train", "steel_mass_kg"));
    const std::string all = sum_of(discs);
    if (gather.setup.transfer_case.steel_mass_kg)
        mass.origin = to.origin_of("case.steel_mass");
    else
        mass.value_of = "1.2 * pi / 4 * face_width_mm * 7830e-9 * (" + all + ")";
    const std::string last = shaft_part(gather, index, static_cast<int>(train.shafts.size()) - 1);
    to.add(place, train.ratio, quantity("train", "ratio")).value_of =
        "1 / abs([" + last + ".speed_ratio])";
    for (std::size_t s = 0; s < train.shafts.size(); ++s) {
        const std::string part = shaft_part(gather, index, static_cast<int>(s));
        to.add({"shaft", part, {}, {}}, train.shafts[s].weight_N, quantity("shaft", "weight_N"))
            .value_of = fmt::format("[{}.steel_mass_kg] * 9.80665 * pitch_diameter_mm^2 / ({})",
                                    place.part, all);
    }
}

/// Torque the best gear of the gearbox brings to the case input, 0 beyond the engine's last point.
std::string best_gear(const VehicleInput& vehicle) {
    const double last_rpm =
        vehicle.engine_limit_rpm.value_or(vehicle.engine_torque.back().speed_rpm);
    std::string curve;
    for (const TorquePoint& point : vehicle.engine_torque)
        curve += fmt::format(", {:.12g}, {:.12g}", point.speed_rpm, point.torque_Nm);
    std::vector<std::string> gears;
    for (const double gear : vehicle.gearbox)
        gears.push_back(
            fmt::format("if({0:.12g} < [duty.speed_rpm@AT] * {1:.12g}, 0, "
                        "lin([duty.speed_rpm@AT] * {1:.12g}{2}) * {1:.12g})",
                        std::min(last_rpm, vehicle.engine_torque.back().speed_rpm), gear, curve));
    return extreme_of("max", gears);
}

std::string with_at(std::string text, const std::string& at) {
    for (std::size_t i = text.find("@AT"); i != std::string::npos; i = text.find("@AT"))
        text.replace(i, 3, "@" + at);
    return text;
}

void add_bin(const Gather& gather, std::size_t leg, std::size_t bin) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const LegInput& input = setup.event.legs[leg];
    const LegLoads& loads = prepared.loads.legs[leg];
    const std::string at = in_bin(input.name, bin);
    const Collector::Place place{"duty", "duty", at, {}};
    to.members(place, loads.bins[bin].bin);
    const std::string key = "leg." + input.name + ".";
    if (input.course_lines.empty()) {
        std::string origin = to.origin_of(key + "bins");
        if (!input.calculated.empty())
            origin = fmt::format("segment model: {}, row {} of the bins of its likely lap",
                                 input.course, bin + 1);
        if (origin.empty()) origin = fmt::format("leg.{}, row {} of its bins", input.name, bin + 1);
        for (const char* member : {"share", "torque_Nm", "speed_rpm", "road_speed_mps"})
            mark_as_zero(to.number(fmt::format("duty.{}@{}", member, at)), origin);
        Number& torque = to.number("duty.torque_Nm@" + at);
        if (setup.factors.load != 1)
            torque.origin += fmt::format(", times {:.12g}: measured case", setup.factors.load);
        return;
    }
    const CourseLine& line = input.course_lines[bin];
    const std::string origin = fmt::format("course {}, line {}", input.course, bin + 1);
    to.number("duty.share@" + at).origin = origin;
    const Collector::Place course{"course", "duty", at, {}};
    const auto add = [&](const char* member, double value) {
        to.add(course, member, value).origin = origin;
    };
    add("pace_ratio", line.pace_ratio);
    add("resistance", line.resistance);
    add("grade", line.grade);
    add("acceleration_mps2", line.acceleration_mps2);
    to.add(course, "pace_mps", input.course_pace_mps).origin = to.origin_of(key + "pace");
    const std::string train = train_part(prepared.loads, loads.train);
    to.step(course, "lever_m", "rolling_radius_m / (axle_ratio * [" + train + ".ratio])");
    Number& speed = to.number("duty.road_speed_mps@" + at);
    speed.value_of = "pace_mps * pace_ratio";
    to.number("duty.speed_rpm@" + at).value_of = "road_speed_mps / lever_m * 30 / pi";
    const VehicleInput& vehicle = setup.vehicle;
    std::string engine = "engine_power_W / (speed_rpm * pi / 30)";
    if (!vehicle.engine_torque.empty() && !vehicle.gearbox.empty())
        engine = with_at(fmt::format("min({}, {})", best_gear(vehicle), engine), at);
    std::string load = setup.factors.load == 1 ? "" : fmt::format("{:.12g} * ", setup.factors.load);
    to.number("duty.torque_Nm@" + at).value_of = fmt::format(
        "{}if(0 < road_Nm, min(road_Nm, min({}, grip_Nm)), max(road_Nm, -coast_Nm))", load, engine);
    to.steps_of(course);
}

void add_peaks(const Gather& gather, std::size_t leg) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const LegInput& input = setup.event.legs[leg];
    const LegLoads& loads = prepared.loads.legs[leg];
    for (std::size_t k = 0; k < loads.peaks.size(); ++k) {
        const Collector::Place place{"peak", "peak", in_bin(input.name, k), {}};
        Number& torque = to.add(place, loads.peaks[k].torque_Nm, quantity("peak", "torque_Nm"));
        const std::string entered = fmt::format("leg.{}, row {} of its peaks", input.name, k + 1);
        if (k < input.peaks.size()) {
            torque.origin = entered;
        } else {
            const std::string load =
                setup.factors.load == 1 ? "" : fmt::format("{:.12g} * ", setup.factors.load);
            std::vector<std::string> terms{fmt::format(
                "{}{:g} * grip * vehicle_kg * 9.80665 * rolling_radius_m / axle_ratio / [{}.ratio]",
                load, landing_load, train_part(prepared.loads, loads.train))};
            for (std::size_t bin = 0; bin < loads.bins.size(); ++bin)
                terms.push_back(fmt::format("abs([duty.torque_Nm@{}]) * [rest.overload@{}]",
                                            in_bin(input.name, bin), input.name));
            torque.value_of = extreme_of("max", terms);
        }
        Number& times = to.add(place, loads.peaks[k].times, quantity("peak", "times"));
        times.origin =
            k < input.peaks.size() ? entered : "course " + input.course + ", its peaks an hour";
    }
}

}  // namespace

void add_trains(const Gather& gather) {
    const Collector::Place shared{"shared", "shared", {}, {}};
    gather.to.add(shared, "drop_deg", gather.setup.transfer_case.drop_direction_deg);
    for (int index = 0; index < trains(gather.prepared.loads); ++index) {
        add_meshes(gather, index);
        add_shafts(gather, index);
        place_axes(gather, index);
    }
}

void add_duty(const Gather& gather) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const Collector::Place shared{"shared", "shared", {}, {}};
    const VehicleInput& vehicle = gather.setup.vehicle;
    if (vehicle.known()) {
        to.add(shared, "vehicle_kg", vehicle.mass_kg);
        to.add(shared, "rolling_radius_m", vehicle.rolling_radius_m);
        to.add(shared, "axle_ratio", vehicle.axle_ratio);
        to.add(shared, "engine_power_W", vehicle.engine_power_W);
        to.add(shared, "drag_area_m2", vehicle.drag_area_m2);
        to.add(shared, "grip", vehicle.grip);
    }
    for (std::size_t leg = 0; leg < prepared.loads.legs.size(); ++leg) {
        for (std::size_t bin = 0; bin < prepared.loads.legs[leg].bins.size(); ++bin)
            add_bin(gather, leg, bin);
        add_peaks(gather, leg);
    }
}

}  // namespace caseload::why_detail
