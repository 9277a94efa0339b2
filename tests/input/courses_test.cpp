// SPDX-License-Identifier: MIT
#include "input/courses.hpp"
#include "input/fields.hpp"
#include "input/quantity.hpp"
#include "support.hpp"

#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace caseload::courses_tests {

using namespace caseload::input;

namespace {

std::vector<std::string> names() {
    return split_words(find_field("event.course")->accepted);
}

double pace_mps(const Course& course) {
    return read_quantity(Measure::speed_mps, course.pace.value.text).value;
}

struct Truck {
    double mass_kg;
    double engine_power_W;
};

/// Mean drive power over the time, written out here on its own: grade and rolling resistance, air
/// drag, acceleration with 6 % rotating mass, at most the engine's power.
double mean_drive_power_W(const Course& course, const Truck& truck) {
    constexpr double air_kgpm3 = 1.12;
    constexpr double drag_area_m2 = 2.4;
    double mean_W = 0;
    for (const CourseLine& line : course.lines) {
        const double v = pace_mps(course) * line.pace_ratio;
        const double angle = std::atan(line.grade);
        const double force_N =
            truck.mass_kg * g_mps2 * (line.resistance * std::cos(angle) + std::sin(angle)) +
            0.5 * air_kgpm3 * drag_area_m2 * v * v + 1.06 * truck.mass_kg * line.acceleration_mps2;
        mean_W += line.share * std::clamp(force_N * v, 0.0, truck.engine_power_W);
    }
    return mean_W;
}

}  // namespace

TEST_CASE("courses: shares sum to 1 and paces average 1") {
    for (const std::string& name : names()) {
        CAPTURE(name);
        double share = 0;
        double pace = 0;
        for (const CourseLine& line : course(name).lines) {
            share += line.share;
            pace += line.share * line.pace_ratio;
            CHECK(line.share > 0);
            CHECK(line.pace_ratio > 0);
        }
        CHECK(share == rel(1, 1e-12));
        CHECK(pace == rel(1, 1e-12));
    }
}

TEST_CASE("courses: each ends at the height and speed it began with") {
    for (const std::string& name : names()) {
        CAPTURE(name);
        double rise = 0;
        double gain_mps2 = 0;
        for (const CourseLine& line : course(name).lines) {
            rise += line.share * line.pace_ratio * line.grade;
            gain_mps2 += line.share * line.acceleration_mps2;
        }
        // Two printed digits of the last line's grade and acceleration.
        CHECK(within(rise, 0, 0.001));
        CHECK(within(gain_mps2, 0, 0.01));
    }
}

TEST_CASE("courses: rough desert uses the power that fuel use over long races allows") {
    const Course& desert = course("rough-desert");
    // 140 to 200 kW whatever the engine, at 93.6 km/h, which is 26 m/s to the last bit.
    CHECK(pace_mps(desert) == 26);
    for (const Truck& truck : {Truck{2300, 320e3}, Truck{2500, 480e3}, Truck{2700, 630e3}}) {
        CHECK(mean_drive_power_W(desert, truck) > 140e3);
        CHECK(mean_drive_power_W(desert, truck) < 200e3);
    }
    double resistance = 0;
    for (const CourseLine& line : desert.lines) resistance += line.share * line.resistance;
    CHECK(within(resistance, 0.20, 0.01));
}

TEST_CASE("courses: harder ground takes more power at the same pace") {
    const Truck truck{2350, 480e3};
    const auto per_metre = [&](const std::string& name) {
        return mean_drive_power_W(course(name), truck) / pace_mps(course(name));
    };
    CHECK(per_metre("hard-road") < per_metre("graded"));
    CHECK(per_metre("graded") < per_metre("forest"));
    CHECK(per_metre("forest") < per_metre("rough-desert"));
    CHECK(per_metre("rough-desert") < per_metre("sand"));
}

TEST_CASE("courses: overload is 1.25, and the pace has plausible ends") {
    for (const std::string& name : names()) {
        CAPTURE(name);
        const Course& one = course(name);
        CHECK(one.overload == 1.25);
        CHECK(one.peaks_per_h >= 0);
        const auto speed = [](const std::string& toml) {
            return read_quantity(Measure::speed_mps, toml.substr(1, toml.size() - 2));
        };
        REQUIRE(speed(one.pace.low).ok);
        REQUIRE(speed(one.pace.high).ok);
        CHECK(speed(one.pace.low).value < pace_mps(one));
        CHECK(speed(one.pace.high).value > pace_mps(one));
    }
    CHECK(names().size() == 6);
}

}  // namespace caseload::courses_tests
