// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"
#include "caseload/pace_duties.hpp"
#include "pace/road.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <utility>

namespace caseload::pace {
namespace {

constexpr int styles = 5;
constexpr int grounds = 3;
static_assert(styles * grounds == course_duties);
// Middle of the upper third of a normal law.
constexpr double third_score = 0.967421566;
// From where to where roughness does not leave the kind of ground a course names; judgement.
constexpr double usual_ln_severity = 1.35;
// A pace that moves less between these is that of the course's highest speed; judgement.
constexpr double flat_ln = 0.05;
constexpr double rounding = 1e-9;

double style_at(const StyleLaw& law, double rank) {
    const auto [low, likely, high] = law;
    if (rank < (likely - low) / (high - low))
        return low + std::sqrt(rank * (high - low) * (likely - low));
    return high - std::sqrt((1 - rank) * (high - low) * (high - likely));
}

/// Where a rising or falling function is 0.
double zero_of(const std::function<double(double)>& of, double low, double high) {
    const double at_low = of(low);
    const double at_high = of(high);
    if (at_low == 0) return low;
    if (at_high == 0) return high;
    constexpr double tolerance = 1e-6;
    std::uintmax_t most = 100;
    const auto [from, to] = boost::math::tools::toms748_solve(
        of, low, high, at_low, at_high,
        [](double a, double b) { return std::fabs(b - a) < tolerance; }, most);
    return (from + to) / 2;
}

struct Way {
    Drive drive;
    double traffic = 1;
};

/// Drives of a car on a ground that have a pace.
class Met {
public:
    Met(const Car& car, const Ground& ground)
        : car_(car), ground_(ground), segments_(segments(ground)), road_(car, ground, segments_) {
        const auto ln_pace = [this](double ln_severity) {
            return std::log(road_.pace_mps({.severity = std::exp(ln_severity)}));
        };
        flat_ = ln_pace(-usual_ln_severity) - ln_pace(usual_ln_severity) < flat_ln;
    }

    [[nodiscard]] bool flat() const { return flat_; }
    [[nodiscard]] double pace_mps(const Drive& drive) const { return road_.pace_mps(drive); }

    /// None: even flat out on smooth ground it is slower.
    [[nodiscard]] std::optional<Way> at(Drive drive, double pace_mps) const {
        if (flat_) {
            drive.severity = 1;
            if (pace_mps <= road_.pace_mps(drive)) return in_traffic(drive, pace_mps);
            if (const auto harder = driven_harder(drive, pace_mps)) return Way{*harder};
        }
        drive.severity = severities.low;
        if (road_.pace_mps(drive) < pace_mps) {
            const auto harder = driven_harder(drive, pace_mps);
            return harder ? std::optional<Way>(Way{*harder}) : std::nullopt;
        }
        drive.severity = severities.high;
        if (road_.pace_mps(drive) > pace_mps) return in_traffic(drive, pace_mps);
        drive.severity = std::exp(zero_of(
            [&](double ln_severity) {
                Drive other = drive;
                other.severity = std::exp(ln_severity);
                return road_.pace_mps(other) / pace_mps - 1;
            },
            std::log(severities.low), std::log(severities.high)));
        return Way{drive};
    }
    [[nodiscard]] Way in_traffic(const Drive& drive, double pace_mps) const {
        const auto slower = [&](double ln_traffic) {
            return Road(car_, with_traffic(std::exp(ln_traffic)), segments_).pace_mps(drive) /
                       pace_mps -
                   1;
        };
        const double least = std::log(0.5 / ground_.cap_mps);  // the slowest cap of `lap`
        if (slower(least) >= 0) return {drive, std::exp(least)};
        if (slower(0) <= 0) return {drive};
        return {drive, std::exp(zero_of(slower, least, 0))};
    }
    [[nodiscard]] Lap lap(const Way& way) const {
        if (way.traffic == 1) return road_.lap(way.drive);
        return Road(car_, with_traffic(way.traffic), segments_).lap(way.drive);
    }

private:
    [[nodiscard]] Ground with_traffic(double traffic) const {
        Ground slower = ground_;
        slower.cap_mps *= traffic;
        return slower;
    }
    [[nodiscard]] std::optional<Drive> driven_harder(Drive drive, double pace_mps) const {
        constexpr double flat_out = 1;
        const auto faster = [&](double style) {
            Drive other = drive;
            other.style = style;
            return road_.pace_mps(other) / pace_mps - 1;
        };
        if (drive.style >= flat_out || faster(flat_out) < 0) return std::nullopt;
        drive.style = zero_of(faster, drive.style, flat_out);
        return drive;
    }

    const Car& car_;
    const Ground& ground_;
    std::vector<Segment> segments_;
    Road road_;
    bool flat_;
};

CourseDuty duty_of(const Way& way, const Lap& lap) {
    CourseDuty duty;
    duty.style = way.drive.style;
    duty.severity = way.drive.severity;
    duty.resistance_factor = way.drive.resistance_factor;
    duty.traffic = way.traffic;
    duty.pace_mps = lap.pace_mps;
    duty.fast_mps = lap.fast_mps;
    duty.highest_mps = lap.highest_mps;
    duty.highest_by = lap.highest_by;
    duty.engine_share = lap.shares.engine;
    duty.grip_share = lap.shares.grip;
    duty.ride_share = lap.shares.ride_and_slow;
    duty.brake_share = lap.shares.brake;
    duty.open_throttle_share = lap.shares.open_throttle;
    duty.drive_power_W = lap.work.drive / lap.time_s;
    duty.crank_W = lap.crank_W;
    duty.fuel_Lph = lap.fuel_Lph;
    duty.fuel_Lp100km = lap.fuel_Lp100km;
    duty.torque_mean_Nm = lap.torque_mean_Nm;
    duty.torque_cube_Nm = lap.torque_cube_Nm;
    duty.torque_874_Nm = lap.torque_874_Nm;
    return duty;
}

/// The pace each driver has: none where nothing says one.
std::optional<double> pace_of_each(const Met& met, const Known& known) {
    if (!known.pace_mps || !known.severity) return known.pace_mps;
    const double own_mps =
        met.pace_mps({.style = style_at(known.style, 0.5), .severity = *known.severity});
    const bool traffic = met.flat() || *known.severity >= severities.high * (1 - rounding);
    return traffic ? std::min(own_mps, *known.pace_mps) : own_mps;
}

/// Of each style each ground; none where the pace is out of reach.
std::optional<std::vector<Way>> ways(const Met& met, const Known& known) {
    const std::optional<double> pace_mps = pace_of_each(met, known);
    std::vector<Way> all;
    for (int style = 0; style < styles; ++style)
        for (int k = 0; k < grounds; ++k) {
            const double score = third_score * (k - grounds / 2);
            Drive drive{.style = style_at(known.style, (style + 0.5) / styles)};
            if (known.pace_mps || known.severity)
                drive.resistance_factor = std::exp(resistance_sd * score);
            else
                drive.severity = std::exp(severity_sd * score);
            if (known.severity) drive.severity = *known.severity;
            const bool likely = style == styles / 2 && k == grounds / 2;
            const bool on_its_ground =
                likely && known.severity && pace_mps && met.pace_mps(drive) == *pace_mps;
            if (!pace_mps || on_its_ground) {
                all.push_back({drive});
                continue;
            }
            std::optional<Way> way = met.at(drive, *pace_mps);
            // A soil so heavy that nobody has this pace on it is not this one.
            if (!way && k > grounds / 2) {
                drive.resistance_factor = 1;
                way = met.at(drive, *pace_mps);
            }
            if (!way) return std::nullopt;
            all.push_back(*way);
        }
    return all;
}

}  // namespace

std::optional<std::vector<CourseDuty>> duties(const Car& car, const Ground& ground,
                                              const Known& known) {
    if (known.severity) require_within(*known.severity, severities, "severity");
    if (known.pace_mps) require_within(*known.pace_mps, {0.05, 150}, "pace_mps");
    const Met met(car, ground);
    const std::optional<std::vector<Way>> all = ways(met, known);
    if (!all) return std::nullopt;
    std::vector<Lap> laps;
    laps.reserve(all->size());
    std::vector<CourseDuty> found;
    for (const Way& way : *all) {
        laps.push_back(met.lap(way));
        found.push_back(duty_of(way, laps.back()));
    }
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < found.size(); ++i)
        if (i != course_duties / 2) order.push_back(i);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return found[a].drive_power_W < found[b].drive_power_W;
    });
    // Usual driver and ground, wherever their power lies among the others.
    order.insert(order.begin() + course_duties / 2, course_duties / 2);
    for (std::size_t drawn = 0; drawn < drawn_duties; ++drawn) {
        const std::size_t i = order[place_of_drawn(drawn)];
        found[i].bins = bins_of(laps[i]);
    }
    std::vector<CourseDuty> sorted;
    sorted.reserve(found.size());
    for (const std::size_t i : order) sorted.push_back(std::move(found[i]));
    return sorted;
}

}  // namespace caseload::pace
