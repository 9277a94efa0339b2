// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_guides.hpp"

#include <array>
#include <cstddef>

namespace caseload::bearing_guides {
namespace {

struct SpeedRow {
    SpeedRange grease;
    SpeedRange oil_bath;
};
// In the order of BearingKind.
constexpr std::array<SpeedRow, 6> speed_table{{{{350e3, 500e3}, {500e3, 650e3}},
                                               {{300e3, 400e3}, {450e3, 600e3}},
                                               {{250e3, 350e3}, {400e3, 500e3}},
                                               {{300e3, 400e3}, {450e3, 600e3}},
                                               {{200e3, 250e3}, {350e3, 400e3}},
                                               {{150e3, 200e3}, {250e3, 350e3}}}};

}  // namespace

SpeedRange speed_parameter(BearingKind kind, Lubrication lubrication) {
    const SpeedRow& row = speed_table[static_cast<std::size_t>(kind)];
    return lubrication == Lubrication::grease ? row.grease : row.oil_bath;
}

double static_safety(BearingKind kind, Service service) {
    const bool ball = is_ball(kind);
    switch (service) {
        case Service::quiet:
            return ball ? 2 : 3;
        case Service::normal:
            return ball ? 1 : 1.5;
        case Service::shock:
            return ball ? 1.5 : 3;
    }
    return 3;
}

double least_load_share(BearingKind kind) {
    return is_ball(kind) ? 0.01 : 0.02;
}

}  // namespace caseload::bearing_guides
