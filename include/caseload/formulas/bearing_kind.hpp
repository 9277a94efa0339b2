// SPDX-License-Identifier: MIT
// Kinds of rolling bearing; trade terms as in ISO 5593.
#pragma once

#include <array>
#include <cstddef>

namespace caseload {

enum class BearingKind {
    deep_groove_ball,
    angular_contact_ball,
    four_point_ball,
    cylindrical_roller,
    tapered_roller,
    spherical_roller,
};

/// Point contact (ball) or line contact (roller): decides the life exponent.
constexpr bool is_ball(BearingKind kind) {
    return kind == BearingKind::deep_groove_ball || kind == BearingKind::angular_contact_ball ||
           kind == BearingKind::four_point_ball;
}

/// What a kind may be used for.
struct BearingUse {
    BearingKind kind;
    bool thick_end = false;        ///< takes force along the axis one way, from its thick end
    bool holds_axially = true;     ///< false: thrust on flanges, outside the rating standard
    bool clearance_class = false;  ///< has a class of radial clearance
    double least_angle_deg = 0;    ///< contact angles its load factors are known for
    double largest_angle_deg = 0;  ///< 0: it has no contact angle
};

inline constexpr std::array<BearingUse, 6> bearing_uses{
    {{BearingKind::deep_groove_ball, false, true, true},
     {BearingKind::angular_contact_ball, true, true, false, 15, 45},
     {BearingKind::four_point_ball, false, true, false, 20, 45},
     {BearingKind::cylindrical_roller, false, false, true},
     {BearingKind::tapered_roller, true, true, false, 5, 45},
     {BearingKind::spherical_roller, false, true, true, 5, 45}}};

/// Row of a kind; each has one.
constexpr const BearingUse& use_of(BearingKind kind) {
    std::size_t row = 0;
    while (bearing_uses.at(row).kind != kind) ++row;
    return bearing_uses.at(row);
}

}  // namespace caseload
