// SPDX-License-Identifier: MIT
#include "show/units_shown.hpp"

#include "caseload/units.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace caseload {
namespace {

std::string digits(double value) {
    if (!std::isfinite(value)) return "none";
    return std::fabs(value) >= 1e4 ? fmt::format("{:.0f}", value) : fmt::format("{:.4g}", value);
}

struct Imperial {
    std::string_view metric;
    std::string_view unit;
    double factor;
};
constexpr std::array<Imperial, 9> imperial_units{{{"mm", "in", 1 / 25.4},
                                                  {"m", "mi", 1 / 1609.344},
                                                  {"N", "lbf", 1 / 4.4482216152605},
                                                  {"N m", "lbf ft", 1 / 1.3558179483314},
                                                  {"kg", "lb", 1 / 0.45359237},
                                                  {"K", "degF", 1.8},
                                                  {"m/s", "mph", 1 / 0.44704},
                                                  {"W/K", "W/degF", 1 / 1.8},
                                                  {"MPa", "ksi", 1 / 6.894757293168}}};

}  // namespace

std::string Units::temp(double temp_degC) const {
    if (temp_degC > oil_ceiling_degC) return imperial_ ? "above 320" : "above 160";
    return fmt::format("{:.0f}", imperial_ ? degF_from_degC(temp_degC) : temp_degC);
}

std::string Units::distance(double m) const {
    return imperial_ ? fmt::format("{:.0f} mi", mi_from_m(m)) : fmt::format("{:.0f} km", m / 1000);
}

std::string Units::difference(double difference_K) const {
    // "-0" says nothing.
    const double shown = std::round(imperial_ ? degF_from_K(difference_K) : difference_K) + 0.0;
    return fmt::format("{:+.0f} {}", shown, imperial_ ? "F" : "K");
}

std::string Units::width(double difference_K) const {
    return imperial_ ? fmt::format("{:.0f} F", degF_from_K(difference_K))
                     : fmt::format("{:.0f} K", difference_K);
}

std::string Units::number(double value, std::string_view unit) const {
    if (!imperial_) return digits(value);
    if (unit == "degC") return digits(degF_from_degC(value));
    for (const Imperial& other : imperial_units)
        if (other.metric == unit) return digits(value * other.factor);
    return digits(value);
}

std::string_view Units::unit(std::string_view unit) const {
    if (!imperial_) return unit;
    if (unit == "degC") return "degF";
    for (const Imperial& other : imperial_units)
        if (other.metric == unit) return other.unit;
    return unit;
}

std::string Units::line(const Quantity& quantity) const {
    std::string shown = digits(quantity.value);
    std::string_view unit = quantity.unit;
    if (unit == "degC") {
        shown = quantity.of_network
                    ? temp(quantity.value)
                    : fmt::format("{:.0f}",
                                  imperial_ ? degF_from_degC(quantity.value) : quantity.value);
        unit = degree();
    } else if (imperial_) {
        for (const Imperial& other : imperial_units) {
            if (other.metric != unit) continue;
            shown = digits(quantity.value * other.factor);
            unit = other.unit;
            break;
        }
    }
    return fmt::format("  {:<58} {:>12}{}{}\n", quantity.words, shown, unit.empty() ? "" : " ",
                       unit);
}

std::string duration(double s) {
    const int minutes = static_cast<int>(std::lround(s / 60));
    return minutes < 60 ? fmt::format("{} min", minutes)
                        : fmt::format("{} h {:02}", minutes / 60, minutes % 60);
}

}  // namespace caseload
