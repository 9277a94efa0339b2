// SPDX-License-Identifier: MIT
// Thrust, idlers and facing pairs by hand and against a textbook.
#include "loads/setups.hpp"
#include "support.hpp"

#include <array>
#include <string>

namespace caseload::thrust_tests {

using namespace caseload::loads_test;

TEST_CASE(
    "forces: thrust of both shafts by hand, for both hands of helix and senses, drive and coast") {
    // A right-hand screw turned clockwise moves away from the eye: a right-hand gear that drives
    // and turns clockwise for the eye behind the car is pushed forward, its mate rearward. Other
    // hand, other sense, coasting: each turns it round.
    for (const Hand hand : {Hand::right, Hand::left})
        for (const bool clockwise : {true, false})
            for (const double torque : {700.0, -700.0}) {
                Setup s = train_of({33, 41}, 5, 15);
                s.gears.hand_on_input = hand;
                s.transfer_case.input_turns_clockwise = clockwise;
                for (const std::string shaft : {"input", "output"})
                    hold(s, shaft, 20, 112, Holding::tapered_out);
                const Train t = place_train(s);
                const auto data = data_of(s);
                const auto loads = bearing_loads(s, t, data, torque, {});
                const double turned =
                    (hand == Hand::right ? 1 : -1) * (clockwise ? 1 : -1) * (torque > 0 ? 1 : -1);
                // 700 Nm on the reference circle of 33 teeth: 165 / cos 15 = 170.82 mm, so 8195.7
                // N, times tan 15: 2196.0 N.
                const double F_a_N =
                    700e3 / (33 * 5 / std::cos(15 * pi / 180) / 2) * std::tan(15 * pi / 180);
                CHECK(F_a_N == rel(2196.0, 1e-4));
                std::array<double, 2> rearward{};
                for (std::size_t b = 0; b < data.size(); ++b) {
                    const bool front = *s.bearings[b].big_end == Facing::front;
                    rearward[static_cast<std::size_t>(data[b].shaft)] +=
                        (front ? 1 : -1) * loads[b].F_a_N;
                }
                CHECK(rearward[0] == rel(-turned * F_a_N, 1e-9));
                CHECK(rearward[1] == rel(turned * F_a_N, 1e-9));
            }
}

TEST_CASE("forces: a helical idler has no thrust, a spur one carries both meshes") {
    Setup s = train_of({28, 36, 39}, 4, 15);
    s.transfer_case.idler_angle_deg = 160;
    for (const std::string& shaft : s.gears.train) hold(s, shaft, 20, 112, Holding::tapered_out);
    const Train t = place_train(s);
    const auto data = data_of(s);
    const auto loads = bearing_loads(s, t, data, 500, {});
    double idler = 0;
    double sum = 0;
    for (std::size_t b = 0; b < data.size(); ++b) {
        const double way = *s.bearings[b].big_end == Facing::front ? 1 : -1;
        sum += way * loads[b].F_a_N;
        if (data[b].shaft == 1) idler += way * loads[b].F_a_N;
    }
    CHECK(within(idler, 0, 1e-6));
    CHECK(within(sum, 0, 1e-6));
}

TEST_CASE("forces: the shaft force of an idler against a textbook") {
    // Shigley, example 13-7 (from memory): 2.5 kW at 1750 r/min, 20/50/30 teeth of 2.5 mm, 20 deg:
    // 0.491 kN on the idler's shaft where the driven gear stands square to the driver. On its other
    // side, and at 240 deg, worked apart from this code with complex numbers: 1.0526 and 1.1437 kN;
    // in line twice the tangential force.
    struct Row {
        double angle_deg;
        double kN;
    };
    const double torque = 2500 / (1750 * pi / 30);
    for (const Row& row :
         {Row{90, 0.491}, Row{270, 1.0526}, Row{240, 1.1437}, Row{180, 2 * torque / 25}})
        for (const bool clockwise : {true, false}) {
            CAPTURE(row.angle_deg);
            Setup s = train_of({20, 50, 30}, 2.5);
            s.transfer_case.idler_angle_deg = row.angle_deg;
            s.transfer_case.input_turns_clockwise = clockwise;
            s.transfer_case.drop_direction_deg = 37;
            for (const std::string& shaft : s.gears.train)
                hold(s, shaft, 20, 112, Holding::ball_and_roller);
            const Train t = place_train(s);
            const auto data = data_of(s);
            const auto loads = bearing_loads(s, t, data, torque, {});
            double y = 0;
            double z = 0;
            for (std::size_t b = 0; b < data.size(); ++b)
                if (data[b].shaft == 1) {
                    y += loads[b].F_r_N * std::sin(loads[b].clock_deg * pi / 180);
                    z += loads[b].F_r_N * std::cos(loads[b].clock_deg * pi / 180);
                }
            CHECK(within(std::hypot(y, z) / 1000, row.kN, 0.0005));
        }
}

TEST_CASE("forces: a facing pair without outside force, with a huge one, and between both") {
    Setup s = train_of({33, 41}, 5);
    for (const std::string& shaft : s.gears.train) hold(s, shaft, 20, 90, Holding::tapered_out);
    JointInput slip;
    slip.name = "rear";
    slip.shaft = "output";
    s.joints.push_back(slip);
    const Train t = place_train(s);
    const auto data = data_of(s);
    const auto at = [&](double slip_N) { return bearing_loads(s, t, data, 800, {slip_N}); };
    // No outside force: the one pushed harder sets the force of both. Tapered, 16 deg: 1.25 tan a.
    const auto none = at(0);
    const double own_front = 1.25 * std::tan(16 * pi / 180) * none[2].F_r_N;
    const double own_rear = 1.25 * std::tan(16 * pi / 180) * none[3].F_r_N;
    CHECK(own_rear > own_front);  // the gear stands nearer to it
    CHECK(none[2].F_a_N == rel(own_rear, 1e-9));
    CHECK(none[3].F_a_N == rel(own_rear, 1e-9));
    // A huge one: by the bearing it presses on, with the other's own beside it.
    for (const double huge_N : {1e6, -1e6}) {
        const auto loads = at(huge_N);
        const bool rearward = huge_N > 0;
        CHECK(loads[2].F_a_N == rel(rearward ? 1e6 + own_rear : own_front, 1e-9));
        CHECK(loads[3].F_a_N == rel(rearward ? own_rear : 1e6 + own_front, 1e-9));
    }
    // Both ends of the branch meet: where the outside force just equals the difference.
    const double between_N = own_rear - own_front;
    CHECK(at(between_N * (1 + 1e-9))[2].F_a_N == rel(at(between_N * (1 - 1e-9))[2].F_a_N, 1e-8));
}

}  // namespace caseload::thrust_tests
