// SPDX-License-Identifier: MIT
// The factors on heat made or carried, listed once: the range draws them, temperatures read on a
// case correct them, and [measured] of a setup names them.
#pragma once

#include "caseload/model.hpp"

#include <array>
#include <cstddef>
#include <string_view>

namespace caseload {

struct HeatFactorRow {
    std::string_view name;     ///< in [measured]; of those drawn, the heading in tables/band.toml
    double Factors::* member;  ///< its place
    double Factors::* follows = nullptr;  ///< the factor whose draw it shares; null: has its own
};

/// First those drawn, in the order of tables/band.toml.
inline constexpr std::array<HeatFactorRow, 13> heat_factor_rows{
    {{"load", &Factors::load},
     {"mesh", &Factors::mesh},
     {"windage", &Factors::windage},
     {"thrown", &Factors::thrown},
     {"churning", &Factors::churning},
     {"bearing_friction", &Factors::bearing_friction},
     {"seals", &Factors::seals},
     {"pump", &Factors::pump},
     {"air_share", &Factors::air_share},
     {"oil_film", &Factors::oil_film},
     {"face_speed", &Factors::face_speed},
     {"pocketing", &Factors::pocketing, &Factors::windage},
     {"churning_fast", &Factors::churning_fast, &Factors::churning}}};

/// Row of a factor.
constexpr std::size_t heat_factor_row(double Factors::* member) {
    std::size_t row = 0;
    while (heat_factor_rows.at(row).member != member) ++row;
    return row;
}

/// How many are drawn: the first ones.
constexpr std::size_t count_drawn() {
    std::size_t drawn = 0;
    while (heat_factor_rows.at(drawn).follows == nullptr) ++drawn;
    return drawn;
}
inline constexpr std::size_t heat_factors = count_drawn();

}  // namespace caseload
