// SPDX-License-Identifier: MIT
// Specific heat and conductivity of gear oils: straight lines fitted to published data.
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

/// Thermal conductivity.
///
///     mineral    k = 0.1405 - 1.1e-4 (T - 60)     +-10 %
///     synthetic  k = 0.147  - 1.4e-4 (T - 60)     +-8 %   (T in degC)
///
/// Range    temp_degC from -60 to 400.
/// Note     sources of one oil differ by 10 %.
/// Source   oil-heat-data, conductivity
[[nodiscard]] double conductivity_WpmK(BaseOil base, double temp_degC);

}  // namespace caseload::oil_thermal
