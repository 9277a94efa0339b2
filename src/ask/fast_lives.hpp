// SPDX-License-Identifier: MIT
// Tables of how fast the lives of bearings are used up: made up to the temperature lives are wanted
// at, and further where a draw gets hotter.
#pragma once

#include "ask/fast_loaded.hpp"

#include <array>
#include <atomic>
#include <cstddef>
#include <memory>
#include <mutex>
#include <vector>

namespace caseload {

/// Cases and threads may share them: what is made never changes, and what is made later has the
/// bits it would have had at once.
class LifeTables {
public:
    /// Whose films they are; made at least as far.
    using Inputs = std::shared_ptr<const LoadedTables>;
    explicit LifeTables(Inputs loaded);

    /// One bin of one bearing: above this temperature the additives no longer help. Temperatures
    /// are those of a bearing's film without its loss.
    struct Step {
        std::size_t bin;
        double film_degC;
        LoadedTable::Weights unheated_degC{};  ///< by node
        LoadedTable more;  ///< what the rate then rises by, over that of `ln_rate`
    };
    struct Leg {
        /// Of life share per hour, additives helping in every bin of `steps`; [class][bearing].
        std::array<std::vector<LoadedTable>, FastNodes::classes> ln_rate;
        std::array<std::vector<std::vector<Step>>, FastNodes::classes> steps;  ///< [class][bearing]
    };
    /// At least the first points of the coarse grid are made; `leg` is read no further.
    void make_to(std::size_t points, const ForEach& for_each = one_by_one);
    [[nodiscard]] const Leg& leg(std::size_t leg) const { return legs_[leg]; }
    [[nodiscard]] std::size_t legs() const { return legs_.size(); }
    [[nodiscard]] const Inputs& inputs() const { return loaded_; }

private:
    struct Points {
        std::size_t from;
        std::size_t to;
    };
    /// May be called again where it threw.
    void make(std::size_t piece, const Points& points);

    struct Place {
        std::size_t leg;
        std::size_t node;
        std::size_t at;
    };
    void find_steps();
    void place_steps(const Prepared& prepared, const Place& place, double ln_friction);
    class RatesByFilm;
    /// Of all bearings where their films, bin by bin, are so hot.
    void rates_at(const std::vector<BinLoads>& bins, std::vector<std::vector<RatesByFilm>>& rates,
                  const double* films_degC, const Place& place);

    Inputs loaded_;
    std::size_t bearings_;
    std::vector<Leg> legs_;
    std::mutex making_;
    std::atomic<std::size_t> made_{0};
};

}  // namespace caseload
