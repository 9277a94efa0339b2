// SPDX-License-Identifier: MIT
// The book as plain dated text.
#include "book/intake.hpp"
#include "caseload/book/record.hpp"
#include "caseload/error.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::book {
namespace {

constexpr std::string_view first_line = "caseload book, text form 1";

/// One line: backslash, newline and carriage return as \\ \n \r.
std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\\')
            out += "\\\\";
        else if (c == '\n')
            out += "\\n";
        else if (c == '\r')
            out += "\\r";
        else
            out += c;
    }
    return out;
}

/// A key's own blanks as \s: " = " ends it, and "id: " would be the record's.
std::string escaped_key(std::string_view key) {
    std::string out;
    for (const char c : escaped(key)) c == ' ' ? out += "\\s" : out += c;
    return out;
}

/// Reads line after line.
class TextReader {
public:
    TextReader(std::string_view text, const std::string& name) : in_(text, name) {
        text = input::without_mark(text);
        if (text.empty()) in_.refuse(1, "the file is empty");
        while (!text.empty()) {
            const std::size_t end = std::min(text.find('\n'), text.size());
            std::string_view line = text.substr(0, end);
            text.remove_prefix(std::min(end + 1, text.size()));
            if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
            ++number_;
            take(line);
        }
    }
    Incoming finish() { return in_.finish(); }

private:
    void take(std::string_view line) {
        if (number_ == 1 && line != first_line)
            in_.refuse(number_, fmt::format("must begin with \"{}\"", first_line));
        if (number_ == 1 || line.find_first_not_of(' ') == line.npos) return;
        if (line.size() > most::line_bytes)
            in_.refuse(number_,
                       fmt::format("this line is longer than {} MiB", most::line_bytes >> 20U));
        if (line.substr(0, 2) == "  ")
            take_value(line.substr(2));
        else
            take_heading(line);
    }

    void take_heading(std::string_view line) {
        const std::size_t one = line.find(' ');
        const std::size_t two = one == line.npos ? one : line.find(' ', one + 1);
        Record record;
        record.date = line.substr(0, one);
        if (one != line.npos) record.kind = line.substr(one + 1, two - one - 1);
        // Editors cut the blank in front of a case that is none.
        if (two == line.npos && record.kind != "setup" && record.kind != "correct")
            in_.refuse(number_, "must read: date kind case");
        if (two != line.npos) record.serial = plain(line.substr(two + 1));
        in_.begin(std::move(record), number_);
    }

    void take_value(std::string_view line) {
        Record* const record = in_.last();
        if (record == nullptr) in_.refuse(number_, "a value before the first record");
        const auto head = [&](std::string_view word, std::string& into) {
            if (line == word) into.clear();  // cut by an editor: nothing after the colon
            if (line.substr(0, word.size()) != word || line.size() == word.size())
                return line == word;
            if (line[word.size()] != ' ') return false;
            into = plain(line.substr(word.size() + 1));
            return true;
        };
        if (head("id:", record->id) || head("program:", record->version) ||
            head("setup:", record->setup))
            return;
        const std::size_t equals = line.find(" = ");
        const bool nothing = line.size() >= 2 && line.substr(line.size() - 2) == " =";
        if (equals == line.npos && !nothing) in_.refuse(number_, "must read: key = value");
        record->fields.emplace_back(
            plain(line.substr(0, equals == line.npos ? line.size() - 2 : equals)),
            equals == line.npos ? "" : plain(line.substr(equals + 3)));
    }

    std::string plain(std::string_view text) const {
        std::string out;
        for (std::size_t k = 0; k < text.size(); ++k) {
            if (text[k] != '\\') {
                out += text[k];
                continue;
            }
            if (++k == text.size()) in_.refuse(number_, "a lone \\ at the end of the line");
            constexpr std::string_view letters = "nrs\\";
            constexpr std::string_view meant = "\n\r \\";
            const std::size_t which = letters.find(text[k]);
            if (which == letters.npos)
                in_.refuse(number_, fmt::format("\\{}: known are \\n, \\r, \\s and \\\\", text[k]));
            out += meant[which];
        }
        return out;
    }

    Intake in_;
    int number_ = 0;
};

}  // namespace

std::string to_text(std::span<const Record> records) {
    std::string out = fmt::format("{}\n", first_line);
    for (const Record& record : records) {
        out += fmt::format("\n{} {} {}\n  id: {}\n", record.date, record.kind,
                           escaped(record.serial), escaped(record.id));
        out += fmt::format("  program: {}\n  setup: {}\n", escaped(record.version),
                           escaped(record.setup));
        for (const auto& [key, text] : record.fields)
            out += fmt::format("  {} = {}\n", escaped_key(key), escaped(text));
    }
    require_readable(records, out);
    return out;
}

Heading heading_of(std::string_view text) {
    const std::size_t end = text.find("\n\n");
    if (text.substr(0, end) != first_line) return {};
    text.remove_prefix(std::min(end + 2, text.size()));
    const std::string_view line = text.substr(0, text.find('\n'));
    const std::size_t one = line.find(' ');
    const std::size_t two = one == line.npos ? one : line.find(' ', one + 1);
    if (two == line.npos || line.find('\\') != line.npos) return {};
    Heading heading{line.substr(one + 1, two - one - 1), std::string(line.substr(two + 1)), {}};
    constexpr std::string_view hash = "\n  hash = ";
    if (const std::size_t at = text.find(hash); heading.kind == "setup" && at != text.npos) {
        text.remove_prefix(at + hash.size());
        heading.hash = text.substr(0, text.find('\n'));
    }
    return heading;
}

Incoming from_text(std::string_view text, const std::string& name) {
    return TextReader(text, name).finish();
}

}  // namespace caseload::book
