// SPDX-License-Identifier: MIT
#include "caseload/input.hpp"
#include "input/completed.hpp"
#include "input/counts.hpp"
#include "input/cut_gears.hpp"
#include "input/fields.hpp"
#include "input/measured_of.hpp"
#include "input/merge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <tuple>
#include <utility>

namespace caseload {
namespace {

using input::Completed;
using input::Field;
using input::Item;
using input::Merged;

/// Keys that are about the file or what was read on the case, not about the case.
bool about_file(std::string_view key) {
    return key == "caseload" || key == "title" || key == "units" || key == "base" ||
           key.starts_with("reading.") || key.starts_with("measured.");
}

/// What a library offers beside what the case has.
bool on_shelf(const Entry& entry, const input::Library& library) {
    return (entry.key.starts_with("core.") || entry.key.starts_with("candidate.")) &&
           library.holds_file(entry.where.file);
}

bool chosen_by_user(Origin origin) {
    return origin == Origin::yours || origin == Origin::base_file || origin == Origin::changed;
}

Entry entry_of(const std::string& key, const Item& item) {
    Entry entry;
    entry.key = key;
    entry.field = item.field->key;
    entry.toml = input::toml_text(item.value);
    entry.number = !item.shown.empty()                           ? item.shown
                   : item.value.kind == input::Value::Kind::text ? item.value.text
                                                                 : entry.toml;
    entry.origin = item.origin;
    entry.where = item.where;
    entry.words = item.field->words;
    entry.by = item.by;
    entry.source = item.origin == Origin::pattern ? std::string(input::judgement) : item.source;
    if (!chosen_by_user(item.origin)) {
        entry.low = item.low.empty() ? std::string(item.field->low) : item.low;
        entry.high = item.high.empty() ? std::string(item.field->high) : item.high;
    }
    return entry;
}

/// Keys of the fields that share a heading with names, name by name.
std::vector<std::string> ordered_keys(const Completed& completed) {
    std::vector<std::string> keys;
    const auto all = input::fields();
    const auto heading = [](const Field& field) {
        return field.key.substr(0, field.key.find('*'));
    };
    for (std::size_t i = 0; i < all.size();) {
        std::size_t end = i + 1;
        if (all[i].key.find('*') != std::string_view::npos)
            while (end < all.size() && heading(all[end]) == heading(all[i])) ++end;
        for (const std::string& first : input::instances(completed, all[i]))
            for (std::size_t j = i; j < end; ++j) {
                const std::string key = input::with_name_of(all[j].key, first);
                if (completed.has(key)) keys.push_back(key);
            }
        i = end;
    }
    return keys;
}

/// Problems in the order of the file, those without a line last; each with its line.
[[noreturn]] void report(std::vector<Problem> problems, const Merged& merged) {
    std::stable_sort(problems.begin(), problems.end(), [](const Problem& a, const Problem& b) {
        const auto rank = [](const Problem& problem) {
            return std::make_tuple(problem.where.line == 0, problem.where.line,
                                   problem.where.column);
        };
        return rank(a) < rank(b);
    });
    for (Problem& problem : problems)
        if (problem.where.source_line.empty())
            problem.where.source_line = merged.source_line(problem.where);
    merged.say_who_named(problems);
    throw Error(Error::Kind::input, std::move(problems));
}

/// A key that names a file is read with the setup; as a change it would have no effect. `path` is
/// of a leaf, so that {from = ..} of event is met too.
void refuse_file_name(const std::string& path) {
    if (path == "caseload")
        refuse_input("caseload is the version a file is written for and cannot be changed here",
                     "caseload upgrade FILE converts an old file");
    for (const std::string_view key : {"base", "library", "event.from"})
        if (path == key || path.starts_with(fmt::format("{}.", key)))
            refuse_input(fmt::format("{} names a file and cannot be changed here", key),
                         "write a setup of its own with base = and its lines");
}

constexpr std::string_view not_dipped[] = {"lubrication.pump.", "cooler."};

/// A dipped case takes neither pump nor cooler over from a pattern, whose case is scavenged; what
/// the setup itself enters of one stays, with what the pattern says beside it.
void leave_out_of_dipped(std::map<std::string, input::Sourced>& leaves) {
    const auto method = leaves.find("lubrication.method");
    if (method == leaves.end() || method->second.origin == Origin::pattern ||
        method->second.leaf.value.text != "dip")
        return;
    for (const std::string_view part : not_dipped) {
        const auto of_part = [&](const auto& one) { return one.first.starts_with(part); };
        const bool entered = std::any_of(leaves.begin(), leaves.end(), [&](const auto& one) {
            return of_part(one) && one.second.origin != Origin::pattern;
        });
        if (entered) continue;
        for (auto at = leaves.begin(); at != leaves.end();)
            at = of_part(*at) ? leaves.erase(at) : std::next(at);
    }
}

}  // namespace

struct Document::Data {
    std::string name;
    Merged merged;

    /// Everything a setup is built of.
    [[nodiscard]] Completed completed(std::span<const Change> changes) const;
    /// The setup of that; throws if there is a problem.
    [[nodiscard]] Setup build(Completed& from) const;
};

Document::Document(std::string_view text, const std::string& name, const FindBase& find_base)
    : data_(std::make_unique<Data>(Data{name, Merged(text, name, find_base)})) {}

Document::~Document() = default;
Document::Document(Document&&) noexcept = default;
Document& Document::operator=(Document&&) noexcept = default;

Completed Document::Data::completed(std::span<const Change> changes) const {
    std::map<std::string, input::Sourced> leaves = merged.leaves;
    // One layer, as lines of one file: a word among them does not override the lines beside it.
    input::Leaves layer;
    for (const Change& change : changes)
        for (auto& [path, leaf] : input::parse_change(change.key, change.toml)) {
            refuse_file_name(path);
            layer.insert_or_assign(path, std::move(leaf));
        }
    merged.add_layer(leaves, std::move(layer), Origin::changed);
    leave_out_of_dipped(leaves);
    merged.library.offer(leaves);
    if (std::optional<Problem> problem = input::too_many(leaves))
        report({std::move(*problem)}, merged);
    Completed result(name);
    result.problems = merged.problems;
    input::leave_out_cut(leaves, result);
    for (const input::PartKind& kind : input::part_kinds())
        result.known_parts[std::string(kind.heading)] = merged.library.names(kind.heading);
    for (const auto& [key, sourced] : leaves)
        if (key.starts_with("core.")) result.add_known_core(key);
    for (const auto& [key, sourced] : leaves)
        input::add_leaf(result, key, sourced.leaf, sourced.origin);
    input::complete_values(result);
    return result;
}

Setup Document::Data::build(Completed& from) const {
    Setup setup = input::build_setup(from);
    setup.name = name;
    if (!from.problems.empty()) report(std::move(from.problems), merged);
    return setup;
}

ReadSetup Document::complete(std::span<const Change> changes) const {
    Completed completed = data_->completed(changes);
    ReadSetup result;
    result.setup = data_->build(completed);
    for (const std::string& key : ordered_keys(completed)) {
        Entry entry = entry_of(key, *completed.find(key));
        entry.where.source_line = data_->merged.source_line(entry.where);
        if (!about_file(key) && !on_shelf(entry, data_->merged.library))
            ++(entry.origin == Origin::yours || entry.origin == Origin::base_file
                   ? result.count_yours
                   : result.count_assumed);
        result.entries.push_back(std::move(entry));
    }
    result.case_sums = input::case_sums(completed);
    input::note_changes(completed, result.case_sums, completed.notes);
    result.notes = std::move(completed.notes);
    return result;
}

struct FewChanged::Data {
    const Document::Data& document;
    Completed unchanged;

    /// Whether an entry can go to the place of the old one.
    [[nodiscard]] bool stays_alone(const std::string& key) const {
        const bool enters_part =
            unchanged.text("lubrication.method") == "dip" &&
            std::any_of(std::begin(not_dipped), std::end(not_dipped),
                        [&](std::string_view part) { return key.starts_with(part); });
        return unchanged.has(key) && !enters_part && !input::fits_others_than_cut(unchanged, key) &&
               !Merged::moves_others(key) && !input::decides_others(unchanged, key);
    }
    [[nodiscard]] std::optional<Setup> in_place(std::span<const Change> changes) const;
};

std::optional<Setup> FewChanged::Data::in_place(std::span<const Change> changes) const {
    if (!std::all_of(changes.begin(), changes.end(),
                     [this](const Change& change) { return stays_alone(change.key); }))
        return std::nullopt;
    Completed changed = unchanged;
    for (const Change& change : changes) {
        const input::Leaves leaves = input::parse_change(change.key, change.toml);
        if (leaves.size() != 1 || leaves.begin()->first != change.key) return std::nullopt;
        input::add_leaf(changed, change.key, leaves.begin()->second, Origin::changed);
    }
    Setup setup = input::build_setup(changed);
    setup.name = document.name;
    // Every problem is found where all is completed anew.
    return changed.problems.empty() ? std::optional<Setup>(std::move(setup)) : std::nullopt;
}

FewChanged::FewChanged(const Document& document)
    : data_(std::make_unique<const Data>(Data{*document.data_, document.data_->completed({})})) {}

FewChanged::~FewChanged() = default;

Setup FewChanged::setup(std::span<const Change> changes) const {
    if (std::optional<Setup> setup = data_->in_place(changes)) return std::move(*setup);
    Completed changed = data_->document.completed(changes);
    return data_->document.build(changed);
}

ReadSetup read_setup(std::string_view text, const std::string& name, const FindBase& find_base) {
    return Document(text, name, find_base).complete();
}

}  // namespace caseload
