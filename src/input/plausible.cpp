// SPDX-License-Identifier: MIT
// Power against pace, and single entries that are more likely a slip than a car.
#include "input/build.hpp"
#include "input/course_power.hpp"

#include "caseload/figures.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace caseload::input {
namespace {

// Mean power at the wheels over what the engine brings there: above 1 it cannot be, above this it
// is asked about. Judgement; long races use 0.3 to 0.5.
constexpr double asked_power_share = 0.6;
// Ready to race, kg a horsepower. Judgement.
constexpr double least_kg_a_hp = 1.5;
constexpr double most_kg_a_hp = 15;
// Air a fan moves through a core's face. Judgement.
constexpr double asked_fan_mps = 12;
// Air in the shade; hotter and colder readings are mostly of a sensor in the sun or of the wrong
// unit. Judgement.
constexpr double asked_ambient_low_degC = -30;
constexpr double asked_ambient_high_degC = 50;
// Rated heat a face area and kelvin between the inlets. Judgement.
constexpr double least_rating_Wpm2K = 1000;
constexpr double most_rating_Wpm2K = 7000;

/// "oil.fill = "0.4 L"" of a key that is there, else the key alone.
std::string entered(const Completed& from, const std::string& key) {
    const Item* item = from.find(key);
    return item == nullptr ? key : fmt::format("{} = {}", key, toml_text(item->value));
}

/// A pace that is never rounded up: "112 km/h".
std::string pace_words(double pace_mps) {
    const double kmph = pace_mps * 3.6;
    return kmph >= 10 ? fmt::format("{:.0f} km/h", std::floor(kmph))
                      : fmt::format("{:.1f} km/h", std::floor(10 * kmph) / 10);
}

class PowerOfLegs {
public:
    PowerOfLegs(Completed& from, const Setup& setup)
        : from_(from), setup_(setup), wheels_W_(power_to_wheels * setup.vehicle.engine_power_W) {}

    void check(const LegInput& leg) {
        if (leg.kind == LegKind::stop || !leg.calculated.empty()) return;
        const double asked_W = mean_power_W(setup_, leg, leg.course_pace_mps);
        const double share = asked_W / wheels_W_;
        if (share <= asked_power_share) return;
        const std::string heading = from_.has("event.course") ? "event" : "leg." + leg.name;
        if (leg.course_lines.empty())
            entered_bins(leg, heading + ".bins", asked_W);
        else
            course(leg, heading, asked_W);
    }

private:
    void entered_bins(const LegInput& leg, const std::string& key, double asked_W) {
        const std::string said = fmt::format(
            "{}: its rows take {:.0f} kW on average; an engine of {:.0f} kW brings {:.0f} kW to "
            "the "
            "wheels",
            key, asked_W / 1000, setup_.vehicle.engine_power_W / 1000, wheels_W_ / 1000);
        if (asked_W > wheels_W_)
            from_.problem(key, said,
                          fmt::format("check torque, speed and shares, or write "
                                      "vehicle.engine_power = \"{:.0f} kW\" or more",
                                      std::ceil(asked_W / power_to_wheels / 1000)));
        else
            from_.note("ask.power", "leg." + leg.name,
                       said + "; did you mean less torque, less speed, or more power?");
    }

    void course(const LegInput& leg, const std::string& heading, double asked_W) {
        std::string said = fmt::format(
            "{}: {} at {:.0f} km/h takes {:.0f} kW at the wheels on average, and an engine of "
            "{:.0f} kW brings {:.0f} kW there",
            heading, leg.course, leg.course_pace_mps * 3.6, asked_W / 1000,
            setup_.vehicle.engine_power_W / 1000, wheels_W_ / 1000);
        if (asked_W <= wheels_W_) {
            const double pace_mps = pace_of_power_mps(setup_, leg, asked_power_share * wheels_W_);
            from_.note("ask.power", heading,
                       fmt::format("{}; did you mean a slower pace{}, less mass or more power?",
                                   said, pace_mps > 0 ? ", such as " + pace_words(pace_mps) : ""));
            return;
        }
        const double pace_mps = pace_of_power_mps(setup_, leg, wheels_W_);
        const std::string others = "check vehicle.mass and vehicle.engine_power";
        if (pace_mps > 0) said += fmt::format(": this car can hold {}", pace_words(pace_mps));
        std::string hint = others;
        if (pace_mps > 0 && from_.has(heading + ".distance"))
            hint = fmt::format("write {}.distance = \"{:.0f} km\" or less, or {}", heading,
                               std::floor(pace_mps * leg.duration_s / 1000), others);
        else if (pace_mps > 0)
            hint = fmt::format("write {}.pace = \"{}\" or less, or {}", heading,
                               pace_words(pace_mps), others);
        from_.problem_at(
            {heading + ".pace", heading + ".distance", heading + ".course", "vehicle.engine_power"},
            said, hint);
    }

    Completed& from_;
    const Setup& setup_;
    double wheels_W_;
};

void ask_vehicle(Completed& from, const VehicleInput& vehicle) {
    const double kg_a_hp = vehicle.mass_kg / (vehicle.engine_power_W / W_from_hp(1));
    if (kg_a_hp >= least_kg_a_hp && kg_a_hp <= most_kg_a_hp) return;
    from.note("ask.mass_per_power", "vehicle.mass",
              fmt::format("{} with {}: {} kg a horsepower, where race cars have {:g} to {:g}; did "
                          "you mean another mass, power or unit?",
                          entered(from, "vehicle.mass"), entered(from, "vehicle.engine_power"),
                          figures(kg_a_hp, 2), least_kg_a_hp, most_kg_a_hp));
}

void ask_air(Completed& from, const Setup& setup) {
    const double ambient_degC = setup.event.ambient_degC;
    if (ambient_degC > asked_ambient_high_degC || ambient_degC < asked_ambient_low_degC)
        from.note("ask.ambient", "event.ambient",
                  fmt::format("{}: is that the air in the shade, or a sensor in the sun or another "
                              "unit?",
                              entered(from, "event.ambient")));
    if (setup.event.oil_at_start_entered &&
        setup.event.oil_at_start_degC > setup.limits.oil_watch_degC)
        from.note("ask.oil_at_start", "event.oil_at_start",
                  fmt::format("{}: the event begins above limits.oil_watch = {:.4g} degC; did you "
                              "mean a cooler start?",
                              entered(from, "event.oil_at_start"), setup.limits.oil_watch_degC));
}

void ask_cooler(Completed& from, const CoolerInput& cooler) {
    if (!cooler.fit) return;
    if (cooler.fan_face_speed_mps > asked_fan_mps)
        from.note(
            "ask.fan", "cooler.fan_face_speed",
            fmt::format("{}: a fan rarely moves air through a core at more than {:g} m/s; did "
                        "you mean the speed at its outlet, or its flow?",
                        entered(from, "cooler.fan_face_speed"), asked_fan_mps));
    if (cooler.rating_estimated) return;
    const double face_m2 = m_from_mm(cooler.width_mm) * m_from_mm(cooler.height_mm);
    const double rating_Wpm2K = cooler.rating.heat_W / face_m2 / cooler.rating.difference_K;
    if (rating_Wpm2K >= least_rating_Wpm2K && rating_Wpm2K <= most_rating_Wpm2K) return;
    from.note(
        "ask.rating", "cooler.rating.heat",
        fmt::format("{} from {} at {}: {} kW for each m2 of face and K, where cores have "
                    "{:g} to {:g}; did you mean another heat, size or difference?",
                    entered(from, "cooler.rating.heat"), entered(from, "cooler.core"),
                    entered(from, "cooler.rating.difference"), figures(rating_Wpm2K / 1000, 2),
                    least_rating_Wpm2K / 1000, most_rating_Wpm2K / 1000));
}

}  // namespace

void check_plausible(Completed& from, const Setup& setup) {
    if (setup.vehicle.known()) {
        PowerOfLegs power(from, setup);
        for (const LegInput& leg : setup.event.legs) power.check(leg);
        ask_vehicle(from, setup.vehicle);
    }
    ask_air(from, setup);
    ask_cooler(from, setup.cooler);
    check_oil_circuit(from, setup);
}

}  // namespace caseload::input
