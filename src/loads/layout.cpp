// SPDX-License-Identifier: MIT
// What follows from the arrangement of the parts.
#include "loads/parts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

// A four-point bearing carries the axial force on two points; a radial load above this share of its
// static rating is what another bearing should carry. Judgement.
constexpr double four_point_radial_share = 0.1;
// Below this ratio of axial to radial load three or four points carry and slide on each other.
// Handbook practice, from memory.
constexpr double four_point_least_ratio = 1.27;

std::string_view turns(bool clockwise) {
    return clockwise ? "clockwise" : "counter-clockwise";
}

const ShaftPlace* shaft_of(const Train& train, const JointInput& joint) {
    for (const ShaftPlace& shaft : train.shafts)
        if (shaft.name == joint.shaft) return &shaft;
    return nullptr;
}

}  // namespace

void note_layout(const Setup& setup, const Train& train, Notes& notes) {
    std::string senses;
    for (const ShaftPlace& shaft : train.shafts)
        senses +=
            fmt::format("{}{} {}", senses.empty() ? "" : ", ", shaft.name, turns(shaft.clockwise));
    add_note(notes, {"train.senses", "gears.train",
                     "driving forward, looking forward from behind: " + senses});
    // Axle gears of the usual hand (left-hand spiral on the pinion) are made to drive with the
    // pinion turning clockwise for an eye that looks at its nose. The pinion of a rear axle points
    // forward, to the case's rear joint; that of a front axle points rearward: seen from behind it
    // turns as it does at its nose. Common practice, no published source.
    for (const JointInput& joint : setup.joints) {
        const ShaftPlace* shaft = shaft_of(train, joint);
        if (shaft == nullptr || shaft->takes_torque_in || shaft->torque_ratio <= 0) continue;
        const bool rear = joint.end == End::rear;
        const bool drive_flank = shaft->clockwise != rear;
        add_note(notes,
                 {"train.axle_flank", "joint." + joint.name,
                  fmt::format("the {} axle is turned {} (seen from behind): driving forward, axle "
                              "gears of the usual hand run on their {} flank, gears of reverse cut "
                              "on the {} flank; coasting, the other way round",
                              rear ? "rear" : "front", turns(shaft->clockwise),
                              drive_flank ? "drive" : "coast", drive_flank ? "coast" : "drive")});
    }
    for (const LegInput& leg : setup.event.legs) {
        const bool front =
            std::any_of(setup.joints.begin(), setup.joints.end(), [&](const JointInput& joint) {
                const ShaftPlace* shaft = shaft_of(train, joint);
                return joint.end == End::front && shaft != nullptr && !shaft->takes_torque_in;
            });
        if (leg.kind == LegKind::drive && !leg.front_drive && !front)
            add_note(notes, {"leg.no_front_joint", "leg." + leg.name,
                             fmt::format("leg.{}.front_drive = false has no effect: no driven "
                                         "shaft has a joint at its front",
                                         leg.name)});
    }
}

Setup without_front_drive(const Setup& setup, const Train& train) {
    Setup rear = setup;
    for (JointInput& joint : rear.joints) {
        const ShaftPlace* shaft = shaft_of(train, joint);
        if (shaft == nullptr || shaft->takes_torque_in) continue;
        joint.torque_share = joint.end == End::front ? 0 : 1;
    }
    return rear;
}

void note_four_point(Loads& loads) {
    for (std::size_t b = 0; b < loads.bearings.size(); ++b) {
        const BearingData& data = loads.bearings[b];
        if (data.kind != BearingKind::four_point_ball) continue;
        double largest_N = 0;
        double driven = 0;
        double sliding = 0;
        for (const LegLoads& leg : loads.legs)
            for (const BinLoads& bin : leg.bins) {
                const BearingLoad& load = bin.nominal[b];
                largest_N = std::max(largest_N, load.F_r_N);
                driven += bin.bin.share;
                if (load.F_a_N < four_point_least_ratio * load.F_r_N) sliding += bin.bin.share;
            }
        const std::string about = "bearing." + data.name;
        if (largest_N > four_point_radial_share * data.C_0_N)
            add_note(
                loads.notes,
                {"bearing.four_point_misused", about,
                 fmt::format("{}: misused: carries radial load, {:.1f} kN with a static rating "
                             "of {:.1f} kN; give it clearance round its outer ring (radial = "
                             "false) beside two that carry radial load",
                             data.name, largest_N / 1000, data.C_0_N / 1000)});
        if (sliding > 0)
            add_note(loads.notes,
                     {"bearing.four_point_ratio", about,
                      fmt::format("{}: less than {:.2f} N axial per N radial in {:.0f} % of the "
                                  "legs' driving: more than two points carry, balls slide and wear",
                                  data.name, four_point_least_ratio, 100 * sliding / driven)});
    }
}

}  // namespace caseload
