// SPDX-License-Identifier: MIT
// ISO 3448: viscosity classes (VG) of industrial oils.
#pragma once

#include <optional>

namespace caseload::iso_3448 {

/// VG class whose range, midpoint +-10 %, holds the viscosity at 40 degC; none in the gaps between
/// classes.
///
/// Range    nu_40C_mm2ps > 0.
/// Note     classes 2200 and 3200 from memory.
/// Source   iso-3448-1992, table1
[[nodiscard]] std::optional<int> viscosity_class(double nu_40C_mm2ps);

}  // namespace caseload::iso_3448
