// SPDX-License-Identifier: MIT
#include "input/completed.hpp"

#include "caseload/tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::input {
namespace {

std::string list_of(const std::vector<std::string>& words) {
    std::string all;
    for (const std::string& word : words) all += (all.empty() ? "" : ", ") + word;
    return all;
}

std::string shown(const Value& value) {
    return toml_text(value);
}

std::string_view kind_words(Value::Kind kind) {
    switch (kind) {
        case Value::Kind::text:
            return "text";
        case Value::Kind::number:
        case Value::Kind::integer:
            return "a bare number";
        case Value::Kind::flag:
            return "true or false";
        case Value::Kind::list:
            return "a list";
        case Value::Kind::table:
            return "a table";
    }
    return "";
}

class LeafCheck {
public:
    LeafCheck(Completed& to, const std::string& key, Item& item)
        : to_(to), key_(key), item_(item), field_(*item.field) {}

    bool run() {
        const Value& value = item_.value;
        switch (field_.kind) {
            case FieldKind::quantity:
                return quantity();
            case FieldKind::number:
                return (is_number(value) || wrong("a bare number, for example 0.35")) &&
                       in_range(value.number);
            case FieldKind::integer:
                return (value.kind == Value::Kind::integer || wrong("a whole number")) &&
                       in_range(value.number);
            case FieldKind::text:
                return value.kind == Value::Kind::text || wrong("text in quotes");
            case FieldKind::flag:
                return value.kind == Value::Kind::flag || wrong("true or false, without quotes");
            case FieldKind::word:
                return word();
            case FieldKind::size:
                return size();
            case FieldKind::integers:
                return integers();
            case FieldKind::numbers:
                return numbers();
            case FieldKind::texts:
                return texts();
            case FieldKind::bins:
            case FieldKind::peaks:
            case FieldKind::torque_points:
                return value.kind == Value::Kind::list || wrong("a list");
        }
        return false;
    }

private:
    static bool is_number(const Value& value) {
        return value.kind == Value::Kind::number || value.kind == Value::Kind::integer;
    }

    bool wrong(std::string_view expected) {
        report(fmt::format("expected {}, found {}", expected, kind_words(item_.value.kind)), {});
        return false;
    }

    void report(const std::string& what, std::string hint) {
        Where where = item_.value.where;
        to_.problems.push_back(
            {where, fmt::format("{} = {}: {}", key_, shown(item_.value), what), std::move(hint)});
    }

    bool in_range(double number) {
        item_.number = number;
        if (number >= field_.low && number <= field_.high) return true;
        const std::string_view unit = unit_of(field_.measure);
        report(fmt::format("must be from {:g} to {:g}{}{}", field_.low, field_.high,
                           unit.empty() ? "" : " ", unit),
               std::string(field_.words));
        return false;
    }

    bool quantity() {
        const Value& value = item_.value;
        if (is_number(value)) {
            report("a unit is missing",
                   fmt::format("write it with its unit in quotes, for example \"{}\"",
                               example_of(field_.measure)));
            return false;
        }
        if (value.kind != Value::Kind::text)
            return wrong(fmt::format("a quantity such as \"{}\"", example_of(field_.measure)));
        const Quantity read = read_quantity(field_.measure, value.text);
        if (!read.ok) {
            report(read.problem, read.hint);
            return false;
        }
        if (!read.note.empty())
            to_.note("input.unit", key_, fmt::format("{}: {}", key_, read.note));
        return in_range(read.value);
    }

    bool word() {
        if (item_.value.kind != Value::Kind::text)
            return wrong(fmt::format("one of {}", field_.accepted));
        std::string accepted(field_.accepted);
        if (key_ == "oil.grade") {
            accepted.clear();
            for (const auto& [key, leaf] : parse_leaves(embedded_table("oils.toml"), "oils.toml"))
                if (key.size() > 5 && key.substr(key.size() - 5) == ".name")
                    accepted += (accepted.empty() ? "" : " | ") + leaf.value.text;
        }
        if (is_accepted(accepted, item_.value.text)) return true;
        const std::string near = nearest_word(accepted, item_.value.text);
        report(
            fmt::format("not one of {}", accepted),
            near.empty() ? std::string(field_.words) : fmt::format("did you mean \"{}\"?", near));
        return false;
    }

    bool size() {
        if (item_.value.kind != Value::Kind::text) return wrong("a size such as \"90x140x24 mm\"");
        const ThreeLengths read = read_size(item_.value.text);
        if (!read.ok) {
            report(read.problem, std::string(field_.words));
            return false;
        }
        for (const double mm : read.mm) {
            if (!in_range(mm)) return false;
            item_.numbers.push_back(mm);
        }
        return true;
    }

    bool integers() {
        if (key_ == "gears.fitted" && item_.value.kind == Value::Kind::text) return true;
        if (item_.value.kind != Value::Kind::list)
            return wrong("a list of teeth, for example [33, 41]");
        for (const Value& one : item_.value.items) {
            if (one.kind != Value::Kind::integer || one.number < 12 || one.number > 200) {
                report("each gear has a whole number of teeth from 12 to 200", {});
                return false;
            }
            item_.numbers.push_back(one.number);
        }
        return true;
    }

    bool numbers() {
        if (item_.value.kind != Value::Kind::list)
            return wrong("a list of numbers, for example [2.48, 1.48, 1.0]");
        for (const Value& one : item_.value.items) {
            if (!is_number(one)) return wrong("a list of bare numbers");
            if (!in_range(one.number)) return false;
            item_.numbers.push_back(one.number);
        }
        return true;
    }

    bool texts() {
        if (item_.value.kind != Value::Kind::list) return wrong("a list of names in quotes");
        for (const Value& one : item_.value.items)
            if (one.kind != Value::Kind::text) return wrong("a list of names in quotes");
        return true;
    }

    Completed& to_;
    const std::string& key_;
    Item& item_;
    const Field& field_;
};

/// "*" of the pattern replaced by the names found under its heading.
std::vector<std::string> instances(const Completed& from, std::string_view pattern) {
    const std::size_t star = pattern.find('*');
    if (star == std::string_view::npos) return {std::string(pattern)};
    const std::string heading(pattern.substr(0, star - 1));
    std::vector<std::string> keys;
    for (const std::string& name : from.names(heading))
        keys.push_back(heading + "." + name + std::string(pattern.substr(star + 1)));
    return keys;
}

}  // namespace

double Completed::number(const std::string& key) {
    const auto found = items.find(key);
    if (found != items.end()) return found->second.number;
    if (missing_.insert(key).second) {
        const Field* field = find_field(key);
        std::string example = "a number";
        if (field != nullptr && field->kind == FieldKind::quantity) {
            const double shown = read_quantity(field->measure, example_of(field->measure)).value;
            example = shown >= field->low && shown <= field->high
                          ? fmt::format("\"{}\"", example_of(field->measure))
                          : fmt::format("\"... {}\"", unit_of(field->measure));
        } else if (field != nullptr && field->kind == FieldKind::integers) {
            example = "[33, 41]";
        }
        problems.push_back(
            {Where{default_file, 0, 0, 0, {}}, fmt::format("{} is missing", key),
             fmt::format("add {} = {}  ({})", key, example, field != nullptr ? field->words : "")});
    }
    return 0;
}

std::optional<double> Completed::optional(const std::string& key) const {
    const auto found = items.find(key);
    if (found == items.end()) return std::nullopt;
    return found->second.number;
}

std::string Completed::word(const std::string& key) {
    const auto found = items.find(key);
    if (found != items.end()) return found->second.value.text;
    if (missing_.insert(key).second) {
        const Field* field = find_field(key);
        problems.push_back({Where{default_file, 0, 0, 0, {}}, fmt::format("{} is missing", key),
                            field != nullptr && !field->accepted.empty()
                                ? fmt::format("one of {}", field->accepted)
                                : std::string(field != nullptr ? field->words : "")});
    }
    return {};
}

std::string Completed::text_or(const std::string& key, const std::string& fallback) const {
    const auto found = items.find(key);
    return found == items.end() ? fallback : found->second.value.text;
}

bool Completed::flag(const std::string& key) {
    const auto found = items.find(key);
    return found != items.end() && found->second.value.flag;
}

std::vector<std::string> Completed::names(const std::string& heading) const {
    std::vector<std::string> all;
    const std::string prefix = heading + ".";
    for (const auto& [key, item] : items) {
        if (key.compare(0, prefix.size(), prefix) != 0) continue;
        const std::size_t dot = key.find('.', prefix.size());
        if (dot == std::string::npos) continue;
        std::string name = key.substr(prefix.size(), dot - prefix.size());
        if (std::find(all.begin(), all.end(), name) == all.end()) all.push_back(std::move(name));
    }
    return all;
}

void Completed::problem(const std::string& key, std::string text, std::string hint) {
    const auto found = items.find(key);
    problems.push_back(
        {found == items.end() ? Where{default_file, 0, 0, 0, {}} : found->second.value.where,
         std::move(text), std::move(hint)});
}

void Completed::note(std::string id, std::string about, std::string text) {
    add_note(notes, {std::move(id), std::move(about), std::move(text)});
}

void add_leaf(Completed& to, const std::string& key, const Value& value, const Where& key_where,
              Origin origin) {
    Item item;
    item.value = value;
    item.where = key_where;
    item.origin = origin;
    item.field = find_field(key);
    if (item.field == nullptr) {
        const std::string near = nearest_key(key);
        std::vector<std::string> headings{"case",   "gears",   "set",   "shaft",       "bearing",
                                          "joint",  "seal",    "oil",   "lubrication", "housing",
                                          "cooler", "vehicle", "event", "leg",         "limits",
                                          "rules",  "aims"};
        to.problems.push_back({key_where, fmt::format("unknown key {}", key),
                               near.empty() ? fmt::format("headings are {}", list_of(headings))
                                            : fmt::format("did you mean {}?", near)});
        return;
    }
    if (LeafCheck(to, key, item).run())
        to.items[key] = std::move(item);
    else
        to.refused(key);
}

namespace {

struct Preset {
    std::string key;
    std::vector<std::string> targets;
    std::string source;
    std::string low_word;
    std::string high_word;
    double low_factor = 0;  ///< 0: none
    double high_factor = 0;
    std::map<std::string, std::vector<Value>> words;
};

struct PresetTable {
    std::vector<Preset> presets;
    std::map<std::string, std::pair<Value, Value>> ranges;  ///< by key pattern
};

PresetTable read_presets();

const PresetTable& preset_table() {
    static const PresetTable table = read_presets();
    return table;
}

Item standard_item(const Field* field, Value value, Origin origin, std::string source) {
    Item item;
    item.field = field;
    item.value = std::move(value);
    item.origin = origin;
    item.source = std::move(source);
    return item;
}

void put(Completed& to, const std::string& key, Value value, Origin origin,
         const std::string& source) {
    Item item = standard_item(find_field(key), std::move(value), origin, source);
    if (item.field == nullptr || !LeafCheck(to, key, item).run()) return;
    to.items[key] = std::move(item);
}

Value scaled(const Item& item, double factor) {
    Value value = item.value;
    value.kind = Value::Kind::number;
    value.number = item.number * factor;
    return value;
}

void set_range(Completed& to, const std::string& key, std::string low, std::string high) {
    const auto found = to.items.find(key);
    if (found == to.items.end()) return;
    found->second.low = std::move(low);
    found->second.high = std::move(high);
}

}  // namespace

void add_presets(Completed& to) {
    for (const Preset& preset : preset_table().presets) {
        const auto given = to.items.find(preset.key);
        if (given == to.items.end()) continue;
        const auto found = preset.words.find(given->second.value.text);
        if (found == preset.words.end()) continue;
        bool all_given = true;
        for (std::size_t i = 0; i < preset.targets.size(); ++i) {
            if (to.has(preset.targets[i])) continue;
            all_given = false;
            put(to, preset.targets[i], found->second[i], Origin::preset,
                fmt::format("{} = \"{}\", {}", preset.key, found->first, preset.source));
        }
        if (all_given) continue;
        const std::string& first = preset.targets.front();
        if (preset.low_factor > 0 && to.items.at(first).origin == Origin::preset) {
            set_range(to, first, toml_text(scaled(to.items.at(first), preset.low_factor)),
                      toml_text(scaled(to.items.at(first), preset.high_factor)));
        } else if (!preset.low_word.empty()) {
            set_range(to, preset.key, "\"" + preset.low_word + "\"",
                      "\"" + preset.high_word + "\"");
        }
    }
    for (const auto& [pattern, range] : preset_table().ranges)
        for (const std::string& key : instances(to, pattern))
            if (to.has(key)) set_range(to, key, toml_text(range.first), toml_text(range.second));
}

void add_standards(Completed& to) {
    for (const Field& field : fields()) {
        if (field.fallback.empty()) continue;
        for (const std::string& key : instances(to, field.key)) {
            if (to.has(key)) continue;
            // A number given in place of a word keeps the word out.
            if (key == "oil.state" && to.has("oil.cleanliness")) continue;
            put(to, key, parse_value(field.fallback, key), Origin::standard,
                std::string(field.source));
        }
    }
}

namespace {

PresetTable read_presets() {
    const auto original = [](std::string name) {
        for (std::size_t at = name.find("__"); at != std::string::npos; at = name.find("__"))
            name.replace(at, 2, ".");
        const std::size_t any = name.find("ANY");
        if (any != std::string::npos) name.replace(any, 3, "*");
        return name;
    };
    PresetTable table;
    std::map<std::string, Preset> presets;
    for (const auto& [key, leaf] : parse_leaves(embedded_table("presets.toml"), "presets.toml")) {
        const Value& value = leaf.value;
        if (key.compare(0, 6, "range.") == 0) {
            const std::size_t dot = key.rfind('.');
            auto& range = table.ranges[original(key.substr(6, dot - 6))];
            (key.substr(dot + 1) == "low" ? range.first : range.second) = value;
            continue;
        }
        const std::size_t dot = key.find('.');
        Preset& preset = presets[original(key.substr(0, dot))];
        const std::string member = key.substr(dot + 1);
        if (member == "target")
            for (const Value& one : value.items) preset.targets.push_back(one.text);
        else if (member == "source")
            preset.source = value.text;
        else if (member == "low_word")
            preset.low_word = value.text;
        else if (member == "high_word")
            preset.high_word = value.text;
        else if (member == "low")
            preset.low_factor = value.number;
        else if (member == "high")
            preset.high_factor = value.number;
        else if (member.compare(0, 6, "words.") == 0)
            preset.words[member.substr(6)] = value.items;
    }
    for (auto& [key, preset] : presets) {
        preset.key = key;
        table.presets.push_back(std::move(preset));
    }
    return table;
}

}  // namespace

}  // namespace caseload::input
