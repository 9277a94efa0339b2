// SPDX-License-Identifier: MIT
// Bins of a log against its samples one by one: bearings, teeth and heat by the chain itself, each
// sample a bin. The logs are drawn; no seed was chosen by its result.
#include "caseload/damage.hpp"
#include "caseload/duty/event.hpp"
#include "caseload/input.hpp"
#include "caseload/losses.hpp"
#include "caseload/teeth.hpp"
#include "duty/log_text.hpp"
#include "input/shortest.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace caseload::bins_tests {

using namespace caseload::duty;
using duty_test::read;

namespace {

enum class Kind { spikes, unrelated, one_power };
constexpr std::size_t sample_count = 3000;

/// 90 % of the tooth damage in 0.2 % of the time; speed and torque that do not know each other; an
/// engine at full power, torque over speed.
std::vector<Bin> drawn(Kind kind, unsigned seed) {
    std::mt19937 random(seed);
    const auto part = [&] { return static_cast<double>(random()) / 4294967296.0; };
    std::vector<Bin> samples;
    for (std::size_t i = 0; i < sample_count; ++i) {
        const double speed_rpm = 1200 + 4500 * part();
        double torque_Nm = 200 + 2600 * part();
        if (kind == Kind::spikes) torque_Nm = i % 500 == 7 ? 3600 : 400 + 500 * part();
        if (kind == Kind::one_power)
            torque_Nm = std::min(3800.0, 900e3 * part() * 30 / (3.14159265 * speed_rpm)) -
                        (part() < 0.2 ? 400 : 0);
        samples.push_back({1.0 / sample_count, torque_Nm, speed_rpm, speed_rpm / 110});
    }
    return samples;
}

std::string text_of(const std::vector<Bin>& samples) {
    std::string text = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    for (std::size_t i = 0; i < samples.size(); ++i)
        text += fmt::format("{:.1f},{:.17g},{:.17g},{:.17g}\n", static_cast<double>(i) / 10,
                            samples[i].speed_rpm, samples[i].torque_Nm, samples[i].road_speed_mps);
    return text;
}

struct Direct {
    std::vector<double> lives;
    double root = 0;
    double flank = 0;
    double heat_W = 0;  ///< mean, with oil at 90 degC
    double peak_oil_degC = 0;
};

Direct direct(Setup setup, std::vector<Bin> bins) {
    LegInput leg;
    leg.name = "all";
    leg.duration_s = sample_count / 10.0;
    leg.bins = std::move(bins);
    leg.overload = 1.25;
    setup.event.legs = {leg};
    setup.event.run = {0};
    const Prepared prepared = prepare(setup);
    const EventHeat heat = event_heat(prepared, {});
    Direct result;
    for (const BearingDamage& one : event_damage(prepared, heat).bearings)
        result.lives.push_back(one.life_share);
    for (const GearDamage& gear : gear_damage(setup, prepared.loads)) {
        result.root = std::max(result.root, worst(gear).root_share);
        result.flank = std::max(result.flank, worst(gear).flank_share);
    }
    result.heat_W = total_W(
        losses_at(setup, prepared.loads, prepared.oil, prepared.losses[0], {.temp_degC = 90})
            .ledger);
    result.peak_oil_degC = heat.peak_oil_degC;
    return result;
}

}  // namespace

TEST_CASE(
    "duty: bins against the samples one by one, bearings and flanks to 1 %, roots to 1.5 %, heat "
    "to 0.5 %") {
    DutyOptions options;
    // Narrow enough that every log uses roots: their load factors are lower the heavier the load.
    options.setup =
        read_setup(input_test::shortest() + "gears.face_width = \"36 mm\"\n", "setup.toml", {})
            .setup;
    const Setup& setup = *options.setup;
    for (const Kind kind : {Kind::spikes, Kind::unrelated, Kind::one_power})
        for (const unsigned seed : {20261126U, 4021U, 977U}) {
            CAPTURE(static_cast<int>(kind));
            CAPTURE(seed);
            const std::vector<Bin> samples = drawn(kind, seed);
            const DutyAnswer answer = read(text_of(samples), options);
            REQUIRE(answer.legs.size() == 1);
            CHECK(answer.legs.front().bins.size() <= 48);
            const Direct by_bins = direct(setup, answer.legs.front().bins);
            const Direct by_samples = direct(setup, samples);
            REQUIRE(by_samples.root > 0);
            REQUIRE(by_samples.flank > 0);
            for (std::size_t i = 0; i < by_bins.lives.size(); ++i)
                CHECK(by_bins.lives[i] == rel(by_samples.lives[i], 0.01));
            CHECK(by_bins.root == rel(by_samples.root, 0.015));
            CHECK(by_bins.flank == rel(by_samples.flank, 0.01));
            CHECK(by_bins.heat_W == rel(by_samples.heat_W, 0.005));
            CHECK(by_bins.peak_oil_degC == rel(by_samples.peak_oil_degC, 0.005));
            // The figures the event states of itself.
            for (const Agreement& one : answer.agreement) {
                CAPTURE(one.words);
                CHECK(std::fabs(one.off_share) < 0.01);
            }
        }
}

}  // namespace caseload::bins_tests
