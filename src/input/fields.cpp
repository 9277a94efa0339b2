// SPDX-License-Identifier: MIT
#include "input/fields.hpp"

#include "input/item.hpp"
#include "input/letters.hpp"

#include <algorithm>
#include <cctype>
#include <functional>
#include <map>
#include <stdexcept>

namespace caseload::input {
namespace {

bool name_character(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-';
}

std::string_view first_part(std::string_view& key) {
    const std::size_t dot = std::min(key.find('.'), key.size());
    const std::string_view part = key.substr(0, dot);
    key.remove_prefix(std::min(dot + 1, key.size()));
    return part;
}

bool fits(std::string_view pattern_part, std::string_view part) {
    if (pattern_part != "*") return pattern_part == part;
    return !part.empty() && std::all_of(part.begin(), part.end(), name_character);
}

/// Parts of the key that fit the beginning of the pattern; -1: one does not.
int fitting_parts(std::string_view pattern, std::string_view key) {
    int count = 0;
    while (!key.empty()) {
        if (pattern.empty() || !fits(first_part(pattern), first_part(key))) return -1;
        ++count;
    }
    return count;
}

int count_parts(std::string_view key) {
    return 1 + static_cast<int>(std::count(key.begin(), key.end(), '.'));
}

constexpr KindRow kind_rows[] = {
    {FieldKind::quantity, Form::quoted, "", "", "{}; for example {}"},
    {FieldKind::quantities, Form::quoted_or_list, "", "; one or a list", "{}; for example {}"},
    {FieldKind::number, Form::bare, "1.5", "number", "a bare number"},
    {FieldKind::integer, Form::bare, "1", "whole number", "a whole number"},
    {FieldKind::text, Form::quoted, "", "text", ""},
    {FieldKind::word, Form::quoted, "", "", ""},
    {FieldKind::grade, Form::quoted, "\"75W-90 synthetic\"", ", or an oil of the library", ""},
    {FieldKind::flag, Form::bare, "true", "`true`, `false`", ""},
    {FieldKind::size, Form::quoted, "", "three lengths, `90x140x24 mm`",
     "three lengths; for example {1}"},
    {FieldKind::teeth, Form::list, "[33, 41]", "tooth counts, `[33, 41]` or `33/41`",
     "counts of teeth with a comma between"},
    {FieldKind::numbers, Form::list, "[2.48, 1.48, 1.0]", "list of numbers",
     "numbers with commas between"},
    {FieldKind::names, Form::list, "[\"loop\"]", "list of names", ""},
    {FieldKind::rows, Form::list, "[ .. ]", "list of rows", ""},
    {FieldKind::part, Form::quoted, "\"NAME\"", "name", ""},
    {FieldKind::pairs, Form::list, "[ .. ]", "list of pairs", ""}};

}  // namespace

const KindRow& row_of(FieldKind kind) {
    return *std::find_if(std::begin(kind_rows), std::end(kind_rows),
                         [&](const KindRow& row) { return row.kind == kind; });
}

std::span<const Field> fields() {
    static const std::vector<Field> all = [] {
        std::vector<Field> joined;
        for (const auto part : {case_fields(), part_fields(), oil_fields(), heat_fields(),
                                shop_fields(), event_fields(), rule_fields(), reading_fields()})
            joined.insert(joined.end(), part.begin(), part.end());
        return joined;
    }();
    return all;
}

bool matches(std::string_view pattern, std::string_view key) {
    return !key.empty() && count_parts(pattern) == count_parts(key) &&
           fitting_parts(pattern, key) == count_parts(key);
}

const Field* find_field(std::string_view key) {
    // Names are always in the second place of a key.
    static const std::map<std::string, const Field*, std::less<>> by_pattern = [] {
        std::map<std::string, const Field*, std::less<>> index;
        for (const Field& field : fields()) index[std::string(field.key)] = &field;
        return index;
    }();
    const auto exact = by_pattern.find(key);
    if (exact != by_pattern.end() && key.find_first_of("*[") == std::string_view::npos)
        return exact->second;
    const std::size_t first = key.find('.');
    const std::size_t second = first == std::string_view::npos ? first : key.find('.', first + 1);
    if (second == std::string_view::npos) return nullptr;
    const auto named =
        by_pattern.find(std::string(key.substr(0, first)) + ".*" + std::string(key.substr(second)));
    return named != by_pattern.end() && matches(named->first, key) ? named->second : nullptr;
}

const Field& field_of(std::string_view pattern) {
    const auto all = fields();
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const Field& field) { return field.key == pattern; });
    if (found == all.end()) throw std::out_of_range("no field " + std::string(pattern));
    return *found;
}

bool is_heading(std::string_view key) {
    return std::any_of(fields().begin(), fields().end(), [&](const Field& field) {
        return count_parts(key) < count_parts(field.key) &&
               fitting_parts(field.key, key) == count_parts(key);
    });
}

std::string name_in(std::string_view pattern, std::string_view key) {
    while (!pattern.empty() && !key.empty()) {
        const std::string_view part = first_part(key);
        if (first_part(pattern) == "*") return std::string(part);
    }
    return {};
}

std::string with_name_of(std::string_view pattern, std::string_view key) {
    const std::size_t star = pattern.find('*');
    if (star == std::string_view::npos) return std::string(pattern);
    std::string_view rest = key;
    std::string_view before = pattern.substr(0, star);
    while (!before.empty()) {
        first_part(before);
        first_part(rest);
    }
    return std::string(pattern.substr(0, star)) + std::string(first_part(rest)) +
           std::string(pattern.substr(star + 1));
}

std::string_view example_of(const Field& field) {
    return field.example.empty() ? words_of(field.measure).example : field.example;
}

std::vector<const Field*> members_of(std::string_view pattern) {
    const std::string prefix = std::string(pattern) + "[].";
    std::vector<const Field*> members;
    for (const Field& field : fields())
        if (field.key.substr(0, prefix.size()) == prefix) members.push_back(&field);
    return members;
}

std::vector<std::string> split_words(std::string_view accepted) {
    std::vector<std::string> words;
    while (!accepted.empty()) {
        const std::size_t bar = std::min(accepted.find('|'), accepted.size());
        words.emplace_back(trimmed(accepted.substr(0, bar)));
        accepted.remove_prefix(std::min(bar + 1, accepted.size()));
    }
    return words;
}

}  // namespace caseload::input
