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
        /// With load and friction at 1: likely, where anything else of these is varied; slowest and
        /// fastest pace; least and largest play.
        struct Other {
            std::size_t node;  ///< in this order
            Basis basis;

            bool operator==(const Other&) const = default;
        };
        std::vector<Other> others;

        bool operator==(const Inputs& other) const;
        /// A load with every friction, or one of the others.
        [[nodiscard]] std::size_t pieces() const { return FastNodes::loads + others.size(); }
        [[nodiscard]] const Basis& of_piece(std::size_t piece) const {
            if (piece < FastNodes::loads) return at_load[piece];
            return others[piece - FastNodes::loads].basis;
        }
        /// Logarithms of the friction of a piece, and its node with each.
        [[nodiscard]] std::vector<double> frictions(std::size_t piece) const;
        [[nodiscard]] std::size_t node(std::size_t piece, std::size_t friction) const {
            return piece < FastNodes::loads ? piece * FastNodes::frictions + friction
                                            : FastNodes::loads * FastNodes::frictions +
                                                  others[piece - FastNodes::loads].node;
        }
    };
    explicit LoadedTables(Inputs inputs);

    /// Logarithm of each bearing's loss in a leg over the factor on its friction, on the coarse
    /// grid over its film's temperature without that loss.
    [[nodiscard]] const std::vector<LoadedTable>& leg_ln_W(std::size_t leg) const {
        return legs_ln_W_[leg];
    }
    [[nodiscard]] std::size_t legs() const { return legs_ln_W_.size(); }
    [[nodiscard]] const Inputs& inputs() const { return inputs_; }

    struct Place {
        std::size_t piece;
        std::size_t leg;
        std::size_t friction;
        std::size_t damage_point;
    };
    /// Of the bearings of each bin in turn; where lives are asked for.
    [[nodiscard]] const double* films_degC(const Place& place) const;

private:
    [[nodiscard]] std::size_t pieces() const override { return inputs_.pieces(); }
    void make(std::size_t piece) override;

    /// Of each leg: points of the coarse grid in turn, there bin by bin.
    using Films = std::vector<std::array<Row, FastNodes::frictions>>;
    Inputs inputs_;
    std::vector<std::vector<LoadedTable>> legs_ln_W_;  ///< [leg][bearing]
    std::vector<Films> films_degC_;                    ///< by piece
};

/// What the tables of loads and lives are calculated from, of a case prepared with some load.
Basis loaded_basis(const Prepared& prepared);

}  // namespace caseload
