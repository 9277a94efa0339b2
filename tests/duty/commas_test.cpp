// SPDX-License-Identifier: MIT
// Decimal commas without quotes between commas: refused whatever stands where, never read as other
// numbers.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/log_text.hpp"
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
        try {
            const DutyAnswer answer = duty_test::read(text);
            FAIL("read as " << answer.legs.front().distance_m << " m");
        } catch (const Error& error) {
            CHECK(error.problems().front().hint.find("decimal commas") != std::string::npos);
            ++refused;
        }
    }
    CHECK(refused == 80);
}

TEST_CASE("duty: fields without a name may be empty, or told by their number") {
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

}  // namespace caseload::commas_tests
