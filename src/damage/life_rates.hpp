// SPDX-License-Identifier: MIT
// How fast an event uses up the lives of a case's bearings.
#pragma once

#include "heat/basis.hpp"

#include <optional>
#include <vector>

namespace caseload {

/// Rate of each bearing in each leg of an event over the temperature of its film without its loss.
class LifeRates {
public:
    /// With `by_run`, also the life each run of the event uses: [bearing][run].
    LifeRates(const Prepared& prepared, const EventHeat& heat,
              std::vector<std::vector<double>>* by_run = nullptr);

    /// Life used over the event, per bearing.
    [[nodiscard]] const std::vector<double>& life_shares() const { return life_shares_; }
    [[nodiscard]] double largest() const;

private:
    /// Curves are smooth: where additives stop helping in a bin, the rate steps from one to
    /// another.
    struct Rate {
        Basis from;
        std::vector<std::optional<double>> ends;  ///< degC where that is, per bin
        Curve helped_per_h;                       ///< additives help in all bins with an end
        struct Step {
            double unheated_degC;
            Curve more_per_h;  ///< what the rate rises by
        };
        std::vector<Step> steps;

        [[nodiscard]] double per_h(double unheated_degC) const;
        void make(const std::vector<double>& unheated_degC, const Rate* like);
    };
    class Asked;
    friend double largest_life_share(const Prepared& prepared, const EventHeat& heat,
                                     const LifeRates& like);
    /// Null where there is none.
    [[nodiscard]] const Rate* rate(std::size_t bearing, std::size_t leg) const;

    std::vector<std::vector<Rate>> rates_;  ///< [bearing][leg]; made up in a leg not driven
    std::vector<double> life_shares_;
};

/// LifeRates(prepared, heat).largest(), sooner: where the other has the same bearing in the same
/// leg at the same temperature, that rate is taken over, and a bearing that stays far behind
/// another is not followed.
double largest_life_share(const Prepared& prepared, const EventHeat& heat, const LifeRates& like);

}  // namespace caseload
