// SPDX-License-Identifier: MIT
// Kinds of rolling bearing; trade terms as in ISO 5593.
#pragma once

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

}  // namespace caseload
