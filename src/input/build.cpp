// SPDX-License-Identifier: MIT
// Checked values -> Setup, and the problems only the whole shows.
#include "input/completed.hpp"

#include "caseload/tables.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace caseload::input {
namespace {

// Rolling radius over outside diameter: 0.96 of the free radius at race pressure. Common practice.
constexpr double rolling_over_outside = 0.48;
// Estimated cores at 8 m/s face speed and 8 L/min, per face area and 45 mm depth. Judgement.
constexpr double plate_fin_WpKm2 = 4000;
constexpr double tube_fin_WpKm2 = 1800;
constexpr double core_depth_exponent = 0.6;
constexpr double core_depth_mm = 45;
constexpr double estimate_difference_K = 60;
constexpr double estimate_oil_Lpmin = 8;
constexpr double estimate_face_mps = 8;
// Oil limits by base oil. Common practice of race teams and gear-oil makers' published limits.
constexpr double synthetic_watch_degC = 121;
constexpr double synthetic_stop_degC = 135;
constexpr double mineral_watch_degC = 105;
constexpr double mineral_stop_degC = 120;
// Permanent shear loss. Synthetic and monograde 5 %, mineral multigrade 10 %; from memory.
constexpr double shear_synthetic = 0.05;
constexpr double shear_mineral = 0.10;

template <class E>
E pick(const std::string& word, std::initializer_list<std::pair<const char*, E>> all, E otherwise) {
    for (const auto& [name, value] : all)
        if (word == name) return value;
    return otherwise;
}

void build_case(Completed& from, Setup& to) {
    to.title = from.text_or("title", "");
    to.imperial = from.text_or("units", "metric") == "imperial";
    if (!from.has("caseload") && !from.was_refused("caseload"))
        from.problem("caseload", "caseload = 1 is missing",
                     "the first line of a setup names its file version");
    to.box.centre_distance_mm = {from.number("case.centre_distance")};
    to.box.input_turns_clockwise = from.word("case.input_turns") == "clockwise";
    to.box.drop_direction_deg = from.number("case.drop_direction");
    to.box.steel_mass_kg = from.optional("case.steel_mass");
}

void build_gears(Completed& from, Setup& to) {
    GearsInput& gears = to.gears;
    if (from.has("gears.diametral_pitch") && from.has("gears.module")) {
        from.problem("gears.diametral_pitch",
                     "gears.diametral_pitch and gears.module are both given", "keep one of them");
    }
    gears.module_mm = from.has("gears.diametral_pitch")
                          ? 25.4 / from.number("gears.diametral_pitch")
                          : from.number("gears.module");
    gears.pressure_angle_deg = from.number("gears.pressure_angle");
    gears.helix_angle_deg = from.number("gears.helix_angle");
    const std::string hand = from.text_or("gears.hand_on_input", "");
    gears.hand_on_input =
        pick<Hand>(hand, {{"right", Hand::right}, {"left", Hand::left}}, Hand::none);
    if (gears.helix_angle_deg > 0 && gears.hand_on_input == Hand::none)
        from.problem("gears.helix_angle", "helical gears need gears.hand_on_input",
                     "\"right\" or \"left\"; the mate has the other hand");
    gears.face_width_mm = from.number("gears.face_width");
    gears.flank_Ra_um = from.number("gears.flank_Ra");
    gears.flank_Rz_um = from.number("gears.flank_Rz");
    gears.ground = from.text_or("gears.finish", "") == "ground";
    gears.accuracy = static_cast<int>(from.number("gears.accuracy"));
    gears.material = from.word("gears.material");
    gears.support =
        pick<Support>(from.word("gears.support"),
                      {{"hub", Support::hub}, {"overhung", Support::overhung}}, Support::straddled);
    gears.face_load_factor = from.number("gears.face_load_factor");
    gears.tip_relief_um = from.number("gears.tip_relief");
    gears.rim_bore_ratio = from.number("gears.rim_bore_ratio");
    if (from.has("gears.train"))
        for (const Value& one : from.items.at("gears.train").value.items)
            gears.train.push_back(one.text);
    if (gears.train.size() != 2)
        from.problem("gears.train",
                     fmt::format("gears.train names {} shafts; this version calculates "
                                 "two: input and output",
                                 gears.train.size()),
                     "an idler between them is not calculated yet");
    for (const std::string& name : from.names("set")) {
        SetInput set;
        const auto found = from.items.find("set." + name + ".teeth");
        if (found == from.items.end()) {
            from.problem("set." + name + ".in_trailer",
                         fmt::format("set.{}.teeth is missing", name),
                         fmt::format("for example set.{} = {{ teeth = [33, 41] }}", name));
            continue;
        }
        for (const double z : found->second.numbers) set.teeth.push_back(static_cast<int>(z));
        set.in_trailer = from.flag("set." + name + ".in_trailer");
        to.sets[name] = set;
    }
    const auto fitted = from.items.find("gears.fitted");
    if (fitted == from.items.end()) {
        from.number("gears.fitted");
        return;
    }
    if (fitted->second.value.kind == Value::Kind::text) {
        gears.fitted_name = fitted->second.value.text;
        const auto set = to.sets.find(gears.fitted_name);
        if (set == to.sets.end()) {
            std::string known;
            for (const auto& [name, unused] : to.sets) known += (known.empty() ? "" : ", ") + name;
            from.problem(
                "gears.fitted",
                fmt::format("gears.fitted = \"{}\": there is no such set", gears.fitted_name),
                known.empty() ? "add [set] or give the teeth: [33, 41]"
                              : fmt::format("sets are {}", known));
            return;
        }
        gears.teeth = set->second.teeth;
    } else {
        for (const double z : fitted->second.numbers) gears.teeth.push_back(static_cast<int>(z));
    }
    if (gears.teeth.size() != gears.train.size() && gears.train.size() == 2)
        from.problem("gears.fitted",
                     fmt::format("gears.fitted has {} gears, the train has {} shafts",
                                 gears.teeth.size(), gears.train.size()),
                     "one tooth count per shaft, input first");
}

bool known_shaft(const Setup& setup, const std::string& name) {
    return std::find(setup.gears.train.begin(), setup.gears.train.end(), name) !=
           setup.gears.train.end();
}

void build_shafts(Completed& from, Setup& to) {
    for (const std::string& name : to.gears.train)
        to.shafts[name] = {from.number("shaft." + name + ".gear_at"),
                           from.optional("shaft." + name + ".bore").value_or(0)};
    for (const std::string& name : from.names("shaft"))
        if (!known_shaft(to, name))
            from.problem("shaft." + name + ".gear_at",
                         fmt::format("shaft.{} is not in gears.train", name), "");
}

void check_shaft(Completed& from, const Setup& setup, const std::string& name) {
    std::vector<const BearingInput*> on;
    int locating = 0;
    for (const BearingInput& bearing : setup.bearings) {
        if (bearing.shaft != name) continue;
        on.push_back(&bearing);
        locating += bearing.locating ? 1 : 0;
    }
    const std::string key = on.empty() ? "bearing" : "bearing." + on.front()->name + ".shaft";
    if (on.size() != 2) {
        from.problem(
            key, fmt::format("the {} shaft has {} bearings; it needs two", name, on.size()), "");
        return;
    }
    if (locating != 1)
        from.problem(key,
                     fmt::format("the {} shaft has {} locating bearings ({}, {}); it needs one",
                                 name, locating, on[0]->name, on[1]->name),
                     "write locating = true at the bearing that holds the shaft along its axis");
    if (std::fabs(on[0]->at_mm - on[1]->at_mm) < (on[0]->width_mm + on[1]->width_mm) / 2)
        from.problem("bearing." + on[1]->name + ".at",
                     fmt::format("bearings {} and {} overlap", on[0]->name, on[1]->name),
                     "check `at` and the widths");
    for (const BearingInput* bearing : on)
        if (bearing->locating && bearing->kind == BearingKind::cylindrical_roller)
            from.problem(
                "bearing." + bearing->name + ".locating",
                fmt::format(
                    "bearing.{}: a cylindrical roller bearing cannot be the locating one here",
                    bearing->name),
                "flange thrust is outside the rating standard; make the ball bearing locating");
}

void build_bearings(Completed& from, Setup& to) {
    using BK = BearingKind;
    for (const std::string& name : from.names("bearing")) {
        const std::string at = "bearing." + name;
        BearingInput b;
        b.name = name;
        b.shaft = from.word(at + ".shaft");
        if (!b.shaft.empty() && !known_shaft(to, b.shaft))
            from.problem(at + ".shaft",
                         fmt::format("{}.shaft = \"{}\": there is no such shaft in gears.train", at,
                                     b.shaft),
                         "");
        b.at_mm = from.number(at + ".at");
        b.kind = pick<BK>(from.word(at + ".type"),
                          {{"deep-groove-ball", BK::deep_groove_ball},
                           {"cylindrical-roller", BK::cylindrical_roller},
                           {"angular-contact-ball", BK::angular_contact_ball},
                           {"four-point-ball", BK::four_point_ball},
                           {"tapered-roller", BK::tapered_roller},
                           {"spherical-roller", BK::spherical_roller}},
                          BK::deep_groove_ball);
        if (b.kind != BK::deep_groove_ball && b.kind != BK::cylindrical_roller)
            from.problem(
                at + ".type",
                fmt::format("{}.type = \"{}\" is not calculated yet", at, from.word(at + ".type")),
                "this version calculates deep-groove-ball and cylindrical-roller");
        const auto size = from.items.find(at + ".size");
        if (size == from.items.end()) {
            from.word(at + ".size");
        } else {
            b.bore_mm = size->second.numbers[0];
            b.outside_mm = size->second.numbers[1];
            b.width_mm = size->second.numbers[2];
            if (b.outside_mm < 1.1 * b.bore_mm)
                from.problem(
                    at + ".size",
                    fmt::format("{}.size: outside {:g} mm leaves no room over the bore of {:g} mm",
                                at, b.outside_mm, b.bore_mm),
                    "order is bore x outside x width");
        }
        b.locating = from.flag(at + ".locating");
        b.clearance = pick<ClearanceClass>(from.word(at + ".clearance"),
                                           {{"C2", ClearanceClass::C2},
                                            {"C3", ClearanceClass::C3},
                                            {"C4", ClearanceClass::C4},
                                            {"C5", ClearanceClass::C5}},
                                           ClearanceClass::CN);
        b.dynamic_rating_N = from.optional(at + ".dynamic_rating");
        b.static_rating_N = from.optional(at + ".static_rating");
        b.fatigue_limit_N = from.optional(at + ".fatigue_limit");
        b.f0 = from.optional(at + ".f0");
        const std::string oil = from.word(at + ".oil");
        b.oil = pick<OilSupply>(
            oil,
            {{"jet", OilSupply::jet}, {"splash", OilSupply::splash}, {"mist", OilSupply::mist}},
            OilSupply::damp);
        b.oil_reaching_Lpmin =
            pick<double>(oil, {{"jet", 1.0}, {"splash", 0.3}, {"mist", 0.03}}, 0.1);  // judgement
        to.bearings.push_back(std::move(b));
    }
    for (const std::string& name : to.gears.train) check_shaft(from, to, name);
    std::stable_sort(
        to.bearings.begin(), to.bearings.end(), [&](const BearingInput& a, const BearingInput& b) {
            const auto place = [&](const BearingInput& x) {
                return std::find(to.gears.train.begin(), to.gears.train.end(), x.shaft) -
                       to.gears.train.begin();
            };
            return place(a) != place(b) ? place(a) < place(b) : a.at_mm < b.at_mm;
        });
}

void build_joints_and_seals(Completed& from, Setup& to) {
    for (const std::string& name : from.names("joint")) {
        const std::string at = "joint." + name;
        JointInput joint;
        joint.name = name;
        joint.shaft = from.word(at + ".shaft");
        if (!joint.shaft.empty() && !known_shaft(to, joint.shaft))
            from.problem(at + ".shaft",
                         fmt::format("{}.shaft = \"{}\": there is no such shaft in gears.train", at,
                                     joint.shaft),
                         "");
        const std::string end = from.text_or(at + ".end", name);
        if (end != "front" && end != "rear")
            from.problem(at + ".shaft", fmt::format("{}.end is missing", at),
                         "\"front\" or \"rear\"");
        joint.end = end == "front" ? End::front : End::rear;
        joint.angle_down_deg = from.number(at + ".angle_down");
        joint.angle_right_deg = from.number(at + ".angle_right");
        joint.torque_share = from.number(at + ".torque_share");
        joint.slip_friction =
            pick<double>(from.word(at + ".slip"),  // judgement, ranges of dry to rolling splines
                         {{"greased-steel", 0.12}, {"coated", 0.08}, {"rolling", 0.03}}, 0.0);
        if (joint.slip_friction > 0) joint.slip_diameter_mm = from.number(at + ".slip_diameter");
        to.joints.push_back(std::move(joint));
    }
    for (const std::string& name : from.names("seal")) {
        const std::string at = "seal." + name;
        SealInput seal;
        seal.name = name;
        seal.shaft = from.text_or(at + ".shaft", known_shaft(to, name)    ? name
                                                 : to.gears.train.empty() ? ""
                                                                          : to.gears.train.back());
        if (!known_shaft(to, seal.shaft))
            from.problem(at + ".shaft",
                         fmt::format("{}.shaft = \"{}\": there is no such shaft in gears.train", at,
                                     seal.shaft),
                         "");
        seal.diameter_mm = from.number(at + ".diameter");
        using SM = SealMaterial;
        seal.material = pick<SM>(from.word(at + ".material"),
                                 {{"NBR", SM::NBR},
                                  {"HNBR", SM::HNBR},
                                  {"ACM", SM::ACM},
                                  {"VMQ", SM::VMQ},
                                  {"PTFE", SM::PTFE}},
                                 SM::FKM);
        seal.lips = static_cast<int>(from.number(at + ".lips"));
        to.seals.push_back(std::move(seal));
    }
}

void read_cleanliness(Completed& from, OilInput& oil) {
    const std::string code = from.word("oil.cleanliness");
    const std::size_t last = code.rfind('/');
    const std::size_t middle = last == std::string::npos ? last : code.rfind('/', last - 1);
    const auto whole = [](const std::string& text) {
        return !text.empty() && text.size() <= 2 &&
               std::all_of(text.begin(), text.end(),
                           [](unsigned char c) { return std::isdigit(c) != 0; });
    };
    if (middle == std::string::npos || !whole(code.substr(middle + 1, last - middle - 1)) ||
        !whole(code.substr(last + 1))) {
        if (!code.empty())
            from.problem("oil.cleanliness",
                         fmt::format("oil.cleanliness = \"{}\": not an ISO 4406 code", code),
                         "three numbers, the first may be -: \"-/19/16\"");
        return;
    }
    oil.code_6um = std::atoi(code.substr(middle + 1).c_str());
    oil.code_14um = std::atoi(code.substr(last + 1).c_str());
}

void build_oil(Completed& from, Setup& to) {
    OilInput& oil = to.oil;
    oil.grade = from.text_or("oil.grade", "");
    const bool own = from.has("oil.viscosity_40C") || from.has("oil.viscosity_100C");
    if (!oil.grade.empty() && !own) {
        for (const auto& [key, leaf] : parse_leaves(embedded_table("oils.toml"), "oils.toml")) {
            if (leaf.value.text != oil.grade || key.substr(key.rfind('.')) != ".name") continue;
            const Leaves oils = parse_leaves(embedded_table("oils.toml"), "oils.toml");
            const std::string id = key.substr(0, key.rfind('.'));
            oil.synthetic = oils.at(id + ".base_oil").value.text == "synthetic";
            const auto& values = oils.at(id + ".values").value.items;
            oil.viscosity_40C_mm2ps = values[0].number;
            oil.viscosity_100C_mm2ps = values[1].number;
            oil.density_15C_kgpm3 = values[2].number;
        }
    } else {
        if (oil.grade.empty() && !own) {
            if (!from.was_refused("oil.grade"))
                from.problem("oil.grade", "the oil is not given",
                             "add oil.grade = \"75W-90 synthetic\", or its viscosities");
        } else {
            oil.viscosity_40C_mm2ps = from.number("oil.viscosity_40C");
            oil.viscosity_100C_mm2ps = from.number("oil.viscosity_100C");
            oil.density_15C_kgpm3 = from.number("oil.density_15C");
            oil.synthetic = from.word("oil.base_oil") == "synthetic";
            if (oil.viscosity_40C_mm2ps > 0 && oil.viscosity_40C_mm2ps <= oil.viscosity_100C_mm2ps)
                from.problem("oil.viscosity_100C",
                             "oil.viscosity_100C is not below oil.viscosity_40C",
                             "an oil thins as it warms; the two may be swapped");
        }
    }
    oil.shear_loss =
        from.optional("oil.shear_loss").value_or(oil.synthetic ? shear_synthetic : shear_mineral);
    oil.ep_additive = from.flag("oil.ep_additive");
    oil.filter =
        pick<Filter>(from.word("oil.filter"),
                     {{"in-line", Filter::in_line}, {"none", Filter::none}}, Filter::off_line);
    oil.fill_L = from.number("oil.fill");
    read_cleanliness(from, oil);
}

void build_lubrication(Completed& from, Setup& to) {
    LubricationInput& l = to.lubrication;
    l.method = from.word("lubrication.method") == "dip" ? Method::dip : Method::scavenged;
    if (l.method == Method::dip)
        from.problem("lubrication.method", "lubrication.method = \"dip\" is not calculated yet",
                     "this version calculates scavenged cases");
    l.mist_oil_fraction = from.number("lubrication.mist_oil_fraction");
    l.oil_rehit = from.number("lubrication.oil_rehit");
    l.jet_speed_mps = from.number("lubrication.jet_speed");
    l.side_gap_mm = from.optional("lubrication.side_gap");
    l.depth_mm = from.optional("lubrication.depth");
    if (!from.has("lubrication.pump.flow") && !from.has("lubrication.pump.drive")) return;
    PumpInput pump;
    pump.drive =
        from.word("lubrication.pump.drive") == "input" ? PumpDrive::input : PumpDrive::electric;
    pump.flow_Lpmin = from.number("lubrication.pump.flow");
    if (pump.drive == PumpDrive::input)
        pump.rated_speed_rpm = from.number("lubrication.pump.rated_speed");
    pump.pressure_Pa = from.number("lubrication.pump.pressure");
    pump.efficiency = from.number("lubrication.pump.efficiency");
    pump.on_above_degC = from.optional("lubrication.pump.on_above");
    l.pump = pump;
}

void build_housing(Completed& from, Setup& to) {
    HousingInput& h = to.housing;
    const auto size = from.items.find("housing.size");
    if (size == from.items.end()) {
        from.word("housing.size");
    } else {
        h.along_mm = size->second.numbers[0];
        h.across_mm = size->second.numbers[1];
        h.high_mm = size->second.numbers[2];
    }
    h.wall_mm = from.number("housing.wall");
    if (size != from.items.end() && 2 * h.wall_mm >= std::min({h.along_mm, h.across_mm, h.high_mm}))
        from.problem("housing.wall", "housing.wall leaves no room inside housing.size", "");
    h.mass_kg = from.optional("housing.mass");
    const std::string dirt = from.word("housing.dirt");
    h.dirt_thickness_mm = from.number("housing.dirt_thickness");
    h.dirt_area_share = dirt == "mud" ? 0.5 : 1.0;  // mud clings to the lower half; judgement
    const bool emissivity_given = from.has("housing.emissivity") &&
                                  from.items.at("housing.emissivity").origin != Origin::preset;
    // Any coat of dirt radiates like paint.
    h.emissivity = !emissivity_given && dirt != "clean" ? 0.90 : from.number("housing.emissivity");
    if (from.has("housing.air_speed_share"))
        h.air_speed_share = from.number("housing.air_speed_share");
    else
        from.word("housing.place");
    h.air_warmer_by_K = from.number("housing.air_warmer_by");
    h.exhaust_heat_W = from.number("housing.exhaust_heat");
    h.oil_film_coefficient_Wpm2K = from.number("housing.oil_film_coefficient");
    h.oil_wetted_share = from.number("housing.oil_wetted_share");
}

void build_cooler(Completed& from, Setup& to) {
    CoolerInput& c = to.cooler;
    c.fit = from.flag("cooler.fit");
    c.face_speed_share = from.number("cooler.face_speed_share");
    c.fan_face_speed_mps = from.number("cooler.fan_face_speed");
    c.fan_on_above_degC = from.optional("cooler.fan_on_above");
    c.air_warmer_by_K = from.number("cooler.air_warmer_by");
    c.thermostat_opens_degC = from.optional("cooler.thermostat_opens");
    c.bypass_opens_Pa = from.number("cooler.bypass_opens");
    if (!c.fit) return;
    const auto core = from.items.find("cooler.core");
    if (core == from.items.end()) {
        from.word("cooler.core");
        return;
    }
    c.width_mm = core->second.numbers[0];
    c.height_mm = core->second.numbers[1];
    c.depth_mm = core->second.numbers[2];
    if (!to.lubrication.pump)
        from.problem("cooler.fit", "a cooler is fitted but no pump feeds it",
                     "add lubrication.pump = { drive, flow }");
    c.rating.rated_air_degC = from.number("cooler.rated_air");
    const bool rated = from.has("cooler.rating.heat") || from.has("cooler.rating.difference");
    if (rated) {
        c.rating = {from.number("cooler.rating.heat"), from.number("cooler.rating.difference"),
                    from.number("cooler.rating.oil_flow"), from.number("cooler.rating.face_speed"),
                    c.rating.rated_air_degC};
        return;
    }
    const double face_m2 = m_from_mm(c.width_mm) * m_from_mm(c.height_mm);
    const double per_m2 =
        from.word("cooler.construction") == "tube-fin" ? tube_fin_WpKm2 : plate_fin_WpKm2;
    c.rating_estimated = true;
    c.rating = {per_m2 * face_m2 * std::pow(c.depth_mm / core_depth_mm, core_depth_exponent) *
                    estimate_difference_K,
                estimate_difference_K, estimate_oil_Lpmin, estimate_face_mps,
                c.rating.rated_air_degC};
    from.note(
        "cooler.rating_estimated", "cooler",
        fmt::format(
            "cooler conductance estimated from its size: {:.0f} W/K at 8 m/s and 8 L/min, within a "
            "factor of 1.6; enter its rating",
            c.rating.heat_W / c.rating.difference_K));
}

void build_vehicle(Completed& from, Setup& to) {
    VehicleInput& v = to.vehicle;
    v.mass_kg = from.number("vehicle.mass");
    if (from.has("vehicle.wheel_turns") && from.has("vehicle.tyre"))
        from.problem("vehicle.wheel_turns", "vehicle.tyre and vehicle.wheel_turns are both given",
                     "keep the measured one: wheel_turns");
    v.rolling_radius_m = from.has("vehicle.wheel_turns")
                             ? 1000 / (2 * pi * from.number("vehicle.wheel_turns"))
                             : m_from_mm(from.number("vehicle.tyre")) * rolling_over_outside;
    v.axle_ratio = from.number("vehicle.axle_ratio");
    v.engine_power_W = from.number("vehicle.engine_power");
    v.engine_limit_rpm = from.optional("vehicle.engine_limit");
    if (from.has("vehicle.gearbox")) v.gearbox = from.items.at("vehicle.gearbox").numbers;
    v.drag_area_m2 = from.number("vehicle.drag_area");
    v.grip = from.number("vehicle.grip");
    if (!from.has("vehicle.engine_torque")) return;
    for (const Value& point : from.items.at("vehicle.engine_torque").value.items) {
        const bool pair = point.kind == Value::Kind::list && point.items.size() == 2;
        const Quantity speed =
            pair ? read_quantity(Measure::turning, point.items[0].text) : Quantity{};
        const Quantity torque =
            pair ? read_quantity(Measure::torque, point.items[1].text) : Quantity{};
        if (!speed.ok || !torque.ok ||
            (!v.engine_torque.empty() && speed.value <= v.engine_torque.back().speed_rpm)) {
            from.problem(
                "vehicle.engine_torque",
                "vehicle.engine_torque: each point is [\"3000 rpm\", \"700 N m\"], by rising speed",
                "");
            return;
        }
        v.engine_torque.push_back({speed.value, torque.value});
    }
}

double member(Completed& from, const std::string& key, const Value& row, const std::string& name,
              Measure measure, bool& ok) {
    for (const auto& [found, value] : row.members) {
        if (found != name) continue;
        if (measure == Measure::none) {
            if (value.kind == Value::Kind::number || value.kind == Value::Kind::integer)
                return value.number;
            from.problems.push_back(
                {value.where, fmt::format("{}: {} is a bare number", key, name), ""});
        } else {
            const Quantity read = value.kind == Value::Kind::text
                                      ? read_quantity(measure, value.text)
                                      : Quantity{false, 0, "a unit is missing", "", ""};
            if (read.ok) return read.value;
            from.problems.push_back(
                {value.where,
                 fmt::format("{}: {} = {}: {}", key, name, toml_text(value), read.problem),
                 fmt::format("for example \"{}\"", example_of(measure))});
        }
        ok = false;
        return 0;
    }
    from.problems.push_back(
        {row.where, fmt::format("{}: {} is missing in {}", key, name, toml_text(row)), ""});
    ok = false;
    return 0;
}

void unknown_members(Completed& from, const std::string& key, const Value& row,
                     std::string_view accepted) {
    for (const auto& [name, value] : row.members)
        if (!is_accepted(accepted, name)) {
            const std::string near = nearest_word(accepted, name);
            from.problems.push_back({value.where,
                                     fmt::format("{}: unknown key {} in a row", key, name),
                                     near.empty() ? fmt::format("keys are {}", accepted)
                                                  : fmt::format("did you mean {}?", near)});
        }
}

void build_bins(Completed& from, LegInput& leg) {
    const std::string key = "leg." + leg.name + ".bins";
    double sum = 0;
    bool ok = true;
    for (const Value& row : from.items.at(key).value.items) {
        if (row.kind != Value::Kind::table) {
            from.problem(key,
                         fmt::format("{}: each row is {{ share, torque, speed, road_speed }}", key),
                         "");
            return;
        }
        unknown_members(from, key, row, "share | torque | speed | road_speed");
        leg.bins.push_back({member(from, key, row, "share", Measure::none, ok),
                            member(from, key, row, "torque", Measure::torque, ok),
                            member(from, key, row, "speed", Measure::turning, ok),
                            member(from, key, row, "road_speed", Measure::road_speed, ok)});
        const Bin& bin = leg.bins.back();
        if (ok && (bin.share < 0 || bin.speed_rpm <= 0 || bin.speed_rpm > 20000 ||
                   bin.road_speed_mps < 0 || std::fabs(bin.torque_Nm) > 20000)) {
            from.problems.push_back(
                {row.where,
                 fmt::format("{}: a share, speed or torque is out of range in {}", key,
                             toml_text(row)),
                 "share from 0, speed to 20000 r/min, torque to 20000 N m"});
            ok = false;
        }
        sum += bin.share;
    }
    if (!ok) return;
    if (std::fabs(sum - 1) > 0.02) {
        from.problem(key, fmt::format("{}: shares sum to {:.3f}, not 1", key, sum),
                     "shares of the leg's time");
    } else if (std::fabs(sum - 1) > 1e-6) {
        from.note(
            "leg.shares", "leg." + leg.name,
            fmt::format("shares of leg {} summed to {:.4f} and were scaled to 1", leg.name, sum));
    }
    for (Bin& bin : leg.bins) bin.share /= sum;
}

void build_peaks(Completed& from, LegInput& leg) {
    const std::string key = "leg." + leg.name + ".peaks";
    if (!from.has(key)) return;
    bool ok = true;
    for (const Value& row : from.items.at(key).value.items) {
        unknown_members(from, key, row, "torque | times");
        leg.peaks.push_back({member(from, key, row, "torque", Measure::torque, ok),
                             member(from, key, row, "times", Measure::none, ok)});
    }
}

void use_course(Completed& from, LegInput& leg, const std::string& name,
                const std::string& pace_key) {
    const Course& built_in = course(name);
    leg.course = name;
    leg.course_lines = built_in.lines;
    leg.course_pace_mps = from.optional(pace_key).value_or(built_in.pace_mps);
}

void build_leg(Completed& from, Setup& to, const std::string& name) {
    const std::string at = "leg." + name;
    LegInput leg;
    leg.name = name;
    leg.kind = from.word(at + ".kind") == "stop" ? LegKind::stop : LegKind::drive;
    leg.duration_s = from.number(at + ".duration");
    leg.distance_m = from.optional(at + ".distance").value_or(0);
    leg.overload = from.number(at + ".overload");
    leg.engine = from.word(at + ".engine") == "idle" ? Engine::idle : Engine::off;
    leg.pump_on = from.word(at + ".pump") == "on";
    leg.fan_on = from.word(at + ".fan") == "on";
    const bool bins = from.has(at + ".bins");
    const bool by_course = from.has(at + ".course");
    if (leg.kind == LegKind::drive) {
        if (bins == by_course)
            from.problem(bins ? at + ".bins" : at + ".duration",
                         fmt::format("leg {} needs exactly one of bins and course", name), "");
        else if (bins)
            build_bins(from, leg);
        else
            use_course(from, leg, from.word(at + ".course"), at + ".pace");
        build_peaks(from, leg);
    } else if (bins || by_course) {
        from.problem(bins ? at + ".bins" : at + ".course",
                     fmt::format("leg {} is a stop: it has no bins or course", name), "");
    }
    to.event.legs.push_back(std::move(leg));
}

void build_run(Completed& from, Setup& to) {
    for (const Value& one : from.items.at("event.run").value.items) {
        int times = 1;
        std::string name = one.text;
        const std::size_t x = name.find(" x ");
        if (x != std::string::npos) {
            const std::string count = name.substr(0, x);
            name = name.substr(x + 3);
            times = std::all_of(count.begin(), count.end(),
                                [](unsigned char c) { return std::isdigit(c) != 0; }) &&
                            count.size() <= 3
                        ? std::atoi(count.c_str())
                        : 0;
            if (times < 1) {
                from.problems.push_back(
                    {one.where, fmt::format("event.run: \"{}\" is not understood", one.text),
                     "write \"3 x loop\""});
                continue;
            }
        }
        int index = -1;
        for (std::size_t i = 0; i < to.event.legs.size(); ++i)
            if (to.event.legs[i].name == name) index = static_cast<int>(i);
        if (index < 0) {
            std::string known;
            for (const LegInput& leg : to.event.legs)
                known += (known.empty() ? "" : ", ") + leg.name;
            from.problems.push_back(
                {one.where, fmt::format("event.run: there is no leg \"{}\"", name),
                 known.empty() ? "add [leg.NAME]" : fmt::format("legs are {}", known)});
            continue;
        }
        for (int i = 0; i < times; ++i) to.event.run.push_back(index);
        to.event.words += (to.event.words.empty() ? "" : ", ") + one.text;
    }
    if (to.event.run.size() > 500)
        from.problem("event.run", "event.run has more than 500 legs", "");
}

void build_event(Completed& from, Setup& to) {
    EventInput& event = to.event;
    event.ambient_degC = from.number("event.ambient");
    event.altitude_m = from.number("event.altitude");
    event.oil_at_start_degC = from.optional("event.oil_at_start").value_or(event.ambient_degC);
    for (const std::string& name : from.names("leg")) build_leg(from, to, name);
    const bool run = from.has("event.run");
    const bool by_course = from.has("event.course");
    if (run && by_course) {
        from.problem("event.run",
                     fmt::format("event.course (line {}) and event.run (line {}) are both given",
                                 from.items.at("event.course").where.line,
                                 from.items.at("event.run").where.line),
                     "keep one of them");
        return;
    }
    if (run) {
        build_run(from, to);
        bool drives = false;
        for (const int leg : event.run)
            drives = drives || event.legs[static_cast<std::size_t>(leg)].kind == LegKind::drive;
        if (!event.run.empty() && !drives)
            from.problem("event.run", "event.run has no leg that drives", "");
        return;
    }
    if (!by_course) {
        if (from.was_refused("event.course") || from.was_refused("event.run")) return;
        from.problem("event.ambient", "the event is not given",
                     "add event.course and event.duration, or event.run and its legs");
        return;
    }
    LegInput leg;
    leg.name = from.word("event.course");
    leg.duration_s = from.number("event.duration");
    leg.overload = 1.25;  // shocks the course's means do not show; common practice
    if (!leg.name.empty()) use_course(from, leg, leg.name, "event.pace");
    event.words = leg.name;
    event.legs.push_back(std::move(leg));
    event.run = {static_cast<int>(event.legs.size()) - 1};
}

void build_rest(Completed& from, Setup& to) {
    to.limits.oil_watch_degC =
        from.optional("limits.oil_watch")
            .value_or(to.oil.synthetic ? synthetic_watch_degC : mineral_watch_degC);
    to.limits.oil_stop_degC =
        from.optional("limits.oil_stop")
            .value_or(to.oil.synthetic ? synthetic_stop_degC : mineral_stop_degC);
    if (to.limits.oil_stop_degC <= to.limits.oil_watch_degC)
        from.problem(from.has("limits.oil_stop") ? "limits.oil_stop" : "limits.oil_watch",
                     fmt::format("limits: stop at {:g} degC is not above watch at {:g} degC",
                                 to.limits.oil_stop_degC, to.limits.oil_watch_degC),
                     "");
    const auto own = [&](const std::string& key) {
        return from.has(key) && from.items.at(key).origin != Origin::standard;
    };
    to.rules = {
        from.number("rules.change_oil"), from.number("rules.look"), from.number("rules.open_case"),
        own("rules.change_oil"),         own("rules.look"),         own("rules.open_case")};
    to.aims.rebuild_reliability = from.number("aims.rebuild_reliability");
}

}  // namespace

const Course& course(const std::string& name) {
    static const std::map<std::string, Course> all = [] {
        std::map<std::string, Course> courses;
        for (const EmbeddedTable& table : embedded_tables()) {
            if (table.path.substr(0, 8) != "courses/") continue;
            Course one;
            for (const auto& [key, leaf] : parse_leaves(table.text, std::string(table.path))) {
                if (key == "pace")
                    one.pace_mps = read_quantity(Measure::road_speed, leaf.value.text).value;
                if (key == "words") one.words = leaf.value.text;
                if (key != "lines") continue;
                for (const Value& row : leaf.value.items) {
                    CourseLine line;
                    for (const auto& [member, value] : row.members) {
                        if (member == "share") line.share = value.number;
                        if (member == "pace") line.pace_ratio = value.number;
                        if (member == "resistance") line.resistance = value.number;
                        if (member == "grade") line.grade = value.number;
                        if (member == "acceleration") line.acceleration_mps2 = value.number;
                    }
                    one.lines.push_back(line);
                }
            }
            courses[std::string(table.path.substr(8, table.path.size() - 13))] = one;
        }
        return courses;
    }();
    return all.at(name);
}

Setup build_setup(Completed& from) {
    Setup setup;
    build_case(from, setup);
    build_gears(from, setup);
    build_shafts(from, setup);
    build_bearings(from, setup);
    build_joints_and_seals(from, setup);
    build_oil(from, setup);
    build_lubrication(from, setup);
    build_housing(from, setup);
    build_cooler(from, setup);
    build_vehicle(from, setup);
    build_event(from, setup);
    build_rest(from, setup);
    return setup;
}

}  // namespace caseload::input
