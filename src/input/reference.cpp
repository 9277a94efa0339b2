// SPDX-License-Identifier: MIT
// The key reference, from the field table.
#include "caseload/input.hpp"
#include "input/course_tables.hpp"
#include "input/fields.hpp"
#include "input/library.hpp"
#include "input/oils.hpp"
#include "input/presets.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

using input::Field;
using input::FieldKind;
using input::Measure;

std::string value_words(const Field& field) {
    const auto& words = input::words_of(field.measure);
    const auto list = [](const std::vector<std::string>& all) {
        std::vector<std::string> quoted;
        quoted.reserve(all.size());
        for (const std::string& one : all) quoted.push_back(fmt::format("`{}`", one));
        return fmt::format("{}", fmt::join(quoted, ", "));
    };
    std::string text(input::row_of(field.kind).takes);
    if (field.kind == FieldKind::quantity || field.kind == FieldKind::quantities)
        text.insert(0, words.accepted);
    if (field.kind == FieldKind::word) text = list(input::split_words(field.accepted));
    if (field.kind == FieldKind::grade) text.insert(0, list(input::oil_grades()));
    if (field.kind == FieldKind::number && field.measure == Measure::share) text += " or %";
    if (field.accepted.empty()) return text;
    if (field.kind == FieldKind::quantity) text += fmt::format(", or `{}`", field.accepted);
    if (field.kind == FieldKind::size) text += ", or the name of a core";
    if (field.kind == FieldKind::teeth) text += fmt::format(", or {}", field.accepted);
    return text;
}

std::string range_words(const Field& field) {
    if (field.range.low < -1e300) return {};
    const std::string_view unit = input::words_of(field.measure).unit;
    return fmt::format("{:.6g} to {:.6g}{}{}", field.range.low, field.range.high,
                       unit.empty() ? "" : " ", unit);
}

/// "K=A|B" as words.
std::string when_words(std::string_view when) {
    const std::size_t sign = std::min(when.find_first_of("!="), when.size());
    if (sign == when.size()) return fmt::format("with `{}`", when);
    const bool negated = when[sign] == '!';
    const auto words = input::split_words(when.substr(sign + (negated ? 2 : 1)));
    return fmt::format("`{}` {}{}", when.substr(0, sign), negated ? "not " : "",
                       fmt::join(words, " or "));
}

std::string standard_words(const Field& field) {
    std::string text;
    if (!field.fallback.empty()) text = fmt::format("`{}`", field.fallback);
    if (!field.other.empty())
        text += fmt::format(" (`{}`: {})", field.other, when_words(field.other_when));
    for (const input::Preset& preset : input::presets())
        if (text.empty() &&
            std::find(preset.fills.begin(), preset.fills.end(), field.key) != preset.fills.end())
            text = fmt::format("by `{}`", preset.key);
    if (field.need) text = "needed";
    if (!field.when.empty())
        text += fmt::format("{}{}", text.empty() ? "" : " ", when_words(field.when));
    return text;
}

std::string range_of(const input::RangedValue& value) {
    const std::string text = input::toml_text(value.value);
    return value.low.empty() ? text : fmt::format("{} ({} to {})", text, value.low, value.high);
}

std::string preset_table() {
    std::string text =
        "\n## What words mean\n\nIn brackets the ends of the plausible range.\n\n"
        "| key | word | meaning | source |\n|---|---|---|---|\n";
    for (const input::Preset& preset : input::presets())
        for (const auto& [word, meaning] : preset.words) {
            std::vector<std::string> parts;
            parts.reserve(meaning.values.size() + meaning.numbers.size());
            for (const auto& [key, value] : meaning.values)
                parts.push_back(fmt::format("`{}` {}", key, range_of(value)));
            for (std::size_t i = 0; i < meaning.numbers.size(); ++i)
                parts.push_back(meaning.lows[i] == meaning.highs[i]
                                    ? fmt::format("{:g}", meaning.numbers[i])
                                    : fmt::format("{:g} ({:g} to {:g})", meaning.numbers[i],
                                                  meaning.lows[i], meaning.highs[i]));
            if (parts.empty()) continue;
            text += fmt::format("| `{}` | `{}` | {} | {} |\n", preset.key, word,
                                fmt::join(parts, "; "), preset.source);
        }
    return text;
}

std::string oil_table() {
    std::string text =
        "\n## Oil grades\n\nTypical values, from memory; in brackets what products show.\n\n"
        "| grade | base | 40 degC | 100 degC | density at 15 degC |\n|---|---|---|---|---|\n";
    for (const std::string& grade : input::oil_grades()) {
        const auto& oil = input::oil_of_grade(grade);
        text += fmt::format(
            "| {} | {} | {} | {} | {} |\n", grade, oil.at("oil.base_oil").value.text,
            range_of(oil.at("oil.viscosity_40C")), range_of(oil.at("oil.viscosity_100C")),
            range_of(oil.at("oil.density_15C")));
    }
    return text;
}

std::string library_table() {
    std::string text =
        "\n## Library: a file of your own parts\n\n"
        "`library = \"shop.toml\"` in a setup. That file begins with `caseload = 1`; each part is "
        "a table, `[bearing.NAME]`, its members as in a setup. Entries of the setup beside the "
        "name override those of the part. `caseload cooler` and `caseload bearings` choose from "
        "the library as well. A setup is completed with the values themselves, so a completed "
        "file and the book need no library.\n\n| part | taken by | needs | may have "
        "|\n|---|---|---|---|\n";
    for (const input::PartKind& kind : input::part_kinds()) {
        std::vector<std::string> need;
        std::vector<std::string> may;
        for (const input::PartMember& member : input::part_members())
            if (member.heading == kind.heading)
                (member.need ? need : may).push_back(fmt::format("`{}`", member.name));
        text += fmt::format("| `[{}.NAME]` | `{}` | {} | {} |\n", kind.heading, kind.key,
                            fmt::join(need, ", "), fmt::join(may, ", "));
    }
    return text;
}

}  // namespace

std::string key_reference() {
    std::string text =
        "# Setup file: every key\n\n"
        "Written from the field table; do not edit. `*` is a name you choose, `[]` for the "
        "rows "
        "of a list. A quantity is text with its unit, in any unit of its kind; a bare number has "
        "none.\n";
    std::string heading;
    for (const Field& field : input::fields()) {
        const std::size_t dot = field.key.find('.');
        const std::string own(dot == std::string_view::npos ? "file" : field.key.substr(0, dot));
        if (own != heading)
            text += fmt::format(
                "\n## {}\n\n| key | value | range | standard value | meaning |\n"
                "|---|---|---|---|---|\n",
                own);
        heading = own;
        text += fmt::format("| `{}` | {} | {} | {} | {} |\n", field.key, value_words(field),
                            range_words(field), standard_words(field), field.words);
    }
    return text + library_table() + preset_table() + oil_table() + input::course_tables();
}

}  // namespace caseload
