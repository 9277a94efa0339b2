// SPDX-License-Identifier: MIT
// Ratings from boundary dimensions when a bearing's documents are not at hand: proportions fitted
// here to textbook rating tables, then the standards' own formulas. Boundary dimensions from memory
// of ISO 15 and ISO 355 (tables/bearing_sizes.toml).
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace caseload::bearing_estimate {

struct Size {
    double bore_mm;
    double outside_mm;
    double width_mm;  ///< tapered: overall width T
};

struct Estimate {
    double D_w_mm;   ///< ball or mean roller diameter
    double L_we_mm;  ///< 0 for balls
    double D_pw_mm;
    double contact_angle_deg;
    int Z;
    double C_N;
    double C_0_N;  ///< ISO 76 basis
    double C_u_N;  ///< fatigue load limit from C_0_N
    double f_0;    ///< ISO 76; balls only
    std::string_view series;
    bool within_tested;  ///< the proportions were tested from 45 mm bore
    double spread;       ///< share of C the rule may be off, either way
};

/// Ratings from size.
///
///     series by (D - d)/d: < 0.50 thin; B/(D - d) < 0.40 160; < 0.68 10;
///                          < 0.98 02 (22 if B/(D - d) > 0.50); else 03
///     deep groove  D_w = k (D - d), k 0.3175 (02, 03), 0.3025 (10), 0.265 (thin),
///                  160: 0.68 B;  Z from a 193 deg filling angle
///     angular      D_w as deep groove, Z = 90 % of a full row;  four-point the same
///     cylindrical  D_we = 0.25 (D - d), L_we 0.53 B (10, 02), 0.62 B (03), 0.60 B (22), Z 70, 72 %
///     tapered      D_we = 0.25 (D - d), L_we = 0.75 C / cos a, Z = 90 % of a full row; cup width C
///                  from the size table, outside it 0.77 T
///     spherical    two rows of D_we = 0.263 (D - d), L_we = 0.346 B, Z = 83 % of a full row
///
/// Given    contact angle: absent 40 deg angular contact, 35 four-point, 16 tapered, 10 spherical.
/// Note     b_m 1.3 ball, 1.1 roller, 1.15 spherical. Below 45 mm bore k falls to 0.30 and 0.28.
/// The 160 test stops
///          at 0.98: a 03 bearing can be as slender. C of ball bearings of the thin series times
///          0.85, 160 0.9.
///          Against textbook tables: deep groove 02, 03, 10 mostly within 4 %, worst 8 %;
///          cylindrical +-15 %; tapered +-20 %; angular contact of series 02 4.5 %. No table of
///          other angular contact or of four-point bearings was found: within 25 % in series 02 and
///          03, 40 % outside, judgement.
///          Spherical: the inside of one bearing, 85x180x60 mm (Harris, from memory: 25 mm rollers
///          20.762 mm long, 14 a row, 12 deg), taken for all; 30 %, judgement.
/// Source   bearing-proportions, fit
[[nodiscard]] Estimate estimate(BearingKind kind, const Size& size,
                                std::optional<double> contact_angle_deg);

/// Dimension series for friction factors: that of `estimate`, and 23 where a 03 is wider than 0.55
/// of D - d.
/// Source   bearing-proportions, fit
[[nodiscard]] std::string_view friction_series(const Size& size);

/// Width of the cup (outer ring) of a tapered bearing of this bore, outside and overall width, if
/// the size table has it.
/// Source   iso-355, boundary
[[nodiscard]] std::optional<double> tapered_cup_width_mm(const Size& size);

/// Every size of the table for this kind, in its order.
///
/// Range    tapered: ISO 355 sizes; all others: ISO 15.
/// Source   iso-15, boundary
[[nodiscard]] std::vector<Size> standard_sizes(BearingKind kind);

/// Whether the size table has this size: tapered in ISO 355, every other kind in ISO 15.
/// Note     the table runs from 50 to 120 mm bore and leaves series out: false means unknown.
/// Source   iso-15, boundary
[[nodiscard]] bool is_standard_size(BearingKind kind, const Size& size);

}  // namespace caseload::bearing_estimate
