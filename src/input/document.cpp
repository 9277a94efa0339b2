// SPDX-License-Identifier: MIT
#include "caseload/input.hpp"

#include "caseload/tables.hpp"
#include "input/completed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace caseload {
namespace {

using namespace input;

constexpr int deepest_base = 8;

struct Sourced {
    Leaf leaf;
    Origin origin;
};

/// Other ways of saying the same thing: a file that uses one drops its base's.
constexpr std::string_view alternatives[][4] = {
    {"event.course", "event.run", "", ""},
    {"gears.module", "gears.diametral_pitch", "", ""},
    {"vehicle.tyre", "vehicle.wheel_turns", "", ""},
    {"oil.grade", "oil.viscosity_40C", "oil.viscosity_100C", "oil.base_oil"},
    {"oil.state", "oil.cleanliness", "", ""},
    {"housing.place", "housing.air_speed_share", "", ""},
    {"housing.exhaust", "housing.exhaust_heat", "", ""},
    {"housing.dirt", "housing.dirt_thickness", "", ""},
    {"cooler.duct", "cooler.face_speed_share", "", ""},
    {"gears.support", "gears.face_load_factor", "", ""},
};

std::string pattern_names() {
    std::string names;
    for (const EmbeddedTable& table : embedded_tables())
        if (table.path.substr(0, 9) == "patterns/")
            names += fmt::format("{}pattern:{}", names.empty() ? "" : ", ",
                                 table.path.substr(9, table.path.size() - 14));
    return names;
}

class Merger {
public:
    explicit Merger(const FindBase& find_base) : find_base_(find_base) {}

    std::map<std::string, Sourced> merged;

    void add(std::string_view text, const std::string& name, Origin origin, int depth) {
        Leaves leaves = parse_leaves(text, name);
        const auto base = leaves.find("base");
        if (base != leaves.end()) {
            add_base(base->second.value, name, depth);
            leaves.erase(base);
        }
        if (depth > 0) leaves.erase("caseload");  // each file says it for itself
        for (const auto& group : alternatives) {
            const bool own =
                std::any_of(std::begin(group), std::end(group), [&](std::string_view key) {
                    return !key.empty() && leaves.count(std::string(key)) != 0;
                });
            if (!own) continue;
            for (const std::string_view key : group) merged.erase(std::string(key));
        }
        for (auto& [key, leaf] : leaves) merged[key] = {leaf, origin};
    }

private:
    void add_base(const Value& value, const std::string& name, int depth) {
        const auto fail = [&](std::string text, std::string hint) {
            throw Error(Error::Kind::input,
                        {Problem{value.where, std::move(text), std::move(hint)}});
        };
        if (value.kind != Value::Kind::text)
            fail("base = ...: expected the name of a file or pattern in quotes",
                 "patterns are " + pattern_names());
        if (depth >= deepest_base)
            fail(fmt::format("base = \"{}\": bases are nested more than 8 deep", value.text), "");
        if (value.text.substr(0, 8) == "pattern:") {
            for (const EmbeddedTable& table : embedded_tables())
                if (table.path == "patterns/" + value.text.substr(8) + ".toml") {
                    add(table.text, value.text, Origin::pattern, depth + 1);
                    return;
                }
            fail(fmt::format("base = \"{}\": there is no such pattern", value.text),
                 "patterns are " + pattern_names());
        }
        if (value.text == name || std::find(open_.begin(), open_.end(), value.text) != open_.end())
            fail(fmt::format("base = \"{}\": the files name each other in a circle", value.text),
                 "");
        const std::optional<std::string> text = find_base_ ? find_base_(value.text) : std::nullopt;
        if (!text)
            fail(fmt::format("base = \"{}\": there is no such file beside this one", value.text),
                 "built-in patterns are " + pattern_names());
        open_.push_back(value.text);
        add(*text, value.text, Origin::base_file, depth + 1);
        open_.pop_back();
    }

    const FindBase& find_base_;
    std::vector<std::string> open_;
};

std::string number_words(const Item& item) {
    return item.value.kind == Value::Kind::text ? item.value.text : toml_text(item.value);
}

bool chosen_by_somebody(const Entry& entry) {
    return entry.key != "caseload" && entry.key != "title" && entry.key != "units";
}

}  // namespace

struct Document::Data {
    std::string name;
    std::map<std::string, Sourced> leaves;
};

Document::Document(std::string_view text, std::string name, const FindBase& find_base)
    : data_(std::make_unique<Data>()) {
    Merger merger(find_base);
    merger.add(text, name, Origin::yours, 0);
    data_->name = std::move(name);
    data_->leaves = std::move(merger.merged);
}

Document::~Document() = default;
Document::Document(Document&&) noexcept = default;
Document& Document::operator=(Document&&) noexcept = default;

ReadSetup Document::complete(std::span<const Change> changes) const {
    Completed completed;
    completed.default_file = data_->name;
    std::map<std::string, Sourced> leaves = data_->leaves;
    for (const Change& change : changes) {
        const Value value = parse_value(change.toml, change.key);
        for (const auto& group : alternatives)
            if (std::find(std::begin(group), std::end(group), change.key) != std::end(group))
                for (const std::string_view key : group) leaves.erase(std::string(key));
        leaves[change.key] = {{value, {}}, Origin::changed};
    }
    for (const auto& [key, sourced] : leaves)
        add_leaf(completed, key, sourced.leaf.value, sourced.leaf.key_where, sourced.origin);
    add_standards(completed);
    add_presets(completed);
    ReadSetup result;
    result.setup = build_setup(completed);
    result.setup.name = data_->name;
    if (!completed.problems.empty()) {
        std::stable_sort(completed.problems.begin(), completed.problems.end(),
                         [](const Problem& a, const Problem& b) {
                             return std::make_pair(a.where.line == 0, a.where.line) <
                                    std::make_pair(b.where.line == 0, b.where.line);
                         });
        throw Error(Error::Kind::input, std::move(completed.problems));
    }
    for (const Field& field : fields()) {
        for (const auto& [key, item] : completed.items) {
            if (item.field != &field) continue;
            Entry entry{key,        toml_text(item.value),    number_words(item), item.origin,
                        item.where, std::string(field.words), item.source,        item.low,
                        item.high};
            if (item.origin == Origin::yours)
                ++result.count_yours;
            else if (chosen_by_somebody(entry))
                ++result.count_assumed;
            result.entries.push_back(std::move(entry));
        }
    }
    result.notes = std::move(completed.notes);
    return result;
}

ReadSetup read_setup(std::string_view text, const std::string& name, const FindBase& find_base) {
    return Document(text, name, find_base).complete();
}

}  // namespace caseload
