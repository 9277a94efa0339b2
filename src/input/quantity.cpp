// SPDX-License-Identifier: MIT
#include "input/quantity.hpp"

#include "caseload/units.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace caseload::input {
namespace {

// Exact by definition (NIST SP 811, appendix B.8): inch 25.4 mm, pound 0.45359237 kg, standard
// gravity 9.80665, hence pound-force 4.4482216152605 N; US gallon 3.785411784 L; mile 1609.344 m;
// horsepower 550 ft lbf/s, metric horsepower 75 kgf m/s.
constexpr double inch_mm = 25.4;
constexpr double pound_kg = 0.45359237;
constexpr double pound_force_N = pound_kg * g_mps2;
constexpr double foot_m = 0.3048;
constexpr double mile_m = 1609.344;
constexpr double gallon_L = 3.785411784;
constexpr double horsepower_W = 550 * foot_m * pound_force_N;
constexpr double metric_horsepower_W = 75 * g_mps2;
constexpr double psi_Pa = pound_force_N / (inch_mm * inch_mm) * 1e6;

struct Words {
    std::string_view unit;
    std::string_view example;
    std::string_view accepted;
};

Words words(Measure measure) {
    switch (measure) {
        case Measure::none:
            return {"", "0.35", "a bare number"};
        case Measure::length:
            return {"mm", "16 mm", "mm, cm, m, in, ft"};
        case Measure::distance:
            return {"m", "85 km", "m, km, mi, ft"};
        case Measure::roughness:
            return {"um", "0.4 um", "um, mm"};
        case Measure::torque:
            return {"N m", "820 N m", "N m, kN m, lbf ft"};
        case Measure::turning:
            return {"r/min", "3700 rpm", "rpm, rad/s"};
        case Measure::road_speed:
            return {"m/s", "65 km/h", "km/h, mph, m/s"};
        case Measure::temperature:
            return {"degC", "38 degC", "degC, degF"};
        case Measure::difference:
            return {"K", "15 K", "K"};
        case Measure::mass:
            return {"kg", "2350 kg", "kg, t, lb"};
        case Measure::power:
            return {"W", "480 kW", "W, kW, hp, PS"};
        case Measure::flow:
            return {"L/min", "9 L/min", "L/min, gpm"};
        case Measure::pressure:
            return {"Pa", "2 bar", "bar, kPa, psi, Pa"};
        case Measure::volume:
            return {"L", "2.6 L", "L, ml, qt, gal"};
        case Measure::viscosity:
            return {"mm2/s", "105 cSt", "cSt, mm2/s"};
        case Measure::density:
            return {"kg/m3", "868 kg/m3", "kg/m3, g/cm3"};
        case Measure::time:
            return {"s", "55 min", "h, min, s"};
        case Measure::angle:
            return {"deg", "4 deg", "deg, rad"};
        case Measure::force:
            return {"N", "58 kN", "N, kN, lbf"};
        case Measure::film:
            return {"W/m2K", "200 W/m2K", "W/m2K"};
        case Measure::per_distance:
            return {"/km", "353 /km", "/km, /mi"};
        case Measure::count:
            return {"events", "4 events", "events"};
        case Measure::area:
            return {"m2", "2.4 m2", "m2, ft2"};
        case Measure::pitch:
            return {"/in", "5 /in", "/in"};
        case Measure::acceleration:
            return {"m/s2", "0.5 m/s2", "m/s2"};
    }
    return {};
}

bool digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

// One spelling for the many ways of writing the same unit: no blanks, dots or hyphens, ASCII.
std::string plain(std::string_view unit) {
    std::string text(unit);
    replace_all(text, "\xC2\xB0", "deg");   // degree sign
    replace_all(text, "\xC2\xB7", "");      // middle dot
    replace_all(text, "\xE2\x8B\x85", "");  // dot operator
    replace_all(text, "\xC2\xB5", "u");     // micro sign
    replace_all(text, "\xCE\xBC", "u");     // Greek mu
    replace_all(text, "\xC2\xB2", "2");     // superscripts
    replace_all(text, "\xC2\xB3", "3");
    std::string out;
    for (const char c : text)
        if (c != ' ' && c != '\t' && c != '-' && c != '*' && c != '^' && c != '.' && c != '(' &&
            c != ')')
            out += c;
    return out;
}

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

const UnitRow* find_unit(const std::string& spelling, Measure measure, bool any) {
    for (const UnitRow& row : unit_rows())
        if ((any || row.measure == measure) && spelling == plain(row.spelling)) return &row;
    const std::string small = lower(spelling);
    for (const UnitRow& row : unit_rows())
        if ((any || row.measure == measure) && small == lower(plain(row.spelling))) return &row;
    return nullptr;
}

/// Length of the number at the start: sign, digits, point, exponent.
std::size_t number_length(std::string_view text) {
    std::size_t i = 0;
    if (i < text.size() && (text[i] == '+' || text[i] == '-')) ++i;
    while (i < text.size() && (digit(text[i]) || text[i] == '.' || text[i] == ',')) ++i;
    if (i > 0 && i + 1 < text.size() && (text[i] == 'e' || text[i] == 'E')) {
        std::size_t j = i + 1;
        if (text[j] == '+' || text[j] == '-') ++j;
        if (j < text.size() && digit(text[j])) {
            while (j < text.size() && digit(text[j])) ++j;
            i = j;
        }
    }
    return i;
}

bool parse_number(std::string_view text, double& value) {
    if (!text.empty() && text.front() == '+') text.remove_prefix(1);
    const auto result = fast_float::from_chars(text.data(), text.data() + text.size(), value);
    return result.ec == std::errc{} && result.ptr == text.data() + text.size() &&
           std::isfinite(value);
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
    return text;
}

}  // namespace

const std::vector<UnitRow>& unit_rows() {
    using M = Measure;
    static const std::vector<UnitRow> rows{
        {M::length, "mm", 1, 0},
        {M::length, "cm", 10, 0},
        {M::length, "m", 1000, 0},
        {M::length, "in", inch_mm, 0},
        {M::length, "inch", inch_mm, 0},
        {M::length, "ft", 12 * inch_mm, 0},
        {M::distance, "m", 1, 0},
        {M::distance, "km", 1000, 0},
        {M::distance, "mi", mile_m, 0},
        {M::distance, "miles", mile_m, 0},
        {M::distance, "ft", foot_m, 0},
        {M::roughness, "um", 1, 0},
        {M::roughness, "mm", 1000, 0},
        {M::torque, "Nm", 1, 0},
        {M::torque, "kNm", 1000, 0},
        {M::torque, "lbfft", pound_force_N * foot_m, 0},
        {M::torque, "lbft", pound_force_N * foot_m, 0},
        {M::torque, "ftlb", pound_force_N * foot_m, 0},
        {M::torque, "ftlbf", pound_force_N * foot_m, 0},
        {M::torque, "ftlbs", pound_force_N * foot_m, 0},
        {M::turning, "rpm", 1, 0},
        {M::turning, "r/min", 1, 0},
        {M::turning, "1/min", 1, 0},
        {M::turning, "/min", 1, 0},
        {M::turning, "rad/s", 30 / pi, 0},
        {M::road_speed, "m/s", 1, 0},
        {M::road_speed, "km/h", 1 / 3.6, 0},
        {M::road_speed, "kph", 1 / 3.6, 0},
        {M::road_speed, "mph", mile_m / 3600, 0},
        {M::temperature, "degC", 1, 0},
        {M::temperature, "C", 1, 0},
        {M::temperature, "degF", 5.0 / 9, -160.0 / 9},
        {M::temperature, "F", 5.0 / 9, -160.0 / 9},
        {M::difference, "K", 1, 0},
        {M::mass, "kg", 1, 0},
        {M::mass, "g", 0.001, 0},
        {M::mass, "t", 1000, 0},
        {M::mass, "lb", pound_kg, 0},
        {M::mass, "lbs", pound_kg, 0},
        {M::power, "W", 1, 0},
        {M::power, "kW", 1000, 0},
        {M::power, "hp", horsepower_W, 0},
        {M::power, "bhp", horsepower_W, 0},
        {M::power, "PS", metric_horsepower_W, 0},
        {M::flow, "L/min", 1, 0},
        {M::flow, "lpm", 1, 0},
        {M::flow, "gpm", gallon_L, 0},
        {M::flow, "gal/min", gallon_L, 0},
        {M::pressure, "Pa", 1, 0},
        {M::pressure, "kPa", 1000, 0},
        {M::pressure, "MPa", 1e6, 0},
        {M::pressure, "bar", 1e5, 0},
        {M::pressure, "psi", psi_Pa, 0},
        {M::volume, "L", 1, 0},
        {M::volume, "ml", 0.001, 0},
        {M::volume, "qt", gallon_L / 4, 0},
        {M::volume, "gal", gallon_L, 0},
        {M::viscosity, "mm2/s", 1, 0},
        {M::viscosity, "cSt", 1, 0},
        {M::density, "kg/m3", 1, 0},
        {M::density, "g/cm3", 1000, 0},
        {M::density, "kg/L", 1000, 0},
        {M::time, "s", 1, 0},
        {M::time, "sec", 1, 0},
        {M::time, "min", 60, 0},
        {M::time, "h", 3600, 0},
        {M::time, "hours", 3600, 0},
        {M::angle, "deg", 1, 0},
        {M::angle, "rad", 180 / pi, 0},
        {M::force, "N", 1, 0},
        {M::force, "kN", 1000, 0},
        {M::force, "lbf", pound_force_N, 0},
        {M::film, "W/m2K", 1, 0},
        {M::per_distance, "/km", 1, 0},
        {M::per_distance, "/mi", 1000 / mile_m, 0},
        {M::count, "event", 1, 0},
        {M::count, "events", 1, 0},
        {M::area, "m2", 1, 0},
        {M::area, "ft2", foot_m * foot_m, 0},
        {M::pitch, "/in", 1, 0},
        {M::acceleration, "m/s2", 1, 0},
    };
    return rows;
}

std::string_view unit_of(Measure measure) {
    return words(measure).unit;
}
std::string_view example_of(Measure measure) {
    return words(measure).example;
}

Quantity read_quantity(Measure measure, std::string_view text) {
    Quantity result;
    const std::string_view all = trimmed(text);
    const std::size_t length = number_length(all);
    const std::string_view number = all.substr(0, length);
    const std::string unit = plain(all.substr(length));
    const Words w = words(measure);
    const std::string wanted =
        fmt::format("a value in {}, for example \"{}\"", w.accepted, w.example);
    const std::size_t comma = number.find(',');
    if (comma != std::string_view::npos) {
        std::string decimal(number);
        std::string grouped(number);
        replace_all(decimal, ",", ".");
        replace_all(grouped, ",", "");
        result.problem = fmt::format("a comma can mean {} or {}", decimal, grouped);
        result.hint =
            fmt::format("write {} or {}, with a point and without grouping", decimal, grouped);
        return result;
    }
    if (length == 0 || !parse_number(number, result.value)) {
        result.problem = fmt::format("expected {}", wanted);
        return result;
    }
    if (unit.empty()) {
        result.problem = "a unit is missing";
        result.hint = fmt::format("expected {}", wanted);
        return result;
    }
    const UnitRow* row = find_unit(unit, measure, false);
    if (row == nullptr) {
        const UnitRow* other = find_unit(unit, measure, true);
        const std::string_view shown = trimmed(all.substr(length));
        result.problem = other != nullptr ? fmt::format("\"{}\" measures something else", shown)
                                          : fmt::format("\"{}\" is not a unit known here", shown);
        result.hint = fmt::format("expected {}", wanted);
        if (measure == Measure::difference && other != nullptr &&
            other->measure == Measure::temperature)
            result.hint = "a temperature difference is written in K, for example \"15 K\"";
        return result;
    }
    result.value = result.value * row->factor + row->offset;
    if (row->spelling == "hp" || row->spelling == "bhp")
        result.note = "hp taken as 745.7 W; metric horsepower is PS";
    else if (row->spelling == "PS")
        result.note = "PS taken as metric horsepower, 735.5 W";
    else if (row->spelling == "gpm" || row->spelling == "gal" || row->spelling == "qt" ||
             row->spelling == "gal/min")
        result.note = "US gallons taken (3.785 L)";
    result.ok = true;
    return result;
}

ThreeLengths read_size(std::string_view text) {
    ThreeLengths result;
    std::string all(text);
    replace_all(all, "\xC3\x97", "x");  // multiplication sign
    std::string_view rest = trimmed(all);
    for (int i = 0; i < 3; ++i) {
        const std::size_t length = number_length(rest);
        if (length == 0 || !parse_number(rest.substr(0, length), result.mm[i])) {
            result.problem = "expected three lengths, for example \"90x140x24 mm\"";
            return result;
        }
        rest = trimmed(rest.substr(length));
        if (i == 2) break;
        if (rest.empty() || (rest.front() != 'x' && rest.front() != 'X')) {
            result.problem = "expected three lengths joined by x, for example \"90x140x24 mm\"";
            return result;
        }
        rest = trimmed(rest.substr(1));
    }
    const UnitRow* row = find_unit(plain(rest), Measure::length, false);
    if (row == nullptr) {
        result.problem = "the unit of the three lengths is missing or not a length: mm, in";
        return result;
    }
    for (double& mm : result.mm) mm *= row->factor;
    result.ok = true;
    return result;
}

}  // namespace caseload::input
