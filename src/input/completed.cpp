// SPDX-License-Identifier: MIT
#include "input/completed.hpp"

#include "input/fields.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::input {
namespace {

bool begins(std::string_view text, std::string_view beginning) {
    return text.substr(0, beginning.size()) == beginning;
}

bool by_user(Origin origin) {
    return origin == Origin::yours || origin == Origin::base_file || origin == Origin::changed;
}

/// True if a key begins with this.
bool begins_any(const std::map<std::string, Item>& items, const std::string& beginning) {
    const auto first = items.lower_bound(beginning);
    return first != items.end() && begins(first->first, beginning);
}

std::string shown_value(const Item& item) {
    return item.value.kind == Value::Kind::text ? item.value.text : toml_text(item.value);
}

std::string example_value(const Field& field) {
    if (field.kind == FieldKind::word) return quoted(split_words(field.accepted).front());
    const bool bare = field.kind == FieldKind::integer || field.kind == FieldKind::number;
    if (bare && !field.example.empty()) return std::string(field.example);
    const KindRow& row = row_of(field.kind);
    return row.example.empty() ? fmt::format("\"{}\"", example_of(field))
                               : std::string(row.example);
}

}  // namespace

const Item* Completed::find(const std::string& key) const {
    const auto found = items_.find(key);
    return found == items_.end() ? nullptr : &found->second;
}

std::string Completed::text(const std::string& key) const {
    const Item* item = find(key);
    return item == nullptr ? std::string() : item->value.text;
}

void Completed::add_known_core(const std::string& key) {
    std::vector<std::string>& names = known_parts["core"];
    const std::string name = name_in("core.*.size", key);
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

void Completed::put(const std::string& key, Item item) {
    add_name(key);
    items_[key] = std::move(item);
}

void Completed::set_preset(const std::string& key, std::vector<double> numbers) {
    items_.at(key).preset = std::move(numbers);
}

void Completed::fail(const std::string& key) {
    add_name(key);
    failed_.insert(key);
}

void Completed::add_name(const std::string& key) {
    const std::size_t first = key.find('.');
    const std::size_t second = first == std::string::npos ? first : key.find('.', first + 1);
    if (second == std::string::npos) return;
    const std::string name = key.substr(first + 1, second - first - 1);
    if (matches("*", name)) names_[key.substr(0, first)].insert(name);
}

const std::set<std::string>& Completed::names(std::string_view heading) const {
    static const std::set<std::string> none;
    const auto found = names_.find(heading);
    return found == names_.end() ? none : found->second;
}

bool Completed::holds(std::string_view condition, std::string_view key) const {
    if (condition.empty()) return true;
    const std::size_t sign = condition.find_first_of("!=");
    const std::string about = with_name_of(condition.substr(0, sign), key);
    if (sign == std::string_view::npos) {
        return given(about) || broken(about + ".") || begins_any(items_, about + ".");
    }
    const Item* item = find(about);
    if (item == nullptr) return false;
    const bool negated = condition[sign] == '!';
    const std::vector<std::string> words = split_words(condition.substr(sign + (negated ? 2 : 1)));
    const bool among = std::find(words.begin(), words.end(), shown_value(*item)) != words.end();
    return among != negated;
}

bool Completed::broken(std::string_view beginning) const {
    const auto first = failed_.lower_bound(std::string(beginning));
    return first != failed_.end() && begins(*first, beginning);
}

void Completed::add(Problem problem) {
    if (full()) return;
    problems.push_back(std::move(problem));
    if (full())
        problems.push_back({Where{file_, 0, 0, 0, {}}, "there are more problems than these", {}});
}

void Completed::problem(const std::string& key, std::string text, std::string hint) {
    problem_at({key}, std::move(text), std::move(hint));
}

void Completed::problem_at(const std::vector<std::string>& keys, std::string text,
                           std::string hint) {
    const Item* place = nullptr;
    for (const std::string& key : keys) {
        const Item* item = find(key);
        if (item == nullptr) continue;
        if (place == nullptr || (by_user(item->origin) && !by_user(place->origin))) place = item;
    }
    // An assumed value and one of the command line have no place in a file.
    const bool of_file =
        place == nullptr || (place->value.where.file.empty() && place->origin != Origin::changed);
    add({of_file ? Where{file_, 0, 0, 0, {}} : place->value.where, std::move(text),
         std::move(hint)});
}

void Completed::missing(const std::string& key) {
    if (failed(key)) return;
    const Field& field = *find_field(key);
    fail(key);
    add({place_of_missing(field, key), fmt::format("{} is missing", key),
         fmt::format("add {} = {}: {}", key, example_value(field), field.words)});
}

/// What asks for the key: the value its condition names, else another key of the same name.
Where Completed::place_of_missing(const Field& field, const std::string& key) const {
    const std::string_view about = field.when.substr(0, field.when.find_first_of("!="));
    const Item* reason = find(with_name_of(about, key));
    const std::string beginning = key.substr(0, key.rfind('.') + 1);
    if (reason == nullptr && field.key.find('*') != std::string_view::npos)
        for (const auto& [other, item] : items_)
            if (begins(other, beginning) && by_user(item.origin)) reason = &item;
    if (reason != nullptr && by_user(reason->origin)) return reason->value.where;
    return {file_, 0, 0, 0, {}};
}

void Completed::note(std::string id, std::string about, std::string text) {
    add_note(notes, {std::move(id), std::move(about), std::move(text)});
}

std::vector<std::string> instances(const Completed& from, const Field& field) {
    const std::size_t star = field.key.find('*');
    if (star == std::string_view::npos) return {std::string(field.key)};
    std::vector<std::string> keys;
    for (const std::string& name : from.names(field.key.substr(0, star - 1)))
        keys.push_back(std::string(field.key.substr(0, star)) + name +
                       std::string(field.key.substr(star + 1)));
    return keys;
}

}  // namespace caseload::input
