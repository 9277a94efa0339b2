// SPDX-License-Identifier: MIT
// Whether low to high holds what it says: random cases of ten entries, and for each truths in which
// every assumed entry of the range is written out as entered and everything else is calculated by
// the exact chain.
#pragma once

#include "caseload/ask/band.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/assess.hpp"
#include "caseload/heat_curves.hpp"
#include "caseload/input.hpp"
#include "random_setups.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

namespace caseload::coverage {

using random_setups::Dice;

/// As `caseload new` writes them; half of the cases have a core beside, half of these a thermostat.
inline std::string ten_entries(Dice& dice) {
    const std::vector<std::string> grades{"75W-90 synthetic", "75W-110 synthetic",
                                          "85W-140 mineral"};
    const int input_teeth = static_cast<int>(dice.from(30, 36.99));
    std::string text = fmt::format(
        "caseload = 1\nbase = \"pattern:two-gear-185mm\"\ngears.fitted = [{}, {}]\noil.grade = "
        "\"{}\"\nhousing.place = {}\nvehicle.mass = \"{:.0f} kg\"\nvehicle.tyre = \"{:.0f} in\"\n"
        "vehicle.axle_ratio = {:.2f}\nvehicle.engine_power = \"{:.0f} hp\"\nevent.ambient = "
        "\"{:.0f} degC\"\nevent.course = {}\nevent.duration = \"{:.1f} h\"\n",
        input_teeth, 74 - input_teeth, dice.one_of(grades),
        random_setups::word(dice, {"open", "behind-skid-plate", "tunnel"}), dice.from(1500, 2700),
        dice.from(33, 40), dice.from(4.1, 6), dice.from(350, 900), dice.from(15, 42),
        random_setups::word(dice, {"hard-road", "graded", "rough-desert", "sand", "forest"}),
        dice.from(2, 8));
    if (!dice.chance(0.5)) return text;
    text += fmt::format("cooler.core = \"{:.0f}x{:.0f}x45 mm\"\n", dice.from(150, 300),
                        dice.from(100, 200));
    if (dice.chance(0.5))
        text += fmt::format("cooler.thermostat_opens = \"{:.0f} degC\"\n", dice.from(70, 95));
    return text;
}

/// Written down a second time: where a share of a triangular distribution lies below.
inline double triangle_at(double low, double likely, double high, double share) {
    const double rising = (likely - low) / (high - low);
    return share < rising ? low + (high - low) * std::sqrt(share * rising)
                          : high - (high - low) * std::sqrt((1 - share) * (1 - rising));
}

inline double ln_triangle_at(double low, double likely, double high, double share) {
    return std::exp(triangle_at(std::log(low), std::log(likely), std::log(high), share));
}

/// Every assumed entry of the range as an owner who knows it would enter it.
inline std::vector<Change> entered(Dice& dice, const Setup& setup) {
    std::vector<Change> all;
    const auto add = [&](const std::string& key, double value, const std::string& unit) {
        all.push_back({key, unit.empty() ? fmt::format("{:.9g}", value)
                                         : fmt::format("\"{:.9g} {}\"", value, unit)});
    };
    const double drain = dice.from(0, 1);
    add("lubrication.mist_oil_fraction", ln_triangle_at(0.001, 0.004, 0.02, drain), "");
    add("lubrication.oil_rehit", ln_triangle_at(1.2, 1.75, 3, drain), "");
    add("housing.exhaust_heat", triangle_at(0, 60, 500, dice.from(0, 1)), "W");
    add("housing.neighbour_conductance", triangle_at(0, 12, 25, dice.from(0, 1)), "W/K");
    add("housing.neighbour_temperature",
        setup.event.ambient_degC + triangle_at(45, 65, 90, dice.from(0, 1)), "degC");
    add("housing.dirt_thickness", ln_triangle_at(0.3, 1, 3, dice.from(0, 1)), "mm");
    const LegInput& leg = setup.event.legs.front();
    add("event.pace",
        triangle_at(leg.pace_ends->low_mps, leg.course_pace_mps, leg.pace_ends->high_mps,
                    dice.from(0, 1)),
        "m/s");
    return all;
}

struct Covered {
    int truths = 0;
    int held = 0;
    int below = 0;
    [[nodiscard]] double share() const { return static_cast<double>(held) / truths; }
};

/// Truths of one case against its low to high. The day's air and what nobody can look up are drawn
/// by the table's laws; a truth in which a neighbour is warmer than the ambient on that day keeps
/// its own temperature.
inline Covered covered(const std::string& text, int truths, unsigned seed,
                       const BandOptions& options = {}) {
    const Document document(text, "case.toml", {});
    const Setup setup = document.complete().setup;
    const Assessment likely = assess(setup);
    const Percentiles told = line_band(setup, likely, options).fitted.peak_oil_degC;
    Dice dice(seed);
    Covered out;
    while (out.truths < truths) {
        const std::vector<Change> changes = entered(dice, setup);
        Setup truth = document.complete(changes).setup;
        std::array<double, band_factors> point{};
        for (double& share : point) share = std::clamp(dice.from(0, 1), 1e-9, 1 - 1e-9);
        truth.factors = drawn_factors(point, ranges_of(truth));
        // Over the ambient of the day, as the range has it.
        *truth.housing.neighbour_temp_degC += truth.factors.air_K;
        const double peak_degC =
            event_heat(prepare(truth), {.cooler = truth.cooler.fit, .pump = true, .fan = true})
                .peak_oil_degC;
        ++out.truths;
        out.held += peak_degC >= told.p10 && peak_degC <= told.p90 ? 1 : 0;
        out.below += peak_degC < told.p10 ? 1 : 0;
    }
    return out;
}

}  // namespace caseload::coverage
