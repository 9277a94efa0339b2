// SPDX-License-Identifier: MIT
// Tables of the heat that goes through the cooler.
#pragma once

#include "ask/fast_nodes.hpp"
#include "ask/fast_part.hpp"
#include "heat/at_oil.hpp"
#include "heat/basis.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace caseload {

class CoolerTables : public TablesPart {
public:
    struct Inputs {
        Grid grid;
        std::array<Basis, FastNodes::airs> in_air;
        /// Air and oil at the core, by node of the face speed, leg and fan running; of no leg where
        /// no cooler is fitted.
        std::array<std::vector<std::array<std::vector<CoreBin>, 2>>, FastNodes::face_speeds> bins;
        std::vector<bool> in_run;  ///< per leg

        bool operator==(const Inputs&) const = default;
    };
    /// `in_air`: the case prepared for each node of the air.
    static Inputs inputs_of(const Grid& grid, const FastNodes& nodes,
                            const std::array<const Prepared*, FastNodes::airs>& in_air,
                            std::vector<bool> in_run);
    explicit CoolerTables(Inputs inputs);

    /// Over oil, pump running, by whether the fan runs.
    [[nodiscard]] const std::array<CoolerTable, 2>& leg(std::size_t leg) const {
        return legs_[leg];
    }
    [[nodiscard]] std::size_t legs() const { return legs_.size(); }
    [[nodiscard]] const Inputs& inputs() const { return inputs_; }

private:
    [[nodiscard]] std::size_t pieces() const override {
        return legs_.empty() ? 0 : FastNodes::airs;
    }
    void make(std::size_t air) override;

    Inputs inputs_;
    std::vector<std::array<CoolerTable, 2>> legs_;
};

}  // namespace caseload
