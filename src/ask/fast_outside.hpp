// SPDX-License-Identifier: MIT
// Tables of the heat a case gives to the air around it.
#pragma once

#include "ask/fast_nodes.hpp"
#include "ask/fast_part.hpp"
#include "heat/basis.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace caseload {

class OutsideTables : public TablesPart {
public:
    struct Leg {
        bool in_run = false;
        bool stop = false;
        /// Weights of the heat at `air_mps`, by node of the air's share: mean of all bins.
        std::array<std::array<double, air_speeds>, FastNodes::air_shares> by_air_speed{};

        bool operator==(const Leg&) const = default;
    };
    struct Inputs {
        Grid grid;
        std::array<Basis, FastNodes::airs> in_air;
        std::array<double, air_speeds> air_mps{};  ///< 0: no drive leg
        std::vector<Leg> legs;

        bool operator==(const Inputs&) const = default;
    };
    /// `in_air`: the case prepared for each node of the air.
    static Inputs inputs_of(const Grid& grid, const FastNodes& nodes,
                            const std::array<const Prepared*, FastNodes::airs>& in_air,
                            std::vector<Leg> legs);
    explicit OutsideTables(Inputs inputs);

    /// Over housing less air.
    [[nodiscard]] const OutsideTable& leg(std::size_t leg) const { return legs_[leg]; }
    [[nodiscard]] std::size_t legs() const { return legs_.size(); }
    [[nodiscard]] const Inputs& inputs() const { return inputs_; }

private:
    [[nodiscard]] std::size_t pieces() const override { return FastNodes::airs; }
    void make(std::size_t air) override;

    Inputs inputs_;
    std::vector<OutsideTable> legs_;
};

}  // namespace caseload
