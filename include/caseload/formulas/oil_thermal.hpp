// SPDX-License-Identifier: MIT
// Specific heat of gear oils: straight lines fitted to published data.
#pragma once

namespace caseload::oil_thermal {

enum class BaseOil { mineral, synthetic };

/// Specific heat.
///
///     mineral    cp = 1810 + 4.2 T     +-3 %
///     synthetic  cp = 2050 + 3.3 T     +-5 %   (T in degC)
///
/// Range    temp_degC from -60 to 400.
/// Note     fitted to engine oil in Incropera 6e, a mineral heat-transfer oil, and polyalphaolefin
///          in Sleiti, J. Synth. Lubr. 24 (2007) 77.
/// Source   oil-heat-data, fit
[[nodiscard]] double specific_heat_JpkgK(BaseOil base, double temp_degC);

}  // namespace caseload::oil_thermal
