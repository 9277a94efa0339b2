// SPDX-License-Identifier: MIT
#include "input/scan.hpp"

#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace caseload::input {
namespace {

// Dotted keys deeper than any heading of ours; the parser recurses once a dot.
constexpr int most_dots = 8 * deepest;

unsigned byte_of(char c) {
    return static_cast<unsigned char>(c);
}

void check_characters(const Source& source, int number) {
    const std::string_view line = source.line(number);
    for (std::size_t i = 0; i < line.size();) {
        const std::size_t length = utf8_length(line, i);
        const auto here = [&] {
            return Source::Place{number, static_cast<int>(count_characters(line.substr(0, i))) + 1};
        };
        if (length == 0)
            source.fail(here(), "the file is not UTF-8 text from here on",
                        "save it as UTF-8 (in the editor: Save as, encoding UTF-8)");
        const unsigned byte = byte_of(line[i]);
        if (byte == '\r')
            source.fail(here(), "the lines end the old Macintosh way",
                        "save it with line ends LF or CR LF");
        if ((byte < 0x20 && byte != '\t') || byte == 0x7F)
            source.fail(here(), fmt::format("control character {:#04x} in the text", byte),
                        "take it out; blanks and tabs are fine");
        i += length;
    }
}

bool blank_at(std::string_view text, std::size_t at) {
    return at < text.size() && (text[at] == ' ' || text[at] == '\t');
}

/// Bytes of counts joined by /, with blanks round it, at the start of a text; 0 if there are none.
std::size_t ratio_length(std::string_view text) {
    std::size_t at = 0;
    std::size_t counts = 0;
    while (true) {
        const std::size_t from = at;
        while (at < text.size() && digit(text[at])) ++at;
        if (at == from) return 0;
        ++counts;
        std::size_t next = at;
        while (blank_at(text, next)) ++next;
        if (next == text.size() || text[next] != '/') return counts > 1 ? at : 0;
        at = next + 1;
        while (blank_at(text, at)) ++at;
    }
}

/// One pass over the text keeping quotes and brackets in mind.
class Scanner {
public:
    explicit Scanner(const Source& source) : source_(source) {}

    LineScan result;

    void read_line(int number) {
        number_ = number;
        line_ = source_.line(number);
        result.not_ascii = {};
        result.unclosed_quote = {};
        result.too_many_closed = false;
        result.bare.assign(line_);
        at_ = 0;
        column_ = 1;
        dots_ = 0;
        while (at_ < line_.size()) step();
        if (quote_ != 0 && !triple_) {
            result.unclosed_quote = quote_place_;
            quote_ = 0;
        }
    }

    [[nodiscard]] int dots() const { return dots_; }

private:
    void step() {
        const char c = line_[at_];
        if (quote_ != 0) {
            inside_quotes(c);
        } else if (c == '#') {
            blank(line_.size() - at_);
        } else if (c == '"' || c == '\'') {
            open_quote(c);
        } else {
            outside(c);
        }
    }

    void inside_quotes(char c) {
        if (c == '\\' && quote_ == '"') {
            blank(std::min<std::size_t>(2, line_.size() - at_));
        } else if (c != quote_ || !triple_) {
            if (c == quote_) quote_ = 0;
            blank(1);
        } else if (line_.substr(at_, 3) == std::string(3, quote_)) {
            quote_ = 0;
            blank(3);
            while (at_ < line_.size() && line_[at_] == c)
                blank(1);  // quotes before the closing three
        } else {
            blank(1);
        }
    }

    void open_quote(char c) {
        triple_ = line_.substr(at_, 3) == std::string(3, c);
        quote_ = c;
        quote_place_ = {number_, column_};
        blank(triple_ ? 3 : 1);
    }

    void outside(char c) {
        if (c == '[' || c == '{') {
            result.open.push_back({c, {number_, column_}});
            if (result.open.size() > static_cast<std::size_t>(deepest))
                source_.fail({number_, column_}, "brackets are nested more than 32 deep",
                             "nothing in a setup needs more than three");
        } else if (c == ']' || c == '}') {
            const char opener = c == ']' ? '[' : '{';
            if (!result.open.empty() && result.open.back().bracket == opener)
                result.open.pop_back();
            else
                result.too_many_closed = true;
        } else if (c == '.') {
            if (!decimal_point()) ++dots_;
        } else if (byte_of(c) >= 0x80 && result.not_ascii.line == 0) {
            result.not_ascii = {number_, column_};
        }
        forward(1);
    }

    /// Of a number as a value: between digits that no other dot or letter goes before.
    [[nodiscard]] bool decimal_point() const {
        if (at_ + 1 >= line_.size() || !digit(line_[at_ + 1])) return false;
        std::size_t first = at_;
        while (first > 0 && digit(line_[first - 1])) --first;
        return first < at_ &&
               (first == 0 || std::string_view("=,[ \t-+").find(line_[first - 1]) != line_.npos);
    }

    void blank(std::size_t count) {
        std::fill_n(result.bare.begin() + static_cast<std::ptrdiff_t>(at_), count, ' ');
        forward(count);
    }

    void forward(std::size_t count) {
        column_ += static_cast<int>(count_characters(line_.substr(at_, count)));
        at_ += count;
    }

    const Source& source_;
    std::string_view line_;
    std::size_t at_ = 0;
    int number_ = 0;
    int column_ = 1;
    int dots_ = 0;
    char quote_ = 0;
    bool triple_ = false;
    Source::Place quote_place_;
};

}  // namespace

Source::Source(std::string_view text, std::string name) : text_(text), name_(std::move(name)) {
    std::size_t at = 0;
    while (at <= text.size()) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        std::string_view line = text.substr(at, end - at);
        if (!line.empty() && line.back() == '\r' && end < text.size()) line.remove_suffix(1);
        lines_.push_back(line);
        at = end + 1;
    }
}

std::string_view Source::line(int number) const {
    const auto index = static_cast<std::size_t>(number) - 1;
    return index < lines_.size() ? lines_[index] : std::string_view{};
}

Where Source::where(const Place& place) const {
    return {name_, place.line, place.column, place.width, std::string(line(place.line))};
}

void Source::fail(const Place& place, std::string text, std::string hint) const {
    throw Error(Error::Kind::input, {Problem{where(place), std::move(text), std::move(hint)}});
}

void check_limits(const Source& source, std::size_t longest) {
    const std::string_view text = source.text();
    if (text.size() > largest_text)
        source.fail({}, "the file is larger than 1 MiB", "a setup is a few hundred lines");
    const std::string_view mark = text.substr(0, 2);
    if (mark == "\xFF\xFE" || mark == "\xFE\xFF" || text.find('\0') != std::string_view::npos)
        source.fail({}, "the file is UTF-16 or not text at all",
                    "save it as UTF-8 (in the editor: Save as, encoding UTF-8)");
    if (text != without_mark(text))
        source.fail({1, 1}, "the file begins with two byte order marks",
                    "save it as UTF-8 without such a mark");
    Scanner scanner(source);
    for (int number = 1; number <= static_cast<int>(source.count_lines()); ++number) {
        if (source.line(number).size() > longest)
            source.fail({number, 1}, "the line is longer than 4096 characters",
                        "break lists over several lines");
        check_characters(source, number);
        scanner.read_line(number);
        if (scanner.dots() > most_dots)
            source.fail({number, 1}, "the line has more dots than any key or list can use", {});
    }
}

std::string with_quoted_ratios(const Source& source) {
    std::string text(source.text());
    if (text.find('/') == std::string::npos) return text;
    Scanner scanner(source);
    for (int number = 1; number <= static_cast<int>(source.count_lines()); ++number) {
        scanner.read_line(number);
        const std::string& bare = scanner.result.bare;
        if (bare.find('/') == std::string::npos) continue;
        const auto begin =
            static_cast<std::size_t>(source.line(number).data() - source.text().data());
        for (std::size_t at = bare.find('='); at != std::string::npos;
             at = bare.find('=', at + 1)) {
            std::size_t from = at + 1;
            while (blank_at(bare, from)) ++from;
            const std::size_t length = ratio_length(std::string_view(bare).substr(from));
            if (length == 0) continue;
            const std::string_view line = source.line(number);
            std::size_t after = from + length;
            while (blank_at(line, after)) ++after;
            const bool ends =
                after == line.size() || std::string_view("#,}").find(line[after]) != line.npos;
            if (!ends) continue;
            text.replace(begin + from, length, "'" + std::string(length - 2, '_') + "'");
        }
    }
    return text;
}

std::string_view ratio_at(const Source& source, const Source::Place& place) {
    const std::string_view line = source.line(place.line);
    const std::string_view from =
        line.substr(byte_of_character(line, static_cast<std::size_t>(place.column) - 1));
    return from.substr(0, ratio_length(from));
}

LineScan scan_to(const Source& source, int last) {
    Scanner scanner(source);
    for (int number = 1; number <= last; ++number) scanner.read_line(number);
    return scanner.result;
}

}  // namespace caseload::input
