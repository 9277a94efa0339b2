// SPDX-License-Identifier: MIT
// Values with units, as people write them.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>

namespace caseload::input {

/// What can be measured. Units of different kinds never convert into each other; a temperature
/// difference is another kind than a temperature.
enum class Kind {
    none,
    length,
    torque,
    turning,
    speed,
    temperature,
    difference,
    mass,
    power,
    flow,
    pressure,
    volume,
    viscosity,
    density,
    time,
    angle,
    force,
    film,
    per_distance,
    count,
    area,
    pitch,
    conductance,
    slope,
    stiffness,
};

/// One spelling of a unit: value x factor + offset is in the first unit of its kind.
struct Unit {
    Kind kind;
    std::string_view spelling;
    double factor = 1;
    double offset = 0;
    std::string_view note = {};  ///< which of two common meanings was taken
    bool exact_case = false;     ///< another case would mean another unit
};

/// The units table. Exact factors by definition: NIST SP 811 (2008), appendix B.
[[nodiscard]] std::span<const Unit> units_table();

/// A kind together with the unit the model keeps it in.
enum class Measure {
    none,
    share,  ///< a bare number, or text in %
    length_mm,
    distance_m,
    roughness_um,
    torque_Nm,
    turning_rpm,
    speed_mps,
    temp_degC,
    difference_K,
    mass_kg,
    power_W,
    flow_Lpmin,
    pressure_Pa,
    volume_L,
    viscosity_mm2ps,
    density_kgpm3,
    time_s,
    angle_deg,
    force_N,
    film_Wpm2K,
    turns_per_km,
    events,
    area_m2,
    pitch_per_in,
    conductance_WpK,
    slope_mmpm,
    stiffness_Npum,
};

struct MeasureWords {
    Kind kind;
    std::string_view unit;      ///< as printed; also a spelling of the units table
    std::string_view example;   ///< for hints: "820 N m"
    std::string_view accepted;  ///< units worth offering: "N m, kN m, lbf ft"
};
[[nodiscard]] const MeasureWords& words_of(Measure measure);

struct Quantity {
    bool ok = false;
    double value = 0;        ///< in the measure's own unit
    bool converted = false;  ///< written in another unit
    std::string problem;     ///< what is wrong, when not ok
    std::string hint;
    bool offer_example = false;  ///< the hint gains by an example of the key's own
    std::string note;
};

/// Reads "820 N m".
[[nodiscard]] Quantity read_quantity(Measure measure, std::string_view text);

/// Reads "390x280x210 mm": three lengths in mm, joined by x or the multiplication sign.
struct ThreeLengths {
    bool ok = false;
    std::array<double, 3> mm{};
    std::string problem;
    std::string hint;
};
[[nodiscard]] ThreeLengths read_size(std::string_view text);

}  // namespace caseload::input
