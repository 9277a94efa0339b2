// SPDX-License-Identifier: MIT
// Decimal commas without quotes between commas: refused whatever stands where, never read as other
// numbers.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/log_text.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace caseload::commas_tests {

using namespace caseload::duty;

namespace {

/// As a logger of a country with decimal commas writes it: as many decimals as wanted, or as few as
/// the number needs.
std::string with_comma(double value, int decimals) {
    std::string text =
        decimals < 0 ? fmt::format("{:g}", value) : fmt::format("{:.{}f}", value, decimals);
    std::replace(text.begin(), text.end(), '.', ',');
    return text;
}

}  // namespace

TEST_CASE("duty: unquoted decimal commas between commas are refused, whichever columns have them") {
    constexpr int columns = 4;
    constexpr int kinds = 3;  // whole numbers, one decimal, decimals where needed
    int refused = 0;
    for (int mix = 0; mix < 81; ++mix) {
        std::string text = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
        bool decimals = false;
        for (int line = 0; line < 200; ++line) {
            const double values[columns] = {line * 0.5, 3000 + line * 0.25, 400 + line % 7 * 0.5,
                                            15 + line % 4 * 0.25};
            int kind = mix;
            for (int k = 0; k < columns; ++k, kind /= kinds) {
                const bool whole = kind % kinds == 0;
                decimals = decimals || !whole;
                const double value = whole ? static_cast<int>(values[k]) : values[k];
                text += with_comma(value, whole ? 0 : kind % kinds == 1 ? 1 : -1);
                text += k + 1 < columns ? "," : "\n";
            }
        }
        CAPTURE(mix);
        CAPTURE(text.substr(0, 200));
        if (!decimals) {
            CHECK(duty_test::read(text).legs.front().bins.front().road_speed_mps == rel(15, 1e-3));
            continue;
        }
        const Error error = refused_by([&] { const DutyAnswer answer = duty_test::read(text); });
        CHECK(error.problems().front().hint.find("decimal commas") != std::string::npos);
        ++refused;
    }
    CHECK(refused == 80);
}

TEST_CASE("duty: fields without a name may be empty, or mapped by their number") {
    std::string empty = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    std::string index = ",Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    std::string numbered = "Time (s),Case speed (rpm),Case torque (Nm)\n";
    for (int i = 0; i < 100; ++i) {
        const std::string row = fmt::format("{:.1f},3000,400,15", i / 10.0);
        empty += row + ",\n";
        index += fmt::format("{},{}\n", i, row);
        numbered += row + "\n";
    }
    CHECK(duty_test::read(empty).samples == 100);
    CHECK(duty_test::read(index).samples == 100);
    DutyOptions options;
    options.read.columns["road_speed"] = "#4";
    options.read.units["road_speed"] = "m/s";
    CHECK(duty_test::read(numbered, options).legs.front().distance_m == rel(150, 1e-9));
}

TEST_CASE("duty: a counter or a marker without a name is no decimal") {
    DutyOptions point;
    point.read.decimal = "point";
    const auto log_of = [](const auto& row) {
        std::string text = "Time (s),,Case speed (rpm),,Case torque (Nm),Speed (m/s)\n";
        for (int i = 0; i < 60; ++i) text += row(i);
        return text;
    };
    const auto check = [](const DutyAnswer& answer) {
        CHECK(answer.samples == 60);
        REQUIRE(answer.legs.size() == 1);
        CHECK(answer.legs.front().bins.front().speed_rpm == rel(3000, 1e-6));
    };
    // An index behind the time, and one behind a channel whose time has no even step.
    check(duty_test::read(log_of([](int i) { return fmt::format("{0},{0},3000,,400,15\n", i); })));
    check(duty_test::read(
        log_of([](int i) { return fmt::format("{},,3000,{},400,15\n", i + i / 7, 100 + i); })));
    // A marker behind a time that counts.
    check(duty_test::read(
        log_of([](int i) { return fmt::format("{},{},3000,,400,15\n", i, i / 20 % 2); })));
    // A marker in a log that writes decimal points.
    check(duty_test::read(log_of(
        [](int i) { return fmt::format("{:.1f},,3000,{},400,15\n", i / 10.0, i / 20 % 2); })));
    // Nothing tells this marker from a decimal but the option.
    const std::string open =
        log_of([](int i) { return fmt::format("{},,3000,{},400,15\n", i, i / 20 % 2); });
    check(duty_test::read(open, point));
    const Error error = refused_by([&] { static_cast<void>(duty_test::read(open)); });
    CHECK(error.problems().front().hint.find("decimal commas") != std::string::npos);
    CHECK(error.problems().front().hint.find("--decimal point") != std::string::npos);
    // Decimals of the time and of a channel, as wide as they are and as short as they can be.
    for (const int decimals : {1, 2, -1})
        for (const double step_s : {0.1, 0.25, 1.1})
            CHECK_THROWS_AS(duty_test::read(log_of([&](int i) {
                                const std::string time = with_comma(i * step_s, decimals);
                                return fmt::format("{}{},3000,,400,15\n", time,
                                                   time.find(',') == std::string::npos ? "," : "");
                            })),
                            Error);
}

}  // namespace caseload::commas_tests
