// SPDX-License-Identifier: MIT
#include "live/edit.hpp"

#include "caseload/error.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

namespace caseload::live {
namespace {

using input::Field;
using input::FieldKind;
using input::Leaves;

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
        text.remove_suffix(1);
    return text;
}

bool is_value(const std::string& toml) {
    try {
        static_cast<void>(input::parse_change("value", toml));
    } catch (const Error&) {
        return false;
    }
    return toml.find('\n') == std::string::npos;
}

bool is_list(FieldKind kind) {
    return kind == FieldKind::teeth || kind == FieldKind::numbers || kind == FieldKind::names ||
           kind == FieldKind::rows || kind == FieldKind::pairs;
}

/// A text as lines that keep their ends.
class Lines {
public:
    explicit Lines(const std::string& text) {
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = std::min(text.find('\n', at), text.size() - 1);
            lines_.push_back(text.substr(at, end - at + 1));
            at = end + 1;
        }
        end_ = text.find("\r\n") != std::string::npos ? "\r\n" : "\n";
    }
    [[nodiscard]] std::size_t count() const { return lines_.size(); }
    [[nodiscard]] std::string& at(std::size_t index) { return lines_[index]; }
    [[nodiscard]] std::string_view bare(std::size_t index) const {
        std::string_view line = lines_[index];
        if (!line.empty() && line.back() == '\n') line.remove_suffix(1);
        return trimmed(line);
    }
    void insert(std::size_t before, const std::string& line) {
        if (before > 0 && lines_[before - 1].back() != '\n') lines_[before - 1] += end_;
        lines_.insert(lines_.begin() + static_cast<std::ptrdiff_t>(before), line + end_);
    }
    void erase(std::size_t index) {
        lines_.erase(lines_.begin() + static_cast<std::ptrdiff_t>(index));
    }
    [[nodiscard]] std::string text() const {
        std::string all;
        for (const std::string& line : lines_) all += line;
        return all;
    }

private:
    std::vector<std::string> lines_;
    std::string end_;
};

/// "[cooler]" gives "cooler"; nothing for any other line.
std::optional<std::string> heading(std::string_view line) {
    if (line.size() < 3 || line.front() != '[') return std::nullopt;
    const std::size_t close = line.find(']');
    if (close == std::string_view::npos) return std::nullopt;
    const std::string_view rest = trimmed(line.substr(close + 1));
    if (!rest.empty() && rest.front() != '#') return std::nullopt;
    const std::string_view name = trimmed(line.substr(1, close - 1));
    if (name.find_first_of("[\"', ") != std::string_view::npos) return std::nullopt;
    return std::string(name);
}

/// Line after the last one that says something, of the lines from `first` up to a heading.
std::size_t end_of_section(const Lines& lines, std::size_t first) {
    std::size_t end = first;
    for (std::size_t i = first; i < lines.count() && !heading(lines.bare(i)); ++i)
        if (!lines.bare(i).empty()) end = i + 1;
    return end;
}

/// Byte of a character counted from 1.
std::size_t byte_of(std::string_view line, int column) {
    std::size_t at = 0;
    for (int count = 1; at < line.size(); ++at) {
        const bool continues = (static_cast<unsigned char>(line[at]) & 0xC0U) == 0x80U;
        if (!continues && count++ == column) break;
    }
    return at;
}

constexpr std::string_view mark = "\xEF\xBB\xBF";
constexpr std::string_view text_name = "setup";

/// The same values but for one key, which is `toml`, or gone.
bool changes_only(const Leaves& before, const std::string& text, const std::string& key,
                  const std::optional<std::string>& toml) {
    Leaves after;
    try {
        after = input::parse_leaves(text, std::string(text_name));
    } catch (const Error&) {
        return false;
    }
    const auto own = [&](const std::string& path) {
        return path == key || path.starts_with(key + ".");
    };
    const auto others = [&](const Leaves& leaves) {
        std::string all;
        for (const auto& [path, leaf] : leaves)
            if (!own(path)) all += path + "=" + input::toml_text(leaf.value) + "\n";
        return all;
    };
    if (others(before) != others(after)) return false;
    if (!toml)
        return std::none_of(after.begin(), after.end(),
                            [&](const auto& one) { return own(one.first); });
    for (const auto& [path, leaf] : input::parse_change(key, *toml)) {
        const auto found = after.find(path);
        if (found == after.end() ||
            input::toml_text(found->second.value) != input::toml_text(leaf.value))
            return false;
    }
    return true;
}

[[noreturn]] void refuse(const std::string& key, const Where& where, const std::string& why) {
    throw Error(Error::Kind::input, {Problem{where, fmt::format("{}: {}", key, why),
                                             "change it in the text of the setup"}});
}

std::optional<std::string> replaced(const Lines& all, const Where& where, const std::string& toml) {
    Lines lines = all;
    const auto index = static_cast<std::size_t>(where.line) - 1;
    if (where.line < 1 || index >= lines.count()) return std::nullopt;
    std::string& line = lines.at(index);
    const std::size_t begin = byte_of(line, where.column);
    const std::size_t end = byte_of(line, where.column + where.width);
    line.replace(begin, end - begin, toml);
    return lines.text();
}

/// Ways to add a key, the tidiest first.
std::vector<std::string> added(const Lines& all, const std::string& key, const std::string& toml) {
    struct Section {
        std::string name;
        std::size_t first;
    };
    std::vector<Section> sections;
    for (std::size_t i = 0; i < all.count(); ++i)
        if (const auto found = heading(all.bare(i)); found && key.starts_with(*found + "."))
            sections.push_back({*found, i + 1});
    std::stable_sort(sections.begin(), sections.end(), [](const Section& a, const Section& b) {
        return a.name.size() > b.name.size();
    });
    std::vector<std::string> ways;
    const auto add = [&](std::size_t before, const std::string& line) {
        Lines lines = all;
        lines.insert(before, line);
        ways.push_back(lines.text());
    };
    for (const Section& section : sections)
        add(end_of_section(all, section.first),
            fmt::format("{} = {}", key.substr(section.name.size() + 1), toml));
    add(end_of_section(all, 0), fmt::format("{} = {}", key, toml));
    const std::size_t dot = key.rfind('.');
    if (dot != std::string::npos)
        add(all.count(),
            fmt::format("[{}]\n{} = {}", key.substr(0, dot), key.substr(dot + 1), toml));
    return ways;
}

}  // namespace

std::string typed_toml(const Field& field, std::string_view typed) {
    const std::string text(trimmed(typed));
    switch (field.kind) {
        case FieldKind::quantity:
        case FieldKind::text:
        case FieldKind::word:
        case FieldKind::grade:
        case FieldKind::size:
        case FieldKind::part:
            return input::quoted(text);
        case FieldKind::quantities:
            return !text.empty() && text.front() == '[' && is_value(text) ? text
                                                                          : input::quoted(text);
        case FieldKind::number:
        case FieldKind::integer:
        case FieldKind::flag:
            return is_value(text) ? text : input::quoted(text);
        case FieldKind::teeth:
        case FieldKind::numbers:
        case FieldKind::names:
        case FieldKind::rows:
        case FieldKind::pairs:
            break;
    }
    if (!text.empty() && text.front() == '[' && is_value(text)) return text;
    std::string list = "[";
    for (const char c : text)
        list += c == '/' && field.kind == FieldKind::teeth ? std::string(", ") : std::string(1, c);
    list += "]";
    return is_value(list) ? list : input::quoted(text);
}

std::string typed_form(const Field& field, std::string_view toml) {
    // Most values need no parser: it would take longer than the calculation.
    if (!toml.empty() && toml.find_first_of("\"'[{\\") == std::string_view::npos)
        return std::string(toml);
    if (toml.size() >= 2 && toml.front() == '"' && toml.back() == '"' &&
        toml.substr(1, toml.size() - 2).find_first_of("\"\\") == std::string_view::npos)
        return std::string(toml.substr(1, toml.size() - 2));
    const Leaves leaves = input::parse_change("value", toml);
    const auto found = leaves.find("value");
    if (found == leaves.end()) return std::string(toml);
    const input::Value& value = found->second.value;
    if (value.kind == input::Value::Kind::text) return value.text;
    const bool plain = value.kind == input::Value::Kind::list && is_list(field.kind) &&
                       std::all_of(value.items.begin(), value.items.end(),
                                   [](const input::Value& item) { return item.is_number(); });
    if (!plain) return std::string(toml);
    return std::string(trimmed(toml.substr(1, toml.size() - 2)));
}

std::string with_value(const std::string& text, const std::string& key, const std::string& toml) {
    const bool marked = text.starts_with(mark);
    const std::string body = marked ? text.substr(mark.size()) : text;
    const Leaves before = input::parse_leaves(body, std::string(text_name));
    const Lines lines(body);
    std::vector<std::string> ways;
    const auto found = before.find(key);
    if (found == before.end())
        ways = added(lines, key, toml);
    else if (const auto way = replaced(lines, found->second.value.where, toml))
        ways.push_back(*way);
    for (const std::string& way : ways)
        if (changes_only(before, way, key, toml)) return (marked ? std::string(mark) : "") + way;
    refuse(key, found == before.end() ? Where{} : found->second.key_where,
           "stands in a table or over several lines");
}

std::string without_value(const std::string& text, const std::string& key) {
    const bool marked = text.starts_with(mark);
    const std::string body = marked ? text.substr(mark.size()) : text;
    const Leaves before = input::parse_leaves(body, std::string(text_name));
    const auto found = before.find(key);
    if (found == before.end()) return text;
    Lines lines(body);
    lines.erase(static_cast<std::size_t>(found->second.key_where.line) - 1);
    const std::string without = lines.text();
    if (changes_only(before, without, key, std::nullopt))
        return (marked ? std::string(mark) : "") + without;
    refuse(key, found->second.key_where, "stands in a table, with others or over several lines");
}

}  // namespace caseload::live
