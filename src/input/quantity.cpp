// SPDX-License-Identifier: MIT
#include "input/quantity.hpp"

#include "caseload/units.hpp"
#include "input/letters.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace caseload::input {
namespace {

struct Exchange {
    std::string_view from;
    std::string_view to;
};

void exchange(std::string& text, const Exchange& pair) {
    for (std::size_t at = text.find(pair.from); at != std::string::npos;
         at = text.find(pair.from, at + pair.to.size()))
        text.replace(at, pair.from.size(), pair.to);
}

/// Typographic characters people paste, as the ASCII they mean.
std::string ascii(std::string_view text) {
    static constexpr Exchange pairs[] = {
        {"\xC2\xB0", "deg"},                          // degree sign
        {"\xE2\x84\x83", "degC"},                     // degree Celsius as one character
        {"\xE2\x84\x89", "degF"}, {"\xC2\xB7", ""},   // middle dot
        {"\xE2\x8B\x85", ""},                         // dot operator
        {"\xC2\xB5", "u"},                            // micro sign
        {"\xCE\xBC", "u"},                            // Greek mu
        {"\xC2\xB2", "2"},                            // superscripts
        {"\xC2\xB3", "3"},        {"\xC3\x97", "x"},  // multiplication sign
        {"\xE2\x88\x92", "-"},                        // minus sign
        {"\xC2\xA0", " "},                            // no-break blanks
        {"\xE2\x80\xAF", " "},
    };
    std::string out(text);
    for (const Exchange& pair : pairs) exchange(out, pair);
    return out;
}

/// One spelling for "N m", "N*m", "N-m", "N.m", "W/(m2 K)".
std::string plain(std::string_view unit) {
    std::string out;
    for (const char c : unit)
        if (std::string_view(" \t-*^.()").find(c) == std::string_view::npos) out += c;
    return out;
}

const Unit* find_unit(const std::string& spelling, const std::function<bool(Kind, Kind)>& wanted,
                      Kind kind) {
    for (const Unit& unit : units_table())
        if (wanted(unit.kind, kind) && spelling == unit.spelling) return &unit;
    for (const Unit& unit : units_table())
        if (wanted(unit.kind, kind) && !unit.exact_case && lower(spelling) == lower(unit.spelling))
            return &unit;
    return nullptr;
}

const Unit* unit_of_kind(const std::string& spelling, Kind kind) {
    return find_unit(spelling, std::equal_to<>(), kind);
}

const Unit* unit_of_another_kind(const std::string& spelling, Kind kind) {
    return find_unit(spelling, std::not_equal_to<>(), kind);
}

/// Length of the number at the start: sign, digits, points, commas, exponent.
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
    const auto result = fast_float::from_chars(text.data(), text.data() + text.size(), value);
    return result.ec == std::errc{} && result.ptr == text.data() + text.size() &&
           std::isfinite(value);
}

void offer_units(Measure measure, Quantity& result) {
    result.hint = fmt::format("units accepted: {}", words_of(measure).accepted);
    result.offer_example = true;
}

/// Sets problem and hint for a number with a comma: its meaning is never guessed.
void comma(std::string_view number, std::string_view unit, Quantity& result) {
    std::string decimal(number);
    std::string grouped(number);
    exchange(decimal, {",", "."});
    exchange(grouped, {",", ""});
    if (number.find('.') != std::string_view::npos ||
        std::count(number.begin(), number.end(), ',') > 1) {
        result.problem = "commas between digits are not read";
        result.hint = fmt::format("write plain digits with a point, for example \"{}{}{}\"",
                                  grouped, unit.empty() ? "" : " ", unit);
        return;
    }
    result.problem = "a comma in a number has two readings";
    result.hint = fmt::format("write \"{0}{2}{3}\" or \"{1}{2}{3}\"", decimal, grouped,
                              unit.empty() ? "" : " ", unit);
}

void wrong_kind(Measure measure, const Unit& other, std::string_view written, Quantity& result) {
    result.problem = fmt::format("\"{}\" does not measure what this key holds", written);
    offer_units(measure, result);
    if (measure == Measure::difference_K && other.kind == Kind::temperature) {
        const double kelvin = result.value * other.factor;
        result.problem = "this key holds a temperature difference, not a temperature";
        result.hint = fmt::format("write the difference in K: \"{:.4g} K\"", kelvin);
        result.offer_example = false;
    } else if (measure == Measure::temp_degC && other.kind == Kind::difference) {
        result.problem = "K is for temperature differences; this key holds a temperature";
        result.hint = fmt::format("write degC or degF: \"{:.6g} degC\"", degC_from_K(result.value));
        result.offer_example = false;
    }
}

void unknown_unit(Measure measure, std::string_view written, Quantity& result) {
    offer_units(measure, result);
    if (written.front() == '"' || written.front() == '\'') {
        result.problem = "the mark after the number is not read as a unit";
        result.hint = "write in for inches, ft for feet, min for minutes";
        result.offer_example = false;
    } else if (digit(written.front())) {
        result.problem = "there is a blank inside the number";
    } else if (std::any_of(written.begin(), written.end(), digit) &&
               written.find(' ') != std::string_view::npos &&
               words_of(measure).kind == Kind::time) {
        result.problem = "one number with one unit is expected";
        result.hint = "write \"5.5 h\" or \"330 min\" for five hours and a half";
        result.offer_example = false;
    } else {
        result.problem = fmt::format("\"{}\" is not a unit known here", written);
    }
}

}  // namespace

Quantity read_quantity(Measure measure, std::string_view text) {
    Quantity result;
    const std::string clean = ascii(text);
    const std::string_view all = trimmed(clean);
    const std::size_t length = number_length(all);
    const std::string_view number = all.substr(0, length);
    const std::string_view written = trimmed(all.substr(length));
    const MeasureWords& words = words_of(measure);
    if (!number.empty() && number.front() == '+') {
        result.problem = "a + in front is read as a change, and a value is wanted here";
        result.hint = fmt::format("write the value it shall have, for example \"{}\"",
                                  trimmed(all.substr(1)));
        return result;
    }
    if (number.find(',') != std::string_view::npos) {
        comma(number, written, result);
        return result;
    }
    if (!parse_number(number, result.value)) {
        result.problem = length > 0 && std::any_of(number.begin(), number.end(), digit)
                             ? fmt::format("{} is not a number that can be used", number)
                             : "this does not begin with a number";
        result.hint = "write a number and its unit";
        result.offer_example = true;
        return result;
    }
    if (measure == Measure::share) {
        result.ok = written == "%";
        result.value /= 100;
        if (!result.ok) {
            result.problem = "a share is a bare number or text in %";
            result.hint = "write 0.35 or \"35 %\"";
        }
        return result;
    }
    if (written.empty()) {
        result.problem = "the unit is missing";
        offer_units(measure, result);
        return result;
    }
    const std::string spelling = plain(written);
    const Unit* unit = unit_of_kind(spelling, words.kind);
    if (unit == nullptr) {
        const Unit* other = unit_of_another_kind(spelling, words.kind);
        if (other != nullptr)
            wrong_kind(measure, *other, written, result);
        else
            unknown_unit(measure, written, result);
        return result;
    }
    const Unit* own = unit_of_kind(plain(words.unit), words.kind);
    if (unit->factor != own->factor || unit->offset != own->offset) {
        result.value = (result.value * unit->factor + unit->offset) / own->factor;
        result.converted = true;
    }
    result.note = unit->note;
    result.ok = std::isfinite(result.value);
    if (!result.ok) result.problem = "the number is too large";
    return result;
}

ThreeLengths read_size(std::string_view text) {
    ThreeLengths result;
    const std::string form = "three lengths joined by x, the unit at the end";
    const std::string clean = ascii(text);
    std::string_view rest = trimmed(clean);
    std::array<double, 3> factor{};
    for (std::size_t i = 0; i < 3; ++i) {
        const std::size_t length = number_length(rest);
        if (rest.substr(0, length).find(',') != std::string_view::npos) {
            Quantity number;
            comma(rest.substr(0, length), "", number);
            result.problem = "a comma in a size has two readings";
            result.hint = number.hint;
            return result;
        }
        if (!parse_number(rest.substr(0, length), result.mm[i])) {
            result.problem = "three lengths are expected";
            result.hint = form;
            return result;
        }
        rest = trimmed(rest.substr(length));
        const std::size_t end =
            std::min(i < 2 ? rest.find_first_of("xX") : rest.size(), rest.size());
        const std::string unit = plain(rest.substr(0, end));
        const Unit* found = unit_of_kind(unit, Kind::length);
        if (found == nullptr && (!unit.empty() || i == 2)) {
            result.problem = unit.empty() ? std::string("the unit of the three lengths is missing")
                                          : fmt::format("\"{}\" is not a unit of length",
                                                        trimmed(rest.substr(0, end)));
            result.hint = form;
            return result;
        }
        factor[i] = found != nullptr ? found->factor : 0;
        rest = end < rest.size() ? trimmed(rest.substr(end + 1)) : std::string_view{};
    }
    for (std::size_t i = 0; i < 3; ++i) result.mm[i] *= factor[i] > 0 ? factor[i] : factor[2];
    result.ok = true;
    return result;
}

}  // namespace caseload::input
