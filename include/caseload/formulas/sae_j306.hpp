// SPDX-License-Identifier: MIT
// SAE J306 (February 2019): viscosity grades of axle and gearbox oils.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace caseload::sae_j306 {

struct Grade {
    std::string_view name;
    double nu_100C_min_mm2ps;                     ///< also after the 20 h shear test of CEC L-45
    double nu_100C_max_mm2ps;                     ///< not reached; infinite where there is none
    std::optional<double> brookfield_limit_degC;  ///< 150 000 mPa s here or colder: W grades
};

/// All grades, W grades first, each kind from thin to thick.
///
/// Note     the edition of 2005 had 4.1 for 70W and 75W, 7.0 for 80W and 80, and no 65, 70, 75;
///          texts from before 2005 give SAE 90 up to 24.
/// Source   sae-j306-2019, table1
[[nodiscard]] std::span<const Grade> grades();

/// The grade without W of an oil with this viscosity at 100 degC; "" below the thinnest grade.
///
/// Range    nu_100C_mm2ps > 0.
/// Source   sae-j306-2019, table1-summer
[[nodiscard]] std::string_view summer_grade(double nu_100C_mm2ps);

}  // namespace caseload::sae_j306
