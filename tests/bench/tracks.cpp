// SPDX-License-Identifier: MIT
// How far the duty of a track is off: caseload_tracks [SEEDS]. Laps of every course recorded in
// several ways with a phone's noise; a line each, means over the seeds.
#include "duty/track_of_lap.hpp"
#include "input/segment_duty.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

using namespace caseload;

namespace {

struct Way {
    const char* words;
    track_test::Recorder recorder;
    double mass = 1;   ///< of the setup over the car's
    double power = 1;  ///< the same
};

void print(const std::string& on_course, const Way& way, int seeds) {
    const duty::Car driven = track_test::truck();
    duty::Car believed = driven;
    believed.vehicle.mass_kg *= way.mass;
    believed.vehicle.engine_power_W *= way.power;
    const duty::DutyOptions options = track_test::on(on_course, believed);
    const pace::Car car =
        input::segment_car(driven.vehicle, driven.drop_ratio, driven.air_density_kgpm3);
    const pace::Lap lap = pace::lap(car, options.ground->ground, {});
    const track_test::Course course(lap, pace::segments(options.ground->ground));
    const track_test::Does truth = track_test::does(lap);
    double power = 0;
    double cube = 0;
    double over = 0;
    for (int seed = 1; seed <= seeds; ++seed) {
        track_test::Recorder recorder = way.recorder;
        recorder.seed = static_cast<unsigned>(seed);
        const duty::DutyAnswer answer = duty_test::read(
            track_test::csv_of(track_test::fixes_of(course, lap.way_m, recorder), recorder),
            options);
        const track_test::Does found = track_test::does(answer.legs);
        power += (found.power_W / truth.power_W - 1) / seeds;
        cube += (found.cube_Nm / truth.cube_Nm - 1) / seeds;
        over += answer.track->over_share / seeds;
    }
    std::printf("%-13s %-18s power %+5.1f %%  cube mean %+5.1f %%  beyond the car %4.1f %%\n",
                on_course.c_str(), way.words, 100 * power, 100 * cube, 100 * over);
}

}  // namespace

int main(int argc, char** argv) {
    const int seeds = argc > 1 ? std::atoi(argv[1]) : 5;
    const Way ways[] = {{"1 Hz", {}},
                        {"without noise", {.noise = 0}},
                        {"positions alone", {.speed = false}},
                        {"no altitude", {.altitude = false}},
                        {"10 Hz", {.rate_Hz = 10}},
                        {"0.5 Hz", {.rate_Hz = 0.5}},
                        {"half the power", {}, 1, 0.5},
                        {"1.3 of the mass", {}, 1.3, 1}};
    for (const char* const course :
         {"rough-desert", "forest", "graded", "sand", "rock", "hard-road"})
        for (const Way& way : ways) print(course, way, seeds);
}
