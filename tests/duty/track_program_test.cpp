// SPDX-License-Identifier: MIT
// The program from a phone's GPX to the answer of a setup that takes the event.
#include "duty/track_of_lap.hpp"
#include "input/segment_duty.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <string>

namespace caseload::track_program_tests {

namespace {

void write(const std::string& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

/// The light car of the examples on its own course, as its phone has it.
std::string light_gpx() {
    duty::Car light = track_test::truck();
    light.vehicle.mass_kg = 1750;
    light.vehicle.rolling_radius_m = 0.48 * m_from_mm(mm_from_in(35));
    light.vehicle.axle_ratio = 5.13;
    light.vehicle.engine_power_W = W_from_hp(430);
    const pace::Car car = input::segment_car(light.vehicle, 41.0 / 33, 1.1);
    const pace::Ground& ground = input::course("rough-desert").ground;
    const pace::Lap lap = pace::lap(car, ground, {});
    const track_test::Course course(lap, pace::segments(ground));
    std::string text =
        "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\" "
        "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n";
    for (const track_test::Fix& fix : track_test::fixes_of(course, lap.way_m, {.laps = 1})) {
        const int t_s = static_cast<int>(fix.t_s);
        text += fmt::format(
            "<trkpt lat=\"{:.7f}\" lon=\"{:.7f}\"><ele>{:.1f}</ele><time>2026-05-31T{:02}:{:02}:"
            "{:02}Z</time><extensions><speed>{:.2f}</speed></extensions></trkpt>\n",
            fix.latitude_deg, fix.longitude_deg, fix.altitude_m, 8 + t_s / 3600, t_s / 60 % 60,
            t_s % 60, fix.speed_mps);
    }
    return text + "</trkseg></trk></gpx>\n";
}

}  // namespace

TEST_CASE("track: the program makes an event of a GPX, and a setup takes it") {
    const OwnFolder folder("track");
    const std::string setup = file_text(test_files::root + "docs/examples/light.toml");
    write(folder.path("light.toml"), setup);
    write(folder.path("day1.gpx"), light_gpx());
    const std::string duty = "duty " + folder.path("day1.gpx") + " -o " + folder.path("day1.toml");
    const Run alone = run_program_as_user(duty);
    CHECK(alone.code == 2);
    CHECK(has(alone.out, "name a setup with its [vehicle]"));
    const Run run = run_program_as_user(duty + " --setup " + folder.path("light.toml"));
    CAPTURE(run.out);
    REQUIRE(run.code == 0);
    CHECK(has(run.out, "TRACK    GPX: a phone's track, without torque"));
    CHECK(has(run.out, "the mean of rough-desert, the setup's course"));
    CHECK(has(run.out, "1 s apart (1 Hz); 100.0 % of the time used"));
    CHECK(has(run.out, "TRUST"));
    const std::string event = file_text(folder.path("day1.toml"));
    CHECK(has(event, "load_source = \"track\"\noverload = 1.1\n"));

    // The same car, its event from the track.
    const std::string before = setup.substr(0, setup.find("[event]"));
    write(folder.path("race.toml"),
          before + "[event]\nambient = \"34 degC\"\nfrom = \"day1.toml\"\n");
    const Run assessed = run_program_as_user("assess " + folder.path("race.toml"));
    CAPTURE(assessed.out);
    CHECK(assessed.code < 2);

    const Run given =
        run_program_as_user(duty + " --json --resistance 0.2 --setup " + folder.path("race.toml"));
    CHECK(given.code == 0);
    CHECK(has(given.out, "\"resistance\":0.2,\"resistance_entered\":true"));
    const Run no_ground = run_program_as_user(duty + " --setup " + folder.path("race.toml"));
    CHECK(no_ground.code == 2);
    CHECK(has(no_ground.out, "what ground the track was driven on"));
}

}  // namespace caseload::track_program_tests
