// SPDX-License-Identifier: MIT
#include "live/edit.hpp"

#include "caseload/error.hpp"
#include "input/letters.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
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
    [[nodiscard]] std::string_view bare(std::size_t index) const {
        std::string_view line = lines_[index];
        if (!line.empty() && line.back() == '\n') line.remove_suffix(1);
        return trimmed(line);
    }
    void insert(std::size_t before, const std::string& line) {
        if (before > 0 && lines_[before - 1].back() != '\n') lines_[before - 1] += end_;
        lines_.insert(lines_.begin() + static_cast<std::ptrdiff_t>(before), line + end_);
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

/// Byte of the text a line and column lie at.
std::size_t offset_of(const std::string& text, const Where& where) {
    std::size_t begin = 0;
    for (int line = 1; line < where.line && begin < text.size(); ++line)
        begin = std::min(text.find('\n', begin), text.size() - 1) + 1;
    return begin + input::byte_of_character(std::string_view(text).substr(begin),
                                            static_cast<std::size_t>(where.column - 1));
}

/// Byte after the bracket that closes the one at `begin`, if it is one; else `begin`. A change is
/// verified by what it reads as, so quotes over several lines need no care here.
std::size_t end_of_list(const std::string& text, std::size_t begin) {
    if (begin >= text.size() || text[begin] != '[') return begin;
    int depth = 0;
    for (std::size_t at = begin; at < text.size(); ++at) {
        const char c = text[at];
        if (c == '[') {
            ++depth;
        } else if (c == ']') {
            if (--depth == 0) return at + 1;
        } else if (c == '#') {
            at = std::min(text.find('\n', at), text.size());
        } else if (c == '"' || c == '\'') {
            for (++at; at < text.size() && text[at] != c; ++at)
                if (text[at] == '\\' && c == '"') ++at;
        }
    }
    return begin;
}

// Any value may close in that many places: a change is tried with each.
constexpr int most_closings = 200;

/// Where a value may end: as wide as its line says, or at any closing bracket or quote further on.
std::vector<std::size_t> ends_of_value(const std::string& text, const Where& where) {
    const std::size_t begin = offset_of(text, where);
    std::vector<std::size_t> ends{begin +
                                  input::byte_of_character(std::string_view(text).substr(begin),
                                                           static_cast<std::size_t>(where.width))};
    if (const std::size_t end = end_of_list(text, begin); end > begin) ends.push_back(end);
    for (std::size_t at = begin; static_cast<int>(ends.size()) <= most_closings;) {
        at = text.find_first_of("]}\"'", at);
        if (at == std::string::npos) break;
        ends.push_back(++at);
    }
    return ends;
}

constexpr std::string_view text_name = "setup";

/// A key and the value it is to get; none: the key is removed.
struct Wanted {
    std::string key;
    std::optional<std::string> toml;
};

/// The same values but for the key wanted otherwise.
bool changes_only(const Leaves& before, const std::string& text, const Wanted& wanted) {
    const std::string& key = wanted.key;
    const std::optional<std::string>& toml = wanted.toml;
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

/// Ways to write another value in place of one.
std::vector<std::string> replaced(const std::string& text, const Where& where,
                                  const std::string& toml) {
    const std::size_t begin = offset_of(text, where);
    std::vector<std::string> ways;
    for (const std::size_t end : ends_of_value(text, where))
        ways.push_back(text.substr(0, begin) + toml + text.substr(end));
    return ways;
}

/// Ways to add a key to an inline table, after its other keys.
std::vector<std::string> added_inside(const std::string& text, const Leaves& before,
                                      const std::string& key, const std::string& toml) {
    std::vector<std::string> ways;
    for (std::size_t dot = key.rfind('.'); dot != std::string::npos && dot > 0;
         dot = key.rfind('.', dot - 1)) {
        const Where* last = nullptr;
        for (const auto& [path, leaf] : before)
            if (path.starts_with(key.substr(0, dot + 1)) &&
                (last == nullptr || offset_of(text, leaf.value.where) > offset_of(text, *last)))
                last = &leaf.value.where;
        if (last == nullptr) continue;
        for (const std::size_t end : ends_of_value(text, *last))
            ways.push_back(text.substr(0, end) +
                           fmt::format(", {} = {}", key.substr(dot + 1), toml) + text.substr(end));
    }
    return ways;
}

/// Ways to take a key and its value out: with its line or lines, or out of an inline table with one
/// comma.
std::vector<std::string> taken_out(const std::string& text, const input::Leaf& leaf) {
    const auto is_blank = [](char c) { return c == ' ' || c == '\t'; };
    std::vector<std::string> ways;
    for (std::size_t end : ends_of_value(text, leaf.value.where)) {
        std::size_t begin = offset_of(text, leaf.key_where);
        const auto is_of_key = [](char c) {
            return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-' ||
                   c == '.';
        };
        while (begin > 0 && is_of_key(text[begin - 1])) --begin;  // "seat." of seat.ring_fit
        const std::size_t line_end = std::min(text.find('\n', end), text.size());
        const std::size_t line_begin = begin == 0 ? 0 : text.rfind('\n', begin - 1) + 1;
        const std::string_view after = trimmed(std::string_view(text).substr(end, line_end - end));
        if (after.empty() || after.front() == '#') {
            ways.push_back(text.substr(0, line_begin) +
                           text.substr(std::min(line_end + 1, text.size())));
            continue;
        }
        while (end < text.size() && is_blank(text[end])) ++end;
        if (end < text.size() && text[end] == ',') {
            do ++end;
            while (end < text.size() && is_blank(text[end]));
        } else {
            while (begin > 0 && is_blank(text[begin - 1])) --begin;
            if (begin > 0 && text[begin - 1] == ',') --begin;
            while (end > 0 && is_blank(text[end - 1])) --end;
        }
        ways.push_back(text.substr(0, begin) + text.substr(end));
    }
    return ways;
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
    const input::Form form = input::row_of(field.kind).form;
    if (form == input::Form::quoted) return input::quoted(text);
    if (form == input::Form::bare) return is_value(text) ? text : input::quoted(text);
    if (!text.empty() && text.front() == '[' && is_value(text)) return text;
    if (form == input::Form::quoted_or_list) return input::quoted(text);
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
    const bool plain = value.kind == input::Value::Kind::list &&
                       input::row_of(field.kind).form == input::Form::list &&
                       std::all_of(value.items.begin(), value.items.end(),
                                   [](const input::Value& item) { return item.is_number(); });
    if (!plain) return std::string(toml);
    return std::string(trimmed(toml.substr(1, toml.size() - 2)));
}

namespace {

/// A text, and the mark it began with.
struct Marked {
    explicit Marked(const std::string& whole)
        : text(input::without_mark(whole)), mark(whole.substr(0, whole.size() - text.size())) {}
    std::string text;
    std::string mark;
};

/// A list too long for one line goes over several, with the line ends of the text.
std::string as_in_file(const std::string& text, const std::string& key, const std::string& toml) {
    if (toml.empty() || toml.front() != '[' || toml.find('\n') != std::string::npos) return toml;
    const Leaves leaves = input::parse_change(key, toml);
    const auto found = leaves.find(key);
    if (found == leaves.end()) return toml;
    std::vector<std::string> members;
    for (const input::Value& member : found->second.value.items)
        members.push_back(input::toml_text(member));
    const std::string entry = input::entry_lines(key, members);
    const std::string_view value =
        trimmed(std::string_view(entry).substr(entry.find('[')));  // "key = " and line end off
    if (value.find('\n', 0) == value.size() - 1) return toml;
    const bool crlf = text.find("\r\n") != std::string::npos;
    std::string lines;
    for (const char c : value.substr(0, value.size() - 1))
        lines += c == '\n' && crlf ? std::string("\r\n") : std::string(1, c);
    return lines;
}

/// The first way in which that key alone has changed.
std::string first_right(const Marked& body, const Leaves& before,
                        const std::vector<std::string>& ways, const Wanted& wanted) {
    for (const std::string& way : ways)
        if (changes_only(before, way, wanted)) return body.mark + way;
    const auto found = before.find(wanted.key);
    throw Error(Error::Kind::input,
                {Problem{found == before.end() ? Where{} : found->second.key_where,
                         fmt::format("{}: written in a table with others", wanted.key),
                         "change it in the text of the setup"}});
}

}  // namespace

std::string with_value(const std::string& text, const std::string& key, const std::string& toml) {
    const Marked body(text);
    const std::string value = as_in_file(text, key, toml);
    const Leaves before = input::parse_leaves(body.text, std::string(text_name));
    const auto found = before.find(key);
    if (found != before.end())
        return first_right(body, before, replaced(body.text, found->second.value.where, value),
                           {key, value});
    std::vector<std::string> ways = added(Lines(body.text), key, value);
    const std::vector<std::string> inside = added_inside(body.text, before, key, value);
    ways.insert(ways.end(), inside.begin(), inside.end());
    return first_right(body, before, ways, {key, value});
}

std::string without_value(const std::string& text, const std::string& key) {
    const Marked body(text);
    const Leaves before = input::parse_leaves(body.text, std::string(text_name));
    const auto found = before.find(key);
    if (found == before.end()) return text;
    return first_right(body, before, taken_out(body.text, found->second), {key, std::nullopt});
}

}  // namespace caseload::live
