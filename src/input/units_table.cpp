// SPDX-License-Identifier: MIT
#include "caseload/units.hpp"
#include "input/quantity.hpp"

namespace caseload::input {
namespace {

constexpr double lbf_N = N_from_lbf(1);
constexpr double lbf_ft_Nm = lbf_N * foot_m;
constexpr double psi_Pa = lbf_N / (inch_mm * inch_mm) * 1e6;
constexpr double square_foot_m2 = foot_m * foot_m;
// Metric horsepower: 75 kilogram-force metre per second (NIST SP 811, B.8: 735.4988 W).
constexpr double metric_horsepower_W = 75 * g_mps2;
// degF: t/degC = (t/degF - 32)/1.8 (NIST SP 811, B.8).
constexpr double degF_offset = -32 / 1.8;
constexpr double seconds_per_hour = 3600;

constexpr std::string_view us_gallons = "US gallons taken (3.785 L)";
constexpr std::string_view us_quarts = "US quarts taken (0.946 L)";
constexpr std::string_view hp_note = "hp taken as 745.7 W; metric horsepower is PS (735.5 W)";
constexpr std::string_view ps_note = "PS taken as metric horsepower, 735.5 W; hp is 745.7 W";

// Spellings without blanks, dots, stars and hyphens: the reader takes those out first.
constexpr Unit table[] = {
    {Kind::length, "mm"},
    {Kind::length, "um", 0.001},
    {Kind::length, "cm", 10},
    {Kind::length, "m", 1000},
    {Kind::length, "km", 1e6},
    {Kind::length, "in", inch_mm},
    {Kind::length, "inch", inch_mm},
    {Kind::length, "inches", inch_mm},
    {Kind::length, "ft", 1000 * foot_m},
    {Kind::length, "mi", 1000 * mile_m},
    {Kind::length, "mile", 1000 * mile_m},
    {Kind::length, "miles", 1000 * mile_m},
    {Kind::torque, "Nm"},
    {Kind::torque, "kNm", 1000},
    {Kind::torque, "lbfft", lbf_ft_Nm},
    {Kind::torque, "lbft", lbf_ft_Nm},
    {Kind::torque, "lbsft", lbf_ft_Nm},
    {Kind::torque, "ftlb", lbf_ft_Nm},
    {Kind::torque, "ftlbs", lbf_ft_Nm},
    {Kind::torque, "ftlbf", lbf_ft_Nm},
    {Kind::turning, "r/min"},
    {Kind::turning, "rpm"},
    {Kind::turning, "1/min"},
    {Kind::turning, "/min"},
    {Kind::turning, "rad/s", rpm_from_radps(1)},
    {Kind::speed, "m/s"},
    {Kind::speed, "km/h", 1000 / seconds_per_hour},
    {Kind::speed, "kph", 1000 / seconds_per_hour},
    {Kind::speed, "mph", mile_m / seconds_per_hour},
    {Kind::temperature, "degC"},
    {Kind::temperature, "C"},
    {Kind::temperature, "degF", 1 / 1.8, degF_offset},
    {Kind::temperature, "F", 1 / 1.8, degF_offset},
    {Kind::difference, "K"},
    {Kind::mass, "kg"},
    {Kind::mass, "g", 0.001},
    {Kind::mass, "t", 1000},
    {Kind::mass, "lb", pound_kg},
    {Kind::mass, "lbs", pound_kg},
    {Kind::power, "W"},
    {Kind::power, "kW", 1000},
    {Kind::power, "hp", W_from_hp(1), 0, hp_note},
    {Kind::power, "bhp", W_from_hp(1), 0, hp_note},
    {Kind::power, "PS", metric_horsepower_W, 0, ps_note},
    {Kind::flow, "L/min"},
    {Kind::flow, "lpm"},
    {Kind::flow, "gpm", gallon_L, 0, us_gallons},
    {Kind::flow, "gal/min", gallon_L, 0, us_gallons},
    {Kind::pressure, "Pa"},
    {Kind::pressure, "kPa", 1000},
    {Kind::pressure, "MPa", 1e6, 0, {}, true},
    {Kind::pressure, "bar", 1e5},
    {Kind::pressure, "psi", psi_Pa},
    {Kind::volume, "L"},
    {Kind::volume, "ml", 0.001},
    {Kind::volume, "qt", gallon_L / 4, 0, us_quarts},
    {Kind::volume, "gal", gallon_L, 0, us_gallons},
    {Kind::viscosity, "mm2/s"},
    {Kind::viscosity, "cSt"},
    {Kind::density, "kg/m3"},
    {Kind::density, "g/cm3", 1000},
    {Kind::density, "kg/L", 1000},
    {Kind::time, "s"},
    {Kind::time, "sec"},
    {Kind::time, "min", 60},
    {Kind::time, "h", seconds_per_hour},
    {Kind::time, "hour", seconds_per_hour},
    {Kind::time, "hours", seconds_per_hour},
    {Kind::angle, "deg"},
    {Kind::angle, "rad", deg_from_rad(1)},
    {Kind::force, "N"},
    {Kind::force, "kN", 1000},
    {Kind::force, "lbf", lbf_N},
    {Kind::film, "W/m2K"},
    {Kind::per_distance, "/km"},
    {Kind::per_distance, "1/km"},
    {Kind::per_distance, "rev/km"},
    {Kind::per_distance, "/mi", 1000 / mile_m},
    {Kind::per_distance, "1/mi", 1000 / mile_m},
    {Kind::per_distance, "rev/mi", 1000 / mile_m},
    {Kind::count, "events"},
    {Kind::count, "event"},
    {Kind::area, "m2"},
    {Kind::area, "ft2", square_foot_m2},
    {Kind::pitch, "/in"},
    {Kind::pitch, "1/in"},
    {Kind::conductance, "W/K"},
    {Kind::slope, "mm/m"},
    {Kind::slope, "mrad"},
    {Kind::slope, "deg", 1000 * rad_from_deg(1)},
    {Kind::stiffness, "N/um"},
    {Kind::stiffness, "kN/mm"},
};

constexpr MeasureWords measures[] = {
    {Kind::none, "", "0.35", "a bare number"},
    {Kind::none, "", "0.35", "a bare number or %"},
    {Kind::length, "mm", "16 mm", "mm, cm, m, in, ft"},
    {Kind::length, "m", "85 km", "m, km, mi, ft"},
    {Kind::length, "um", "0.4 um", "um, mm, in"},
    {Kind::torque, "N m", "820 N m", "N m, kN m, lbf ft"},
    {Kind::turning, "r/min", "3700 rpm", "rpm, rad/s"},
    {Kind::speed, "m/s", "65 km/h", "km/h, mph, m/s"},
    {Kind::temperature, "degC", "38 degC", "degC, degF"},
    {Kind::difference, "K", "15 K", "K"},
    {Kind::mass, "kg", "2350 kg", "kg, t, lb"},
    {Kind::power, "W", "480 kW", "W, kW, hp, PS"},
    {Kind::flow, "L/min", "9 L/min", "L/min, gpm"},
    {Kind::pressure, "Pa", "2 bar", "bar, kPa, psi, Pa"},
    {Kind::volume, "L", "2.6 L", "L, ml, qt, gal"},
    {Kind::viscosity, "mm2/s", "150 cSt", "cSt, mm2/s"},
    {Kind::density, "kg/m3", "868 kg/m3", "kg/m3, g/cm3"},
    {Kind::time, "s", "55 min", "h, min, s"},
    {Kind::angle, "deg", "4 deg", "deg, rad"},
    {Kind::force, "N", "58 kN", "N, kN, lbf"},
    {Kind::film, "W/m2K", "200 W/m2K", "W/m2K"},
    {Kind::per_distance, "/km", "353 /km", "/km, /mi"},
    {Kind::count, "events", "4 events", "events"},
    {Kind::area, "m2", "2.4 m2", "m2, ft2"},
    {Kind::pitch, "/in", "5 /in", "/in"},
    {Kind::conductance, "W/K", "12 W/K", "W/K"},
    {Kind::slope, "mm/m", "4 mm/m", "mm/m, mrad, deg"},
    {Kind::stiffness, "N/um", "150 N/um", "N/um, kN/mm"},
};

}  // namespace

std::span<const Unit> units_table() {
    return table;
}

const MeasureWords& words_of(Measure measure) {
    return measures[static_cast<std::size_t>(measure)];
}

}  // namespace caseload::input
