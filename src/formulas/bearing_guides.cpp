// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_guides.hpp"

#include <array>
#include <cstddef>

namespace caseload::bearing_guides {
namespace {

// In the order of BearingKind.
constexpr std::array<double, 6> oil_bath_mmrpm{650e3, 600e3, 500e3, 600e3, 400e3, 350e3};

}  // namespace

double speed_parameter_mmrpm(BearingKind kind) {
    return oil_bath_mmrpm[static_cast<std::size_t>(kind)];
}

double static_safety(BearingKind kind) {
    return is_ball(kind) ? 1.5 : 3;
}

double least_load_share(BearingKind kind) {
    return is_ball(kind) ? 0.01 : 0.02;
}

}  // namespace caseload::bearing_guides
