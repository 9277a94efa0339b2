// SPDX-License-Identifier: MIT
// Tables of what depends on load and bearing friction: losses of bearings and their films.
#pragma once

#include "ask/fast_nodes.hpp"
#include "ask/fast_part.hpp"
#include "heat/basis.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace caseload {

class LoadedTables : public TablesPart {
public:
    struct Inputs {
        FastGrids grids;
        bool lives = false;        ///< are asked for too
        std::vector<bool> loaded;  ///< per leg: in the run and no stop
        FastNodes nodes;
        Basis nominal;
        std::array<Basis, FastNodes::loads> at_load;

        bool operator==(const Inputs& other) const;
    };
    explicit LoadedTables(Inputs inputs);

    /// Losses of all bearings of a leg, on the coarse grid.
    [[nodiscard]] const LoadedTable& leg_W(std::size_t leg) const { return legs_W_[leg]; }
    [[nodiscard]] std::size_t legs() const { return legs_W_.size(); }
    [[nodiscard]] const Inputs& inputs() const { return inputs_; }

    struct Place {
        std::size_t load;
        std::size_t leg;
        std::size_t friction;
        std::size_t damage_point;
    };
    /// Of the bearings of each bin in turn; where lives are asked for.
    [[nodiscard]] const double* films_degC(const Place& place) const;

private:
    [[nodiscard]] std::size_t pieces() const override { return FastNodes::loads; }
    void make(std::size_t load) override;

    /// Of each leg: points of the damage grid in turn, there bin by bin.
    using Films = std::vector<std::array<Row, FastNodes::frictions>>;
    Inputs inputs_;
    std::vector<LoadedTable> legs_W_;
    std::array<Films, FastNodes::loads> films_degC_;
};

/// What the tables of loads and lives are calculated from, of a case prepared with some load.
Basis loaded_basis(const Prepared& prepared);

}  // namespace caseload
