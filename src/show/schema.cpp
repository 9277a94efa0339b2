// SPDX-License-Identifier: MIT
// The keys of a setup file as a JSON Schema, so that an editor completes and checks them as one
// types.
#include "caseload/show/schema.hpp"

#include "input/fields.hpp"
#include "input/oils.hpp"
#include "show/json_value.hpp"

#include <fmt/format.h>

#include <string_view>
#include <vector>

namespace caseload {
namespace {

using input::Field;
using input::FieldKind;
using input::Measure;
using json_value::text;

std::string any_of(const std::vector<std::string>& words) {
    return "\"enum\":" + json_value::list(words, text);
}

std::string list_of(std::string_view what) {
    return fmt::format("\"type\":\"array\",\"items\":{{{}}}", what);
}

/// What a field may be, as members of its schema.
std::string kind_of(const Field& field) {
    static constexpr std::string_view number = "\"type\":\"number\"";
    static constexpr std::string_view words = "\"type\":\"string\"";
    switch (field.kind) {
        case FieldKind::quantity:
        case FieldKind::text:
        case FieldKind::part:
        case FieldKind::size:
            return std::string(words);
        case FieldKind::quantities:
            return fmt::format("\"anyOf\":[{{{}}},{{{}}}]", words, list_of(words));
        case FieldKind::number:
            return field.measure == Measure::share ? R"("type":["number","string"])"
                                                   : std::string(number);
        case FieldKind::integer:
            return R"("type":"integer")";
        case FieldKind::word:
            return any_of(input::split_words(field.accepted));
        case FieldKind::grade:  // or an own oil
            return fmt::format("\"anyOf\":[{{{}}},{{{}}}]", any_of(input::oil_grades()), words);
        case FieldKind::flag:
            return R"("type":"boolean")";
        case FieldKind::teeth: {
            constexpr std::string_view ratio =
                R"("type":"string","pattern":"^[0-9 ]+(/[0-9 ]+)+$")";
            const std::string counts = list_of(R"("type":"integer")");
            return fmt::format("\"anyOf\":[{{{}}},{{{}}}]", counts,
                               field.accepted.empty() ? std::string(ratio) : words);
        }
        case FieldKind::numbers:
            return list_of(number);
        case FieldKind::names:
            return list_of(words);
        case FieldKind::rows:
        case FieldKind::pairs:
            break;  // by their members
    }
    return {};
}

std::string description_of(const Field& field) {
    std::string said(field.words);
    if (!field.accepted.empty() && field.kind == FieldKind::quantity)
        said += fmt::format("; or {}", field.accepted);
    if (!field.fallback.empty()) said += fmt::format("; left out: {}", field.fallback);
    if (field.kind == FieldKind::quantity || field.kind == FieldKind::quantities ||
        field.kind == FieldKind::size)
        said += fmt::format("; for example \"{}\"", input::example_of(field));
    return said;
}

std::string of_field(const Field& field) {
    std::string kind = kind_of(field);
    if (field.kind == FieldKind::rows || field.kind == FieldKind::pairs) {
        std::vector<std::string> members;
        for (const Field* member : input::members_of(field.key)) {
            const std::string_view name = member->key.substr(field.key.size() + 3);  // "[]."
            members.push_back(field.kind == FieldKind::rows
                                  ? fmt::format("{}:{}", text(name), of_field(*member))
                                  : of_field(*member));
        }
        kind = field.kind == FieldKind::rows
                   ? list_of(fmt::format("\"type\":\"object\",\"properties\":{{{}}},"
                                         "\"additionalProperties\":false",
                                         fmt::join(members, ",")))
                   : list_of(fmt::format("\"type\":\"array\",\"minItems\":{0},\"maxItems\":{0},"
                                         "\"items\":[{1}]",
                                         members.size(), fmt::join(members, ",")));
    }
    return fmt::format("{{\"description\":{},{}}}", text(description_of(field)), kind);
}

/// A table of the file: its keys and tables by name, in the order of the field table.
struct Table {
    std::string name;
    std::vector<Table> under;
    const Field* field = nullptr;

    Table& at(const std::string& wanted) {
        for (Table& table : under)
            if (table.name == wanted) return table;
        under.push_back({wanted, {}, nullptr});
        return under.back();
    }
    [[nodiscard]] std::string schema() const {
        if (field != nullptr) return of_field(*field);
        std::vector<std::string> named;
        std::string others = "false";
        for (const Table& table : under)
            if (table.name == "*")
                others = table.schema();
            else
                named.push_back(fmt::format("{}:{}", text(table.name), table.schema()));
        return fmt::format(
            "{{\"type\":\"object\",\"properties\":{{{}}},\"additionalProperties\":{}}}",
            fmt::join(named, ","), others);
    }
};

}  // namespace

std::string setup_schema() {
    Table file;
    for (const Field& field : input::fields()) {
        if (field.key.find("[]") != std::string_view::npos) continue;  // members of their list
        Table* at = &file;
        std::string_view rest = field.key;
        for (std::size_t dot = rest.find('.'); dot != std::string_view::npos;
             dot = rest.find('.')) {
            at = &at->at(std::string(rest.substr(0, dot)));
            rest.remove_prefix(dot + 1);
        }
        at->at(std::string(rest)).field = &field;
    }
    const std::string body = file.schema();
    return fmt::format(
        "{{\"$schema\":\"http://json-schema.org/draft-07/schema#\","
        "\"title\":\"caseload setup file\",{}\n",
        body.substr(1));
}

}  // namespace caseload
