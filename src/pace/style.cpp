// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"
#include "caseload/pace.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::pace {
namespace {

/// To finish, quick, flat out.
struct Scale {
    double low;
    double middle;
    double high;

    [[nodiscard]] double at(double style) const {
        return style >= 0 ? middle * std::pow(high / middle, style)
                          : middle * std::pow(low / middle, -style);
    }
};

// Judgement, all.
constexpr Scale of_ride{0.70, 1.00, 1.30};
constexpr Scale of_corner{0.80, 1.00, 1.12};
constexpr Scale of_push{0.60, 0.85, 1.00};
constexpr Scale of_brake{0.50, 0.70, 0.90};
constexpr Scale of_unevenness{0.35, 0.50, 0.70};

}  // namespace

Style style_of(double style) {
    require_within(style, {-1.3, 1.3}, "style");
    return {of_ride.at(style), of_corner.at(style), std::min(1.0, of_push.at(style)),
            of_brake.at(style), of_unevenness.at(style)};
}

}  // namespace caseload::pace
