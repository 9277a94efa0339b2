// SPDX-License-Identifier: MIT
// Tables of the heat that goes through the cooler: by a kelvin between oil and air, over the oil's
// flow through the core. What throttles that flow, thermostat and bypass, is calculated in a draw.
#pragma once

#include "ask/fast_nodes.hpp"
#include "ask/fast_part.hpp"
#include "heat/at_oil.hpp"
#include "heat/basis.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace caseload {

class CoolerTables : public TablesPart {
public:
    static constexpr std::size_t flows = 8;
    static constexpr std::size_t temps = 3;
    using Flows = FactorNodes<flows>;
    using Temps = FactorNodes<temps>;

    /// Air and oil at the core, per leg and by whether the fan runs; of no leg where no cooler is
    /// fitted.
    using Bins = std::vector<std::array<std::vector<CoreBin>, 2>>;
    struct Inputs {
        Grid grid;
        FastNodes nodes;
        Basis basis;
        std::array<Bins, FastNodes::face_speeds> bins;
        std::vector<bool> in_run;  ///< per leg

        [[nodiscard]] bool operator==(const Inputs& other) const {
            return grid == other.grid && nodes.face == other.nodes.face &&
                   nodes.conductance == other.nodes.conductance && basis == other.basis &&
                   bins == other.bins && in_run == other.in_run;
        }
    };
    static Inputs inputs_of(const Grid& grid, const FastNodes& nodes, const Prepared& prepared,
                            std::vector<bool> in_run);
    explicit CoolerTables(Inputs inputs);

    struct Leg {
        bool cools = false;
        double mean_Lpmin = 0;  ///< of the pump
        double fastest_Lpmin = 0;
        std::vector<CoreBin> bins;  ///< at any node of the air
        /// Share of the pump's flow that goes through the core, over the heat by a kelvin, K/W; by
        /// flow, those of one oil temperature after the other.
        CoolerTable share_by_heat;
    };
    /// Pump running, by whether the fan runs.
    [[nodiscard]] const std::array<Leg, 2>& leg(std::size_t leg) const { return legs_[leg]; }
    [[nodiscard]] std::size_t legs() const { return legs_.size(); }
    [[nodiscard]] const Inputs& inputs() const { return inputs_; }
    /// Of the logarithm of the share of the pump's flow.
    [[nodiscard]] const Flows& flow_nodes() const { return flows_; }
    [[nodiscard]] const Temps& temp_nodes() const { return temps_; }
    /// What the bypass leaves, on the points of the grid.
    [[nodiscard]] const Row& most_Lpmin() const { return most_Lpmin_; }
    [[nodiscard]] double air_degC() const { return inputs_.basis.prepared.cooler_air_degC; }

private:
    [[nodiscard]] std::size_t pieces() const override {
        return legs_.empty() ? 0 : FastNodes::face_speeds;
    }
    void make(std::size_t face) override;

    Inputs inputs_;
    Flows flows_;
    Temps temps_;
    Row most_Lpmin_;
    std::vector<std::array<Leg, 2>> legs_;
};

/// The cooler's heat on one leg of one draw, over oil temperature.
class DrawnCooler {
public:
    DrawnCooler() = default;
    DrawnCooler(const CoolerTables& tables, const CoolerTables::Leg& leg,
                const CoolerTable::Weights& weights, const Factors& factors, double pumped,
                FourStore& store);
    [[nodiscard]] bool empty() const { return tables_ == nullptr; }
    /// At a point of the fine grid.
    [[nodiscard]] double at_W(std::size_t point);

private:
    [[nodiscard]] double core_share(std::size_t point, double oil_degC) const;

    static constexpr std::size_t blocks = CoolerTables::flows / at_once;
    const CoolerTables* tables_ = nullptr;
    const CoolerTables::Leg* leg_ = nullptr;
    double air_degC_ = 0;
    double pump_flow_ = 1;
    std::optional<double> opens_degC_;
    Four* share_by_heat_ = nullptr;
    double last_share_ = -1;
    std::array<Four, blocks> flow_weights_{};
};

}  // namespace caseload
