// SPDX-License-Identifier: MIT
// Forces in space: against vectors worked another way, and against what must hold for any case.
#include "caseload/formulas/iso_281.hpp"
#include "caseload/loads.hpp"
#include "loads/setups.hpp"
#include "support.hpp"

#include <algorithm>
#include <vector>

namespace caseload::forces_tests {

using namespace caseload::loads_test;

namespace {

struct V {
    double x = 0, y = 0, z = 0;
};
V operator+(const V& a, const V& b) {
    return {a.x + b.x, a.y + b.y, a.z + b.z};
}
V operator*(double k, const V& a) {
    return {k * a.x, k * a.y, k * a.z};
}
V cross(const V& a, const V& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
V unit(const V& a) {
    return (1 / std::sqrt(a.x * a.x + a.y * a.y + a.z * a.z)) * a;
}
constexpr V along{1, 0, 0};

/// A force and the place it acts at, from the origin of the case.
struct Action {
    V at;
    V force;
};

struct OnShaft {
    std::vector<Action> actions;
    V couple;  // of the joints, steady part added later
};

double radius(double d_mm) {
    return d_mm / 2;
}

/// Forces of the meshes from the tooth traces in the pitch plane. On the driver's pitch cylinder a
/// right-hand tooth runs along x + w tan b, w the way a point of it moves when it turns about +x.
/// The flank pushes across its trace, along the driver's motion when driving.
std::vector<OnShaft> mesh_actions(const Setup& s, const Train& t, double torque_Nm) {
    std::vector<OnShaft> on(t.shafts.size());
    double torque = torque_Nm;
    double hand = s.gears.hand_on_input == Hand::none    ? 0
                  : s.gears.hand_on_input == Hand::right ? 1
                                                         : -1;
    for (std::size_t i = 0; i + 1 < t.shafts.size(); ++i) {
        const ShaftPlace& a = t.shafts[i];
        const ShaftPlace& b = t.shafts[i + 1];
        const iso_21771::Pair& p = t.meshes[i].pair;
        const V e = unit({0, b.y_mm - a.y_mm, b.z_mm - a.z_mm});
        const V w = cross(along, e);
        const double F_t = 1000 * std::fabs(torque) / radius(p.d_w1_mm);
        const double pushes = (a.clockwise ? -1 : 1) * (torque < 0 ? -1.0 : 1.0);
        const V across = w + (-hand * std::tan(p.beta_w_rad)) * along;
        const V force = pushes * F_t * across + F_t * std::tan(p.alpha_wt_rad) * e;
        const V pitch_point =
            V{s.shafts.at(a.name).gear_at_mm, a.y_mm, a.z_mm} + radius(p.d_w1_mm) * e;
        on[i + 1].actions.push_back({pitch_point, force});
        on[i].actions.push_back({pitch_point, -1 * force});
        torque *= p.d_w2_mm / p.d_w1_mm;
        hand = -hand;
    }
    return on;
}

/// Couple of a joint on the case's shaft: the cross passes a couple only along its own normal, and
/// its part about the shaft is the torque.
V joint_couple(const JointInput& joint, double torque_about_x_Nmm, double phase_rad) {
    const double side = joint.end == End::rear ? 1 : -1;
    const V prop = unit({side, std::tan(joint.angle_right_deg * pi / 180),
                         -std::tan(joint.angle_down_deg * pi / 180)});
    if (std::hypot(prop.y, prop.z) < 1e-12) return torque_about_x_Nmm * along;
    const V in_plane = unit({0, prop.y, prop.z});
    const V square = cross(along, in_plane);
    // Pins of the case's yoke: across the plane of the shafts at phase 0.
    const V pins = std::cos(phase_rad) * square + std::sin(phase_rad) * in_plane;
    const V other_pins = unit(cross(prop, pins));
    const V normal = cross(pins, other_pins);
    return (torque_about_x_Nmm / normal.x) * normal;
}

struct Held {
    V front;  // force of the bearing on the shaft
    V rear;
    double x = 0;  // left over along the shaft
};

/// Two bearings hold y and z: moments about each bearing's place vanish.
Held held(const Setup& s, const Train& t, const OnShaft& on, std::size_t shaft, const V& couple) {
    const ShaftPlace& place = t.shafts[shaft];
    const auto at = [&](int b) {
        return V{s.bearings[static_cast<std::size_t>(b)].at_mm, place.y_mm, place.z_mm};
    };
    const V A = at(place.bearings[0]);
    const V B = at(place.bearings[1]);
    V force{};
    V moment = couple;
    for (const Action& one : on.actions) {
        force = force + one.force;
        moment = moment + cross(one.at + -1 * A, one.force);
    }
    const double span = B.x - A.x;
    Held result;
    result.rear = {0, -moment.z / span, moment.y / span};
    result.front = {0, -force.y - result.rear.y, -force.z - result.rear.z};
    result.x = force.x;
    return result;
}

/// To 1e-9 of the value, and of a newton where it vanishes.
bool close(double value, double expected) {
    return within(value, expected, 1e-9 * (1 + std::fabs(expected)));
}

double clock_of(double y, double z) {
    return std::fmod(std::atan2(y, z) * 180 / pi + 360, 360);
}

}  // namespace

TEST_CASE("forces: every shaft of random cases is in balance, joints turning") {
    constexpr std::uint64_t seed = 20240611;
    Chance chance(seed);
    int with_thrust = 0;
    for (int round = 0; round < 300; ++round) {
        CAPTURE(seed);
        CAPTURE(round);
        const Setup s = random_setup(chance, round % 2 == 0);
        const Train t = place_train(s);
        const std::vector<BearingData> data = data_of(s);
        const double torque = chance.between(-1500, 3000);
        std::vector<double> slip_N;
        for (std::size_t j = 0; j < s.joints.size(); ++j)
            slip_N.push_back(chance.between(-3000, 3000));
        const auto loads = bearing_loads(s, t, data, torque, slip_N);
        std::vector<OnShaft> on = mesh_actions(s, t, torque);
        for (std::size_t i = 0; i < t.shafts.size(); ++i) {
            const ShaftPlace& shaft = t.shafts[i];
            const double gear_at = s.shafts.at(shaft.name).gear_at_mm;
            on[i].actions.push_back({{gear_at, shaft.y_mm, shaft.z_mm}, {0, 0, -shaft.weight_N}});
            double slip_x_N = 0;
            std::vector<const JointInput*> joints;
            for (std::size_t j = 0; j < s.joints.size(); ++j) {
                if (s.joints[j].shaft != shaft.name) continue;
                joints.push_back(&s.joints[j]);
                slip_x_N += slip_N[j];
            }
            const auto front = static_cast<std::size_t>(shaft.bearings[0]);
            const auto rear = static_cast<std::size_t>(shaft.bearings[1]);
            const double p_front = iso_281::life_exponent(data[front].kind);
            const double p_rear = iso_281::life_exponent(data[rear].kind);
            double sum_front = 0;
            double sum_rear = 0;
            V mean_front{};
            V mean_rear{};
            double x_N = 0;
            constexpr int steps = 64;
            for (int k = 0; k < steps; ++k) {
                V couple{};
                for (const JointInput* joint : joints) {
                    // Driving, the output's load holds it back, the gearbox pushes the input on.
                    const double turns = shaft.clockwise ? -1 : 1;
                    const double about_x = (shaft.takes_torque_in ? 1 : -1) * turns * torque *
                                           shaft.torque_ratio * joint->torque_share;
                    couple = couple + joint_couple(*joint, 1000 * about_x, pi * k / steps);
                }
                const Held h = held(s, t, on[i], i, couple);
                sum_front += std::pow(std::hypot(h.front.y, h.front.z), p_front) / steps;
                sum_rear += std::pow(std::hypot(h.rear.y, h.rear.z), p_rear) / steps;
                mean_front = mean_front + (-1.0 / steps) * h.front;
                mean_rear = mean_rear + (-1.0 / steps) * h.rear;
                x_N = h.x + slip_x_N;
            }
            CHECK(loads[front].F_r_N == rel(std::pow(sum_front, 1 / p_front), 1e-9));
            CHECK(loads[rear].F_r_N == rel(std::pow(sum_rear, 1 / p_rear), 1e-9));
            if (std::hypot(mean_front.y, mean_front.z) > 1)
                CHECK(
                    same_clock(loads[front].clock_deg, clock_of(mean_front.y, mean_front.z), 1e-6));
            if (std::hypot(mean_rear.y, mean_rear.z) > 1)
                CHECK(same_clock(loads[rear].clock_deg, clock_of(mean_rear.y, mean_rear.z), 1e-6));
            // Along the shaft: one takes it, or a pair of which each is at least pushed by itself.
            if (shaft.thrust_bearing >= 0) {
                for (std::size_t b = 0; b < data.size(); ++b) {
                    if (data[b].shaft != static_cast<int>(i)) continue;
                    const bool takes = static_cast<int>(b) == shaft.thrust_bearing;
                    CHECK(close(loads[b].F_a_N, takes ? std::fabs(x_N) : 0));
                }
                continue;
            }
            ++with_thrust;
            const auto own = [&](std::size_t b) {
                return iso_281::induced_axial_N(
                    {data[b].kind, data[b].contact_angle_deg, data[b].f_0, data[b].C_0_N},
                    loads[b].F_r_N);
            };
            // Rearward force: by the bearing whose big end points to the front.
            const double takes = *s.bearings[front].big_end == Facing::front ? 1 : -1;
            CHECK(loads[front].F_a_N == rel(std::max(own(front), own(rear) + takes * x_N), 1e-9));
            CHECK(loads[rear].F_a_N == rel(std::max(own(rear), own(front) - takes * x_N), 1e-9));
            CHECK(within(takes * (loads[front].F_a_N - loads[rear].F_a_N), x_N,
                         1e-9 * (std::fabs(x_N) + loads[front].F_a_N)));
        }
    }
    CHECK(with_thrust > 100);
}

TEST_CASE("forces: the case as a whole is in balance, its reaction torque included") {
    // The meshes cancel: bearings, weights, and the torques at input and output are left.
    constexpr std::uint64_t seed = 77;
    Chance chance(seed);
    for (int round = 0; round < 200; ++round) {
        CAPTURE(seed);
        CAPTURE(round);
        const Setup s = random_setup(chance, false);
        const Train t = place_train(s);
        const std::vector<BearingData> data = data_of(s);
        const double torque = chance.between(-1500, 3000);
        const auto loads = bearing_loads(s, t, data, torque, {});
        V force{};
        V moment{};
        double size_N = 0;
        double size_Nmm = 0;
        const auto add = [&](const V& at, const V& f) {
            force = force + f;
            moment = moment + cross(at, f);
            size_N += std::hypot(f.y, f.z);
            size_Nmm += std::hypot(f.y, f.z) * std::hypot(at.x, std::hypot(at.y, at.z));
        };
        for (std::size_t b = 0; b < data.size(); ++b) {
            const ShaftPlace& shaft = t.shafts[static_cast<std::size_t>(data[b].shaft)];
            const double clock = loads[b].clock_deg * pi / 180;
            if (data[b].radial)
                add({s.bearings[b].at_mm, shaft.y_mm, shaft.z_mm},
                    {0, -loads[b].F_r_N * std::sin(clock), -loads[b].F_r_N * std::cos(clock)});
        }
        for (const ShaftPlace& shaft : t.shafts)
            add({shaft.gear_at_mm, shaft.y_mm, shaft.z_mm}, {0, 0, -shaft.weight_N});
        const auto& in = t.shafts.front();
        const auto& out = t.shafts.back();
        moment.x += 1000 * torque * (in.clockwise ? -1 : 1);
        moment.x -= 1000 * torque * t.ratio * (out.clockwise ? -1 : 1);
        CHECK(within(force.y, 0, 1e-9 * size_N));
        CHECK(within(force.z, 0, 1e-9 * size_N));
        CHECK(within(moment.x, 0, 1e-9 * size_Nmm));
        // Along the shafts the meshes' thrust leaves through bearings at other heights: with spur
        // gears there is none.
        if (s.gears.helix_angle_deg == 0) {
            CHECK(within(moment.y, 0, 1e-9 * size_Nmm));
            CHECK(within(moment.z, 0, 1e-9 * size_Nmm));
        }
    }
}

TEST_CASE("forces: turning the case the other way mirrors every clock position") {
    constexpr std::uint64_t seed = 5;
    Chance chance(seed);
    for (int round = 0; round < 100; ++round) {
        CAPTURE(seed);
        CAPTURE(round);
        const Setup s = random_setup(chance, true);
        Setup m = s;
        m.transfer_case.input_turns_clockwise = !s.transfer_case.input_turns_clockwise;
        m.transfer_case.drop_direction_deg = -s.transfer_case.drop_direction_deg;
        if (s.gears.hand_on_input != Hand::none)
            m.gears.hand_on_input = s.gears.hand_on_input == Hand::right ? Hand::left : Hand::right;
        for (JointInput& joint : m.joints) joint.angle_right_deg *= -1;
        const Train t = place_train(s);
        const Train u = place_train(m);
        const double torque = chance.between(-1500, 3000);
        const auto a = bearing_loads(s, t, data_of(s), torque, {});
        const auto b = bearing_loads(m, u, data_of(m), torque, {});
        for (std::size_t i = 0; i < a.size(); ++i) {
            CHECK(close(a[i].F_r_N, b[i].F_r_N));
            CHECK(within(a[i].F_a_N, b[i].F_a_N, 1e-9 * (1 + a[i].F_a_N + a[i].F_r_N)));
            if (a[i].F_r_N > 1) CHECK(same_clock(a[i].clock_deg, 360 - b[i].clock_deg, 1e-5));
        }
        for (std::size_t i = 0; i < t.shafts.size(); ++i) {
            CHECK(within(t.shafts[i].y_mm, -u.shafts[i].y_mm, 1e-9));
            CHECK(within(t.shafts[i].z_mm, u.shafts[i].z_mm, 1e-9));
        }
    }
}

TEST_CASE("forces: turning the whole case about the input turns every clock position with it") {
    constexpr std::uint64_t seed = 6;
    Chance chance(seed);
    for (int round = 0; round < 50; ++round) {
        CAPTURE(round);
        Setup s = random_setup(chance, false);
        s.transfer_case.steel_mass_kg = 1e-9;
        Setup turned = s;
        const double by_deg = chance.between(-90, 90);
        turned.transfer_case.drop_direction_deg += by_deg;  // to the right: against the clock below
        const Train t = place_train(s);
        const Train u = place_train(turned);
        const auto a = bearing_loads(s, t, data_of(s), 900, {});
        const auto b = bearing_loads(turned, u, data_of(turned), 900, {});
        for (std::size_t i = 0; i < a.size(); ++i) {
            CHECK(close(a[i].F_r_N, b[i].F_r_N));
            if (a[i].F_r_N > 1)
                CHECK(same_clock(a[i].clock_deg, b[i].clock_deg + by_deg + 720, 1e-5));
        }
    }
}

}  // namespace caseload::forces_tests
