// SPDX-License-Identifier: MIT
#include "input/course_tables.hpp"

#include "caseload/formulas/road_roughness.hpp"
#include "caseload/pace.hpp"
#include "caseload/units.hpp"
#include "input/courses.hpp"
#include "input/fields.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace caseload::input {
namespace {

/// What differs between the cars of the table.
struct Shown {
    std::string words;
    double power_hp;
    double mass_kg;
    double tyre_in;
    double travel_m;
};

pace::Car car_of(const Shown& shown) {
    pace::Car car;
    car.mass_kg = shown.mass_kg;
    car.tyre_m = m_from_mm(mm_from_in(shown.tyre_in));
    car.wheel_travel_m = shown.travel_m;
    car.engine_power_W = W_from_hp(shown.power_hp);
    car.axle_ratio = 4.86;
    car.case_ratio = 1.25;
    return car;
}

std::string range_of_laps(const pace::Spread& found, double times) {
    return fmt::format("{:.0f} .. {:.0f} .. {:.0f}", found.low * times, found.likely * times,
                       found.high * times);
}

}  // namespace

std::string course_tables() {
    const std::vector<std::string> names = split_words(field_of("event.course").accepted);
    std::string text =
        "\n## Courses as ground\n\n"
        "Statistics of the ground of each course ([tables/courses](../tables/courses)), for the "
        "segment model ([method.md](method.md), 1.5), which `event.course_model = \"segments\"` "
        "takes "
        "for the duty; else answers use the lines of the same files.\n\n"
        "| course | ground | height rms, no waves over 18 m | soil resistance | slow spots | "
        "speed there | most, driven quick |\n|---|---|---|---|---|---|---|\n";
    for (const std::string& name : names) {
        const Course& one = course(name);
        const pace::Ground& ground = one.ground;
        text += fmt::format(
            "| `{}` | {} | {:.0f} mm | {:g} to {:g} | {:g} /km | {:.1f} km/h | {:.0f} km/h |\n",
            name, one.description, 1000 * road_roughness::rms_height_m(ground.roughness_m3),
            ground.resistance_low, ground.resistance_high, ground.slow_spots_pkm,
            kmph_from_mps(ground.slow_speed_mps), kmph_from_mps(ground.cap_mps));
    }
    text +=
        "\nWhat two cars do there, low .. likely .. high over driver, roughness, soil and engine "
        "(8 chances in 10). Both: axle 4.86, case 1.25, no gearbox entered, drag area 2.4 m2.\n\n"
        "| course | car | pace, km/h | fastest 5 % above, km/h | engine, mean kW | L/100 km |\n"
        "|---|---|---|---|---|---|\n";
    const std::vector<Shown> cars{{"430 hp, 1750 kg, 37 in, travel 500 mm", 430, 1750, 37, 0.50},
                                  {"850 hp, 2900 kg, 40 in, travel 700 mm", 850, 2900, 40, 0.70}};
    for (const std::string& name : names)
        for (const Shown& shown : cars) {
            const pace::Outlook outlook = pace::outlook(car_of(shown), course(name).ground);
            text += fmt::format(
                "| `{}` | {} | {} | {} | {} | {} |\n", name, shown.words,
                range_of_laps(outlook.pace_mps, 3.6), range_of_laps(outlook.fast_mps, 3.6),
                range_of_laps(outlook.crank_W, 0.001), range_of_laps(outlook.fuel_Lp100km, 1));
        }
    return text;
}

}  // namespace caseload::input
