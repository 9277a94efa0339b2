// SPDX-License-Identifier: MIT
// Entries whose smallest change moved the oil by kelvins: a step of 0.1 % moves it by less than
// 0.2 K on every one of 50 random setups.
#include "caseload/ask/band.hpp"
#include "caseload/formulas/churning.hpp"
#include "caseload/units.hpp"
#include "random_setups.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace caseload::jumps_tests {

using namespace caseload::random_setups;

namespace {

constexpr double step = 1e-3;
constexpr double largest_move_K = 0.2;

/// Hottest oil of the event; what is above the ceiling is not printed and counts as there.
double oil_degC(const Setup& setup) {
    return std::min(event_heat(prepare(setup), {}).peak_oil_degC, oil_ceiling_degC);
}

/// Moves an entry by 0.1 % to both sides of a place; how many setups stayed below the ceiling.
int moves_little(const Setup& setup, double at, const std::function<void(Setup&, double)>& enter) {
    const auto degC = [&](double value) {
        Setup moved = setup;
        enter(moved, value);
        return oil_degC(moved);
    };
    const double here_degC = degC(at);
    CAPTURE(at);
    CHECK(std::fabs(degC(at * (1 - step)) - here_degC) < largest_move_K);
    CHECK(std::fabs(degC(at * (1 + step)) - here_degC) < largest_move_K);
    return here_degC < oil_ceiling_degC ? 1 : 0;
}

}  // namespace

TEST_CASE("jumps: the settled oil has no step where a gear begins to dip") {
    int told = 0;
    for (Setup setup : some(101, 50)) {
        setup.lubrication.method = Method::dip;
        const Train train = place_train(setup);
        // Depth of the lowest tip circle at which the first pitch circle meets the oil.
        const std::vector<double> at_zero_mm = pitch_depths_mm(train, 0);
        const double meets_mm = -*std::max_element(at_zero_mm.begin(), at_zero_mm.end());
        told += moves_little(setup, meets_mm,
                             [](Setup& s, double depth_mm) { s.lubrication.depth_mm = depth_mm; });
    }
    CHECK(told > 20);
}

TEST_CASE("jumps: the settled oil has no step between spur teeth and the smallest helix") {
    int told = 0;
    for (Setup setup : some(102, 50)) {
        setup.lubrication.method = Method::scavenged;
        setup.gears.face_width_mm = 85;
        const double spur_degC = oil_degC(setup);
        setup.gears.hand_on_input = Hand::right;
        setup.gears.helix_angle_deg = 0.01;
        CHECK(std::fabs(oil_degC(setup) - spur_degC) < largest_move_K);
        // And where the teeth overlap whole.
        const double overlaps_deg =
            deg_from_rad(std::asin(pi * setup.gears.module_mm / setup.gears.face_width_mm));
        try {  // not every sum of teeth meshes at that helix
            setup.gears.helix_angle_deg = overlaps_deg * (1 + step);
            static_cast<void>(prepare(setup));
        } catch (const Error&) {
            continue;
        }
        told += moves_little(setup, overlaps_deg,
                             [](Setup& s, double deg) { s.gears.helix_angle_deg = deg; });
    }
    CHECK(told > 10);
}

TEST_CASE("jumps: the settled oil has no step over face width per module") {
    int told = 0;
    for (Setup setup : some(103, 50)) {
        setup.lubrication.method = Method::scavenged;
        for (const double modules : {5, 6, 7})
            told += moves_little(setup, modules * setup.gears.module_mm,
                                 [](Setup& s, double mm) { s.gears.face_width_mm = mm; });
    }
    CHECK(told > 60);
}

TEST_CASE("jumps: the range of churning has no step as a gear passes 25 m/s") {
    int told = 0;
    std::array<double, band_factors> low{};
    low.fill(0.5);
    low[4] = 0.05;
    std::array<double, band_factors> high = low;
    high[4] = 0.95;
    for (Setup setup : some(104, 50)) {
        setup.lubrication.method = Method::dip;
        if (!setup.lubrication.depth_mm) setup.lubrication.depth_mm = 30;
        const Loads loads = calculate_loads(setup);
        // The pitch-line speed of the longest bin of the first drive leg.
        const LegLoads* leg = nullptr;
        for (const LegLoads& one : loads.legs)
            if (leg == nullptr && !one.bins.empty()) leg = &one;
        REQUIRE(leg != nullptr);
        const auto longest = std::max_element(
            leg->bins.begin(), leg->bins.end(),
            [](const auto& a, const auto& b) { return a.bin.share < b.bin.share; });
        const double v_mps = radps_from_rpm(longest->bin.speed_rpm) *
                             m_from_mm(loads.train.shafts.front().pitch_diameter_mm) / 2;
        const double scale = changenet::tested_speed_mps / v_mps;
        for (const auto& point : {low, high}) {
            setup.factors = drawn_factors(point, 0);
            const auto degC = [&](double by) {
                Setup moved = setup;
                for (std::size_t l = 0; l < loads.legs.size(); ++l) {
                    moved.event.legs[l].course_lines.clear();
                    moved.event.legs[l].bins.clear();
                    for (const BinLoads& bin : loads.legs[l].bins) {
                        moved.event.legs[l].bins.push_back(bin.bin);
                        moved.event.legs[l].bins.back().speed_rpm *= scale * by;
                    }
                }
                return oil_degC(moved);
            };
            // What a faster gear heats more anyway is no jump: the step above against the step
            // below.
            const double here_degC = degC(1);
            const double above_K = degC(1 + step) - here_degC;
            const double below_K = here_degC - degC(1 - step);
            CHECK(std::fabs(above_K - below_K) < largest_move_K);
            if (here_degC < oil_ceiling_degC) ++told;
        }
    }
    CHECK(told > 20);
}

}  // namespace caseload::jumps_tests
