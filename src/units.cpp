// SPDX-License-Identifier: MIT
#include "caseload/units.hpp"

#include <array>
#include <utility>

namespace caseload {

std::string unit_of_name(std::string_view name) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 32> units{{
        {"degC", "degC"}, {"K", "K"},         {"mm", "mm"},       {"m", "m"},
        {"m2", "m2"},     {"kg", "kg"},       {"kgps", "kg/s"},   {"kgpm3", "kg/m3"},
        {"N", "N"},       {"Nm", "N m"},      {"Nmm", "N mm"},    {"Npmm", "N/mm"},
        {"rpm", "r/min"}, {"radps", "rad/s"}, {"mps", "m/s"},     {"mm2ps", "mm2/s"},
        {"m2ps", "m2/s"}, {"Pa", "Pa"},       {"Pas", "Pa s"},    {"mPas", "mPa s"},
        {"W", "W"},       {"WpK", "W/K"},     {"Lpmin", "L/min"}, {"L", "L"},
        {"h", "h"},       {"s", "s"},         {"um", "um"},       {"deg", "deg"},
        {"MPa", "MPa"},   {"rad", "rad"},     {"Lph", "L/h"},     {"Lp100km", "L/100km"},
    }};
    const std::size_t at = name.rfind('_');
    if (at == std::string_view::npos) return {};
    for (const auto& [suffix, unit] : units)
        if (name.substr(at + 1) == suffix) return std::string(unit);
    return {};
}

}  // namespace caseload
