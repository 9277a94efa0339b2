// SPDX-License-Identifier: MIT
// Setups drawn at random from the whole range of their fields, as text, and read. Seeds are fixed.
#pragma once

#include "caseload/error.hpp"
#include "caseload/heat.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace caseload::random_setups {

/// The same numbers on every machine: the engine is fixed by the standard, distributions are not.
class Dice {
public:
    explicit Dice(unsigned seed) : engine_(seed) {}
    double from(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_()) / 4294967295.0;
    }
    /// Spread evenly over the magnitudes.
    double magnitude(double low, double high) {
        return std::exp(from(std::log(low), std::log(high)));
    }
    bool chance(double share) { return from(0, 1) < share; }
    std::string one_of(const std::vector<std::string>& words) {
        return words[static_cast<std::size_t>(from(0, 0.999999) *
                                              static_cast<double>(words.size()))];
    }

private:
    std::mt19937 engine_;
};

inline std::string word(Dice& dice, const std::vector<std::string>& words) {
    return fmt::format("\"{}\"", dice.one_of(words));
}

inline std::string bins(Dice& dice) {
    const int count = static_cast<int>(dice.from(1, 6));
    std::vector<double> shares;
    double sum = 0;
    for (int i = 0; i < count; ++i) {
        shares.push_back(dice.from(0.02, 1));
        sum += shares.back();
    }
    std::string text;
    for (const double share : shares)
        text += fmt::format(
            "{{ share = {:.9f}, torque = \"{:.3f} N m\", speed = \"{:.2f} rpm\", road_speed = "
            "\"{:.2f} m/s\" }}, ",
            share / sum, dice.chance(0.2) ? -dice.magnitude(1, 2000) : dice.magnitude(1, 4000),
            dice.magnitude(50, 12000), dice.from(0, 70));
    return "[" + text + "]";
}

inline std::string event(Dice& dice) {
    std::string text =
        fmt::format("event.ambient = \"{:.1f} degC\"\nevent.altitude = \"{:.0f} m\"\n",
                    dice.from(-40, 60), dice.from(-450, 5000));
    if (dice.chance(0.4))
        text += fmt::format("event.oil_at_start = \"{:.1f} degC\"\n", dice.from(-40, 150));
    const std::vector<std::string> courses{"hard-road", "graded", "rough-desert",
                                           "sand",      "rock",   "forest"};
    if (dice.chance(0.3))
        return text + fmt::format("event.course = {}\nevent.duration = \"{:.2f} h\"\n",
                                  word(dice, courses), dice.magnitude(0.05, 10));
    text += R"(event.run = ["a", "pit", "2 x b", "pit", "a"])"
            "\n";
    for (const std::string leg : {"a", "b"}) {
        text += fmt::format("leg.{}.duration = \"{:.1f} min\"\n", leg, dice.magnitude(1, 240));
        if (dice.chance(0.4))
            text += fmt::format("leg.{}.course = {}\n", leg, word(dice, courses));
        else
            text += fmt::format("leg.{}.bins = {}\nleg.{}.overload = {:.2f}\n", leg, bins(dice),
                                leg, dice.from(1, 2));
    }
    return text + fmt::format(
                      "[leg.pit]\nkind = \"stop\"\nduration = \"{:.1f} min\"\nengine = "
                      "{}\npump = {}\nfan = {}\n",
                      dice.magnitude(0.5, 120), word(dice, {"off", "idle"}),
                      word(dice, {"on", "off"}), word(dice, {"on", "off"}));
}

inline std::string cooler(Dice& dice) {
    if (!dice.chance(0.55)) return {};
    std::string text = fmt::format(
        "[cooler]\nfit = true\ncore = \"{:.0f}x{:.0f}x{:.0f} mm\"\nconstruction = {}\nduct = "
        "{}\nfan_face_speed = \"{:.2f} m/s\"\nair_warmer_by = \"{:.1f} K\"\nbypass_opens = "
        "\"{:.0f} kPa\"\n",
        dice.from(80, 500), dice.from(60, 400), dice.from(20, 100),
        word(dice, {"plate-fin", "tube-fin"}), word(dice, {"sealed", "open", "none"}),
        dice.chance(0.5) ? 0 : dice.from(0, 10), dice.from(0, 60), dice.magnitude(20, 1000));
    if (dice.chance(0.5))
        text += fmt::format(
            "rating = {{ heat = \"{:.0f} W\", difference = \"{:.0f} K\", oil_flow = "
            "\"{:.1f} L/min\", face_speed = \"{:.1f} m/s\" }}\n",
            dice.magnitude(300, 10000), dice.from(30, 100), dice.magnitude(3, 40),
            dice.from(2, 15));
    if (dice.chance(0.5))
        text += fmt::format("thermostat_opens = \"{:.1f} degC\"\n", dice.from(20, 140));
    if (dice.chance(0.3))
        text += fmt::format("fan_on_above = \"{:.1f} degC\"\n", dice.from(0, 160));
    return text;
}

inline std::string lubrication(Dice& dice) {
    std::string text = "[lubrication]\n";
    if (dice.chance(0.5))
        text += fmt::format("method = \"dip\"\ndepth = \"{:.1f} mm\"\n", dice.magnitude(1, 290));
    text += fmt::format("drain = {}\n", word(dice, {"good", "fair", "poor"}));
    if (dice.chance(0.3)) text += fmt::format("jet_speed = \"{:.1f} m/s\"\n", dice.from(0, 60));
    if (dice.chance(0.3)) text += fmt::format("side_gap = \"{:.1f} mm\"\n", dice.magnitude(1, 200));
    text += fmt::format(
        "[lubrication.pump]\nflow = \"{:.2f} L/min\"\npressure = \"{:.2f} "
        "bar\"\nefficiency = {:.3f}\n",
        dice.magnitude(0.5, 60), dice.from(0.2, 20), dice.from(0.1, 0.95));
    if (dice.chance(0.3))
        text +=
            fmt::format("drive = \"input\"\nrated_speed = \"{:.0f} rpm\"\n", dice.from(500, 9000));
    if (dice.chance(0.3)) text += fmt::format("on_above = \"{:.1f} degC\"\n", dice.from(0, 160));
    return text;
}

inline std::string housing(Dice& dice) {
    std::string text = fmt::format(
        "[housing]\nsize = \"{:.0f}x{:.0f}x{:.0f} mm\"\nwall = \"{:.1f} mm\"\nfinish = {}\nplace = "
        "{}\ndirt = {}\nexhaust = {}\nair_warmer_by = \"{:.1f} K\"\noil_film_coefficient = "
        "\"{:.0f} W/m2K\"\n",
        dice.from(120, 500), dice.from(200, 500), dice.from(350, 800), dice.from(3, 50),
        word(dice, {"bare", "anodised", "painted", "dusty"}),
        word(dice, {"open", "behind-skid-plate", "tunnel"}), word(dice, {"clean", "dust", "mud"}),
        word(dice, {"none", "near-shielded", "near-bare"}), dice.from(0, 60),
        dice.magnitude(20, 2000));
    if (dice.chance(0.2)) text += fmt::format("dirt_thickness = \"{:.2f} mm\"\n", dice.from(0, 50));
    return text;
}

/// The number behind these words of a setup's text, from a place on; `at` moves behind it.
inline double number_behind(const std::string& text, const std::string& words, std::size_t& at) {
    at = text.find(words, at);
    if (at == std::string::npos) return 0;
    at += words.size();
    return std::stod(text.substr(at));
}
inline double number_behind(const std::string& text, const std::string& words) {
    std::size_t at = 0;
    return number_behind(text, words, at);
}

/// Drawn values that no car can have, which are refused, brought to the nearest that it can: torque
/// of a slice to what the engine brings at its speed, power to what a course asks for, the fill
/// between what the pump, core and hoses need and what has room beside the gears.
inline std::string as_can_be(std::string text) {
    std::size_t power_at = 0;
    double power_kW = number_behind(text, "vehicle.engine_power = \"", power_at);
    // What rough desert, the hardest course, asks of the mass and of the air at its usual pace.
    if (text.find("course = ") != std::string::npos)
        power_kW =
            std::max(power_kW, std::ceil(40 + 0.065 * number_behind(text, "vehicle.mass = \"")));
    text.replace(power_at, text.find(' ', power_at) - power_at, fmt::format("{:.0f}", power_kW));
    const double power_W = 1000 * power_kW;
    for (std::size_t at = 0;;) {
        const double torque_Nm = number_behind(text, "torque = \"", at);
        if (at == std::string::npos) break;
        const double speed_rpm = number_behind(text.substr(at), "speed = \"");
        const double most_Nm = 0.84 * power_W / radps_from_rpm(speed_rpm);
        if (torque_Nm > most_Nm)
            text.replace(at, text.find(' ', at) - at, fmt::format("{:.3f}", most_Nm));
    }
    const auto three = [&](const std::string& words) {
        std::size_t at = 0;
        const double a = number_behind(text, words, at);
        const double b = at == std::string::npos ? 0 : number_behind(text, "x", at);
        return std::array<double, 3>{a, b,
                                     at == std::string::npos ? 0 : number_behind(text, "x", at)};
    };
    const std::array<double, 3> core_mm = three("core = \"");
    double least_L = 4.0 / 60 * number_behind(text, "flow = \"");
    if (core_mm[0] > 0)
        least_L =
            std::max(least_L, 0.3 + 0.286 + 2.4e-6 / 8 * core_mm[0] * core_mm[1] * core_mm[2]);
    const std::array<double, 3> size_mm = three("[housing]\nsize = \"");
    const double walls_mm = 2 * number_behind(text, "wall = \"");
    double free_L = 1e-6;
    for (const double side_mm : size_mm) free_L *= std::max(side_mm - walls_mm, 0.0);
    const bool small = text.find("two-gear-185mm") != std::string::npos;
    const int teeth_1 = static_cast<int>(number_behind(text, "gears.fitted = ["));
    const double d_1_mm = 5.0 * teeth_1;
    const double d_2_mm = 5.0 * ((small ? 76 : 88) - teeth_1);  // two teeth more than drawn at most
    free_L -= 1.2e-6 * pi / 4 * (d_1_mm * d_1_mm + d_2_mm * d_2_mm) *
              number_behind(text, "face_width = \"");
    std::size_t at = 0;
    const double fill_L = number_behind(text, "oil.fill = \"", at);
    text.replace(at, text.find(' ', at) - at,
                 fmt::format("{:.2f}", std::max(std::min(fill_L, free_L - 0.01), least_L + 0.01)));
    return text;
}

/// Fits of rings on shaft and in the housing, in some of the setups: of dice of their own, which
/// leave all else of the sequence as it is.
inline std::string fits(const std::string& text) {
    unsigned sum = 0;
    for (const char letter : text) sum = 31 * sum + static_cast<unsigned char>(letter);
    Dice dice(sum);
    std::string lines;
    for (const std::string name : {"input_front", "input_rear", "output_front", "output_rear"})
        if (dice.chance(0.2))
            lines += fmt::format(
                "bearing.{0}.seat.shaft_interference = \"{1:.4f} mm\"\n"
                "bearing.{0}.seat.ring_interference = \"{2:.3f} mm\"\n"
                "bearing.{0}.seat.boss_outside = \"{3:.0f} mm\"\n",
                name, dice.from(-0.02, 0.06), dice.from(-0.05, 0.1), dice.from(200, 240));
    return lines;
}

inline std::string random_setup(Dice& dice) {
    const bool small = dice.chance(0.5);
    std::string text =
        fmt::format("caseload = 1\nbase = \"pattern:two-gear-{}mm\"\n", small ? 185 : 215);
    const int sum = small ? 74 : 86;
    const int first = static_cast<int>(dice.from(0.38, 0.62) * sum);
    text += fmt::format("gears.fitted = [{}, {}]\n", first,
                        sum - first + static_cast<int>(dice.from(-1.99, 1.99)));
    text += fmt::format(
        "gears.face_width = \"{:.1f} mm\"\ngears.finish = {}\ncase.drop_direction = \"{:.1f} "
        "deg\"\ncase.input_turns = {}\n",
        dice.from(20, 60), word(dice, {"superfinished", "ground", "shaved"}), dice.from(-180, 180),
        word(dice, {"clockwise", "counter-clockwise"}));
    text += fmt::format(
        "oil.grade = {}\noil.fill = \"{:.2f} L\"\noil.state = {}\n",
        word(dice, {"75W-90 synthetic", "75W-140 synthetic", "75W-80 synthetic", "80W-90 mineral",
                    "85W-140 mineral", "SAE 250 synthetic", "ISO VG 220 mineral"}),
        dice.magnitude(0.3, 20), word(dice, {"fresh-filtered", "fresh", "one-event", "dirty"}));
    for (const std::string name : {"input_front", "input_rear", "output_front", "output_rear"})
        if (dice.chance(0.4))
            text += fmt::format("bearing.{}.oil = {}\n", name,
                                word(dice, {"jet", "splash", "damp", "mist"}));
    text += fmt::format("seal.input.material = {}\nseal.output_rear.lips = {:.0f}\n",
                        word(dice, {"FKM", "NBR", "HNBR", "ACM", "VMQ", "PTFE"}),
                        std::floor(dice.from(1, 3.999)));
    text += fmt::format(
        "vehicle.mass = \"{:.0f} kg\"\nvehicle.tyre = \"{:.1f} in\"\n"
        "vehicle.axle_ratio = {:.2f}\nvehicle.engine_power = \"{:.0f} kW\"\n",
        dice.from(600, 6000), dice.from(26, 46), dice.from(2, 8), dice.magnitude(40, 900));
    if (dice.chance(0.3))
        text +=
            "vehicle.gearbox = [2.48, 1.48, 1.0]\n"
            "vehicle.engine_torque = [[\"2000 rpm\", \"500 N m\"], [\"6500 rpm\", \"700 N "
            "m\"]]\n";
    const std::string before = text;
    text = as_can_be(text + event(dice) + lubrication(dice) + housing(dice) + cooler(dice));
    return text.insert(text.find("vehicle.mass"), fits(before));
}

/// The drawn setups that are not refused, each with its text.
struct Drawn {
    std::string text;
    Setup setup;
};
struct Draw {
    std::vector<Drawn> ran;
    std::vector<std::string> refused;
};
inline Draw drawn(unsigned seed, std::size_t wanted) {
    Dice dice(seed);
    Draw draw;
    while (draw.ran.size() < wanted) {
        const std::string text = random_setup(dice);
        try {
            draw.ran.push_back({text, read_setup(text, "random.toml", {}).setup});
        } catch (const Error& error) {
            draw.refused.push_back(error.problems().front().text);
            if (draw.refused.size() > wanted) break;
        }
    }
    return draw;
}

/// Some of the drawn setups that the calculation takes, without switches: a switch may answer a
/// hotter case with a cooler one.
inline std::vector<Setup> some(unsigned seed, std::size_t wanted) {
    std::vector<Setup> setups;
    for (Drawn& one : drawn(seed, 2 * wanted).ran) {
        one.setup.cooler.fan_on_above_degC.reset();
        if (one.setup.lubrication.pump) one.setup.lubrication.pump->on_above_degC.reset();
        try {
            static_cast<void>(prepare(one.setup));
            setups.push_back(one.setup);
        } catch (const Error&) {
            continue;
        }
        if (setups.size() == wanted) break;
    }
    REQUIRE(setups.size() == wanted);
    return setups;
}

}  // namespace caseload::random_setups
