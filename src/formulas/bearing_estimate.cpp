// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_estimate.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::bearing_estimate {
namespace {

std::string_view series_of(const Size& size) {
    const double height_mm = size.outside_mm - size.bore_mm;
    const double relative = height_mm / size.bore_mm;
    const double slenderness = size.width_mm / height_mm;
    if (relative < 0.50) return "thin";
    if (relative >= 0.98) return "03";
    if (slenderness < 0.40) return "160";
    if (relative < 0.68) return "10";
    return slenderness > 0.50 ? "22" : "02";
}

/// Rolling elements on the pitch circle that fill a share of the full row.
struct Filled {
    double share;        ///< of the full row
    double D_over_D_pw;  ///< element on its pitch circle
};

int count_in_row(const Filled& row) {
    return static_cast<int>(std::floor(row.share * pi / std::asin(row.D_over_D_pw)));
}

double deep_groove_ball_mm(std::string_view series, const Size& size) {
    const double height_mm = size.outside_mm - size.bore_mm;
    if (series == "thin") return 0.265 * height_mm;
    if (series == "160") return 0.68 * size.width_mm;
    if (series == "10")
        return (size.bore_mm >= 50   ? 0.3025
                : size.bore_mm <= 20 ? 0.28
                                     : 0.28 + 0.0225 * (size.bore_mm - 20) / 30) *
               height_mm;
    if (size.bore_mm >= 45) return 0.3175 * height_mm;
    return (size.bore_mm > 20 ? 0.30 : 0.28) * height_mm;
}

/// Share of C of a ball bearing that a thin ring leaves.
double thin_reduction(std::string_view series) {
    return series == "thin" ? 0.85 : series == "160" ? 0.9 : 1;
}

double spread_of(BearingKind kind, std::string_view series) {
    // No table of angular contact or four-point bearings of other series was found. Judgement.
    if (kind == BearingKind::angular_contact_ball || kind == BearingKind::four_point_ball)
        return series == "02" || series == "03" ? 0.25 : 0.40;
    if (series == "thin" || series == "160") return 0.25;
    switch (kind) {
        case BearingKind::deep_groove_ball:
            return 0.08;
        case BearingKind::angular_contact_ball:
        case BearingKind::four_point_ball:
            break;
        case BearingKind::cylindrical_roller:
            return 0.15;
        case BearingKind::tapered_roller:
            return 0.20;
        case BearingKind::spherical_roller:
            return 0.30;
    }
    return 0.30;
}

}  // namespace

std::string_view friction_series(const Size& size) {
    // Between 23 with 0.63 or more and 03 with 0.48 or less from 20 mm bore, ISO 15.
    constexpr double wide = 0.55;
    const std::string_view series = series_of(size);
    return series == "03" && size.width_mm > wide * (size.outside_mm - size.bore_mm) ? "23"
                                                                                     : series;
}

// Long: one kind after the other, each in a few lines.
Estimate estimate(BearingKind kind, const Size& size, std::optional<double> contact_angle_deg) {
    require_positive(size.bore_mm, "bore_mm");
    require_within(size.outside_mm, {size.bore_mm * 1.05, 2000}, "outside_mm");
    require_positive(size.width_mm, "width_mm");
    if (contact_angle_deg) require_within(*contact_angle_deg, {0, 60}, "contact_angle_deg");
    Estimate result{};
    result.series = series_of(size);
    result.D_pw_mm = (size.bore_mm + size.outside_mm) / 2;
    result.within_tested = size.bore_mm >= 45;
    result.spread = spread_of(kind, result.series);
    const double height_mm = size.outside_mm - size.bore_mm;
    double reduction = 1;
    switch (kind) {
        case BearingKind::deep_groove_ball: {
            result.D_w_mm = deep_groove_ball_mm(result.series, size);
            // Assembly limit of a bearing without filling slot: the balls cover 193 degrees.
            const double pitch_rad = 2 * std::asin(result.D_w_mm / result.D_pw_mm);
            result.Z = static_cast<int>(std::floor(1 + rad_from_deg(193) / pitch_rad));
            reduction = thin_reduction(result.series);
            break;
        }
        case BearingKind::angular_contact_ball:
        case BearingKind::four_point_ball:
            result.contact_angle_deg =
                contact_angle_deg.value_or(kind == BearingKind::four_point_ball ? 35 : 40);
            result.D_w_mm = deep_groove_ball_mm(result.series, size);
            result.Z = count_in_row({0.90, result.D_w_mm / result.D_pw_mm});
            reduction = thin_reduction(result.series);
            break;
        case BearingKind::cylindrical_roller: {
            const bool heavy = result.series == "03";
            result.D_w_mm = 0.25 * height_mm;
            result.L_we_mm = size.width_mm * (heavy ? 0.62 : result.series == "22" ? 0.60 : 0.53);
            result.Z = count_in_row({heavy ? 0.72 : 0.70, result.D_w_mm / result.D_pw_mm});
            break;
        }
        case BearingKind::tapered_roller: {
            result.contact_angle_deg = contact_angle_deg.value_or(16);
            const double cos_a = std::cos(rad_from_deg(result.contact_angle_deg));
            const double cup_mm = tapered_cup_width_mm(size).value_or(0.77 * size.width_mm);
            result.D_w_mm = 0.25 * height_mm;
            result.L_we_mm = 0.75 * cup_mm / cos_a;
            result.Z = count_in_row({0.90, result.D_w_mm * cos_a / result.D_pw_mm});
            break;
        }
        case BearingKind::spherical_roller: {
            result.contact_angle_deg = contact_angle_deg.value_or(10);
            const double cos_a = std::cos(rad_from_deg(result.contact_angle_deg));
            result.D_w_mm = 0.263 * height_mm;
            result.L_we_mm = 0.346 * size.width_mm;
            result.Z = count_in_row({0.83, result.D_w_mm * cos_a / result.D_pw_mm});
            break;
        }
    }
    const double cos_alpha = std::cos(rad_from_deg(result.contact_angle_deg));
    if (is_ball(kind)) {
        const iso_281::BallSet set{.D_w_mm = result.D_w_mm,
                                   .D_pw_mm = result.D_pw_mm,
                                   .cos_alpha = cos_alpha,
                                   .Z = result.Z};
        result.C_N = reduction * iso_281::ball_rating_N(set, 1.3);
        result.C_0_N = iso_76::ball_rating_N(set);
        result.f_0 = iso_76::f_0(result.D_w_mm * cos_alpha / result.D_pw_mm);
    } else {
        // Both standards count rows and length as one product.
        const bool spherical = kind == BearingKind::spherical_roller;
        const iso_281::RollerSet set{.D_we_mm = result.D_w_mm,
                                     .L_we_mm = (spherical ? 2 : 1) * result.L_we_mm,
                                     .D_pw_mm = result.D_pw_mm,
                                     .cos_alpha = cos_alpha,
                                     .Z = result.Z};
        result.C_N = iso_281::roller_rating_N(set, spherical ? 1.15 : 1.1);
        result.C_0_N = iso_76::roller_rating_N(set);
    }
    result.C_u_N =
        iso_281::fatigue_limit_N(kind, {.C_0_N = result.C_0_N, .D_pw_mm = result.D_pw_mm});
    return result;
}

}  // namespace caseload::bearing_estimate
