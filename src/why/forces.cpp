// SPDX-License-Identifier: MIT
// What the teeth, the weight, joints and slip joints bring to each bearing: as moments about the
// other bearing of its shaft, so that one formula serves both.
#include "caseload/formulas/iso_281.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <array>

namespace caseload::why_detail {
namespace {

struct LegBin {
    std::size_t leg;
    std::size_t bin;
};

class ShaftForces {
public:
    ShaftForces(const Gather& gather, const LegBin& in, int shaft)
        : gather_(gather),
          loads_(gather.prepared.loads.legs[in.leg]),
          train_(train_of(gather.prepared.loads, loads_.train)),
          in_(in),
          shaft_(shaft),
          place_(train_.shafts[static_cast<std::size_t>(shaft)]),
          part_(shaft_part(gather, loads_.train, shaft)),
          at_(in_bin(loads_.name, in.bin)) {}

    void add() {
        add_actions();
        const auto front = static_cast<std::size_t>(place_.bearings.front());
        const auto rear = static_cast<std::size_t>(place_.bearings.back());
        add_radial(front, rear, true);
        add_radial(rear, front, false);
        if (place_.thrust_bearing >= 0) {
            const auto thrust = static_cast<std::size_t>(place_.thrust_bearing);
            if (thrust != front && thrust != rear) add_no_radial(thrust);
            for (const std::size_t b : {front, rear, thrust}) add_axial_located(b, b == thrust);
        } else {
            add_axial_pair(front, rear);
        }
    }

private:
    [[nodiscard]] const BearingData& data(std::size_t b) const {
        return gather_.prepared.loads.bearings[b];
    }
    [[nodiscard]] std::string bearing(std::size_t b) const { return "bearing." + data(b).name; }
    [[nodiscard]] const BinLoads& bin() const { return loads_.bins[in_.bin]; }
    [[nodiscard]] std::string state(std::size_t s) const {
        return fmt::format("{}/{}", at_, s + 1);
    }

    /// Teeth and joints of the shaft: axial force and moments, of the nominal torque.
    void add_actions() {
        Collector& to = gather_.to;
        const Collector::Place place{"shaft_run", part_, at_, {}};
        std::array<std::vector<std::string>, 3> forces;
        std::array<std::vector<std::string>, 2> couples;
        for (const MeshPlace& mesh : train_.meshes) {
            if (mesh.driver != shaft_ && mesh.driven != shaft_) continue;
            const std::string of = mesh_part(gather_, loads_.train, mesh);
            const char* sign = mesh.driven == shaft_ ? "" : "-";
            const int side = mesh.driven == shaft_ ? 2 : 1;
            forces[0].push_back(fmt::format("{}[{}.F_x_N@{}]", sign, of, at_));
            forces[1].push_back(fmt::format("{}[{}.F_y_N@{}]", sign, of, at_));
            forces[2].push_back(fmt::format("{}[{}.F_z_N@{}]", sign, of, at_));
            const std::string arm =
                fmt::format("[{0}.d_w{1}_mm] / 2 * [{0}.F_x_N@{2}]", of, side, at_);
            couples[0].push_back(fmt::format("-{} * [{}.e_z]", arm, of));
            couples[1].push_back(fmt::format("{} * [{}.e_y]", arm, of));
        }
        to.step(place, "F_x_N", sum_of(forces[0]));
        to.step(place, "F_y_N", sum_of(forces[1]));
        to.step(place, "F_z_N", sum_of(forces[2]));
        to.step(place, "M_y_Nmm", sum_of(couples[0]));
        to.step(place, "M_z_Nmm", sum_of(couples[1]));
        std::array<std::vector<std::string>, 2> swing;
        for (const JointInput& joint : gather_.setup.joints) {
            if (joint.shaft != place_.name) continue;
            const std::string of = "joint." + joint.name;
            const int side = joint.end == End::rear ? 1 : -1;
            const int turns = place_.clockwise ? -1 : 1;
            const int passes = place_.takes_torque_in ? turns : -turns;
            const std::string half =
                fmt::format("[duty.torque_Nm@{}] * [{}.torque_ratio] * [{}.share@{}]", at_, part_,
                            of, loads_.name);
            swing[0].push_back(fmt::format("{} * {} * tan([{}.right_deg] * pi / 180)",
                                           500 * passes * side, half, of));
            swing[1].push_back(fmt::format("{} * {} * tan([{}.down_deg] * pi / 180)",
                                           -500 * passes * side, half, of));
        }
        to.step(place, "swing_y_Nmm", swing[0].empty() ? "0" : sum_of(swing[0]));
        to.step(place, "swing_z_Nmm", swing[1].empty() ? "0" : sum_of(swing[1]));
    }

    void add_radial(std::size_t own, std::size_t other, bool front) {
        Collector& to = gather_.to;
        const Collector::Place place{"force", bearing(own), at_, {}};
        const std::string shaft = "[" + part_ + ".";
        const std::string at = "@" + at_ + "]";
        // About the other bearing: the arm of the gear, positive towards this one.
        const std::string arm =
            fmt::format("([{}.gear_at_mm] - [{}.at_mm])", part_, bearing(other));
        to.step(place, "span_mm",
                fmt::format("abs([{}.at_mm] - [{}.at_mm])", bearing(other), bearing(own)));
        to.step(place, "weight_y_Nmm", fmt::format("{} * {}weight_N]", arm, shaft));
        to.step(place, "torque_y_Nmm",
                fmt::format("{0}M_y_Nmm{1} - {2} * {0}F_z_N{1}", shaft, at, arm));
        to.step(place, "torque_z_Nmm",
                fmt::format("{0}M_z_Nmm{1} + {2} * {0}F_y_N{1}", shaft, at, arm));
        to.step(place, "swing_y_Nmm", shaft + "swing_y_Nmm" + at);
        to.step(place, "swing_z_Nmm", shaft + "swing_z_Nmm" + at);
        Number& p = to.add(place, "p_mean", iso_281::life_exponent(data(own).kind));
        p.value_of = is_ball(data(own).kind) ? "3" : "10 / 3";
        const BearingLoad& load = bin().nominal[own];
        to.add(place, "F_r_heat_N", load.F_r_N, quantity("bearing_load", "F_r_N"));
        // The shaft presses against the bearing's reaction.
        const char* side = front ? "" : "-";
        to.step(place, "press_deg",
                fmt::format("180 / pi * atan2({}(torque_z_Nmm + swing_z_Nmm), "
                            "{}(weight_y_Nmm + torque_y_Nmm + swing_y_Nmm))",
                            front ? "-" : "", side));
        to.add(place, "clock_deg", load.clock_deg, quantity("bearing_load", "clock_deg"));
        for (std::size_t s = 0; s < bin().for_life.size(); ++s) {
            const LoadState& with = bin().for_life[s];
            const Collector::Place there{"force", bearing(own), state(s), {}};
            to.add(there, "F_r_N", with.bearings[own].F_r_N, quantity("bearing_load", "F_r_N"));
            to.add(there, "F_r_max_N", with.bearings[own].F_r_max_N,
                   quantity("bearing_load", "F_r_max_N"));
            to.step(there, "overload", fmt::format("[rest.overload@{}]", loads_.name));
        }
    }

    void add_no_radial(std::size_t b) {
        Collector& to = gather_.to;
        const Collector::Place place{"force", bearing(b), at_, {}};
        const Quantity& row = quantity("bearing_load", "F_r_N");
        nothing(to.add(place, "F_r_heat_N", bin().nominal[b].F_r_N, row), "carries no radial load");
        for (std::size_t s = 0; s < bin().for_life.size(); ++s)
            nothing(to.add({"force", bearing(b), state(s), {}}, "F_r_N",
                           bin().for_life[s].bearings[b].F_r_N, row),
                    "carries no radial load");
    }

    void add_axial_located(std::size_t b, bool takes_it) {
        Collector& to = gather_.to;
        if (to.has(bearing(b) + ".F_a_heat_N@" + at_)) return;
        const Quantity& row = quantity("bearing_load", "F_a_N");
        const auto add = [&](const std::string& at, const char* member, double value,
                             const std::string& formula) {
            Number& number = to.add({"force", bearing(b), at, {}}, member, value, row);
            if (takes_it)
                number.value_of = formula;
            else
                nothing(number, "another bearing locates the shaft");
        };
        add(at_, "F_a_heat_N", bin().nominal[b].F_a_N,
            fmt::format("abs([{}.F_x_N@{}])", part_, at_));
        for (std::size_t s = 0; s < bin().for_life.size(); ++s)
            add(state(s), "F_a_N", bin().for_life[s].bearings[b].F_a_N,
                fmt::format("abs({})", axial(s)));
    }

    /// Axial force on the shaft in a state of its slip joints.
    std::string axial(std::size_t s) {
        Collector& to = gather_.to;
        const std::string slip = fmt::format("{}.slip_N@{}", part_, state(s));
        if (!to.has(slip)) add_slip(s);
        return fmt::format("[rest.overload@{}] * [{}.F_x_N@{}] + [{}]", loads_.name, part_, at_,
                           slip);
    }

    void add_slip(std::size_t s) {
        std::vector<std::string> terms;
        std::size_t slipping = 0;
        for (const JointInput& joint : gather_.setup.joints) {
            if (joint.slip_friction <= 0) continue;
            // State 0: no joint moves; then every combination of directions, as bits.
            const bool rearward = s > 0 && ((s - 1) >> slipping & 1U) != 0;
            ++slipping;
            if (s == 0 || joint.shaft != place_.name) continue;
            terms.push_back(fmt::format(
                "{0} * [joint.{1}.slip_friction] * abs([duty.torque_Nm@{2}]) * "
                "[rest.overload@{3}] * [{4}.torque_ratio] * [joint.{1}.share@{3}] * 2000 / "
                "[joint.{1}.slip_diameter_mm]",
                rearward ? 1 : -1, joint.name, at_, loads_.name, part_));
        }
        gather_.to.step({"shaft_run", part_, state(s), {}}, "slip_N",
                        terms.empty() ? "0" : sum_of(terms));
    }

    /// Facing pair: bearing A is the one the outside force presses on.
    void add_axial_pair(std::size_t front, std::size_t rear) {
        const auto& big_end = gather_.setup.bearings[front].big_end;
        const bool front_takes_rearward = big_end && *big_end == Facing::front;
        const auto add = [&](const std::string& at, const char* radial, const char* member,
                             const std::vector<BearingLoad>& loads, const std::string& force) {
            Collector& to = gather_.to;
            const std::string formula = force;
            const double F_x_N = evaluate(formula, [&](std::string_view name) {
                return to.all[to.index.at(std::string(name.substr(1, name.size() - 2)))].value;
            });
            const bool a_is_front = (F_x_N >= 0) == front_takes_rearward;
            const std::size_t a = a_is_front ? front : rear;
            const std::size_t b = a_is_front ? rear : front;
            const auto induced = [&](std::size_t of) {
                return fmt::format("1.25 * [{}.{}@{}] * tan([{}.contact_angle_deg] * pi / 180)",
                                   bearing(of), radial, at, bearing(of));
            };
            const std::string outside = "abs(" + formula + ")";
            for (const std::size_t of : {a, b}) {
                Number& number = to.add({"force", bearing(of), at, {}}, member, loads[of].F_a_N,
                                        quantity("bearing_load", "F_a_N"));
                // Balls in angular contact bring a force that is found step by step: not told.
                if (data(a).kind == BearingKind::tapered_roller &&
                    data(b).kind == BearingKind::tapered_roller)
                    number.value_of =
                        of == a ? fmt::format("max({}, {} + {})", induced(a), induced(b), outside)
                                : fmt::format("max({} - {}, {})", induced(a), outside, induced(b));
            }
        };
        add(at_, "F_r_heat_N", "F_a_heat_N", bin().nominal,
            fmt::format("[{}.F_x_N@{}]", part_, at_));
        for (std::size_t s = 0; s < bin().for_life.size(); ++s)
            add(state(s), "F_r_N", "F_a_N", bin().for_life[s].bearings, axial(s));
    }

    const Gather& gather_;
    const LegLoads& loads_;
    const Train& train_;
    LegBin in_;
    int shaft_;
    const ShaftPlace& place_;
    std::string part_;
    std::string at_;
};

/// Force of each mesh on its driven gear, along the axes of the case.
void add_tooth_forces(const Gather& gather, const LegBin& in) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const LegLoads& loads = prepared.loads.legs[in.leg];
    const Train& train = train_of(prepared.loads, loads.train);
    const std::string at = in_bin(loads.name, in.bin);
    std::string torque = fmt::format("[duty.torque_Nm@{}]", at);
    for (const MeshPlace& mesh : train.meshes) {
        const std::string part = mesh_part(gather, loads.train, mesh);
        const Collector::Place fixed{"tooth", part, {}, {}};
        const Collector::Place place{"tooth", part, at, {}};
        const ShaftPlace& driven = train.shafts[static_cast<std::size_t>(mesh.driven)];
        if (!to.has(part + ".e_y")) {
            const std::string one = shaft_part(gather, loads.train, mesh.driver);
            const std::string two = shaft_part(gather, loads.train, mesh.driven);
            to.step(fixed, "e_y", fmt::format("([{}.y_mm] - [{}.y_mm]) / centre_mm", two, one));
            to.step(fixed, "e_z", fmt::format("([{}.z_mm] - [{}.z_mm]) / centre_mm", two, one));
            to.add(fixed, "sense", driven.clockwise ? -1 : 1).origin =
                to.origin_of("case.input_turns");
            double hand = 0;
            if (setup.gears.hand_on_input != Hand::none)
                hand = setup.gears.hand_on_input == Hand::right ? 1 : -1;
            if (mesh.driven % 2 == 1) hand = -hand;
            to.add(fixed, "hand", hand).origin = to.origin_of("gears.hand_on_input");
        }
        to.step(place, "F_t_N", fmt::format("2000 * {} / d_w1_mm", torque));
        to.step(place, "F_x_N");
        to.step(place, "F_y_N");
        to.step(place, "F_z_N");
        torque = fmt::format("{} * [{}.d_w2_mm] / [{}.d_w1_mm]", torque, part, part);
    }
}

}  // namespace

void add_forces(const Gather& gather) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const Loads& loads = prepared.loads;
    for (const JointInput& joint : setup.joints) {
        const Collector::Place place{"joint", "joint." + joint.name, {}, {}};
        to.add(place, "down_deg", joint.angle_down_deg);
        to.add(place, "right_deg", joint.angle_right_deg);
        to.add(place, "slip_friction", joint.slip_friction);
        to.add(place, "slip_diameter_mm", joint.slip_diameter_mm);
    }
    for (std::size_t leg = 0; leg < loads.legs.size(); ++leg) {
        const LegInput& input = setup.event.legs[leg];
        if (input.kind != LegKind::drive) continue;
        to.add({"rest", "rest", input.name, {}}, "overload", input.overload).origin =
            to.origin_of("leg." + input.name + ".overload");
        const Train& train = train_of(loads, loads.legs[leg].train);
        for (const JointInput& joint : setup.joints) {
            bool driven = false;
            for (const ShaftPlace& shaft : train.shafts)
                driven = driven || (shaft.name == joint.shaft && !shaft.takes_torque_in);
            const bool rear_only = driven && !input.front_drive;
            const double share = !rear_only ? joint.torque_share : joint.end == End::front ? 0 : 1;
            to.add({"joint", "joint." + joint.name, input.name, {}}, "share", share).origin =
                rear_only ? to.origin_of("leg." + input.name + ".front_drive")
                          : to.origin_of("joint." + joint.name + ".torque_share");
        }
        for (std::size_t bin = 0; bin < loads.legs[leg].bins.size(); ++bin) {
            add_tooth_forces(gather, {leg, bin});
            for (std::size_t s = 0; s < train.shafts.size(); ++s)
                ShaftForces(gather, {leg, bin}, static_cast<int>(s)).add();
        }
    }
}

}  // namespace caseload::why_detail
