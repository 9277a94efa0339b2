// SPDX-License-Identifier: MIT
#include "input/syntax.hpp"

#include <fmt/format.h>
#include "input/letters.hpp"

#include <algorithm>
#include <cctype>

namespace caseload::input {
namespace {

bool contains(std::string_view text, std::string_view piece) {
    return text.find(piece) != std::string_view::npos;
}

bool letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

/// A key or heading without blanks: "oil.grade", "[oil]".
std::string compact(std::string_view text) {
    std::string out;
    for (const char c : text)
        if (c != ' ' && c != '\t') out += c;
    return out;
}

class Explanation {
public:
    Explanation(const Source& source, const ParserStop& stop)
        : source_(source),
          stop_(at_its_heading(source, stop)),
          line_(source.line(stop_.line)),
          scan_(scan_to(source, stop_.line)),
          bare_(scan_.bare) {
        const std::size_t equals = bare_.find('=');
        has_equals_ = equals != std::string_view::npos;
        key_ = trimmed(std::string_view(line_).substr(0, has_equals_ ? equals : line_.size()));
        if (has_equals_) {
            const std::string_view after = std::string_view(line_).substr(equals + 1);
            value_ = trimmed(after.substr(0, std::min(after.find('#'), after.size())));
            value_column_ = column_of(
                value_.empty() ? equals : static_cast<std::size_t>(value_.data() - line_.data()));
        }
    }

    [[noreturn]] void run() const {
        curly_quotes();
        closed_table();
        given_before();
        bracket_opened_before();
        quote();
        not_ascii();
        escape();
        if (trimmed(bare_).substr(0, 1) == "[") heading();
        if (!has_equals_) no_equals();
        key();
        value();
        source_.fail(stop_place(), "this cannot be read as key = value",
                     "for example fill = \"2.6 L\"");
    }

private:
    [[nodiscard]] int column_of(std::size_t byte) const {
        return static_cast<int>(count_characters(line_.substr(0, byte))) + 1;
    }

    [[nodiscard]] Source::Place stop_place() const {
        return {stop_.line, std::max(stop_.column, 1), 1};
    }

    [[nodiscard]] Source::Place value_place() const {
        return {stop_.line, value_column_, std::max(1, static_cast<int>(count_characters(value_)))};
    }

    void curly_quotes() const {
        static constexpr std::string_view marks[] = {"\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x9E",
                                                     "\xE2\x80\x98", "\xE2\x80\x99", "\xC2\xAB",
                                                     "\xC2\xBB"};
        std::size_t first = std::string_view::npos;
        for (const std::string_view mark : marks) first = std::min(first, line_.find(mark));
        if (first != std::string_view::npos && scan_.not_ascii.line != 0)
            source_.fail({stop_.line, column_of(first)}, "curly quotation marks",
                         "use straight ones: \"...\" (an editor for plain text keeps them)");
    }

    [[nodiscard]] bool heading_line() const {
        return trimmed(bare_).substr(0, 1) == "[" && !has_equals_;
    }

    /// A table in braces, and a line that would add to it.
    void closed_table() const {
        if (!contains(stop_.description, "redefine") &&
            !contains(stop_.description, "existing inline table"))
            return;
        const std::string own = heading_line() ? inside_brackets(line_) : full_key(stop_.line);
        const ClosedTable closed = closed_table_of(own);
        if (closed.line == 0) return;
        if (own == closed.name && !heading_line()) return;  // given twice
        const std::string_view marked =
            heading_line() ? key_.substr(0, key_.find(']') + 1) : std::string_view(key_);
        const Source::Place place{stop_.line, first_column(),
                                  std::max(1, static_cast<int>(count_characters(marked)))};
        const std::string rest =
            own.size() > closed.name.size() ? own.substr(closed.name.size() + 1) : "";
        const std::string what = heading_line() ? fmt::format("[{}]", own) : own;
        const std::string inside =
            rest.empty()     ? std::string("write its keys inside these braces")
            : heading_line() ? fmt::format("write {} = {{ ... }} inside these braces", rest)
                             : fmt::format("write {} = ... inside these braces", rest);
        source_.fail(place,
                     fmt::format("{} adds to {}, which ends with its }} in line {}", what,
                                 closed.name, closed.line),
                     fmt::format("{}; or give {} the heading [{}] and write its keys below it, one "
                                 "a line",
                                 inside, closed.name, closed.name));
    }

    struct ClosedTable {
        std::string name;
        int line = 0;  ///< 0: none
    };

    /// The table in braces that is this key or heading, or holds it.
    [[nodiscard]] ClosedTable closed_table_of(const std::string& own) const {
        std::string heading;
        for (int number = 1; number < stop_.line; ++number) {
            const std::string_view text = trimmed(source_.line(number));
            const std::size_t equals = text.find('=');
            if (text.substr(0, 1) == "[" && contains(text, "]"))
                heading = inside_brackets(text) + ".";
            else if (equals != text.npos && trimmed(text.substr(equals + 1)).substr(0, 1) == "{") {
                const std::string name = heading + compact(trimmed(text.substr(0, equals)));
                if (own == name || own.starts_with(name + ".")) return {name, number};
            }
        }
        return {};
    }

    /// "[oil] # of it" gives "oil".
    static std::string inside_brackets(std::string_view text) {
        const std::string whole = compact(trimmed(text));
        return whole.substr(1, std::min(whole.find(']'), whole.size()) - 1);
    }

    /// The key of a line with the heading it is under.
    [[nodiscard]] std::string full_key(int line) const {
        std::string heading;
        for (int number = 1; number < line; ++number) {
            const std::string_view text = trimmed(source_.line(number));
            if (text.substr(0, 1) == "[" && contains(text, "]"))
                heading = inside_brackets(text) + ".";
        }
        const std::string_view text = source_.line(line);
        return heading + compact(trimmed(text.substr(0, text.find('='))));
    }

    /// A heading that cannot be is noticed at what follows it; the parser names it in quotes.
    static ParserStop at_its_heading(const Source& source, const ParserStop& stop) {
        if (!contains(stop.description, "table header: cannot")) return stop;
        const std::size_t open = stop.description.find('\'');
        const std::size_t close = stop.description.rfind('\'');
        if (open >= close) return stop;
        const std::string named = stop.description.substr(open + 1, close - open - 1);
        for (int number = stop.line; number >= 1; --number) {
            const std::string_view text = trimmed(source.line(number));
            if (text.substr(0, 1) != "[" || inside_brackets(text) != named) continue;
            const auto column = static_cast<int>(
                count_characters(source.line(number).substr(0, source.line(number).find('['))));
            return {number, column + 1, stop.description};
        }
        return stop;
    }

    void given_before() const {
        if (!contains(stop_.description, "redefine")) return;
        const bool heading_line = this->heading_line();
        const int before = line_of_same();
        const std::string since = before > 0 ? fmt::format("line {}", before) : "an earlier line";
        const Source::Place place{stop_.line, first_column(),
                                  static_cast<int>(count_characters(key_))};
        const bool of_value = !contains(stop_.description, "existing table");
        if (before == 0 && heading_line && of_value)
            source_.fail(place, fmt::format("{}: a part of this name is a value already", key_),
                         "a name holds either one value or further names, not both");
        if (!heading_line && before == 0)
            source_.fail(place,
                         fmt::format("{} is already a value or a heading of another kind", key_),
                         "a name holds either one value or further names, not both");
        if (!heading_line)
            source_.fail(place, fmt::format("{} is given twice; first in {}", key_, since),
                         "keep one of the two lines");
        if (before > 0)
            source_.fail(place,
                         fmt::format("the heading {} is given twice; first in {}", key_, since),
                         "put all its lines under one of them");
        source_.fail(place, fmt::format("the heading {} follows keys of the same table", key_),
                     "dotted keys such as oil.fill = ... and a heading [oil] exclude each other");
    }

    [[nodiscard]] int first_column() const {
        return column_of(static_cast<std::size_t>(key_.data() - line_.data()));
    }

    /// The earlier line with the same heading or the same key under the same heading; 0: none.
    [[nodiscard]] int line_of_same() const {
        std::string heading;
        std::string wanted;
        int found = 0;
        for (int pass = 0; pass < 2; ++pass) {
            heading.clear();
            for (int number = 1; number <= stop_.line; ++number) {
                const std::string_view text = trimmed(source_.line(number));
                std::string name;
                if (text.substr(0, 1) == "[") {
                    heading = compact(text.substr(0, text.find(']') + 1));
                    name = heading;
                } else if (text.substr(0, 1) != "#" && contains(text, "=")) {
                    name = heading + " " + compact(text.substr(0, text.find('=')));
                }
                if (pass == 0 && number == stop_.line) wanted = name;
                if (pass == 1 && number < stop_.line && found == 0 && !name.empty() &&
                    name == wanted)
                    found = number;
            }
        }
        return found;
    }

    void bracket_opened_before() const {
        for (const LineScan::Open& open : scan_.open)
            if (open.place.line < stop_.line) unclosed(open);
        // The parser may stop on the line that follows.
        const LineScan before = scan_to(source_, stop_.line - 1);
        if (!before.open.empty() && trimmed(line_).empty()) unclosed(before.open.front());
    }

    [[noreturn]] void unclosed(const LineScan::Open& open) const {
        source_.fail(open.place, fmt::format("the bracket {} is not closed", open.bracket),
                     open.bracket == '[' ? "close it with ] before the next key or heading"
                                         : "close it with } on the same line");
    }

    void quote() const {
        if (scan_.unclosed_quote.line == 0) return;
        const std::size_t doubled = line_.find("\"\"");
        const bool inches =
            doubled != std::string_view::npos && doubled > 0 && digit(line_[doubled - 1]);
        if (inches)
            source_.fail({stop_.line, column_of(doubled)}, "an inch mark ends the text too early",
                         "write inches as \"37 in\"");
        source_.fail(scan_.unclosed_quote, "a closing quotation mark is missing",
                     "text begins and ends with \" on the same line");
    }

    void not_ascii() const {
        if (scan_.not_ascii.line == 0) return;
        const auto at = static_cast<std::size_t>(std::distance(
            line_.begin(), std::find_if(line_.begin(), line_.end(), [&](const char& c) {
                return column_of(static_cast<std::size_t>(&c - line_.data())) ==
                           scan_.not_ascii.column &&
                       !continues_character(c);
            })));
        std::size_t end = at + 1;
        while (end < line_.size() && continues_character(line_[end])) ++end;
        const std::string_view character = line_.substr(at, end - at);
        if (character == "\xC2\xA0")
            source_.fail(scan_.not_ascii, "there is a no-break blank outside quotes",
                         "replace it by an ordinary blank");
        source_.fail(scan_.not_ascii, fmt::format("the character {} is outside quotes", character),
                     "keys use plain letters, digits, - and _; write values with other characters "
                     "in quotes");
    }

    void escape() const {
        if (!contains(line_, "\\") || !contains(stop_.description, "escape")) return;
        source_.fail(stop_place(), "a backslash in quotes starts an escape",
                     "write / in file names, or use single quotes");
    }

    [[noreturn]] void heading() const {
        const std::string_view text = trimmed(line_);
        const Source::Place place{stop_.line,
                                  column_of(static_cast<std::size_t>(text.data() - line_.data())),
                                  std::max(1, static_cast<int>(count_characters(text)))};
        if (contains(bare_, "]"))
            source_.fail(place, "a heading must be alone on its line",
                         "put what follows it on the next");
        source_.fail(place, "this is not a complete heading",
                     "for example [oil] or [bearing.input_rear]");
    }

    [[noreturn]] void no_equals() const {
        const std::size_t colon = bare_.find(':');
        if (colon != std::string_view::npos)
            source_.fail({stop_.line, column_of(colon)}, "there is a colon where = is expected",
                         "write key = value");
        source_.fail(
            {stop_.line, first_column(), std::max(1, static_cast<int>(count_characters(key_)))},
            "this line is neither a heading nor key = value", "comments begin with #");
    }

    void key() const {
        const Source::Place place{stop_.line, has_equals_ && !key_.empty() ? first_column() : 1,
                                  std::max(1, static_cast<int>(count_characters(key_)))};
        if (key_.empty())
            source_.fail(place, "there is no key before the equals sign", "write key = value");
        const bool odd = std::any_of(key_.begin(), key_.end(), [](char c) {
            return !letter(c) && !digit(c) && c != '_' && c != '-' && c != '.' && c != '"' &&
                   c != '\'';
        });
        if (odd && key_.front() != '{' && key_.front() != '[')
            source_.fail(place, fmt::format("\"{}\" cannot be a key", key_),
                         "a key is one word: letters, digits, - and _");
    }

    void value() const {
        if (value_.empty())
            source_.fail({stop_.line, value_column_}, "there is no value after the equals sign",
                         "for example fill = \"2.6 L\"");
        const char first = value_.front();
        if (digit(first) || first == '-' || first == '+' || first == '.' || first == ',') number();
        if (letter(first)) {
            const bool truth = value_ == "True" || value_ == "TRUE" || value_ == "yes" ||
                               value_ == "on" || value_ == "False" || value_ == "FALSE" ||
                               value_ == "no" || value_ == "off";
            source_.fail(value_place(), fmt::format("{} is without quotes", value_),
                         truth ? "write true or false, or the word in quotes"
                               : fmt::format("write \"{}\"", value_));
        }
        if (first == '[' || first == '{') list();
        if (first == '"' || first == '\'') after_text();
    }

    void number() const {
        const std::size_t end = value_.find_first_not_of("0123456789+-._");
        if (end != std::string_view::npos && value_[end] == ',')
            source_.fail(value_place(), "a number without quotes has a comma",
                         "write decimals with a point");
        const bool exponent =
            end != std::string_view::npos && end + 1 < value_.size() &&
            (value_[end] == 'e' || value_[end] == 'E') &&
            value_.find_first_not_of("0123456789+-", end + 1) == std::string_view::npos;
        constexpr std::size_t most_digits = 18;  // of 64 bits
        if (exponent || (value_.size() > most_digits &&
                         value_.find_first_not_of("0123456789+-") == std::string_view::npos))
            source_.fail(value_place(),
                         fmt::format("{} is beyond the numbers that are read", value_),
                         "no key takes one as large");
        if (end == std::string_view::npos)
            source_.fail(value_place(), fmt::format("{} is not written as a number", value_),
                         "for example 5.43; no zero in front, digits on both sides of the point");
        source_.fail(value_place(), "a value with a unit is without quotes",
                     fmt::format("write \"{}\"", value_));
    }

    void list() const {
        if (!scan_.open.empty()) unclosed(scan_.open.front());
        if (scan_.too_many_closed)
            source_.fail(value_place(), "a bracket is closed that was not opened",
                         "count [ ] and { }");
        source_.fail(stop_place(), "this list or table cannot be read here",
                     "separate members by commas, write words and units in quotes: "
                     "{ flow = \"9 L/min\" }");
    }

    void after_text() const {
        source_.fail(stop_place(), "there is text after the closing quotation mark",
                     "write the unit inside the quotes: \"16 mm\"");
    }

    const Source& source_;
    const ParserStop stop_;
    std::string_view line_;
    LineScan scan_;
    std::string_view bare_;
    std::string_view key_;
    std::string_view value_;
    int value_column_ = 1;
    bool has_equals_ = false;
};

}  // namespace

void explain_syntax(const Source& source, const ParserStop& stop) {
    if (stop.line < 1) source.fail({}, "the text is not TOML", {});
    Explanation(source, stop).run();
}

}  // namespace caseload::input
