// SPDX-License-Identifier: MIT
#include "caseload/ask/changes.hpp"

#include "input/fields.hpp"
#include "input/letters.hpp"
#include "input/quantity.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace caseload {
namespace {

using input::Field;
using input::FieldKind;
using input::Measure;

/// "600 kg" as 600 and "kg"; nothing where no number is in front.
struct NumberWithUnit {
    double number = 0;
    std::string unit;
};

std::optional<NumberWithUnit> number_with_unit(std::string_view text) {
    NumberWithUnit read;
    const char* const end = text.data() + text.size();
    const auto [stop, failed] = fast_float::from_chars(text.data(), end, read.number);
    if (failed != std::errc()) return std::nullopt;
    read.unit = input::trimmed(std::string_view(stop, static_cast<std::size_t>(end - stop)));
    return read;
}

const Entry* entry_of(const ReadSetup& read, const std::string& key) {
    const auto found = std::find_if(read.entries.begin(), read.entries.end(),
                                    [&](const Entry& entry) { return entry.key == key; });
    return found == read.entries.end() ? nullptr : &*found;
}

bool takes_changes(const Field& field) {
    return field.kind == FieldKind::quantity || field.kind == FieldKind::quantities ||
           field.kind == FieldKind::number || field.kind == FieldKind::integer;
}

/// In the measure's own unit; nothing where the text is no single number of it.
std::optional<double> own_unit(const Field& field, const std::string& text) {
    const auto plain = number_with_unit(text);
    if (!plain) return std::nullopt;
    const bool bare = field.kind == FieldKind::number || field.kind == FieldKind::integer;
    if (bare && plain->unit.empty()) return plain->number;
    const input::Quantity read = input::read_quantity(field.measure, text);
    return read.ok ? std::optional<double>(read.value) : std::nullopt;
}

std::string number_in(double value, const std::string& unit) {
    return fmt::format("{:.10g}{}{}", value, unit.empty() ? "" : " ", unit);
}

/// The new value of a temperature, from a difference.
std::string new_temperature(const std::string& key, std::string_view option,
                            const std::string& text, double present_degC) {
    const input::Quantity by = input::read_quantity(Measure::difference_K, text.substr(1));
    if (!by.ok)
        refuse_input(fmt::format("{} \"{}={}\": {}", option, key, text, by.problem), by.hint);
    return number_in(present_degC + (text.front() == '-' ? -by.value : by.value), "degC");
}

}  // namespace

std::string new_value(const ReadSetup& read, std::string_view option, const std::string& key,
                      const std::string& typed) {
    constexpr std::string_view minus = "\xE2\x88\x92";  // as pasted from a document
    const std::string text = typed.rfind(minus, 0) == 0 ? "-" + typed.substr(minus.size()) : typed;
    const Field* field = input::find_field(key);
    const bool sign = !text.empty() && (text.front() == '+' || text.front() == '-');
    if (!sign || field == nullptr || !takes_changes(*field)) return text;
    const std::string size(input::trimmed(std::string_view(text).substr(1)));
    const bool temperature = field->measure == Measure::temp_degC;
    if (temperature && input::read_quantity(Measure::temp_degC, size).ok) {
        if (text.front() == '-') return text;
        refuse_input(
            fmt::format("{} \"{}={}\": a temperature, or a change of it?", option, key, text),
            fmt::format("write \"{}={}\" for the temperature, \"{}=+5 K\" for a change", key, size,
                        key));
    }
    const Entry* entry = entry_of(read, key);
    const std::optional<double> present =
        entry == nullptr ? std::nullopt : own_unit(*field, entry->number);
    if (!present)
        refuse_input(
            fmt::format("{} \"{}={}\": {} has no single value to change", option, key, text, key),
            fmt::format("write the new value: \"{}={}\"", key, size));
    if (temperature) return new_temperature(key, option, text, *present);
    const auto change = number_with_unit(size);
    const std::optional<double> by = own_unit(*field, size);
    if (!change || !by) return size;  // its reader says what is wrong with it
    // Only temperatures have an offset between their units.
    const double unit = own_unit(*field, number_in(1, change->unit)).value_or(1);
    const double after = *present + (text.front() == '-' ? -*by : *by);
    return number_in(after / unit, change->unit);
}

ChangedKey changed_key(const ReadSetup& read, const std::string& key, const std::string& value) {
    const Entry* entry = entry_of(read, key);
    if (entry == nullptr) return {key, "not entered", value};
    const Field* field = input::find_field(key);
    const auto after = number_with_unit(value);
    const std::optional<double> present =
        field != nullptr && takes_changes(*field) ? own_unit(*field, entry->number) : std::nullopt;
    if (!present || !after) return {key, entry->number, value};
    if (field->measure == Measure::temp_degC) {
        const bool same =
            entry->number.size() > after->unit.size() &&
            entry->number.substr(entry->number.size() - after->unit.size()) == after->unit;
        return {key, same ? number_in(number_with_unit(entry->number)->number, "") : entry->number,
                value};
    }
    const double unit = own_unit(*field, number_in(1, after->unit)).value_or(1);
    return {key, fmt::format("{:.6g}", *present / unit), value};
}

}  // namespace caseload
