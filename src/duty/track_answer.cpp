// SPDX-License-Identifier: MIT
// Motion of a track as torque and speed of the case.
#include "bins/measures.hpp"
#include "caseload/error.hpp"
#include "duty/answer.hpp"
#include "duty/legs.hpp"
#include "duty/tooth_damage.hpp"
#include "duty/track.hpp"
#include "duty/track_forces.hpp"
#include "input/segment_duty.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

namespace caseload::duty {
namespace {

constexpr double shortest_track_stop_s = 20;  // judgement
// Where a resistance is entered and no course: what an own course has. Judgement.
constexpr double usual_slip = 0.06;
constexpr double usual_ground_grip = 0.55;
constexpr double slow_points_s = 1.5;
// Bursts of 2 to 4 s that the slope smooths away; faster than 5 Hz none. Of laps of the segment
// model at 1 Hz on four courses: a slope over a sample to each side takes 5 to 10 % off the mean
// power and 2 to 7 % off the cube mean of the force, over two 9 to 17 % and 6 to 12 % (derived
// here); the smaller ends, judgement, 1.0 to 1.12.
constexpr LostBursts lost_logged{1.06, 1.04};
constexpr LostBursts lost_places{1.10, 1.07};
constexpr double no_loss_from_Hz = 5;

OnGround on_ground(const DutyOptions& options, const pace::Car& car) {
    OnGround ground;
    ground.slip = usual_slip;
    ground.grip = usual_ground_grip;
    ground.unevenness = pace::style_of(0).unevenness;
    if (options.ground) {
        const pace::Ground& course = options.ground->ground;
        ground.slip = course.slip;
        ground.grip = course.grip;
        ground.unevenness *= course.unevenness;
        ground.part_throttle = course.throttle.has_value();
        // Mean over a lap of it: soil, and what roughness takes on this car's tyres.
        if (!options.resistance) ground.resistance = pace::lap(car, course, {}).resistance;
    }
    if (options.resistance) ground.resistance = *options.resistance;
    return ground;
}

[[noreturn]] void refuse_track(const DutyAnswer& answer, std::string text, std::string hint) {
    throw Error(Error::Kind::input,
                {Problem{{answer.file, 0, 0, 0, {}}, std::move(text), std::move(hint)}});
}

void require_car(const DutyOptions& options, const DutyAnswer& answer) {
    if (!options.car || !options.car->vehicle.known())
        refuse_track(answer,
                     "a track has no torque: it follows from the car's mass, power and tyres",
                     "name a setup with its [vehicle]: --setup SETUP");
    if (!options.ground && !options.resistance)
        refuse_track(answer, "the setup does not say what ground the track was driven on",
                     "write event.course = \"rough-desert\" (or another course) into the setup, or "
                     "give --resistance 0.09 of the weight");
}

/// Throws where too little of the track can be used.
void require_track(const DutyAnswer& answer, double moving_s, bool force) {
    const TrackFacts& track = *answer.track;
    if (!(answer.coverage >= least_coverage) && !force)
        refuse_track(
            answer,
            fmt::format(
                "only {:.1f} % of the track's time can be used, {:.0f} % is wanted: {:.0f} "
                "s in gaps, the longest {:.0f} s, {:.0f} s at its ends; of {} points {} are less "
                "accurate than 20 m, {} lie further on than a car goes, {} lack a place "
                "or speed",
                100 * answer.coverage, 100 * least_coverage, answer.gap_s, answer.longest_gap_s,
                answer.excluded_s, track.points, track.inaccurate, track.jumps, track.lacking),
            track.inaccurate + track.jumps > track.points / 20
                ? "was the phone in a pocket? --force takes it all the same"
                : "did its clock jump? Cut the file there; --force takes it all the same");
    check_lengths(answer.legs, answer.file);
    const bool drives = std::any_of(answer.legs.begin(), answer.legs.end(),
                                    [](const LegInput& leg) { return leg.kind == LegKind::drive; });
    if (moving_s < shortest_track_s && !(force && drives && moving_s >= 1))
        refuse_track(answer,
                     fmt::format("the track drives for {:.1f} min; {:.0f} min is the least that "
                                 "says something of a duty",
                                 moving_s / 60, shortest_track_s / 60),
                     drives ? "--force takes it all the same" : "is it a track of this car?");
}

void add_gap(const MotionPiece& piece, double before_mps, double after_mps, Legs& legs,
             DutyAnswer& answer) {
    const double mean_mps = piece.gap_m ? *piece.gap_m / piece.gap_s : (before_mps + after_mps) / 2;
    if (mean_mps < 0.8) {
        // Phones pause where the car stands: it came nowhere.
        State rest;
        rest.dt_s = piece.gap_s;
        rest.road_mps = mean_mps;
        rest.stands = true;
        legs.add(rest);
        answer.rest_s += piece.gap_s;
        return;
    }
    legs.unknown(piece.gap_s, mean_mps * piece.gap_s);
    ++answer.gaps;
    answer.gap_s += piece.gap_s;
    answer.longest_gap_s = std::max(answer.longest_gap_s, piece.gap_s);
}

void add_pieces(const Motion& motion, const TrackForces& forces, Legs& legs, DutyAnswer& answer) {
    double last_mps = 0;
    for (const MotionPiece& piece : motion.pieces) {
        if (piece.gap_s > 0)
            add_gap(piece, last_mps, piece.samples.empty() ? 0 : piece.samples.front().speed_mps,
                    legs, answer);
        for (const TrackSample& sample : piece.samples) {
            forces.add(sample, legs);
            answer.logged_s += sample.dt_s;
            last_mps = sample.speed_mps;
        }
        answer.samples += piece.samples.size();
    }
    legs.finish();
}

void track_remarks(const DutyAnswer& answer, std::vector<std::string>& remarks) {
    const TrackFacts& track = *answer.track;
    if (answer.median_dt_s > slow_points_s)
        remarks.push_back(fmt::format(
            "points are {:.3g} s apart: bursts of 2 to 4 s are lost, more than the factors give "
            "back; record a point a second",
            answer.median_dt_s));
    if (track.steep_share > 0.01)
        remarks.push_back(
            fmt::format("for {:.0f} % of the driving time the altitude rises faster than this "
                        "engine can lift the car: is it in feet? --unit altitude=ft",
                        100 * track.steep_share));
    constexpr double long_stop_s = 1800;
    for (const LegInput& leg : answer.legs)
        if (leg.kind == LegKind::stop && leg.duration_s > long_stop_s) {
            remarks.push_back(fmt::format(
                "{} lasts {:.1f} h with the engine idling: write engine = \"off\" into the event "
                "if it was",
                leg.name, leg.duration_s / 3600));
            break;
        }
}

}  // namespace

void answer_track(const std::vector<TrackPoint>& points, const DutyOptions& options,
                  DutyAnswer& answer) {
    answer.track.emplace();
    TrackFacts& facts = *answer.track;
    facts.points = points.size();
    require_car(options, answer);
    const CleanTrack track = clean_track(points, answer.file);
    const Motion motion = motion_of(track);
    const pace::Car car = input::segment_car(options.car->vehicle, options.car->drop_ratio,
                                             options.car->air_density_kgpm3);
    const OnGround ground = on_ground(options, car);
    const bool fast_points = track.median_dt_s * no_loss_from_Hz < 1;
    const LostBursts lost = fast_points          ? LostBursts{}
                            : track.speed_logged ? lost_logged
                                                 : lost_places;
    TrackForces forces(car, ground, motion);
    forces.measure(motion, lost, facts);
    const bins::Measures measures(
        options.setup ? std::make_shared<ToothDamage>(*options.setup, track_overload) : nullptr);
    Legs legs(options.shortest_stop_s.value_or(shortest_track_stop_s), measures, answer.file);
    add_pieces(motion, forces, legs, answer);

    answer.speed = track.speed_logged ? SpeedSource::track : SpeedSource::places;
    answer.torque = TorqueSource::track;
    answer.median_dt_s = track.median_dt_s;
    answer.slowest_step_s = track.median_dt_s;
    answer.duplicates = track.duplicates;
    answer.late = track.late;
    answer.restarts = track.restarts;
    answer.excluded_s = track.ends_s;
    const double all_s = answer.logged_s + answer.gap_s + answer.excluded_s;
    answer.coverage = all_s > 0 ? answer.logged_s / all_s : 0;
    facts.lacking = track.lacking;
    facts.inaccurate = track.inaccurate;
    facts.jumps = track.jumps;
    facts.altitude = track.altitude;
    facts.climbed_m = motion.climbed_m;
    if (options.ground) facts.course = options.ground->course;
    facts.resistance = ground.resistance;
    facts.entered = options.resistance.has_value();
    facts.slip = ground.slip;
    facts.window_s = motion.window_s;
    facts.power_factor = lost.power_factor;
    facts.force_factor = lost.force_factor;
    take_legs(legs, measures, answer);
    // Peaks of parts of a sample are none of the car's.
    for (LegInput& leg : answer.legs) leg.peaks.clear();
    answer.largest_ranges_Nm.clear();
    track_remarks(answer, answer.remarks);
    require_track(answer, legs.moving_s(), options.force);
}

}  // namespace caseload::duty
