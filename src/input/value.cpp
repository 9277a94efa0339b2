// SPDX-License-Identifier: MIT
#include "input/value.hpp"

#include "input/harmless.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

namespace caseload::input {
namespace {

constexpr std::size_t longest_shown = 60;
constexpr std::size_t widest_line = 100;
constexpr int comment_column = 58;

std::string number_text(double number) {
    std::string text = fmt::format("{}", number);
    if (text.find_first_of(".e") == std::string::npos) text += ".0";
    return text;
}

std::string list_text(const Value& value) {
    std::string text = "[";
    for (const Value& item : value.items) text += (text.size() > 1 ? ", " : "") + toml_text(item);
    return text + "]";
}

std::string table_text(const Value& value) {
    std::string text = "{";
    for (const auto& [key, item] : value.members)
        text += fmt::format("{}{} = {}", text.size() > 1 ? ", " : " ", key, toml_text(item));
    return text + " }";
}

std::string shortened(std::string_view text) {
    if (text.size() <= longest_shown) return std::string(text);
    std::size_t end = longest_shown;
    while (end > 0 && continues_character(text[end])) --end;
    return std::string(text.substr(0, end)) + "...";
}

void forget_places(Value& value) {
    value.where = {};
    for (Value& item : value.items) forget_places(item);
    for (auto& [key, item] : value.members) forget_places(item);
}

}  // namespace

std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\t')
            out += "\\u0009";
        else
            out += c;
    }
    return harmless(out) + "\"";
}

std::string entry_line(std::string_view key, std::string_view value, std::string_view comment) {
    const std::string line = fmt::format("{} = {}", key, value);
    if (comment.empty()) return line + "\n";
    return fmt::format("{:<{}} # {}\n", line, comment_column, comment);
}

std::string entry_lines(std::string_view key, std::span<const std::string> members,
                        std::string_view comment) {
    const std::string on_one = fmt::format("[{}]", fmt::join(members, ", "));
    if (key.size() + on_one.size() + 3 <= widest_line) return entry_line(key, on_one, comment);
    std::string text = entry_line(key, "[", comment);
    std::string line;
    for (const std::string& member : members) {
        const bool row = member.front() == '{' || member.front() == '[';
        if (!line.empty() && (row || line.size() + member.size() + 2 > widest_line)) {
            text += line + "\n";
            line.clear();
        }
        line += fmt::format("{}{},", line.empty() ? "  " : " ", member);
    }
    return text + line + "\n]\n";
}

void require_readable(std::string_view text, std::string_view what, std::string_view cure) {
    if (text.size() > largest_text)
        throw Error(
            Error::Kind::input,
            {Problem{{},
                     fmt::format("{} would be larger than the 1 MiB a setup may have", what),
                     std::string(cure)}});
}

std::string toml_text(const Value& value) {
    switch (value.kind) {
        case Value::Kind::text:
            return quoted(value.text);
        case Value::Kind::integer:
            return fmt::format("{:.0f}", value.number);
        case Value::Kind::number:
            return number_text(value.number);
        case Value::Kind::flag:
            return value.flag ? "true" : "false";
        case Value::Kind::list:
            return list_text(value);
        case Value::Kind::table:
            return table_text(value);
    }
    return {};
}

std::string short_text(const Value& value) {
    return shortened(toml_text(value));
}

std::optional<Problem> wrong_version(const Leaves& leaves, const std::string& file,
                                     std::string_view what) {
    const auto found = leaves.find("caseload");
    if (found == leaves.end())
        return Problem{Where{file, 0, 0, 0, {}}, "caseload = 1 is not there",
                       fmt::format("{} begins with its file version: caseload = 1", what)};
    const Value& version = found->second.value;
    if (version.kind == Value::Kind::integer && version.number == 1) return std::nullopt;
    return Problem{version.where,
                   fmt::format("caseload = {}: this program reads version 1", short_text(version)),
                   "write caseload = 1, or use the program this file was written for"};
}

Leaves parse_change(const std::string& key, std::string_view toml) {
    const auto fail = [&](const std::string& what) {
        throw Error(
            Error::Kind::input,
            {Problem{{},
                     fmt::format("{} = {}: {}", key, shortened(toml), what),
                     "write the value as in a setup file, for example \"85 kg\" with its quotes"}});
    };
    Leaves read;
    try {
        // It is on one line, whatever its length.
        read = parse_leaves("value = " + std::string(toml), key, largest_text);
    } catch (const Error& error) {
        fail(error.problems().front().text);
    }
    Leaves leaves;
    for (auto& [path, leaf] : read) {
        if (path != "value" && !path.starts_with("value.")) fail("one value is expected");
        forget_places(leaf.value);
        leaves[key + path.substr(5)] = {std::move(leaf.value), {}};
    }
    return leaves;
}

}  // namespace caseload::input
