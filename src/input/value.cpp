// SPDX-License-Identifier: MIT
#include "input/value.hpp"

#include "third_party/toml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <sstream>

namespace caseload::input {
namespace {

constexpr std::size_t largest_text = std::size_t{1} << 20;
constexpr std::size_t longest_line = 4096;
constexpr int deepest = 32;

std::size_t characters(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    }));
}

std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    std::size_t at = 0;
    while (at <= text.size()) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        std::string_view line = text.substr(at, end - at);
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        lines.push_back(line);
        at = end + 1;
    }
    return lines;
}

class Reader {
public:
    Reader(std::string_view text, const std::string& name)
        : text_(text), name_(name), lines_(lines_of(text)) {}

    Leaves read() {
        check_limits();
        try {
            const toml::table root = toml::parse(text_, std::string_view(name_));
            flatten(root, "", 1);
        } catch (const toml::parse_error& problem) {
            const auto begin = problem.source().begin;
            syntax(static_cast<int>(begin.line), static_cast<int>(begin.column),
                   std::string(problem.description()));
        } catch (const Error&) {
            throw;
        } catch (const std::exception&) {
            syntax(0, 0, "this is not TOML");
        }
        return std::move(leaves_);
    }

private:
    [[nodiscard]] Where place(int line, int column, int width) const {
        Where where{name_, line, column, width, {}};
        if (line >= 1 && static_cast<std::size_t>(line) <= lines_.size())
            where.source_line = std::string(lines_[static_cast<std::size_t>(line) - 1]);
        return where;
    }

    [[noreturn]] void fail(int line, int column, std::string text, std::string hint) const {
        throw Error(Error::Kind::input,
                    {Problem{place(line, column, 1), std::move(text), std::move(hint)}});
    }

    void check_limits() const {
        if (text_.size() > largest_text)
            fail(0, 0, "the file is larger than 1 MiB", "a setup is a few hundred lines");
        if (text_.size() >= 2 &&
            (text_.substr(0, 2) == "\xFF\xFE" || text_.substr(0, 2) == "\xFE\xFF"))
            fail(0, 0, "the file is saved as UTF-16",
                 "save it as UTF-8 (in the editor: Save as, encoding UTF-8)");
        if (text_.find('\0') != std::string_view::npos)
            fail(0, 0, "the file holds binary data, not text", "");
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            const int line = static_cast<int>(i) + 1;
            if (lines_[i].size() > longest_line)
                fail(line, 1, "the line is longer than 4096 characters",
                     "break lists over several lines");
            int depth = 0;
            int dots = 0;
            for (const char c : lines_[i]) {
                depth += c == '[' || c == '{' ? 1 : 0;
                dots += c == '.' ? 1 : 0;
                if (depth > deepest || dots > 8 * deepest)
                    fail(line, 1, "brackets or dots are nested too deep", "");
            }
        }
    }

    // The parser's message says where it stopped; ours says what people usually did.
    [[noreturn]] void syntax(int line, int column, const std::string& description) const {
        const Where where = place(line, column, 1);
        const std::string& source = where.source_line;
        const auto has = [&](std::string_view piece) {
            return source.find(piece) != std::string::npos;
        };
        const auto first_unusual = [&] {
            for (std::size_t i = 0; i < source.size(); ++i)
                if ((static_cast<unsigned char>(source[i]) & 0x80U) != 0)
                    return static_cast<int>(characters(std::string_view(source).substr(0, i))) + 1;
            return column;
        };
        const std::size_t equals = source.find('=');
        const std::string_view value = equals == std::string::npos
                                           ? std::string_view{}
                                           : std::string_view(source).substr(equals + 1);
        const std::size_t start = value.find_first_not_of(" \t");
        const char first = start == std::string_view::npos ? '\0' : value[start];
        if (has("\xE2\x80\x9C") || has("\xE2\x80\x9D") || has("\xE2\x80\x9E") ||
            has("\xE2\x80\x98") || has("\xE2\x80\x99"))
            fail(line, first_unusual(), "curly quotation marks", "use straight ones: \"...\"");
        if (description.find("redefine") != std::string::npos ||
            description.find("duplicate") != std::string::npos ||
            description.find("already") != std::string::npos)
            fail(line, column, "this key or heading was given before",
                 source.find('[') == 0 ? "a heading cannot follow dotted keys of the same table; "
                                         "keep one of the two forms"
                                       : "keep one of the two lines");
        if (equals != std::string::npos && first == '\0')
            fail(line, column, "there is no value after the equals sign", "");
        if (std::count(source.begin(), source.end(), '"') % 2 == 1)
            fail(line, column,
                 "a quotation mark is missing, or an inch sign stands inside the quotes",
                 "write inches as \"37 in\"");
        if (std::isdigit(static_cast<unsigned char>(first)) != 0 || first == '-' || first == '+' ||
            first == '.')
            fail(line, column, "a value with a unit, or a decimal comma, stands without quotes",
                 "write \"12.5 mm\"");
        if (std::isalpha(static_cast<unsigned char>(first)) != 0)
            fail(line, column, "a word stands without quotes", "write it as \"word\"");
        if (first == '[' || first == '{')
            fail(line, column, "a bracket is not closed before this place", "");
        if (source.find('[') == 0)
            fail(line, column, "this heading is not complete", "write [name]");
        if (equals == std::string::npos)
            fail(line, column, "this line is neither a heading nor key = value", "");
        fail(line, first_unusual(), "this cannot be read as key = value", "");
    }

    [[nodiscard]] Where place(const toml::source_region& region) const {
        const int width =
            region.begin.line == region.end.line
                ? static_cast<int>(region.end.column) - static_cast<int>(region.begin.column)
                : 1;
        return place(static_cast<int>(region.begin.line), static_cast<int>(region.begin.column),
                     std::max(width, 1));
    }

    Value value_of(const toml::node& node) const {
        Value value;
        value.where = place(node.source());
        if (const auto* text = node.as_string()) {
            value.kind = Value::Kind::text;
            value.text = text->get();
        } else if (const auto* integer = node.as_integer()) {
            value.kind = Value::Kind::integer;
            value.number = static_cast<double>(integer->get());
        } else if (const auto* number = node.as_floating_point()) {
            value.kind = Value::Kind::number;
            value.number = number->get();
            if (!std::isfinite(value.number))
                fail(value.where.line, value.where.column, "a number must be finite", "");
        } else if (const auto* flag = node.as_boolean()) {
            value.kind = Value::Kind::flag;
            value.flag = flag->get();
        } else if (const auto* list = node.as_array()) {
            value.kind = Value::Kind::list;
            for (const toml::node& item : *list) value.items.push_back(value_of(item));
        } else if (const auto* table = node.as_table()) {
            value.kind = Value::Kind::table;
            for (const auto& [key, item] : *table)
                value.members.push_back({std::string(key.str()), value_of(item)});
        } else {
            fail(value.where.line, value.where.column, "dates and times have no meaning here", "");
        }
        return value;
    }

    void flatten(const toml::table& table, const std::string& path, int depth) {
        if (depth > deepest) fail(0, 0, "tables are nested too deep", "");
        for (const auto& [key, node] : table) {
            const std::string name(key.str());
            const Where key_where = place(key.source());
            for (const char c : name)
                if (std::isalnum(static_cast<unsigned char>(c)) == 0 && c != '_' && c != '-')
                    fail(key_where.line, key_where.column,
                         "names are made of letters, digits, - and _", "");
            const std::string full = path.empty() ? name : path + "." + name;
            if (const auto* inner = node.as_table()) {
                flatten(*inner, full, depth + 1);
                continue;
            }
            if (const auto* list = node.as_array(); list != nullptr && !list->empty() &&
                                                    list->front().is_table() &&
                                                    is_heading(key_where))
                fail(key_where.line, key_where.column,
                     fmt::format("[[{}]]: lists of tables are not used here", full),
                     fmt::format("give each its name: [{}.front]", full));
            leaves_[full] = {value_of(node), key_where};
        }
    }

    static bool is_heading(const Where& where) {
        return where.source_line.find("[[") != std::string::npos &&
               where.source_line.find('=') == std::string::npos;
    }

    std::string_view text_;
    std::string name_;
    std::vector<std::string_view> lines_;
    Leaves leaves_;
};

std::string quoted(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
            out += fmt::format("\\u{:04X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
        else
            out += c;
    }
    return out + "\"";
}

}  // namespace

std::string toml_text(const Value& value) {
    switch (value.kind) {
        case Value::Kind::text:
            return quoted(value.text);
        case Value::Kind::integer:
            return fmt::format("{:.0f}", value.number);
        case Value::Kind::number: {
            std::string text = fmt::format("{}", value.number);
            if (text.find_first_of(".e") == std::string::npos) text += ".0";
            return text;
        }
        case Value::Kind::flag:
            return value.flag ? "true" : "false";
        case Value::Kind::list: {
            std::string text = "[";
            for (const Value& item : value.items)
                text += (text.size() > 1 ? ", " : "") + toml_text(item);
            return text + "]";
        }
        case Value::Kind::table: {
            std::string text = "{ ";
            for (const auto& [key, item] : value.members)
                text += (text.size() > 2 ? ", " : "") + key + " = " + toml_text(item);
            return text + " }";
        }
    }
    return "";
}

Leaves parse_leaves(std::string_view text, const std::string& name) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    return Reader(text, name).read();
}

Value parse_value(std::string_view toml, const std::string& name) {
    Leaves leaves = parse_leaves("value = " + std::string(toml), name);
    const auto found = leaves.find("value");
    if (found == leaves.end() || leaves.size() != 1)
        throw Error(Error::Kind::input, fmt::format("{}: one value expected", name));
    return found->second.value;
}

}  // namespace caseload::input
