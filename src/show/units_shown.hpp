// SPDX-License-Identifier: MIT
// Numbers as people read them, metric or imperial.
#pragma once

#include "caseload/heat.hpp"

#include <string>
#include <string_view>

namespace caseload {

class Units {
public:
    explicit Units(bool imperial) : imperial_(imperial) {}
    [[nodiscard]] bool imperial() const { return imperial_; }
    /// No temperature above the ceiling is printed.
    [[nodiscard]] std::string temp(double temp_degC) const;
    [[nodiscard]] std::string_view degree() const { return imperial_ ? "degF" : "degC"; }
    /// "121 degC".
    [[nodiscard]] std::string degrees(double temp_degC) const;
    /// The bare number, for scales; above the ceiling too.
    [[nodiscard]] double temp_value(double temp_degC) const;
    [[nodiscard]] std::string distance(double m) const;
    [[nodiscard]] std::string difference(double difference_K) const;
    [[nodiscard]] std::string width(double difference_K) const;
    /// Heat made: kW or hp.
    [[nodiscard]] std::string power(double power_W) const;
    /// One source of heat: W or hp.
    [[nodiscard]] std::string heat(double power_W) const;
    /// Heat in W or hp where it is little, else as power.
    [[nodiscard]] std::string heat_or_power(double power_W) const;
    /// "4 W per K"; "" where that rounds to nothing.
    [[nodiscard]] std::string per_kelvin(double path_WpK) const;
    /// Heat too much, and the same per degree: "71 W more cooling needed (1 W per K)".
    struct Short {
        double by_W;
        double by_WpK;
    };
    [[nodiscard]] std::string short_by(const Short& heat) const;
    /// Words with quantities in them, as the calculation wrote them ("12 mm", "280x150x45 mm",
    /// "121 degC"), in the units asked for.
    [[nodiscard]] std::string text(std::string_view words) const;
    /// One quantity: words, value, unit; unit as the quantity table writes it.
    struct Quantity {
        std::string_view words;
        double value;
        std::string_view unit;
        bool of_network = true;  ///< a temperature above the ceiling is not printed
    };
    [[nodiscard]] std::string line(const Quantity& quantity) const;
    /// Value and unit apart, for running text.
    [[nodiscard]] std::string number(double value, std::string_view unit) const;
    [[nodiscard]] std::string_view unit(std::string_view unit, double value) const;
    /// Both together: "12 mm".
    [[nodiscard]] std::string value(double of, std::string_view unit) const;

private:
    bool imperial_;
};

std::string duration(double s);

/// What a screen about choices begins with: setup, event and air.
std::string heading(const Setup& setup, const Units& units);

}  // namespace caseload
