// SPDX-License-Identifier: MIT
// A phone's track as an event, by hand: 850 hp, 2900 kg, tyres of 40 in, axle 4.86, case 1.25.
#include "duty/track.hpp"
#include "caseload/error.hpp"
#include "caseload/show/duty.hpp"
#include "duty/track_of_lap.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

namespace caseload::track_tests {

using namespace caseload::duty;
using duty_test::read;
using track_test::on;

namespace {

doctest::Approx near(double expected, double off) {
    return rel(expected, off / expected);
}

constexpr double weight_N = 2900 * g_mps2;
constexpr double rolling_m = 0.48 * 1.016;
constexpr double lever_m = rolling_m / (4.86 * 1.25);
constexpr double graded_slip = 0.05;
constexpr double graded_grip_N = 0.5 * weight_N;  // vehicle.grip 0.6, as the course's is entered

double drag_N(double speed_mps) {
    return 1.12 * 2.4 * speed_mps * speed_mps / 2;
}
double torque_Nm(double force_N) {
    return force_N * lever_m / 0.94;
}

DutyOptions by_hand(double resistance) {
    DutyOptions options = on("graded");
    options.resistance = resistance;
    return options;
}

struct Row {
    double speed_mps = 20;
    double altitude_m = 0;
    double accuracy_m = 5;
    double north_m = 0;
};

/// Positions do not matter where speed is logged, but for jumps.
std::string track(double duration_s, double step_s, const std::function<Row(double)>& at) {
    std::string text = "time (s),lat,lon,altitude (m),speed (m/s),accuracy (m)\n";
    for (int i = 0; i * step_s < duration_s; ++i) {
        const Row row = at(i * step_s);
        text += fmt::format("{:.1f},{:.8f},-110,{:.2f},{:.3f},{}\n", i * step_s,
                            30 + deg_from_rad(row.north_m / 6371e3), row.altitude_m, row.speed_mps,
                            row.accuracy_m);
    }
    return text;
}

DutyAnswer steady(const DutyOptions& options, double grade = 0, double step_s = 0.1) {
    return read(track(700, step_s, [&](double t_s) { return Row{.altitude_m = grade * 20 * t_s}; }),
                options);
}

void check_thirds(const DutyAnswer& answer, double force_N) {
    REQUIRE(answer.legs.size() == 1);
    const std::vector<Bin>& bins = answer.legs[0].bins;
    REQUIRE(bins.size() == 3);
    for (std::size_t k = 0; k < 3; ++k) {
        CHECK(bins[k].share == rel(1.0 / 3, 1e-3));
        CHECK(bins[k].torque_Nm ==
              rel(torque_Nm(force_N) * (1.5 - 0.5 * static_cast<double>(k)), 1e-3));
        CHECK(bins[k].speed_rpm == rel(rpm_from_radps(20 / ((1 - graded_slip) * lever_m)), 1e-3));
    }
}

std::string gpx(const std::string& inside) {
    return "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\">\n" + inside + "</gpx>\n";
}

std::string gpx_point(int t_s, const std::string& inside) {
    return fmt::format(
        "<trkpt lat=\"30.{:07}\" lon=\"-110\"><time>2026-05-31T10:{:02}:{:02}Z</time>{}</trkpt>\n",
        t_s * 1800, t_s / 60, t_s % 60, inside);
}

}  // namespace

TEST_CASE(
    "track: ten points a second lose no bursts, a third of the time each at a half less and more") {
    // 0.1 of the weight and drag at 20 m/s; below full throttle the foot is uneven by a half.
    const DutyAnswer answer = steady(by_hand(0.1));
    check_thirds(answer, 0.1 * weight_N + drag_N(20));
    CHECK(answer.speed == SpeedSource::track);
    CHECK(answer.torque == TorqueSource::track);
    REQUIRE(answer.track);
    CHECK(answer.track->power_factor == 1);
    CHECK(answer.track->force_factor == 1);
    CHECK(answer.track->window_s == rel(0.5, 1e-9));
    CHECK(answer.coverage == rel(1, 1e-9));
    CHECK(answer.legs[0].distance_m == rel(14000, 1e-6));
    CHECK(answer.legs[0].peaks.empty());
    CHECK(answer.track->over_share == 0);
    const std::string event = event_text(answer);
    CHECK(event.find("load_source = \"track\"\noverload = 1.1\n") != std::string::npos);
    CHECK(event.find("# Peaks: none") != std::string::npos);
}

TEST_CASE("track: at 1 Hz the mean power is 1.06 of the slopes'") {
    // A constant force has no cube to raise less: all of it is 1.06.
    const DutyAnswer answer = steady(by_hand(0.1), 0, 1);
    check_thirds(answer, 1.06 * (0.1 * weight_N + drag_N(20)));
    CHECK(answer.track->force_factor == 1.04);
}

TEST_CASE("track: the two factors hold for mean power and cube mean of a force that changes") {
    // 20 m/s, on the level and then 0.1 up: twice the force.
    const auto cube_of = [](double step_s) {
        return track_test::does(read(track(1400, step_s,
                                           [](double t_s) {
                                               return Row{
                                                   .speed_mps = 20,
                                                   .altitude_m = t_s < 700 ? 0 : 2 * (t_s - 700)};
                                           }),
                                     by_hand(0.1))
                                    .legs);
    };
    const track_test::Does fast = cube_of(0.1);
    const track_test::Does slow = cube_of(1);
    CHECK(slow.power_W / fast.power_W == rel(1.06, 0.005));
    CHECK(slow.cube_Nm / fast.cube_Nm == rel(1.04, 0.005));
}

TEST_CASE("track: hills by the slope of altitude, metres climbed in steps of ten") {
    const double grade = 0.05;
    const DutyAnswer answer = steady(by_hand(0.1), grade);
    const double slope = std::sqrt(1 + grade * grade);
    check_thirds(answer, weight_N * (0.1 + grade) / slope + drag_N(20));
    CHECK(answer.track->altitude);
    CHECK(answer.track->climbed_m == near(700, 11));
}

TEST_CASE("track: rolling down a hill the engine brakes by a tenth of its power at most") {
    // 0.4 down: far more than 0.1 of resistance and drag together.
    const DutyAnswer answer = steady(by_hand(0.1), -0.4);
    REQUIRE(answer.legs.size() == 1);
    REQUIRE(answer.legs[0].bins.size() == 1);
    const double radps = 20 / ((1 - graded_slip) * lever_m);
    CHECK(answer.legs[0].bins[0].torque_Nm == rel(-0.1 * W_from_hp(850) / radps, 1e-3));
    CHECK(answer.coast_share == rel(1, 1e-9));
    CHECK(answer.track->climbed_m == 0);
    // A little down: the driveline's loss helps to brake.
    const DutyAnswer gentle = steady(by_hand(0.1), -0.13);
    const double slope = std::sqrt(1 + 0.13 * 0.13);
    const double force_N = weight_N * (0.1 - 0.13) / slope + drag_N(20);
    CHECK(gentle.legs[0].bins[0].torque_Nm == rel(0.94 * force_N * lever_m, 5e-3));
}

TEST_CASE("track: no more than the tyres or the engine give, counted and said above 5 %") {
    const double grade = 0.3;
    const DutyAnswer answer = steady(by_hand(0.4), grade);
    REQUIRE(answer.legs.size() == 1);
    REQUIRE(answer.legs[0].bins.size() == 1);
    CHECK(answer.legs[0].bins[0].torque_Nm ==
          rel(torque_Nm(graded_grip_N / std::sqrt(1 + grade * grade)), 1e-3));
    CHECK(answer.track->over_share == rel(1, 1e-9));
    CHECK(answer.track->by_grip);
    const std::string sentence = "the track asks more than this car has";
    CHECK(duty_screen(answer).find(sentence) != std::string::npos);
    CHECK(duty_screen(steady(by_hand(0.1))).find(sentence) == std::string::npos);
    DutyOptions weak = by_hand(0.4);
    weak.car->vehicle.engine_power_W = 100e3;
    const DutyAnswer slow = steady(weak);
    CHECK(!slow.track->by_grip);
    CHECK(slow.legs[0].bins[0].torque_Nm ==
          rel(torque_Nm(0.93 * 100e3 * 0.94 * 0.94 * (1 - graded_slip) / 20), 1e-3));
}

TEST_CASE("track: the same time again, jumps and places worse than 20 m are left out and counted") {
    std::string text = track(700, 1, [](double t_s) {
        return Row{.accuracy_m = t_s == 100 ? 20.1 : 20, .north_m = t_s == 200 ? 162.0 : 0};
    });
    text += "699.0,30,-110,0,20,5\n";
    const DutyAnswer answer = read(text, by_hand(0.1));
    CHECK(answer.duplicates == 1);
    CHECK(answer.track->jumps == 1);
    CHECK(answer.track->inaccurate == 1);
    CHECK(answer.gaps == 0);
    CHECK(answer.coverage == 1);
    CHECK(answer.legs[0].duration_s == rel(700, 1e-9));
    // 80 m in a second is no jump; a place that stays elsewhere is another piece after five.
    const DutyAnswer elsewhere =
        read(track(700, 1,
                   [](double t_s) {
                       return Row{.north_m = t_s < 300 ? 79 * (t_s == 150 ? 1.0 : 0.0) : 900};
                   }),
             by_hand(0.1));
    CHECK(elsewhere.track->jumps == 5);
    CHECK(elsewhere.gaps == 1);
}

TEST_CASE("track: beyond five seconds points are missing, driven on or paused where it stood") {
    const auto with_gap = [](double gap_s, double north_m) {
        std::string text = "time (s),lat,lon,speed (m/s)\n";
        for (int i = 0; i < 800; ++i) {
            const bool behind = i >= 400;
            text += fmt::format("{},{:.8f},-110,20\n", behind ? i + gap_s - 1 : i,
                                30 + deg_from_rad((behind ? north_m : 0) / 6371e3));
        }
        return text;
    };
    CHECK(read(with_gap(5, 100), by_hand(0.1)).gaps == 0);
    const DutyAnswer missing = read(with_gap(6, 100), by_hand(0.1));
    CHECK(missing.gaps == 1);
    CHECK(missing.gap_s == rel(5, 1e-9));
    CHECK(missing.unknown_s == rel(5, 1e-9));
    const DutyAnswer paused = read(with_gap(301, 0), by_hand(0.1));
    CHECK(paused.gaps == 0);
    CHECK(paused.coverage == 1);
    CHECK(paused.rest_s == rel(300, 1e-9));
    REQUIRE(paused.legs.size() == 3);
    CHECK(paused.legs[1].kind == LegKind::stop);
    CHECK(paused.legs[1].duration_s == rel(300, 1e-9));
}

TEST_CASE("track: a stop is 20 s below 0.8 m/s, or as --shortest-stop says") {
    const auto with_stop = [](double stop_s, double speed_mps) {
        return track(1000, 1, [&](double t_s) {
            return Row{.speed_mps = t_s >= 400 && t_s < 400 + stop_s ? speed_mps : 20};
        });
    };
    DutyOptions options = by_hand(0.1);
    CHECK(read(with_stop(20, 0.79), options).legs.size() == 3);
    CHECK(read(with_stop(19, 0.79), options).legs.size() == 1);
    CHECK(read(with_stop(20, 0.81), options).legs.size() == 1);
    options.shortest_stop_s = 30;
    CHECK(read(with_stop(20, 0.79), options).legs.size() == 1);
}

TEST_CASE("track: without a speed of its own from positions, standing where it comes nowhere") {
    std::string text = "time (s),lat,lon\n";
    double north_m = 0;
    for (int i = 0; i < 1000; ++i) {
        // It wanders by half a metre where it stands.
        const bool stands = i >= 500 && i < 600;
        const double wander_m = stands ? (i % 2 == 0 ? 0.5 : -0.5) : 0;
        text +=
            fmt::format("{},{:.9f},-110\n", i, 30 + deg_from_rad((north_m + wander_m) / 6371e3));
        north_m += stands ? 0 : 20;
    }
    const DutyAnswer answer = read(text, by_hand(0.1));
    CHECK(answer.speed == SpeedSource::places);
    CHECK(answer.track->power_factor == 1.10);
    CHECK(answer.track->force_factor == 1.07);
    CHECK(answer.track->window_s == 2);
    REQUIRE(answer.legs.size() == 3);
    CHECK(answer.legs[1].kind == LegKind::stop);
    CHECK(answer.legs[1].duration_s == near(100, 10));
    CHECK(answer.legs[0].distance_m / answer.legs[0].duration_s == rel(20, 0.02));
    CHECK(!answer.track->altitude);
    CHECK(duty_screen(answer).find("no altitude in the track") != std::string::npos);
}

TEST_CASE("track: the ground's resistance is the mean of a lap on the setup's course") {
    const DutyAnswer answer = steady(on("rough-desert"));
    // 0.065 of soil, and roughness of this tyre: 0.0914 over the lap (derived).
    CHECK(answer.track->resistance == near(0.0914, 0.0001));
    CHECK(answer.track->slip == 0.08);
    CHECK(answer.track->course == "rough-desert");
    CHECK(!answer.track->entered);
}

TEST_CASE("track: positions or speed and no torque make it one") {
    const std::string speeds = track(700, 1, [](double) { return Row{}; });
    std::string alone = "time (s),speed (m/s)\n";
    for (int i = 0; i < 700; ++i) alone += fmt::format("{},20\n", i);
    // Speed alone with a course is a track; with --resistance it is the level ground of before.
    CHECK(read(alone, on("graded")).torque == TorqueSource::track);
    CHECK(read(alone, by_hand(0.1)).torque == TorqueSource::road_load);
    std::string torque = "time (s),speed (m/s),lat,lon,case torque (Nm),case speed (rpm)\n";
    for (int i = 0; i < 700; ++i) torque += fmt::format("{},20,30,-110,300,2000\n", i);
    const DutyAnswer log = read(torque, on("graded"));
    CHECK(log.torque == TorqueSource::case_column);
    CHECK(!log.track);
    CHECK(log.left_over == std::vector<std::string>{"lat", "lon"});
    CHECK(duty_screen(read(speeds, on("graded"))).find("read as a phone's track") !=
          std::string::npos);
}

TEST_CASE("track: what cannot be read is refused with what to do") {
    const auto refused_with = [](const std::string& text, const DutyOptions& options,
                                 const std::string& words) {
        CAPTURE(words);
        const Error error = refused_by([&] { (void)read(text, options); });
        REQUIRE(error.problems().size() == 1);
        const Problem& problem = error.problems().front();
        CAPTURE(problem.text);
        CHECK((problem.text + problem.hint).find(words) != std::string::npos);
    };
    const std::string good = track(700, 1, [](double) { return Row{}; });
    refused_with(good, {}, "name a setup with its [vehicle]");
    DutyOptions no_ground = on("graded");
    no_ground.ground.reset();
    refused_with(good, no_ground, "what ground the track was driven on");
    refused_with(track(500, 1, [](double) { return Row{}; }), on("graded"), "drives for 8.3 min");
    refused_with(track(7000, 10, [](double) { return Row{}; }), on("graded"), "10 s apart");
    refused_with(track(900, 1, [](double t_s) { return Row{.accuracy_m = t_s < 300 ? 60.0 : 5}; }),
                 on("graded"), "was the phone in a pocket?");
    refused_with(track(900, 1, [](double) { return Row{.accuracy_m = 60}; }), on("graded"),
                 "was the phone in a pocket?");
    DutyOptions force = on("graded");
    force.force = true;
    CHECK(read(track(500, 1, [](double) { return Row{}; }), force).legs.size() == 1);
    refused_with(gpx("<rte><rtept lat=\"30\" lon=\"-110\"/></rte>"), on("graded"),
                 "a plan, not a drive");
    refused_with(gpx("<trk><trkseg><trkpt lat=\"30\" lon=\"-110\"/></trkseg></trk>"), on("graded"),
                 "a plan, not a drive");
    refused_with(gpx("<wpt lat=\"30\" lon=\"-110\"/>"), on("graded"), "no track in it");
    refused_with("<?xml version=\"1.0\"?>\n<kml></kml>\n", on("graded"), "no GPX");
    refused_with(gpx("<trk>"), on("graded"), "malformed");
    refused_with("<?xml version=\"1.0\"?>\n<!DOCTYPE gpx []>\n<gpx></gpx>\n", on("graded"),
                 "<! declarations");
    std::string deep;
    for (int i = 0; i < 100000; ++i) deep += "<a b='>'>";
    refused_with(gpx(deep), on("graded"), "deep in each other");
    refused_with(gpx("<trk><trkseg><trkpt lat=\"north\" lon=\"-110\"/></trkseg></trk>"),
                 on("graded"), "track point 1: lat = \"north\" is no number");
    refused_with(gpx("<trk><trkseg>" + gpx_point(0, "<time>noon</time>") + "</trkseg></trk>"),
                 on("graded"), "\"noon\" is no time");
}

TEST_CASE("track: altitudes that no engine climbs are asked about, and long stops") {
    const auto remark = [](const DutyAnswer& answer, const std::string& words) {
        return std::any_of(
            answer.remarks.begin(), answer.remarks.end(),
            [&](const std::string& one) { return one.find(words) != std::string::npos; });
    };
    // 0.25 up at 40 m/s is 284 kW; read as metres where it is in feet, 933 kW of 634.
    const auto climb = [](double times) {
        return track(700, 1, [&](double t_s) {
            return Row{.speed_mps = 40, .altitude_m = times * 10 * t_s};
        });
    };
    CHECK(!remark(read(climb(1), by_hand(0.1)), "is it in feet?"));
    CHECK(remark(read(climb(1 / foot_m), by_hand(0.1)), "is it in feet?"));
    DutyOptions feet = by_hand(0.1);
    feet.read.units["altitude"] = "ft";
    CHECK(!remark(read(climb(1 / foot_m), feet), "is it in feet?"));
    const std::string stop = track(
        4000, 1, [](double t_s) { return Row{.speed_mps = t_s >= 700 && t_s < 2600 ? 0.0 : 20}; });
    CHECK(remark(read(stop, by_hand(0.1)), "stop-1 lasts 0.5 h with the engine idling"));
}

TEST_CASE("track: GPX with speed in an extension or beside, namespaces, accuracy") {
    std::string inside = "<trk><name>day</name><trkseg>\n";
    for (int t = 0; t < 700; ++t)
        inside += gpx_point(
            t, t % 2 == 0
                   ? "<ele>10</ele><extensions><x:more><x:speed>20</x:speed></x:more></extensions>"
                   : "<ele>10</ele><speed>20</speed><hacc>5</hacc>");
    const DutyAnswer answer = read(gpx(inside + "</trkseg></trk>"), by_hand(0.1));
    CHECK(answer.track->gpx);
    CHECK(answer.track->points == 700);
    CHECK(answer.speed == SpeedSource::track);
    CHECK(answer.track->altitude);
    CHECK(answer.legs[0].distance_m == rel(14000, 1e-6));
    CHECK(duty_screen(answer).find("LAYOUT") == std::string::npos);
    CHECK(duty_json(answer, "e.toml").find("\"track\":{\"gpx\":true") != std::string::npos);
}

}  // namespace caseload::track_tests
