// SPDX-License-Identifier: MIT
// Oil logged while a case of known factors drives, written as readings, read by calibrate.
#include "ask/calibrate_model.hpp"
#include "caseload/ask/calibrate.hpp"
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "caseload/input.hpp"
#include "duty/log_text.hpp"
#include "files.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <cmath>

#include <functional>
#include <string>

namespace caseload::readings_tests {

using namespace caseload::duty;

namespace {

constexpr double drive_s = 3000;

/// 50 min at 10 s a line after a minute and a half at rest.
std::string log_of(const std::function<double(double t_s)>& oil_degC) {
    std::string text =
        "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s),Gearbox oil temp (degC),Outside "
        "temp (degC)\n";
    for (int i = 0; i < 9; ++i) text += fmt::format("{},0,0,0,{:.4f},12\n", 10 * i, oil_degC(0));
    for (int i = 0; i < static_cast<int>(drive_s / 10); ++i)
        text += fmt::format("{},{},{},18,{:.4f},12\n", 90 + 10 * i, i % 2 == 0 ? 2400 : 2600,
                            i % 3 == 0 ? 300 : 500, oil_degC(10 * i));
    return text;
}

Setup setup_of(const DutyAnswer& answer) {
    const std::string event = event_text(answer);
    const std::string readings = readings_text(answer, {"light.toml", "event.toml", {}});
    return read_setup(readings, "readings.toml",
                      [&](const std::string& name) -> std::optional<std::string> {
                          if (name == "event.toml") return event;
                          return test_files::file_text(test_files::root + "docs/examples/" + name);
                      })
        .setup;
}

}  // namespace

TEST_CASE(
    "duty: logged oil becomes a reading from which calibrate finds the factor it was made with") {
    const DutyAnswer shape = duty_test::read(log_of([](double t_s) { return 20 + t_s / 60; }));
    REQUIRE(shape.oil.size() == 1);
    CHECK(shape.oil[0].leg == "drive-1");
    CHECK(shape.oil[0].rows.front().temp_degC == rel(20, 1e-9));
    // Means of a straight line lie on it; 25 rows at most.
    CHECK(shape.oil[0].rows.size() <= 25);
    CHECK(shape.oil[0].rows.size() >= 10);
    for (std::size_t i = 1; i < shape.oil[0].rows.size(); ++i) {
        const OilRow& row = shape.oil[0].rows[i];
        // A sample holds until the next: half a step of 10 s before.
        CHECK(row.temp_degC == doctest::Approx(20 + (row.after_s - 5) / 60).epsilon(1e-6));
    }
    // What a case with twice the air outside would have shown there.
    Setup setup = setup_of(shape);
    REQUIRE(setup.readings.size() == 1);
    const ReadingInput& reading = setup.readings.front();
    CHECK(reading.leg == "drive-1");
    CHECK(reading.ambient_degC == rel(12, 1e-9));
    Factors factors;
    factors.air_share = 2;
    const std::vector<double> temps_degC = ReadingModel(setup).at(factors);
    const auto oil_degC = [&](double t_s) {
        double before_s = 0;
        double before_degC = 20;
        std::size_t k = 0;
        for (const LoggedTemp& row : reading.series) {
            if (row.t_s <= 0) continue;
            const double here_degC = temps_degC.at(k++);
            if (t_s <= row.t_s)
                return before_degC +
                       (here_degC - before_degC) * (t_s - before_s) / (row.t_s - before_s);
            before_s = row.t_s;
            before_degC = here_degC;
        }
        return before_degC;
    };
    const Setup logged = setup_of(duty_test::read(log_of(oil_degC)));
    const Calibration found = calibrate(logged, "2026-05-30", one_by_one);
    CHECK(found.readings.size() == reading.series.size() - 1);
    // One log leaves open which factor it is; together they explain what the middle ones do not.
    double before_K = 0;
    double after_K = 0;
    for (const ComparedReading& row : found.readings) {
        before_K += std::fabs(row.before_degC - row.low_degC);
        after_K += std::fabs(row.after_degC - row.low_degC);
    }
    CAPTURE(before_K);
    CAPTURE(after_K);
    CHECK(after_K < before_K / 2);
    CHECK(found.chance > 0.01);
    // Twice the air explains the log within the steps it was cut into.
    const std::vector<Observation> seen = ReadingModel(logged).observations();
    const std::vector<double> expected_degC = ReadingModel(logged).at(factors);
    REQUIRE(seen.size() == expected_degC.size());
    for (std::size_t i = 0; i < seen.size(); ++i)
        CHECK(std::fabs(seen[i].low_degC - expected_degC[i]) < 0.8);
}

TEST_CASE("duty: oil logged too briefly, too seldom or without ambient makes no reading") {
    const auto refusal = [](const std::string& text, std::optional<double> ambient_degC) {
        const auto error = error_of([&] {
            (void)readings_text(duty_test::read(text), {"a.toml", "b.toml", ambient_degC});
        });
        if (error) CHECK(error->kind() == Error::Kind::input);
        return error ? std::string(error->what()) : std::string("written");
    };
    const std::string head =
        "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s),Gearbox oil "
        "temp (degC)\n";
    const std::string none = "no leg of 5 min has an oil temperature over 80 % of its time";
    std::string text = head;
    for (int i = 0; i < 200; ++i) text += fmt::format("{},1500,400,15,{}\n", i, 40 + i / 10.0);
    CHECK(refusal(text, 20) == none);  // too short
    for (int i = 200; i < 400; ++i) text += fmt::format("{},1500,400,15,{}\n", i, 40 + i / 10.0);
    CHECK(refusal(text, 20) == "written");
    CHECK(refusal(text, {}) == "the log has oil, but nothing says how warm the air was");
    text = head;
    for (int i = 0; i < 400; ++i)
        text += fmt::format("{},1500,400,15,{}\n", i, i < 100 ? "50" : "");
    CHECK(refusal(text, 20) == none);  // known for a quarter
    text = head;
    for (int i = 0; i < 1000; ++i)
        text += fmt::format("{},1500,400,15,{}\n", i, i < 150 ? "" : "60");
    CHECK(refusal(text, 20) == none);  // known for 85 %, but not when it began
    text = head;
    for (int i = 0; i < 400; ++i) text += fmt::format("{},1500,400,15,15\n", i);
    CHECK(refusal(text, 20) == none);  // colder than the air
}

}  // namespace caseload::readings_tests
