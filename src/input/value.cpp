// SPDX-License-Identifier: MIT
#include "input/value.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload::input {
namespace {

constexpr std::size_t longest_shown = 60;

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

void forget_places(Value& value) {
    value.where = {};
    for (Value& item : value.items) forget_places(item);
    for (auto& [key, item] : value.members) forget_places(item);
}

}  // namespace

std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (byte < 0x20 || byte == 0x7F)
            out += fmt::format("\\u{:04X}", static_cast<unsigned>(byte));
        else
            out += c;
    }
    return out + "\"";
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
    std::string text = toml_text(value);
    if (text.size() <= longest_shown) return text;
    std::size_t end = longest_shown;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return text.substr(0, end) + "...";
}

Leaves parse_change(const std::string& key, std::string_view toml) {
    const auto fail = [&](const std::string& what) {
        throw Error(
            Error::Kind::input,
            {Problem{{},
                     fmt::format("{} = {}: {}", key, toml, what),
                     "write the value as in a setup file, for example \"85 kg\" with its quotes"}});
    };
    Leaves read;
    try {
        read = parse_leaves("value = " + std::string(toml), key);
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
