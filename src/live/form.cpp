// SPDX-License-Identifier: MIT
#include "live/form.hpp"

#include "caseload/show/problems.hpp"
#include "caseload/tables.hpp"
#include "input/fields.hpp"
#include "input/oils.hpp"
#include "input/origin.hpp"
#include "input/value.hpp"
#include "live/edit.hpp"
#include "show/json_value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace caseload::live {
namespace {

using input::Field;
using input::FieldKind;
using json_value::list;
using json_value::text;

std::vector<std::string> patterns() {
    constexpr std::string_view folder = "patterns/";
    constexpr std::string_view ending = ".toml";
    std::vector<std::string> names;
    for (const EmbeddedTable& table : embedded_tables())
        if (table.path.starts_with(folder))
            names.push_back(fmt::format(
                "pattern:{}", table.path.substr(folder.size(), table.path.size() - folder.size() -
                                                                   ending.size())));
    return names;
}

std::vector<std::string> choices_of(const Field& field) {
    if (field.key == "base") return patterns();
    if (field.kind == FieldKind::word) return input::split_words(field.accepted);
    if (field.kind == FieldKind::grade) return input::oil_grades();
    if (field.kind == FieldKind::flag) return {"true", "false"};
    return {};
}

/// How a value is written: units worth offering and one of them in use.
std::string writing(const Field& field) {
    std::string text =
        fmt::format(fmt::runtime(input::row_of(field.kind).typed),
                    input::words_of(field.measure).accepted, input::example_of(field));
    if (field.kind == FieldKind::number && field.measure == input::Measure::share) text += " or %";
    return text;
}

/// "gears.fitted" as people say it.
std::string label(std::string_view key) {
    std::string words(key);
    std::replace(words.begin(), words.end(), '.', ' ');
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

struct Shown {
    std::string key;
    const Field& field;
    std::string toml;  ///< "" for nothing
    std::string from;  ///< where the value comes from
    bool yours = false;
    int line = 0;
    std::string low;
    std::string high;
};

std::string entry_json(const Shown& shown) {
    const auto typed = [&](const std::string& toml) {
        return text(toml.empty() ? "" : typed_form(shown.field, toml));
    };
    return fmt::format(
        R"({{"key":{},"label":{},"words":{},"value":{},"choices":{},"writing":{},"from":{},"yours":{},"line":{},"low":{},"high":{}}})",
        text(shown.key), text(label(shown.key)), text(shown.field.words), typed(shown.toml),
        list(choices_of(shown.field), text), text(writing(shown.field)), text(shown.from),
        shown.yours, shown.line, typed(shown.low), typed(shown.high));
}

Shown shown_entry(const Entry& entry) {
    const bool yours = entry.origin == Origin::yours;
    return {entry.key, input::field_of(entry.field), entry.toml, input::origin_words(entry),
            yours,     yours ? entry.where.line : 0, entry.low,  entry.high};
}

/// Keys of a new setup in the order of its text, but for the version of the file.
std::vector<std::string> box_keys() {
    std::vector<std::pair<int, std::string>> by_line;
    for (const auto& [key, leaf] : input::parse_leaves(new_setup_text(), "new"))
        if (key != "caseload") by_line.emplace_back(leaf.key_where.line, key);
    std::sort(by_line.begin(), by_line.end());
    std::vector<std::string> keys;
    for (const auto& [line, key] : by_line) keys.push_back(key);
    return keys;
}

}  // namespace

std::string boxes_json(std::string_view setup, const ReadSetup* read) {
    input::Leaves leaves;
    try {
        leaves = input::parse_leaves(setup, "setup");
    } catch (const Error&) {
        return "[]";
    }
    return list(box_keys(), [&](const std::string& key) {
        Shown shown{key, input::field_of(key), "", "", false, 0, "", ""};
        if (const auto own = leaves.find(key); own != leaves.end()) {
            shown.toml = input::toml_text(own->second.value);
            shown.line = own->second.key_where.line;
            shown.from = fmt::format("yours, line {}", shown.line);
            shown.yours = true;
        } else if (read != nullptr) {
            for (const Entry& entry : read->entries)
                if (entry.key == key) {
                    shown.toml = entry.toml;
                    shown.from = input::origin_words(entry);
                }
        }
        return entry_json(shown);
    });
}

std::string entries_json(const ReadSetup& read) {
    return list(read.entries, [](const Entry& entry) {
        return entry.key == "caseload" ? std::string() : entry_json(shown_entry(entry));
    });
}

std::string problems_json(const Error& error) {
    const auto problem_json = [](const Problem& problem) {
        return fmt::format(R"({{"file":{},"line":{},"text":{},"hint":{}}})",
                           text(problem.where.file), problem.where.line, text(problem.text),
                           text(problem.hint));
    };
    return fmt::format(R"("problems":{},"report":{})", list(error.problems(), problem_json),
                       text(problem_report(error)));
}

}  // namespace caseload::live
