// SPDX-License-Identifier: MIT
// Tables of how fast the lives of bearings are used up.
#pragma once

#include "ask/fast_loaded.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <vector>

namespace caseload {

class FilmRates;

class LifeTables : public TablesPart {
public:
    /// Whose films they are; made at least as far.
    using Inputs = std::shared_ptr<const LoadedTables>;
    explicit LifeTables(Inputs loaded);

    /// One bin of one bearing: above an oil temperature the additives no longer help.
    struct Step {
        std::size_t bin;
        double film_degC;
        LoadedTable::Weights oil_degC{};  ///< by node
        LoadedTable more;                 ///< what the rate then rises by, over that of `ln_rate`
    };
    struct Leg {
        /// Of life share per hour, additives helping in every bin of `steps`; [class][bearing].
        std::array<std::vector<LoadedTable>, FastNodes::classes> ln_rate;
        std::array<std::vector<std::vector<Step>>, FastNodes::classes> steps;  ///< [class][bearing]
    };
    [[nodiscard]] const Leg& leg(std::size_t leg) const { return legs_[leg]; }
    [[nodiscard]] std::size_t legs() const { return legs_.size(); }
    [[nodiscard]] const Inputs& inputs() const { return loaded_; }

private:
    [[nodiscard]] std::size_t pieces() const override { return FastNodes::loads; }
    void make(std::size_t load) override;

    struct Place {
        std::size_t leg;
        std::size_t node;
        std::size_t at;
    };
    void find_steps();
    void place_steps(const Prepared& prepared, const Place& place);
    /// Of all bearings where their films, bin by bin, are so hot.
    void rates_at(const std::vector<BinLoads>& bins,
                  const std::vector<std::vector<FilmRates>>& rates, const double* films_degC,
                  const Place& place);

    Inputs loaded_;
    std::size_t bearings_;
    std::vector<Leg> legs_;
};

}  // namespace caseload
