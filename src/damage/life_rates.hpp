// SPDX-License-Identifier: MIT
// How fast an event uses up the lives of a case's bearings.
#pragma once

#include "caseload/damage.hpp"
#include "heat/basis.hpp"

#include <optional>
#include <vector>

namespace caseload {

/// Rate of each bearing in each leg of an event over the oil's temperature there.
class LifeRates {
public:
    LifeRates(const Prepared& prepared, const EventHeat& heat);
    /// The same; where the other has the same bearing in the same leg at the same temperature, that
    /// rate is taken over.
    LifeRates(const Prepared& prepared, const EventHeat& heat, const LifeRates& like);

    /// Life used over the event, per bearing.
    [[nodiscard]] const std::vector<double>& life_shares() const { return life_shares_; }

private:
    /// Curves are smooth: where additives stop helping in a bin, the rate steps from one to
    /// another.
    struct Rate {
        Basis from;
        std::vector<std::optional<double>> ends;  ///< degC of oil where that is, per bin
        Curve helped_per_h;                       ///< additives help in all bins with an end
        struct Step {
            double oil_degC;
            Curve more_per_h;  ///< what the rate rises by
        };
        std::vector<Step> steps;

        [[nodiscard]] double per_h(double oil_degC) const;
        void make(const std::vector<double>& oil_degC, const Rate* like);
    };
    void make(const Prepared& prepared, const EventHeat& heat, const LifeRates* like);

    std::vector<std::vector<Rate>> rates_;  ///< [leg][bearing]; none in a stop
    std::vector<double> life_shares_;
};

}  // namespace caseload
