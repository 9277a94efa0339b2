// SPDX-License-Identifier: MIT
// Values with units, as people write them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

/// What is measured; each has one unit inside, the one the model's names end in.
enum class Measure {
    none,          ///< dimensionless
    length,        ///< mm
    distance,      ///< m
    roughness,     ///< um
    torque,        ///< N m
    turning,       ///< r/min
    road_speed,    ///< m/s
    temperature,   ///< degC
    difference,    ///< K
    mass,          ///< kg
    power,         ///< W
    flow,          ///< L/min
    pressure,      ///< Pa
    volume,        ///< L
    viscosity,     ///< mm2/s
    density,       ///< kg/m3
    time,          ///< s
    angle,         ///< deg
    force,         ///< N
    film,          ///< W/(m2 K)
    per_distance,  ///< turns per km
    count,         ///< events
    area,          ///< m2
    pitch,         ///< diametral, per inch
    acceleration,  ///< m/s2
};

struct Quantity {
    bool ok = false;
    double value = 0;     ///< in the measure's own unit
    std::string problem;  ///< what is wrong, when not ok
    std::string hint;
    std::string note;  ///< a unit with two common meanings: which one was taken
};

/// Reads "820 N m". The problem says what was read and which units are accepted.
Quantity read_quantity(Measure measure, std::string_view text);

/// The measure's own unit, as printed.
std::string_view unit_of(Measure measure);

/// An example for hints: "820 N m".
std::string_view example_of(Measure measure);

/// "390x280x210 mm": three lengths in mm.
struct ThreeLengths {
    bool ok = false;
    double mm[3] = {0, 0, 0};
    std::string problem;
};
ThreeLengths read_size(std::string_view text);

/// All unit spellings of a measure with their factor, for tests and the reference.
struct UnitRow {
    Measure measure;
    std::string_view spelling;
    double factor;
    double offset;
};
const std::vector<UnitRow>& unit_rows();

}  // namespace caseload::input
