// SPDX-License-Identifier: MIT
// Ratings from boundary dimensions when a bearing's documents are not at hand: proportions fitted
// here to textbook rating tables, then the standards' own formulas.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

#include <optional>
#include <string_view>

namespace caseload::bearing_estimate {

struct Size {
    double bore_mm;
    double outside_mm;
    double width_mm;
};

struct Estimate {
    double D_w_mm;   ///< ball or mean roller diameter
    double L_we_mm;  ///< 0 for balls
    double D_pw_mm;
    double contact_angle_deg;
    int Z;
    double C_N;
    double C_0_N;
    double f_0;  ///< ISO 76; balls only
    std::string_view series;
    bool within_tested;  ///< the proportions were tested from 45 mm bore
};

/// Ratings from size.
///
///     series by (D - d)/d: < 0.50 thin, < 0.68 10 (160 if width/(D - d) < 0.40),
///                          < 0.98 02 (22 if > 0.50), else 03
///     deep groove  D_w = k (D - d), k 0.3175 (02, 03), 0.3025 (10), 0.265 (thin),
///                  160: min(0.3025 (D - d), 0.68 B);  Z from a 193 deg filling angle
///     angular      D_w = 0.3175 (D - d), Z = 90 % of a full row;  four-point the same
///     cylindrical  D_we = 0.25 (D - d), L_we 0.53 B (10, 02), 0.62 B (03), 0.60 B (22), Z 70, 72 %
///     tapered      D_we = 0.25 (D - d), L_we = 0.75 x 0.77 T / cos a, Z = 90 % of a full row
///
/// Note     +-8 % on textbook tables of deep groove 02, 03, 10; thin series reduced to 0.85 (160:
///          0.9); cylindrical +-15 %; tapered +-20 %. Spherical: refused, no rule was tested.
/// Source   bearing-proportions, fit
[[nodiscard]] Estimate estimate(BearingKind kind, const Size& size,
                                std::optional<double> contact_angle_deg);

}  // namespace caseload::bearing_estimate
