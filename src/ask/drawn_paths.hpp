// SPDX-License-Identifier: MIT
// Heat paths of the bearings' films with another share of heat through seats of unknown fit.
#pragma once

#include "caseload/losses.hpp"

#include <cstddef>
#include <vector>

namespace caseload {

/// The paths of a case at any `Factors::seat_heat`: it divides one resistance of a path in series.
class DrawnPaths {
public:
    DrawnPaths() = default;
    DrawnPaths(const Setup& setup, const Loads& loads, const Oil& oil)
        : at_one_(paths_at(1, setup, loads, oil)) {
        const std::vector<BearingPaths> at_two = paths_at(2, setup, loads, oil);
        seat_KpW_.reserve(at_one_.size());
        for (std::size_t b = 0; b < at_one_.size(); ++b)
            seat_KpW_.push_back(2 * (1 / at_one_[b].housing_WpK - 1 / at_two[b].housing_WpK));
    }
    [[nodiscard]] const std::vector<BearingPaths>& at_one() const { return at_one_; }
    [[nodiscard]] std::vector<BearingPaths> at(double seat_heat) const {
        std::vector<BearingPaths> paths;
        paths.reserve(at_one_.size());
        for (std::size_t b = 0; b < at_one_.size(); ++b) paths.push_back(at(b, seat_heat));
        return paths;
    }
    [[nodiscard]] BearingPaths at(std::size_t bearing, double seat_heat) const {
        BearingPaths paths = at_one_[bearing];
        if (seat_heat != 1)
            paths.housing_WpK =
                1 / (1 / paths.housing_WpK + seat_KpW_[bearing] * (1 / seat_heat - 1));
        return paths;
    }

private:
    static std::vector<BearingPaths> paths_at(double seat_heat, Setup setup, const Loads& loads,
                                              const Oil& oil) {
        setup.factors.seat_heat = seat_heat;
        return bearing_paths(setup, loads, oil);
    }

    std::vector<BearingPaths> at_one_;
    std::vector<double> seat_KpW_;  ///< of a seat at a factor of 1; 0: its fit is known
};

}  // namespace caseload
