// SPDX-License-Identifier: MIT
// Names of columns by their words and units, what is left over, and hints that ask for nothing that
// was given.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "caseload/show/duty.hpp"
#include "duty/channels.hpp"
#include "duty/log_text.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace caseload::names_tests {

using namespace caseload::duty;

namespace {

/// A log of one row repeated, 10 Hz; the first column is the time.
std::string log_of(const std::string& names, const std::string& row, double step = 0.1) {
    std::string text = names + "\n";
    for (int i = 0; i < 200; ++i) text += fmt::format("{:g}{}\n", i * step, row);
    return text;
}

DutyOptions with_gearbox() {
    DutyOptions options = duty_test::with_car();
    options.car->vehicle.gearbox = {2, 1};
    options.car->vehicle.engine_torque = {{1000, 300}, {5000, 400}};
    return options;
}

std::string words_refused(const std::string& text, const DutyOptions& options = {}) {
    const auto error = error_of([&] { (void)duty_test::read(text, options); });
    return error ? fmt::format("{} | {}", error->what(), error->problems().front().hint)
                 : std::string("read");
}

/// The heading taken for a channel, or "".
std::string taken(const DutyAnswer& answer, Channel channel) {
    for (const Column& column : answer.columns)
        if (column.channel == channel) return column.heading;
    return "";
}

}  // namespace

TEST_CASE("duty: names that loggers and diagnostic sockets write are found, with their units") {
    struct Row {
        const char* heading;
        Channel channel;
        double reads_as;  ///< of 72 as it stands
    };
    const Row rows[] = {{"Vehicle Speed Sensor [km/h]", Channel::road_speed, 20},
                        {"Tempo [km/h]", Channel::road_speed, 20},
                        {"speed_kmh", Channel::road_speed, 20},
                        {"Speed (GPS) [m/s]", Channel::road_speed, 72},
                        {"Ground speed 2 (km/h)", Channel::road_speed, 20},
                        {"Geschwindigkeit km/h", Channel::road_speed, 20},
                        {"VEHICLE_SPEED (mph)", Channel::road_speed, 72 * 0.44704}};
    for (const Row& row : rows) {
        CAPTURE(row.heading);
        const DutyAnswer answer = duty_test::read(log_of(
            fmt::format("ts,Case speed (rpm),Case torque (Nm),{}", row.heading), ",3000,400,72"));
        CHECK(taken(answer, row.channel) == row.heading);
        CHECK(answer.legs.front().bins.front().road_speed_mps == rel(row.reads_as, 1e-4));
    }
    // Engine speed, throttle and time by the names of diagnostic parameters.
    const DutyAnswer socket = duty_test::read(
        log_of("ENGINE_RUN_TINE (),Engine RPM [rpm],Absolute Throttle Position B [%],"
               "Vehicle Speed Sensor [km/h],Calculated load [%],Engine coolant temperature [degC]",
               ",1909.86,50,72,30,80"),
        with_gearbox());
    CHECK(taken(socket, Channel::time) == "ENGINE_RUN_TINE ()");
    CHECK(taken(socket, Channel::engine_speed) == "Engine RPM [rpm]");
    CHECK(taken(socket, Channel::throttle) == "Absolute Throttle Position B [%]");
    CHECK(taken(socket, Channel::road_speed) == "Vehicle Speed Sensor [km/h]");
    CHECK(socket.left_over ==
          std::vector<std::string>{"Calculated load [%]", "Engine coolant temperature [degC]"});
    // 200 lines of 100 ms.
    const DutyAnswer in_ms = duty_test::read(log_of(
        "timestamp_ms,Case_speed_rpm,Case_torque_Nm,Geschwindigkeit_kmh", ",3000,400,72", 100));
    CHECK(in_ms.legs.front().duration_s == rel(20, 1e-9));
    CHECK(in_ms.legs.front().distance_m == rel(400, 1e-9));
}

TEST_CASE("duty: the unit decides a name that two languages share") {
    // Time in Spanish, speed in German.
    const DutyAnswer spanish = duty_test::read(
        log_of("tempo (s),Case speed (rpm),Case torque (Nm),velocita (km/h)", ",3000,400,72"));
    CHECK(taken(spanish, Channel::time) == "tempo (s)");
    const DutyAnswer german =
        duty_test::read(log_of("Zeit,Case speed,Case torque,Tempo\ns,rpm,Nm,km/h", ",3000,400,72"));
    CHECK(taken(german, Channel::time) == "Zeit");
    CHECK(taken(german, Channel::road_speed) == "Tempo");
    CHECK(german.legs.front().distance_m == rel(400, 1e-9));
    CHECK_FALSE(names("Tempo [km/h]", "", Channel::time, Naming::exact));
    CHECK(names("Tempo", "", Channel::time, Naming::exact));
    CHECK_FALSE(names("Tempo", "", Channel::road_speed, Naming::exact));
    CHECK(names("Tempo", "km/h", Channel::road_speed, Naming::exact));
}

TEST_CASE(
    "duty: a limit, target or single wheel is not taken for the car's speed, torque or throttle") {
    for (const char* const heading :
         {"Wheel speed FL [km/h]", "Speed (limit) [km/h]", "Target speed [km/h]",
          "Wind speed [m/s]", "Speed limit [km/h]", "Average speed (GPS) [km/h]",
          "Cruise control set speed (km/h)", "Boost speed [bar]"})
        CHECK_FALSE(names(heading, "", Channel::road_speed, Naming::words));
    for (const char* const heading :
         {"Engine torque limit [Nm]", "Driver's demand engine torque [Nm]", "Engine oil [Nm]",
          "Engine friction torque (Nm)"})
        CHECK_FALSE(names(heading, "", Channel::engine_torque, Naming::words));
    CHECK(names("Actual engine torque [Nm]", "", Channel::engine_torque, Naming::words));
    for (const char* const heading : {"Brake pedal [%]", "Commanded throttle actuator [%]"})
        CHECK_FALSE(names(heading, "", Channel::throttle, Naming::words));
    CHECK_FALSE(names("Engine fan speed [rpm]", "", Channel::engine_speed, Naming::words));
    CHECK(names("Engine speed sensor 2 [rpm]", "", Channel::engine_speed, Naming::words));
    // Several of them are none: the log is read as without them, and they are listed.
    const DutyAnswer answer = duty_test::read(
        log_of("Time (s),Case speed (rpm),Case torque (Nm),Speed (km/h),Speed sensor 2 (km/h),"
               "Throttle left (%),Throttle right (%)",
               ",3000,400,72,71,50,51"));
    CHECK(taken(answer, Channel::road_speed) == "Speed (km/h)");
    CHECK(taken(answer, Channel::throttle).empty());
    CHECK(answer.left_over.size() == 3);
}

TEST_CASE("duty: columns left over are listed on the screen and in JSON") {
    std::string names = "Time (s),,Case speed (rpm),Case torque (Nm),Speed (m/s)";
    std::string row = ",0.5,3000,400,15";
    for (int k = 0; k < 50; ++k) {
        names += fmt::format(",Sensor {}", k);
        row += ",1";
    }
    const DutyAnswer answer = duty_test::read(log_of(names, row));
    REQUIRE(answer.left_over.size() == 51);
    CHECK(answer.left_over.front() == "#2");
    const std::string screen = duty_screen(answer);
    CHECK(screen.find("  NOT USED \"#2\", \"Sensor 0\", ") != std::string::npos);
    CHECK(screen.find("and 11 more") != std::string::npos);
    CHECK(duty_json(answer, "e.toml").find("\"Sensor 49\"]") != std::string::npos);
    const DutyAnswer all = duty_test::read(
        log_of("Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)", ",3000,400,15"));
    CHECK(duty_screen(all).find("NOT USED") == std::string::npos);
}

TEST_CASE("duty: a hint does not ask for an option already given") {
    const std::string engine = log_of("Time (s),RPM,Torque (Nm)", ",3000,200");
    CHECK(words_refused(engine) ==
          "the log has engine speed, but not the speed of the case's input | --setup SETUP with "
          "vehicle.gearbox; if the column is at the case: --map case_speed=COLUMN");
    CHECK(words_refused(engine, with_gearbox()) ==
          "the log has engine speed, but not the speed of the case's input | gear or road_speed, "
          "beside the gearbox that is known; if the column is at the case: --map "
          "case_speed=COLUMN");
    DutyOptions without = with_gearbox();
    without.car->vehicle.gearbox.clear();
    CHECK(words_refused(engine, without).find("| vehicle.gearbox in the setup; ") !=
          std::string::npos);
    const std::string no_torque = log_of("Time (s),RPM,Gear,Speed (m/s)", ",3000,1,15");
    CHECK(words_refused(no_torque, with_gearbox()) ==
          "the log has no torque, and it cannot be had from the rest | any of these would do: "
          "case_torque; engine_torque; throttle; --resistance 0.15");
    DutyOptions no_table = with_gearbox();
    no_table.car->vehicle.engine_torque.clear();
    const std::string measured =
        log_of("Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)", ",3000,400,15");
    const auto peak = [&](const DutyOptions& options) {
        for (const std::string& remark : duty_test::read(measured, options).remarks)
            if (remark.find("no peak torque") == 0) return remark;
        return std::string("none");
    };
    CHECK(peak({}).find("(--setup with vehicle.engine_torque, ") != std::string::npos);
    CHECK(peak(no_table).find("(vehicle.engine_torque in the setup)") != std::string::npos);
    CHECK(peak(without).find("(vehicle.gearbox in the setup)") != std::string::npos);
    CHECK(peak(with_gearbox()) == "none");
}

}  // namespace caseload::names_tests
