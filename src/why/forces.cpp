// SPDX-License-Identifier: MIT
// What the teeth, the weight, joints and slip joints bring to each bearing: as moments about the
// other bearing of its shaft, so that one formula serves both. Long: one force after the other,
// which share those moments.
#include "caseload/formulas/facing_pair.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "loads/pairs.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace caseload::why_detail {
namespace {

/// A bin of a leg, or a torque peak in it.
struct Acting {
    const LegLoads& leg;
    std::string at;                           ///< "loop/2", "peak/loop/1"
    std::string torque;                       ///< address of it at the case input
    std::string overload;                     ///< on torques for lives
    const std::vector<BearingLoad>* nominal;  ///< null: a torque peak has none
    const std::vector<LoadState>& states;
};

class ShaftForces {
public:
    ShaftForces(const Gather& gather, const Acting& acting, int shaft)
        : gather_(gather),
          acting_(acting),
          loads_(acting.leg),
          train_(train_of(gather.prepared.loads, loads_.train)),
          shaft_(shaft),
          place_(train_.shafts[static_cast<std::size_t>(shaft)]),
          part_(shaft_part(gather, loads_.train, shaft)),
          at_(acting.at) {}

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
            const std::string half = fmt::format("[{}] * [{}.torque_ratio] * [{}.share@{}]",
                                                 acting_.torque, part_, of, loads_.name);
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
        if (acting_.nominal != nullptr) {
            const BearingLoad& load = (*acting_.nominal)[own];
            to.add(place, "F_r_heat_N", load.F_r_N, quantity("bearing_load", "F_r_N"));
            // The shaft presses against the bearing's reaction.
            to.step(place, "press_deg",
                    fmt::format("180 / pi * atan2({}(torque_z_Nmm + swing_z_Nmm), "
                                "{}(weight_y_Nmm + torque_y_Nmm + swing_y_Nmm))",
                                front ? "-" : "", front ? "" : "-"));
            to.add(place, load.clock_deg, quantity("bearing_load", "clock_deg"));
            to.add(place, load.F_0_N, quantity("bearing_load", "F_0_N"));
            to.add(place, "F_r_max_heat_N", load.F_r_max_N, quantity("bearing_load", "F_r_max_N"));
        }
        for (std::size_t s = 0; s < acting_.states.size(); ++s) {
            const LoadState& with = acting_.states[s];
            const Collector::Place there{"force", bearing(own), state(s), {}};
            to.add(there, with.bearings[own].F_r_N, quantity("bearing_load", "F_r_N"));
            to.add(there, with.bearings[own].F_r_max_N, quantity("bearing_load", "F_r_max_N"));
            to.step(there, "overload", acting_.overload);
        }
    }

    void add_no_radial(std::size_t b) {
        Collector& to = gather_.to;
        const Collector::Place place{"force", bearing(b), at_, {}};
        const Quantity& row = quantity("bearing_load", "F_r_N");
        if (acting_.nominal != nullptr)
            mark_as_zero(to.add(place, "F_r_heat_N", (*acting_.nominal)[b].F_r_N, row),
                         "carries no radial load");
        for (std::size_t s = 0; s < acting_.states.size(); ++s)
            for (const auto& [member, value] :
                 {std::pair{"F_r_N", acting_.states[s].bearings[b].F_r_N},
                  std::pair{"F_r_max_N", acting_.states[s].bearings[b].F_r_max_N}})
                mark_as_zero(to.add({"force", bearing(b), state(s), {}}, member, value, row),
                             "carries no radial load");
    }

    void add_axial_located(std::size_t b, bool takes_it) {
        Collector& to = gather_.to;
        if (to.has(bearing(b) + ".F_a_N@" + state(0))) return;
        const Quantity& row = quantity("bearing_load", "F_a_N");
        const auto add = [&](const std::string& at, const char* member, double value,
                             const std::string& formula) {
            Number& number = to.add({"force", bearing(b), at, {}}, member, value, row);
            if (takes_it)
                number.value_of = formula;
            else
                mark_as_zero(number, "another bearing locates the shaft");
        };
        if (acting_.nominal != nullptr)
            add(at_, "F_a_heat_N", (*acting_.nominal)[b].F_a_N,
                fmt::format("abs([{}.F_x_N@{}])", part_, at_));
        for (std::size_t s = 0; s < acting_.states.size(); ++s)
            add(state(s), "F_a_N", acting_.states[s].bearings[b].F_a_N,
                fmt::format("abs({})", axial(s)));
    }

    /// Axial force on the shaft in a state of its slip joints.
    std::string axial(std::size_t s) {
        const std::string slip = fmt::format("{}.slip_N@{}", part_, state(s));
        if (!gather_.to.has(slip)) add_slip(s);
        return fmt::format("{} * [{}.F_x_N@{}] + [{}]", acting_.overload, part_, at_, slip);
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
                "{0} * [joint.{1}.slip_friction] * abs([{2}]) * {3} * [{4}.torque_ratio] * "
                "[joint.{1}.share@{5}] * 2000 / [joint.{1}.slip_diameter_mm]",
                rearward ? 1 : -1, joint.name, acting_.torque, acting_.overload, part_,
                loads_.name));
        }
        gather_.to.step({"shaft_run", part_, state(s), {}}, "slip_N",
                        terms.empty() ? "0" : sum_of(terms));
    }

    /// Facing pair: bearing A is the one the outside force presses on.
    void add_axial_pair(std::size_t front, std::size_t rear) {
        Collector& to = gather_.to;
        const auto& big_end = gather_.setup.bearings[front].big_end;
        const bool front_takes_rearward = big_end && *big_end == Facing::front;
        const auto add = [&](const std::string& at, const char* radial, const char* member,
                             const std::vector<BearingLoad>& loads, const std::string& force) {
            const std::string formula = force;
            const double F_x_N = evaluate(formula, [&](std::string_view name) {
                return to.all[to.index.at(std::string(name.substr(1, name.size() - 2)))].value;
            });
            const bool a_is_front = (F_x_N >= 0) == front_takes_rearward;
            const std::size_t a = a_is_front ? front : rear;
            const std::size_t b = a_is_front ? rear : front;
            const std::string outside = "abs(" + formula + ")";
            const std::string of_a = induced(a, radial, at);
            const std::string of_b = induced(b, radial, at);
            const std::string preload = preload_on(
                a, b, (radial == std::string_view("F_r_heat_N") ? "pair/nominal/" : "pair/") + at,
                {outside, std::fabs(F_x_N)});
            for (const std::size_t of : {a, b})
                to.add({"force", bearing(of), at, {}}, member, loads[of].F_a_N,
                       quantity("bearing_load", "F_a_N"))
                    .value_of =
                    of == a ? larger(fmt::format("max({}, {} + {})", of_a, of_b, outside),
                                     preload.empty() ? "" : preload + " + " + outside)
                            : larger(fmt::format("max({} - {}, {})", of_a, outside, of_b), preload);
        };
        if (acting_.nominal != nullptr)
            add(at_, "F_r_heat_N", "F_a_heat_N", *acting_.nominal,
                fmt::format("[{}.F_x_N@{}]", part_, at_));
        for (std::size_t s = 0; s < acting_.states.size(); ++s)
            add(state(s), "F_r_N", "F_a_N", acting_.states[s].bearings, axial(s));
    }

    /// Of both, where there is a second.
    static std::string larger(std::string one, const std::string& other) {
        return other.empty() ? std::move(one) : fmt::format("max({}, {})", one, other);
    }

    struct Outside {
        std::string formula;
        double N;
    };
    /// Force on bearing b of a pair that its preload leaves there; "" where that is none.
    std::string preload_on(std::size_t a, std::size_t b, const std::string& there,
                           const Outside& outside) {
        const auto& of_legs = gather_.prepared.pair_over_mm;
        if (of_legs.empty()) return {};
        const auto leg = static_cast<std::size_t>(&loads_ - gather_.prepared.loads.legs.data());
        const double over_mm = of_legs[leg][static_cast<std::size_t>(shaft_)];
        const facing_pair::Pair pair =
            springs_of(gather_.setup, a, b, gather_.prepared.loads.bearings);
        const double F_B_N = facing_pair::forces(pair, outside.N, over_mm).F_B_N;
        if (F_B_N <= 0) return {};
        Collector& to = gather_.to;
        const Collector::Place place{"bearing", bearing(b), there, kind_word(data(b).kind)};
        Number& force = to.add(place, "F_a_N", F_B_N);
        force.words = "axial force that a pair too long for its seats leaves on it";
        force.how = "solved";
        force.source = "bearing-practice pair-springs";
        const std::string on_a = fmt::format("(F_a_N + {})", outside.formula);
        force.equation = fmt::format(
            "({} / {})^(1 / {}) + (F_a_N / {})^(1 / {}) + (F_a_N + {}) / {} - {}", on_a, pair.a.k_a,
            pair.a.n, pair.b.k_a, pair.b.n, on_a, 2000 * pair.structure_Npum, over_mm);
        force.residual_allowed = "1e-9";
        force.solved_how = "found by bracketing, to the last digits";
        return fmt::format("[{}.F_a_N@{}]", bearing(b), there);
    }

    /// The axial force a radial load brings. Of balls it is found step by step, as their contact
    /// takes up more where the force is larger.
    std::string induced(std::size_t b, const char* radial, const std::string& at) {
        Collector& to = gather_.to;
        if (data(b).kind == BearingKind::tapered_roller)
            return fmt::format("1.25 * [{0}.{1}@{2}] * tan([{0}.contact_angle_deg] * pi / 180)",
                               bearing(b), radial, at);
        if (data(b).kind != BearingKind::angular_contact_ball) return "0";
        // Not at the bin's place: each state of the slip joints has other factors.
        const std::string there =
            (radial == std::string_view("F_r_heat_N") ? "induced/nominal/" : "induced/") + at;
        const Collector::Place place{"bearing", bearing(b), there, kind_word(data(b).kind)};
        Number& load = to.step(place, "F_r_N", fmt::format("[{}.{}@{}]", bearing(b), radial, at));
        load.words = "radial load that brings it";
        const double F_r_N = load.value;
        Number& force = to.add(
            place, "F_a_N",
            iso_281::induced_axial_N(
                {data(b).kind, data(b).contact_angle_deg, data(b).f_0, data(b).C_0_N}, F_r_N));
        force.words = "axial force its radial load brings";
        force.how = "solved";
        force.source = "iso-281-2007 table3";
        force.equation = "e * F_r_N - F_a_N";
        force.residual_allowed = "1e-11 * F_a_N";
        force.solved_how = "found step by step to 1e-12 of itself";
        to.steps_of(place);
        return fmt::format("[{}.F_a_N@{}]", bearing(b), place.at);
    }

    const Gather& gather_;
    const Acting& acting_;
    const LegLoads& loads_;
    const Train& train_;
    int shaft_;
    const ShaftPlace& place_;
    std::string part_;
    std::string at_;
};

/// Force of each mesh on its driven gear, along the axes of the case.
void add_tooth_forces(const Gather& gather, const Acting& acting) {
    const Setup& setup = gather.setup;
    Collector& to = gather.to;
    const LegLoads& loads = acting.leg;
    const Train& train = train_of(gather.prepared.loads, loads.train);
    std::string torque = "[" + acting.torque + "]";
    for (const MeshPlace& mesh : train.meshes) {
        const std::string part = mesh_part(gather, loads.train, mesh);
        const Collector::Place fixed{"tooth", part, {}, {}};
        const Collector::Place place{"tooth", part, acting.at, {}};
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

void add_acting(const Gather& gather, const Acting& acting) {
    add_tooth_forces(gather, acting);
    const Train& train = train_of(gather.prepared.loads, acting.leg.train);
    for (std::size_t s = 0; s < train.shafts.size(); ++s)
        ShaftForces(gather, acting, static_cast<int>(s)).add();
}

}  // namespace

void add_blow_forces(const Gather& gather, std::size_t leg, std::size_t blow) {
    const LegLoads& loads = gather.prepared.loads.legs[leg];
    const std::string at = in_bin(loads.name, blow);
    if (gather.to.has(fmt::format("bearing.{}.F_a_N@peak/{}/1",
                                  gather.prepared.loads.bearings.front().name, at)))
        return;
    add_acting(gather, {loads, "peak/" + at, "peak.torque_Nm@" + at, "1", nullptr,
                        loads.peaks[blow].states});
}

void add_forces(const Gather& gather) {
    const Setup& setup = gather.setup;
    Collector& to = gather.to;
    const Loads& loads = gather.prepared.loads;
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
            const BinLoads& at = loads.legs[leg].bins[bin];
            const std::string there = in_bin(input.name, bin);
            add_acting(gather,
                       {loads.legs[leg], there, "duty.torque_Nm@" + there,
                        fmt::format("[rest.overload@{}]", input.name), &at.nominal, at.for_life});
        }
    }
}

}  // namespace caseload::why_detail
