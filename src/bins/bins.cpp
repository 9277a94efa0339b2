// SPDX-License-Identifier: MIT
#include "bins/bins.hpp"

#include "bins/groups.hpp"
#include "bins/weights.hpp"

#include <algorithm>

namespace caseload::bins {
namespace {

// Judgement, of the leg's sums; with it the claims of tests/duty/bins_test.cpp are true.
constexpr double time_tolerance = 0.0001;
constexpr double way_tolerance = 0.001;

std::vector<WantedSum> wanted_sums(const Grouped& leg, const Measures& measures,
                                   const CellSums& whole) {
    const std::size_t bins = leg.groups.size();
    std::vector<WantedSum> sums(measures.count());
    std::vector<double> of_bin(measures.count());
    for (std::size_t k = 0; k < measures.count(); ++k)
        sums[k] = {std::vector<double>(bins), measures.kept()[k].tolerance};
    WantedSum time{std::vector<double>(bins), time_tolerance};
    WantedSum way{std::vector<double>(bins), way_tolerance};
    for (std::size_t i = 0; i < bins; ++i) {
        const Group& group = leg.groups[i];
        measures.values(group.sums.turns, group.torque_Nm, group.speed_rpm, of_bin.data());
        for (std::size_t k = 0; k < measures.count(); ++k) sums[k].of_bins[i] = of_bin[k];
        time.of_bins[i] = group.sums.time_s / whole.time_s;
        if (whole.way_m > 0) way.of_bins[i] = group.sums.way_m / whole.way_m;
    }
    std::vector<WantedSum> used{std::move(time)};
    if (whole.way_m > 0) used.push_back(std::move(way));
    for (std::size_t k = 0; k < measures.count(); ++k) {
        const double exact = leg.by_cells[k];
        // The side of a tooth that takes nearly nothing is no aim.
        const double scale = leg.by_cells[measures.kept()[k].scale];
        if (!(exact > 0) || exact < 0.01 * scale) continue;
        for (double& one : sums[k].of_bins) one /= exact;
        used.push_back(std::move(sums[k]));
    }
    return used;
}

}  // namespace

BinnedLeg bins_of(const std::vector<Cells::Taken>& cells, const Measures& measures) {
    BinnedLeg leg;
    Grouped found = grouped(cells, measures, most_bins);
    CellSums whole;
    for (const Group& group : found.groups) whole.add(group.sums);
    const std::vector<double> factors =
        time_factors(wanted_sums(found, measures, whole), found.groups.size());
    double time_s = 0;
    for (std::size_t i = 0; i < factors.size(); ++i)
        time_s += factors[i] * found.groups[i].sums.time_s;
    leg.by_cells = std::move(found.by_cells);
    leg.by_bins.assign(measures.count(), 0.0);
    std::vector<double> of_bin(measures.count());
    for (std::size_t i = 0; i < factors.size(); ++i) {
        const Group& group = found.groups[i];
        const double share = factors[i] * group.sums.time_s / time_s;
        // The reader refuses 0 r/min: a case that does not turn is written as 1 r/min.
        const Bin bin{share, group.torque_Nm + 0.0, std::max(1.0, group.speed_rpm),
                      std::max(0.0, group.sums.way_m / group.sums.time_s)};
        measures.values(share * whole.time_s * bin.speed_rpm / 60, bin.torque_Nm, bin.speed_rpm,
                        of_bin.data());
        for (std::size_t k = 0; k < of_bin.size(); ++k) leg.by_bins[k] += of_bin[k];
        leg.bins.push_back(bin);
    }
    std::sort(leg.bins.begin(), leg.bins.end(), [](const Bin& a, const Bin& b) {
        return a.torque_Nm != b.torque_Nm ? a.torque_Nm > b.torque_Nm : a.speed_rpm > b.speed_rpm;
    });
    return leg;
}

}  // namespace caseload::bins
