// SPDX-License-Identifier: MIT
#include "input/segment_duty.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/kinds.hpp"
#include "caseload/units.hpp"
#include "input/courses.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <deque>
#include <mutex>
#include <optional>
#include <utility>
#include <vector>

namespace caseload::input {
namespace {

/// Lower heating value and what an engine on it makes of it. Petrol: the segment model's own.
struct Burnt {
    double MJpL;
    double drag;  ///< of rated power
    double part_load;
    double full_load;
};

Burnt burnt(Fuel fuel) {
    const pace::Car usual;
    Burnt result{usual.fuel_MJpL, usual.engine_drag, usual.part_load_efficiency,
                 usual.full_load_efficiency};
    // From memory.
    switch (fuel) {
        case Fuel::petrol:
            break;
        case Fuel::race_petrol:
            result.MJpL = 31.5;
            break;
        case Fuel::e85:
            result.MJpL = 22.5;
            break;
        case Fuel::methanol:
            result.MJpL = 15.8;
            break;
        case Fuel::diesel:
            result = {35.8, 0.05, 0.40, 0.40};
            break;
    }
    return result;
}

pace::Gearbox gearbox_of(const VehicleInput& vehicle) {
    constexpr std::size_t most_of_automatic = 3;
    pace::Gearbox gearbox;
    gearbox.ratios = vehicle.gearbox;
    gearbox.converter = vehicle.gearbox_kind ? *vehicle.gearbox_kind == GearboxKind::automatic
                                             : vehicle.gearbox.size() <= most_of_automatic;
    gearbox.turbo = vehicle.fuel == Fuel::diesel;
    gearbox.limiter_rpm = vehicle.engine_limit_rpm;
    gearbox.rated_rpm = vehicle.rated_rpm;
    gearbox.full_load = vehicle.engine_torque;
    return gearbox;
}

/// Styles of a word and of none: triangular, judgement.
pace::StyleLaw style_law(const std::string& word) {
    if (word.empty()) return {};
    constexpr double reach = 0.5;
    double likely = 0;
    if (word == words_for(DrivingStyle::finish).key) likely = -0.7;
    if (word == words_for(DrivingStyle::flat_out).key) likely = 0.7;
    return {likely - reach, likely, likely + reach};
}

/// The same car on the same ground is asked for again by every setup that differs elsewhere.
class Remembered {
public:
    using Duties = std::optional<std::vector<CourseDuty>>;

    Duties duties(const pace::Car& car, const pace::Ground& ground, const pace::Known& known) {
        {
            const std::lock_guard<std::mutex> lock(mutex_);
            for (const One& one : all_)
                if (one.car == car && one.ground == ground && one.known == known) return one.duties;
        }
        Duties found = pace::duties(car, ground, known);
        const std::lock_guard<std::mutex> lock(mutex_);
        all_.push_front({car, ground, known, found});
        constexpr std::size_t most = 24;
        if (all_.size() > most) all_.pop_back();
        return found;
    }

private:
    struct One {
        pace::Car car;
        pace::Ground ground;
        pace::Known known;
        Duties duties;
    };
    std::mutex mutex_;
    std::deque<One> all_;
};

Remembered& remembered() {
    static Remembered all;
    return all;
}

/// Never rounded up.
std::string kmph_words(double pace_mps) {
    const double kmph = kmph_from_mps(pace_mps);
    return kmph >= 10 ? fmt::format("{:.0f} km/h", std::floor(kmph))
                      : fmt::format("{:.1f} km/h", std::floor(10 * kmph) / 10);
}

double ratio_of(const std::vector<int>& teeth) {
    return static_cast<double>(teeth.back()) / teeth.front();
}

class Calculation {
public:
    Calculation(Completed& from, const Setup& setup, LegInput& leg, const std::string& heading)
        : from_(from), leg_(leg), heading_(heading), ground_(course(leg.course).ground) {
        const bool fitted = leg.set.empty() || leg.set == setup.gears.fitted_name;
        car_ =
            segment_car(setup, ratio_of(fitted ? setup.gears.teeth : setup.sets.at(leg.set).teeth));
        known_.style = style_law(text("style"));
        const Item* distance = item("distance");
        if (const Item* pace = item("pace")) known_.pace_mps = pace->number;
        if (distance != nullptr && leg.duration_s > 0)
            known_.pace_mps = distance->number / leg.duration_s;
        const Item* severity = item("ground_severity");
        // What the event says of all legs is no news to one that has its pace.
        if (severity == nullptr && !known_.pace_mps) severity = from.find("event.ground_severity");
        if (severity != nullptr) known_.severity = severity->number;
    }

    void run() {
        const auto duties = remembered().duties(car_, ground_, known_);
        if (!duties) return refuse();
        leg_.calculated = *duties;
        leg_.pace_said = known_.pace_mps.has_value();
        const CourseDuty& likely = leg_.calculated[place_of_drawn(likely_duty)];
        leg_.course_pace_mps = likely.pace_mps;
        way_and_time();
        say_unusual(likely);
    }

private:
    /// Of the leg itself, else what the event says of all.
    [[nodiscard]] const Item* item(const char* key) const {
        return from_.find(fmt::format("{}.{}", heading_, key));
    }
    [[nodiscard]] std::string text(const char* key) const {
        const std::string own = from_.text(fmt::format("{}.{}", heading_, key));
        return own.empty() ? from_.text(fmt::format("event.{}", key)) : own;
    }

    /// A distance stays where it is entered: on other ground, or with another car, the hours move.
    void way_and_time() {
        const Item* distance = item("distance");
        if (distance == nullptr) {
            leg_.distance_m = leg_.course_pace_mps * leg_.duration_s;
            return;
        }
        leg_.distance_m = distance->number;
        if (leg_.duration_s <= 0 || known_.severity)
            leg_.duration_s = leg_.distance_m / leg_.course_pace_mps;
    }

    void refuse() {
        const double most_mps = pace::fastest_pace_mps(car_, ground_);
        const std::string key = heading_ + (item("distance") != nullptr ? ".distance" : ".pace");
        const std::string other =
            item("distance") != nullptr
                ? fmt::format("write {} = \"{:.0f} km\" or less", key,
                              std::floor(most_mps * leg_.duration_s / 1000))
                : fmt::format("write {} = \"{}\" or less", key, kmph_words(most_mps));
        from_.problem(
            key,
            fmt::format("{}: {:.0f} km/h on {}: this car does at most {} there, even "
                        "where it is smooth",
                        key, kmph_from_mps(*known_.pace_mps), leg_.course, kmph_words(most_mps)),
            fmt::format("{}, or check mass, power and wheel travel under [vehicle], or "
                        "another course",
                        other));
    }

    void say_unusual(const CourseDuty& likely) {
        if (!leg_.pace_said) return;
        if (known_.severity) {
            if (item("ground_severity")->origin != Origin::changed)
                from_.note("input.ground", heading_,
                           fmt::format("{}: on the ground where another car had {:.1f} km/h this "
                                       "one has {:.1f} km/h",
                                       heading_, kmph_from_mps(*known_.pace_mps),
                                       kmph_from_mps(likely.pace_mps)));
            return;
        }
        constexpr double usual_ln_severity = 1.35;
        const double ln_severity = std::log(likely.severity);
        const double said_kmph = kmph_from_mps(*known_.pace_mps);
        std::string words;
        if (likely.traffic < 1)
            words = fmt::format(
                "{:.0f} km/h is slower than this car on {}: taken as traffic that "
                "keeps it below {:.0f} km/h",
                said_kmph, leg_.course, kmph_from_mps(likely.highest_mps));
        else if (ln_severity < -usual_ln_severity)
            words = fmt::format(
                "{:.0f} km/h needs ground {:.1f} times smoother than {} usually "
                "is: did you mean another course, or a slower pace?",
                said_kmph, 1 / likely.severity, leg_.course);
        else if (ln_severity > usual_ln_severity)
            words = fmt::format(
                "{:.0f} km/h means ground {:.1f} times rougher than {} usually is: "
                "did you mean another course, or a faster pace?",
                said_kmph, likely.severity, leg_.course);
        if (!words.empty()) from_.note("ask.ground", heading_, heading_ + ": " + words);
    }

    Completed& from_;
    LegInput& leg_;
    const std::string& heading_;
    const pace::Ground& ground_;
    pace::Car car_;
    pace::Known known_;
};

}  // namespace

pace::Car segment_car(const VehicleInput& vehicle, double case_ratio, double air_density_kgpm3) {
    pace::Car car;
    car.mass_kg = vehicle.mass_kg;
    car.tyre_m =
        vehicle.tyre_m > 0 ? vehicle.tyre_m : vehicle.rolling_radius_m / pace::usual_rolling_share;
    car.rolling_radius_m = vehicle.rolling_radius_m;
    // Left out where no course is calculated: a track says itself how fast the ground was.
    constexpr double race_travel_mm = 600;  // as vehicle.suspension: judgement
    car.wheel_travel_m =
        m_from_mm(vehicle.wheel_travel_mm > 0 ? vehicle.wheel_travel_mm : race_travel_mm);
    car.engine_power_W = vehicle.engine_power_W;
    car.axle_ratio = vehicle.axle_ratio;
    car.case_ratio = case_ratio;
    car.drag_area_m2 = vehicle.drag_area_m2;
    car.air_density_kgpm3 = air_density_kgpm3;
    car.grip = vehicle.grip;
    car.rear_only = vehicle.driven == Driven::rear;
    if (!vehicle.gearbox.empty()) car.gearbox = gearbox_of(vehicle);
    car.wheel_kg = vehicle.wheel_kg;
    const Burnt fuel = burnt(vehicle.fuel);
    car.fuel_MJpL = fuel.MJpL;
    car.engine_drag = fuel.drag;
    car.part_load_efficiency = fuel.part_load;
    car.full_load_efficiency = fuel.full_load;
    return car;
}

pace::Car segment_car(const Setup& setup, double case_ratio) {
    return segment_car(
        setup.vehicle, case_ratio,
        us_standard_atmosphere::air(
            {.temp_degC = setup.event.ambient_degC,
             .pressure_Pa = us_standard_atmosphere::pressure_Pa(setup.event.altitude_m)})
            .density_kgpm3);
}

void calculate_duty(Completed& from, const Setup& setup, LegInput& leg,
                    const std::string& heading) {
    try {
        Calculation(from, setup, leg, heading).run();
    } catch (const Error& error) {
        if (error.kind() != Error::Kind::domain) throw;
        from.problem(heading + ".course",
                     fmt::format("{}.course = \"{}\": the segment model does not go so far: {}",
                                 heading, leg.course, error.what()),
                     "check [vehicle], or take event.course_model = \"fixed\"");
    }
}

}  // namespace caseload::input
