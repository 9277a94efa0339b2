// SPDX-License-Identifier: MIT
#include "show/units_shown.hpp"

#include "caseload/figures.hpp"
#include "caseload/units.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace caseload {
namespace {

std::string digits(double value) {
    constexpr int shown = 4;
    return figures(value, shown);
}

template <const Conversion& conversion>
double by(double value) {
    return conversion(value);
}

struct Imperial {
    std::string_view metric;
    std::string_view unit;
    double (*from)(double);
};

constexpr double psi_kPa = 6.894757;  // NIST SP 811 B.8

/// Of sentences and entries, longest first.
constexpr std::array<Imperial, 15> of_words{
    {{"L/min", "gpm", by<gpm_from_Lpmin>},
     {"kPa", "psi", [](double pressure_kPa) { return pressure_kPa / psi_kPa; }},
     {"degC", "degF", degF_from_degC},
     {"km/h", "mph", [](double speed_kmph) { return mi_from_m(1000 * speed_kmph); }},
     {"m/s", "mph", by<mph_from_mps>},
     {"N m", "lb ft", by<lbft_from_Nm>},
     {"km", "mi", [](double length_km) { return mi_from_m(1000 * length_km); }},
     {"kN", "lbf", [](double force_kN) { return lbf_from_N(1000 * force_kN); }},
     {"kW", "hp", [](double power_kW) { return hp_from_W(W_from_kW(power_kW)); }},
     {"mm", "in", by<in_from_mm>},
     {"kg", "lb", by<lb_from_kg>},
     {"m", "ft", by<ft_from_m>},
     {"N", "lbf", by<lbf_from_N>},
     {"W", "hp", by<hp_from_W>},
     {"K", "F", by<degF_from_K>}}};

/// Of the quantity table what is not of words, or in another unit than there.
constexpr std::array<Imperial, 5> of_quantities{
    {{"m", "mi", by<mi_from_m>},
     {"m/event", "ft/event", by<ft_from_m>},
     {"um", "in", [](double length_um) { return in_from_mm(mm_from_um(length_um)); }},
     {"W/K", "hp/F", [](double path_WpK) { return hp_from_W(path_WpK) / degF_from_K(1); }},
     {"MPa", "ksi", ksi_from_MPa}}};

/// Of so few metres no miles are made.
constexpr double short_m = 1000;
constexpr Imperial of_short_ways{"m", "ft", by<ft_from_m>};

/// None where the unit stays.
const Imperial* imperial_of(std::string_view unit, double value) {
    if (unit == of_short_ways.metric && std::fabs(value) < short_m) return &of_short_ways;
    for (const Imperial& other : of_quantities)
        if (other.metric == unit) return &other;
    for (const Imperial& other : of_words)
        if (other.metric == unit) return &other;
    return nullptr;
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_word(char c) {
    return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '/';
}

/// End of a plain number that starts at `at`; `at` itself if none does.
std::size_t number_end(std::string_view words, std::size_t at) {
    std::size_t end = at;
    if (end < words.size() && words[end] == '-') ++end;
    const std::size_t first = end;
    while (end < words.size() && is_digit(words[end])) ++end;
    if (end == first) return at;
    if (end + 1 < words.size() && words[end] == '.' && is_digit(words[end + 1])) {
        ++end;
        while (end < words.size() && is_digit(words[end])) ++end;
    }
    return end;
}

/// As many figures as the number had, at least three: a conversion must not round further. Never
/// with an exponent.
std::string converted(std::string_view number, double (*from)(double)) {
    const auto given = std::count_if(number.begin(), number.end(), is_digit);
    double value = 0;
    fast_float::from_chars(number.data(), number.data() + number.size(), value);
    const double shown = from(value);
    constexpr double three_figures = 999.5;
    return std::fabs(shown) >= three_figures
               ? fmt::format("{:.0f}", shown)
               : figures(shown, static_cast<int>(std::clamp<std::ptrdiff_t>(given, 3, 6)));
}

}  // namespace

std::string Units::temp(double temp_degC) const {
    if (temp_degC > oil_ceiling_degC) return imperial_ ? "above 320" : "above 160";
    return whole(temp_value(temp_degC));
}

std::string Units::degrees(double temp_degC) const {
    return fmt::format("{} {}", temp(temp_degC), degree());
}

double Units::temp_value(double temp_degC) const {
    return imperial_ ? degF_from_degC(temp_degC) : temp_degC;
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
    return imperial_ ? whole(degF_from_K(difference_K)) + " F" : whole(difference_K) + " K";
}

std::string Units::number(double value, std::string_view unit) const {
    const Imperial* const other = imperial_ ? imperial_of(unit, value) : nullptr;
    return digits(other == nullptr ? value : other->from(value));
}

std::string_view Units::unit(std::string_view unit, double value) const {
    const Imperial* const other = imperial_ ? imperial_of(unit, value) : nullptr;
    return other == nullptr ? unit : other->unit;
}

std::string Units::power(double power_W) const {
    return imperial_ ? fmt::format("{:.1f} hp", hp_from_W(power_W))
                     : fmt::format("{:.1f} kW", power_W / W_from_kW(1));
}

std::string Units::heat(double power_W) const {
    return imperial_ ? fmt::format("{:.2f} hp", hp_from_W(power_W)) : whole(power_W) + " W";
}

std::string Units::heat_or_power(double power_W) const {
    constexpr double little_W = 995;
    if (power_W >= little_W) return power(power_W);
    if (imperial_) return fmt::format("{} hp", figures(hp_from_W(power_W), 2));
    return power_W < 1 ? "less than 1 W" : fmt::format("{:.0f} W", power_W);
}

std::string Units::per_kelvin(double path_WpK) const {
    if (std::round(path_WpK) <= 0) return {};
    return imperial_ ? fmt::format("{} hp per F", figures(hp_from_W(path_WpK) / degF_from_K(1), 2))
                     : fmt::format("{:.0f} W per K", path_WpK);
}

std::string Units::short_by(const Short& heat) const {
    const std::string per = per_kelvin(heat.by_WpK);
    return heat_or_power(heat.by_W) + " more cooling needed" +
           (per.empty() ? "" : fmt::format(" ({})", per));
}

std::string Units::text(std::string_view words) const {
    if (!imperial_) return std::string(words);
    std::string out;
    std::size_t at = 0;
    while (at < words.size()) {
        // Numbers joined by x, a blank, a unit.
        const bool starts =
            at == 0 || (!is_word(words[at - 1]) && words[at - 1] != '.' && words[at - 1] != '-');
        std::vector<std::string_view> numbers;
        std::size_t end = at;
        while (starts) {
            const std::size_t next = number_end(words, end);
            if (next == end) break;
            numbers.push_back(words.substr(end, next - end));
            end = next;
            if (end >= words.size() || words[end] != 'x') break;
            ++end;
        }
        const Imperial* unit = nullptr;
        if (!numbers.empty() && end < words.size() && words[end] == ' ')
            for (const Imperial& other : of_words) {
                const std::size_t after = end + 1 + other.metric.size();
                if (words.substr(end + 1, other.metric.size()) != other.metric) continue;
                if (after < words.size() && is_word(words[after])) continue;
                unit = &other;
                break;
            }
        if (unit == nullptr) {
            out += words[at++];
            continue;
        }
        for (std::size_t i = 0; i < numbers.size(); ++i)
            out += (i == 0 ? "" : "x") + converted(numbers[i], unit->from);
        out += fmt::format(" {}", unit->unit);
        at = end + 1 + unit->metric.size();
    }
    return out;
}

std::string Units::value(double of, std::string_view unit) const {
    return number(of, unit) + (unit.empty() ? "" : fmt::format(" {}", this->unit(unit, of)));
}

std::string Units::line(const Quantity& quantity) const {
    const std::string shown = quantity.unit != "degC" ? number(quantity.value, quantity.unit)
                              : quantity.of_network   ? temp(quantity.value)
                                                      : whole(temp_value(quantity.value));
    return fmt::format("  {:<58} {:>12}{}{}\n", text(quantity.words), shown,
                       quantity.unit.empty() ? "" : " ", unit(quantity.unit, quantity.value));
}

std::string duration(double s) {
    const int minutes = static_cast<int>(std::lround(s / 60));
    return minutes < 60 ? fmt::format("{} min", minutes)
                        : fmt::format("{} h {:02}", minutes / 60, minutes % 60);
}

std::string heading(const Setup& setup, const Units& units) {
    return fmt::format("{}  {}  {}\n\n", setup.name, setup.event.words,
                       units.degrees(setup.event.ambient_degC));
}

}  // namespace caseload
