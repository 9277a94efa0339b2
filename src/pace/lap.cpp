// SPDX-License-Identifier: MIT
// One lap: backwards for the speed that brakes still bring down, then forwards.
#include "caseload/error.hpp"
#include "caseload/pace.hpp"
#include "caseload/units.hpp"
#include "pace/road.hpp"
#include "pace/sums.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload::pace {
namespace {

// Judgement: wheels leave the ground and the tyre bridges short waves (0.08 to 0.20).
constexpr double most_rough_resistance = 0.12;
constexpr double usual_grip = 0.6;  // at which a course's own grip is entered
// Of the numbers: half the length moves pace by less than 0.2 %.
constexpr double cells_of_mean = 60;
constexpr Limits cell_m{0.5, 20};
constexpr double least_limit_mps = 0.4;
constexpr double least_slow_mps = 0.3;
constexpr double step_m = 1;
constexpr double standing_mps = 0.5;  // power over speed goes no further down
constexpr int rounds = 2;             // the second begins at the speed of the first's end

void check(const Ground& ground) {
    require_within(ground.slow_spots_pkm, {0.05, 200}, "slow_spots_pkm");
    require_within(ground.grip, {0.05, 1.5}, "grip");
    require_within(ground.slip, {0, 0.5}, "slip");
    require_within(ground.cap_mps, {0.5, 120}, "cap_mps");
    if (ground.throttle) require_within(*ground.throttle, {0.05, 1}, "throttle");
    require_within(ground.unevenness, {0, 2}, "unevenness");
    require_within(ground.step, {0, 1}, "step");
}

void check(const Segment& segment) {
    require_within(segment.length_m, {0.5, 1e6}, "length_m");
    require_within(segment.roughness_m3, {1e-7, 1e3}, "roughness_m3");
    require_within(segment.resistance, {0, 1}, "resistance");
    require_within(segment.grade, {-1, 1}, "grade");
    require_within(segment.slow_mps, {0.001, 1e4}, "slow_mps");
}

void check(const Drive& drive) {
    require_within(drive.severity, {0.04, 13}, "severity");
    require_within(drive.resistance_factor, {0.2, 5}, "resistance_factor");
    require_within(drive.grip_factor, {0.2, 5}, "grip_factor");
}

}  // namespace

Road::Road(const Car& car, const Ground& ground, std::vector<Segment> segments)
    : car_(car),
      ground_(ground),
      segments_(std::move(segments)),
      ride_(ride(car)),
      engine_((check(ground), FullLoad(car, ground.slip))),
      weight_N_(car.mass_kg * g_mps2),
      half_drag_(car.air_density_kgpm3 * car.drag_area_m2 / 2),
      moving_kg_(car.mass_kg * rotating_mass_factor(car)),
      engine_to_ground_(car.to_case * car.to_ground * (1 - ground.slip)),
      least_mps_(ground.step > 0 ? 0.3 : 0.8) {
    require_positive(static_cast<double>(segments_.size()), "number of segments");
    for (const Segment& segment : segments_) check(segment);
}

std::vector<Road::Cell> Road::cells_of(const Drive& drive, const Style& style) const {
    const double over_usual = car_.grip / usual_grip * drive.grip_factor;
    const double grip = ground_.grip * over_usual;
    const double driven = car_.rear_only ? usual_rear_share.usual : 1;
    const double aim_m =
        std::clamp(1000 / ground_.slow_spots_pkm / cells_of_mean, cell_m.low, cell_m.high);
    const double anywhere_mps = std::min(ground_.cap_mps * style.corner, engine_.limiter_mps());
    double way_m = 0;
    for (const Segment& segment : segments_) way_m += segment.length_m;
    std::vector<Cell> cells;
    cells.reserve(static_cast<std::size_t>(way_m / aim_m) + 2 * segments_.size());
    for (const Segment& segment : segments_) {
        const double roughness_m3 = segment.roughness_m3 * drive.severity;
        const double pull_share =
            segment.resistance * drive.resistance_factor +
            std::min(ride_.resistance_pm3 * roughness_m3, most_rough_resistance);
        const double count = std::max(2.0, std::floor(segment.length_m / aim_m));
        Cell cell{};
        cell.length_m = segment.length_m / count;
        cell.limit_mps = std::max(
            least_limit_mps, std::min(ride_.limit_m4ps / roughness_m3 * style.ride, anywhere_mps));
        cell.pull_share = pull_share;
        cell.brake_mps2 = g_mps2 * (style.brake * grip + pull_share / 2);
        const auto lies_at = [&](double grade) {
            const double cosine = 1 / std::sqrt(1 + grade * grade);
            cell.soil_N = weight_N_ * pull_share * cosine;
            cell.climb_N = weight_N_ * grade * cosine;
            cell.grip_N = grip * weight_N_ * cosine * driven;
        };
        const int all = static_cast<int>(count);
        int on_step = 0;
        if (ground_.step > 0)
            on_step =
                std::min(all, std::max(1, static_cast<int>(std::round(step_m / cell.length_m))));
        lies_at(segment.grade);
        for (int i = 0; i < all; ++i) {
            if (i == all - on_step) lies_at(segment.grade + ground_.step);
            cells.push_back(cell);
        }
        cells.back().limit_mps = std::min(
            cell.limit_mps,
            std::max(least_slow_mps, segment.slow_mps * style.corner * std::sqrt(over_usual)));
    }
    return cells;
}

std::vector<double> Road::backwards(const std::vector<Cell>& cells) const {
    std::vector<double> speeds_mps(cells.size());
    double next_mps = cells.front().limit_mps;
    for (int round = 0; round < rounds; ++round)
        for (std::size_t i = cells.size(); i-- > 0;) {
            const Cell& cell = cells[i];
            next_mps = std::min(cell.limit_mps, std::sqrt(next_mps * next_mps +
                                                          2 * cell.length_m * cell.brake_mps2));
            speeds_mps[i] = next_mps;
        }
    return speeds_mps;
}

Road::Passed Road::pass(const Cell& cell, const Bounds& bounds) const {
    const auto [from_mps, next_mps, push] = bounds;
    Passed passed{};
    passed.from_mps = from_mps;
    const double from2 = from_mps * from_mps;
    double at_mps = from_mps;
    for (int stage = 0; stage < 2; ++stage) {
        passed.resistance_N = cell.soil_N + cell.climb_N + half_drag_ * at_mps * at_mps;
        const double power_mps = std::max(at_mps, standing_mps);
        const double engine_N = engine_.power_W(power_mps) * engine_to_ground_ / power_mps;
        passed.engine_limited = engine_N < cell.grip_N;
        passed.most_N = std::min(engine_N, cell.grip_N);
        const double surplus_N = passed.most_N - passed.resistance_N;
        passed.force_N = surplus_N > 0 ? passed.resistance_N + surplus_N * push : passed.most_N;
        passed.to_mps = std::sqrt(std::max(
            from2 + 2 * cell.length_m * (passed.force_N - passed.resistance_N) / moving_kg_,
            least_mps_ * least_mps_));
        passed.full = passed.to_mps <= next_mps;
        if (!passed.full) passed.to_mps = next_mps;
        at_mps = (from_mps + passed.to_mps) / 2;
    }
    if (!passed.full)
        passed.force_N = passed.resistance_N +
                         moving_kg_ * (passed.to_mps * passed.to_mps - from2) / (2 * cell.length_m);
    return passed;
}

std::vector<Road::Passed> Road::forwards(const std::vector<Cell>& cells,
                                         const std::vector<double>& speeds_mps, double push) const {
    std::vector<Passed> passed(cells.size());
    double from_mps = speeds_mps.back();
    for (int round = 0; round < rounds; ++round)
        for (std::size_t i = 0; i < cells.size(); ++i) {
            // From a speed that the round before had here as well, all goes on as it did.
            if (round > 0 && passed[i].from_mps == from_mps) break;
            passed[i] =
                pass(cells[i], {from_mps, speeds_mps[i + 1 < cells.size() ? i + 1 : 0], push});
            from_mps = passed[i].to_mps;
        }
    return passed;
}

Fastest Road::limit_of(const Top& top, const Style& style) const {
    constexpr double reached = 0.9999;
    if (top.speed_mps < reached * top.limit_mps) return Fastest::power;
    if (top.limit_mps >= engine_.limiter_mps()) return Fastest::limiter;
    return top.limit_mps >= ground_.cap_mps * style.corner ? Fastest::cap : Fastest::ride;
}

Lap Road::lap(const Drive& drive) const {
    check(drive);
    const Style style = style_of(drive.style);
    const std::vector<Cell> cells = cells_of(drive, style);
    const std::vector<double> speeds_mps = backwards(cells);
    const double push = style.push * ground_.throttle.value_or(1);
    const std::vector<Passed> round = forwards(cells, speeds_mps, push);
    Sums sums(car_, ground_, style, cells.size());
    Top top;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const Cell& cell = cells[i];
        const Passed& passed = round[i];
        sums.add({cell.length_m, passed.from_mps, passed.to_mps, passed.force_N, passed.most_N,
                  passed.resistance_N, cell.soil_N, cell.climb_N, cell.pull_share, passed.full,
                  passed.engine_limited});
        if (passed.to_mps > top.speed_mps)
            top = {passed.to_mps, cells[i + 1 < cells.size() ? i + 1 : 0].limit_mps};
    }
    Lap lap = sums.lap();
    lap.highest_mps = top.speed_mps;
    lap.highest_by = limit_of(top, style);
    return lap;
}

double Road::pace_mps(const Drive& drive) const {
    check(drive);
    const Style style = style_of(drive.style);
    const std::vector<Cell> cells = cells_of(drive, style);
    const std::vector<double> speeds_mps = backwards(cells);
    const std::vector<Passed> round =
        forwards(cells, speeds_mps, style.push * ground_.throttle.value_or(1));
    double way_m = 0;
    double time_s = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        way_m += cells[i].length_m;
        time_s += cells[i].length_m / ((round[i].from_mps + round[i].to_mps) / 2);
    }
    return way_m / time_s;
}

Lap lap(const Car& car, const Ground& ground, const std::vector<Segment>& segments,
        const Drive& drive) {
    return Road(car, ground, segments).lap(drive);
}

Lap lap(const Car& car, const Ground& ground, const Drive& drive) {
    return lap(car, ground, segments(ground), drive);
}

}  // namespace caseload::pace
