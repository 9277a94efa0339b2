// SPDX-License-Identifier: MIT
// Setups made by hand and by chance for the tests of the loads.
#pragma once

#include "caseload/loads.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace caseload::loads_test {

/// The same numbers on every library: only the engine's own output is used.
class Chance {
public:
    explicit Chance(std::uint64_t seed) : engine_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_() >> 11) / 9007199254740992.0;
    }
    int whole(int low, int high) {
        return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1));
    }
    bool coin() { return (engine_() & 1U) != 0; }

private:
    std::mt19937_64 engine_;
};

inline BearingInput bearing(const std::string& name, const std::string& shaft, double at_mm,
                            BearingKind kind) {
    BearingInput b;
    b.name = name;
    b.shaft = shaft;
    b.at_mm = at_mm;
    b.kind = kind;
    b.bore_mm = 70;
    b.outside_mm = 110;
    b.width_mm = 20;
    return b;
}

/// The ways a shaft is held: each kind of bearing in the places it may have.
enum class Holding {
    ball_and_roller,
    two_balls,
    tapered_out,  ///< big ends outside
    tapered_in,
    angular,
    spherical_and_roller,
    four_point_and_roller,
    rollers_and_thrust,  ///< a third bearing takes the axial force alone
};
inline constexpr int holdings = 8;

inline void hold(Setup& setup, const std::string& shaft, double front_mm, double rear_mm,
                 Holding how) {
    using K = BearingKind;
    auto front = bearing(shaft + "_front", shaft, front_mm, K::cylindrical_roller);
    auto rear = bearing(shaft + "_rear", shaft, rear_mm, K::deep_groove_ball);
    switch (how) {
        case Holding::ball_and_roller:
            rear.locating = true;
            break;
        case Holding::two_balls:
            front.kind = K::deep_groove_ball;
            front.locating = true;
            break;
        case Holding::tapered_out:
        case Holding::tapered_in:
        case Holding::angular:
            front.kind = rear.kind =
                how == Holding::angular ? K::angular_contact_ball : K::tapered_roller;
            front.outside_mm = rear.outside_mm = how == Holding::angular ? 125 : 110;
            front.width_mm = rear.width_mm = how == Holding::angular ? 24 : 25;
            front.big_end = how == Holding::tapered_in ? Facing::rear : Facing::front;
            rear.big_end = how == Holding::tapered_in ? Facing::front : Facing::rear;
            break;
        case Holding::spherical_and_roller:
            rear.kind = K::spherical_roller;
            rear.locating = true;
            break;
        case Holding::four_point_and_roller:
            rear.kind = K::four_point_ball;
            rear.locating = true;
            break;
        case Holding::rollers_and_thrust: {
            rear.kind = K::cylindrical_roller;
            auto thrust = bearing(shaft + "_thrust", shaft, rear_mm + 30, K::four_point_ball);
            thrust.radial = false;
            thrust.locating = true;
            setup.bearings.push_back(thrust);
            break;
        }
    }
    setup.bearings.push_back(front);
    setup.bearings.push_back(rear);
}

/// A train with the given teeth on centre distances without profile shift.
inline Setup train_of(const std::vector<int>& teeth, double module_mm, double helix_deg = 0) {
    Setup s;
    s.gears.module_mm = module_mm;
    s.gears.pressure_angle_deg = 20;
    s.gears.helix_angle_deg = helix_deg;
    if (helix_deg > 0) s.gears.hand_on_input = Hand::right;
    s.gears.face_width_mm = 40;
    s.gears.train = teeth.size() == 2 ? std::vector<std::string>{"input", "output"}
                                      : std::vector<std::string>{"input", "idler", "output"};
    s.gears.teeth = teeth;
    s.transfer_case.steel_mass_kg = 1e-9;
    for (std::size_t i = 0; i + 1 < teeth.size(); ++i)
        s.transfer_case.centre_distance_mm.push_back(module_mm * (teeth[i] + teeth[i + 1]) / 2 /
                                                     std::cos(helix_deg * pi / 180));
    for (const std::string& shaft : s.gears.train) s.shafts[shaft] = {66, 0};
    return s;
}

/// Two or three gears, spur or helical, any senses, places and kinds of bearings. Joints: at every
/// end, with angles if asked for.
inline Setup random_setup(Chance& chance, bool joint_angles) {
    const bool idler = chance.coin();
    std::vector<int> teeth{chance.whole(22, 45), chance.whole(22, 45)};
    if (idler) teeth.push_back(chance.whole(22, 45));
    const bool helical = chance.coin();
    Setup s = train_of(teeth, chance.between(2.5, 6), helical ? chance.between(5, 30) : 0);
    if (helical) s.gears.hand_on_input = chance.coin() ? Hand::right : Hand::left;
    for (double& a_mm : s.transfer_case.centre_distance_mm) a_mm *= chance.between(1.0, 1.004);
    if (idler) s.transfer_case.idler_angle_deg = chance.between(100, 260);
    s.transfer_case.input_turns_clockwise = chance.coin();
    s.transfer_case.drop_direction_deg = chance.between(-180, 180);
    s.transfer_case.steel_mass_kg = chance.between(5, 60);
    const double gear_at_mm = chance.between(-20, 140);  // overhung as well
    for (const std::string& shaft : s.gears.train) {
        s.shafts[shaft].gear_at_mm = gear_at_mm;
        hold(s, shaft, chance.between(5, 30), chance.between(90, 130),
             static_cast<Holding>(chance.whole(0, holdings - 1)));
    }
    for (BearingInput& one : s.bearings)
        if (chance.coin()) {
            one.dynamic_rating_N = chance.between(20e3, 200e3);
            one.static_rating_N = chance.between(20e3, 300e3);
        }
    const auto joint = [&](const std::string& name, const std::string& shaft, End end) {
        JointInput j;
        j.name = name;
        j.shaft = shaft;
        j.end = end;
        j.torque_share = chance.between(0, 1);
        if (joint_angles) {
            j.angle_down_deg = chance.between(-10, 10);
            j.angle_right_deg = chance.between(-10, 10);
        }
        s.joints.push_back(j);
    };
    joint("gearbox", "input", End::front);
    joint("front", "output", End::front);
    joint("rear", "output", End::rear);
    return s;
}

/// The bearings as the chain calculates with them.
inline std::vector<BearingData> data_of(const Setup& s) {
    Setup whole = s;
    whole.event.legs.clear();
    return calculate_loads(whole).bearings;
}

inline bool same_clock(double a_deg, double b_deg, double tolerance_deg) {
    const double off = std::fmod(std::fabs(a_deg - b_deg), 360);
    return std::min(off, 360 - off) <= tolerance_deg;
}

}  // namespace caseload::loads_test
