// SPDX-License-Identifier: MIT
// Heat exchangers by effectiveness and number of transfer units.
#pragma once

namespace caseload::exchanger {

struct Duty {
    double NTU;
    double C_ratio;  ///< smaller over larger capacity flow, 0 to 1
};

/// Cross-flow, both streams unmixed, exact.
///
///     eps = 1 - e^(-NTU(1+C)) [ I0(x) + sqrt(C) I1(x) - (1-C)/C sum_{n>=2} C^(n/2) I_n(x) ],
///     x = 2 NTU sqrt(C)
///
/// Range    NTU from 0 to 1e6; C -> 0 gives 1 - e^-NTU.
/// Note     form from memory; equal to 1e-12 to the double series of Mason.
/// Source   baclic-1978, crossflow-unmixed
[[nodiscard]] double effectiveness_crossflow_unmixed(const Duty& duty);

struct Asked {
    double effectiveness;
    double C_ratio;
};

/// NTU that gives an effectiveness in unmixed cross-flow, bracketed root.
/// Range    effectiveness below what 30 transfer units reach; else Error{domain}.
/// Source   baclic-1978, inverse
[[nodiscard]] double ntu_crossflow_unmixed(const Asked& asked);

struct RatingPoint {
    double heat_W;
    double difference_K;  ///< oil inlet - air inlet
    double oil_capacity_WpK;
    double air_capacity_WpK;
};

/// Overall conductance behind a rating: eps = Q / (C_min ITD), UA = NTU C_min.
///
/// Range    all > 0, eps < 1.
/// Source   incropera-6e, 11.4
[[nodiscard]] double conductance_WpK(const RatingPoint& rating);

struct RatedCore {
    double conductance_WpK;
    double difference_K;  ///< oil inlet - air inlet
    double oil_capacity_WpK;
    double air_capacity_WpK;
};

/// Heat a core carries at these flows, the other way round: Q = eps C_min ITD, NTU = UA / C_min.
///
/// Range    all > 0, NTU up to 1e6.
/// Source   incropera-6e, 11.4
[[nodiscard]] double heat_W(const RatedCore& core);

struct Scaling {
    double conductance_rating_WpK;
    double oil_side_share;  ///< of the resistance at the rating
    double air_mass_ratio;  ///< air mass flux / at the rating
    double oil_mass_ratio;
};

/// Conductance away from the rating: air side ~ G^0.6 (plain fin, j ~ Re^-0.4), oil side ~ m^(1/3)
/// (developing laminar flow); wall resistance neglected.
///
///     UA = UA_rating / ((1 - phi) G^-0.6 + phi m^(-1/3))
///
/// Range    oil_side_share 0 to 1, all else > 0.
/// Note     exponents from memory: a louvred fin has 0.5, an offset strip 0.46 to 0.6; +-10 %
///          within a factor of 2 of the rating, +-25 % beyond.
/// Source   kays-london, scaling
[[nodiscard]] double conductance_scaled_WpK(const Scaling& scaling);

struct CoreFlow {
    double drop_rating_Pa;
    double viscosity_ratio;  ///< dynamic, to that at the rating
    double flow_ratio;       ///< volume flow, to that at the rating
};

/// Pressure drop of a core's oil side in laminar flow: dp = dp_rating (mu V) / (mu_rating
/// V_rating).
///
/// Range    all >= 0.
/// Source   hagen-poiseuille, core-drop
[[nodiscard]] double core_drop_Pa(const CoreFlow& flow);

}  // namespace caseload::exchanger
