// SPDX-License-Identifier: MIT
#include "caseload/ask/each.hpp"

#include "input/letters.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>

namespace caseload {
namespace {

/// Cells of one line (RFC 4180, one line a row); nothing when a quote stays open.
std::optional<std::vector<std::string>> cells(std::string_view line) {
    std::vector<std::string> out(1);
    bool quoted = false;
    bool was_quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (quoted) {
            if (c != '"')
                out.back() += c;
            else if (i + 1 < line.size() && line[i + 1] == '"')
                out.back() += line[++i];
            else
                quoted = false;
        } else if (c == '"' && input::trimmed(out.back()).empty()) {
            out.back().clear();
            quoted = was_quoted = true;
        } else if (c == ',') {
            if (!was_quoted) out.back() = std::string(input::trimmed(out.back()));
            was_quoted = false;
            out.emplace_back();
        } else {
            out.back() += c;
        }
    }
    if (quoted) return std::nullopt;
    if (!was_quoted) out.back() = std::string(input::trimmed(out.back()));
    return out;
}

bool is_number(std::string_view text) {
    bool digit = false;
    for (const char c : text) {
        if (std::isdigit(static_cast<unsigned char>(c)) != 0)
            digit = true;
        else if (std::string_view("+-.eE_").find(c) == std::string_view::npos)
            return false;
    }
    return digit;
}

}  // namespace

std::string said_twice(std::span<const std::string> keys) {
    for (std::size_t i = 0; i < keys.size(); ++i)
        for (std::size_t k = 0; k < keys.size(); ++k)
            if ((k < i && keys[i] == keys[k]) || keys[i].starts_with(keys[k] + ".")) return keys[i];
    return {};
}

std::string cell_toml(std::string_view cell) {
    const bool plain = cell == "true" || cell == "false" || is_number(cell) ||
                       (!cell.empty() && (cell.front() == '[' || cell.front() == '{'));
    if (plain) return std::string(cell);
    input::Value value;
    value.kind = input::Value::Kind::text;
    value.text = std::string(cell);
    return input::toml_text(value);
}

EachTable read_each_table(std::string_view text, const std::string& name) {
    EachTable table;
    int number = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        ++number;
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        if (number == 1) line = input::without_mark(line);
        if (input::trimmed(line).empty()) continue;
        const auto refuse = [&](const std::string& what, const std::string& hint) {
            throw Error(Error::Kind::input,
                        {Problem{{name, number, 1, 0, std::string(line)}, what, hint}});
        };
        const auto row = cells(line);
        if (!row)
            refuse("a double quote is opened and not closed",
                   "close it on the same line; write two of them for one inside");
        if (table.keys.empty()) {
            table.keys = *row;
            const auto nameless = std::find(table.keys.begin(), table.keys.end(), "");
            if (nameless != table.keys.end())
                refuse(fmt::format("column {} of the head names no key",
                                   1 + (nameless - table.keys.begin())),
                       "is there a comma too many?");
            const std::string again = said_twice(table.keys);
            if (!again.empty())
                refuse(fmt::format("{} is said twice in the head", again),
                       "of two columns for one thing one would do nothing; leave one out");
            continue;
        }
        if (row->size() != table.keys.size())
            refuse(fmt::format("{} cells, the head has {} keys", row->size(), table.keys.size()),
                   "write a value with commas in double quotes: \"[33, 41]\"");
        std::vector<Change> changes;
        changes.reserve(row->size());
        for (std::size_t i = 0; i < row->size(); ++i)
            changes.push_back({table.keys[i], cell_toml((*row)[i])});
        table.rows.push_back(std::move(changes));
    }
    if (table.keys.empty())
        throw Error(
            Error::Kind::input,
            {Problem{{name, 0, 0, 0, ""},
                     "the list is empty",
                     "first line: keys of the setup, for example vehicle.mass,event.ambient; "
                     "then one row of values a variation"}});
    return table;
}

}  // namespace caseload
