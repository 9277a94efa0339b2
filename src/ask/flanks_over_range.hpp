// SPDX-License-Identifier: MIT
// Scuffing and film of the flanks over the draws: a table of the check itself over oil temperature
// and load, leg by leg, made only where a draw may come near a limit.
#pragma once

#include "caseload/ask/band.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <vector>

namespace caseload {

class FlanksOverRange {
public:
    FlanksOverRange(const Setup& setup, const CoolerSide& fitted,
                    const std::vector<DrawResult>& draws)
        : setup_(setup), fitted_(fitted), draws_(draws) {}

    /// How much hotter and how much more loaded than the likely case a draw gets at most.
    struct Most {
        double hotter_K;
        double load;
    };
    /// False: no draw can come below a limit of scuffing.
    [[nodiscard]] bool may_scuff(const Most& most) const;
    /// False: no draw can come below that film ratio.
    [[nodiscard]] bool may_be_thin(const Most& most, double film_limit) const;

    /// Of each draw. The steel is taken as much hotter than the oil as in the likely case.
    [[nodiscard]] const std::vector<double>& S_B();
    [[nodiscard]] const std::vector<double>& film_ratio();

    /// The case with the uncertain inputs at their middle.
    [[nodiscard]] const Prepared& prepared();

private:
    static constexpr std::size_t temps = 5;
    static constexpr std::size_t loads = 5;
    /// Of one leg, logarithms: straighter than the values.
    struct Table {
        double first_degC = 0;
        double step_K = 0;
        double first_ln_load = 0;
        double step_ln_load = 0;
        std::array<std::array<double, loads>, temps> ln_S_B{};
        std::array<std::array<double, loads>, temps> ln_film{};
    };
    void make();
    [[nodiscard]] Table table_of(std::size_t leg);

    const Setup& setup_;
    const CoolerSide& fitted_;
    const std::vector<DrawResult>& draws_;
    std::unique_ptr<Prepared> prepared_;
    std::vector<double> S_B_;
    std::vector<double> film_ratio_;
};

}  // namespace caseload
