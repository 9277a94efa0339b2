// SPDX-License-Identifier: MIT
#include "caseload/book/record.hpp"
#include "caseload/error.hpp"

#include <fmt/format.h>

namespace caseload::book {
namespace {

constexpr std::string_view first_line = "caseload book, text form 1";
constexpr std::string_view csv_head = "id,date,kind,case,setup,version,key,value";

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

struct Place {
    std::string name;
    int line = 0;
};

[[noreturn]] void refuse_at(const Place& place, const std::string& text) {
    Where where;
    where.file = place.name;
    where.line = place.line;
    where.column = 1;
    throw Error(Error::Kind::input, {Problem{where, text, "nothing was imported"}});
}

std::string plain(std::string_view text, const Place& place) {
    std::string out;
    for (std::size_t k = 0; k < text.size(); ++k) {
        if (text[k] != '\\') {
            out += text[k];
            continue;
        }
        if (++k == text.size()) refuse_at(place, "a lone \\ at the end of the line");
        if (text[k] == 'n')
            out += '\n';
        else if (text[k] == 'r')
            out += '\r';
        else if (text[k] == '\\')
            out += '\\';
        else
            refuse_at(place, fmt::format("\\{}: known are \\n, \\r and \\\\", text[k]));
    }
    return out;
}

void check(const Incoming& in, const Place& place) {
    try {
        if (!in.records.empty()) require_complete(in.records.back());
    } catch (const Error& error) {
        refuse_at(place, error.problems().front().text);
    }
}

std::string cell(std::string_view text) {
    if (text.find_first_of(",\"\n\r") == std::string_view::npos) return std::string(text);
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

std::vector<std::string> row_of(std::string_view text, std::size_t& at, Place& place) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    const int first = place.line;
    for (; at < text.size(); ++at) {
        const char c = text[at];
        if (c == '\n') ++place.line;
        if (quoted) {
            if (c != '"')
                cells.back() += c;
            else if (at + 1 < text.size() && text[at + 1] == '"')
                cells.back() += text[++at];
            else
                quoted = false;
        } else if (c == '"') {
            quoted = true;
        } else if (c == ',') {
            cells.emplace_back();
        } else if (c == '\n') {
            ++at;
            break;
        } else if (c != '\r') {
            cells.back() += c;
        }
    }
    if (quoted) refuse_at({place.name, first}, "a quote is not closed");
    return cells;
}

}  // namespace

std::string to_text(std::span<const Record> records) {
    std::string out = fmt::format("{}\n", first_line);
    for (const Record& record : records) {
        out += fmt::format("\n{} {} {}\n  id: {}\n", record.date, record.kind,
                           escaped(record.serial), escaped(record.id));
        out += fmt::format("  program: {}\n  setup: {}\n", escaped(record.version),
                           escaped(record.setup));
        for (const auto& [key, text] : record.fields)
            out += fmt::format("  {} = {}\n", escaped(key), escaped(text));
    }
    return out;
}

Incoming from_text(std::string_view text, const std::string& name) {
    Incoming in;
    in.file = name;
    Records& records = in.records;
    Place place{name, 0};
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        ++place.line;
        if (place.line == 1) {
            if (line != first_line)
                refuse_at(place, fmt::format("must begin with \"{}\"", first_line));
            continue;
        }
        if (line.empty()) continue;
        if (line.substr(0, 2) != "  ") {
            check(in, place);
            const std::size_t one = line.find(' ');
            const std::size_t two = one == line.npos ? one : line.find(' ', one + 1);
            if (two == line.npos) refuse_at(place, "must read: date kind case");
            Record record;
            record.date = line.substr(0, one);
            record.kind = line.substr(one + 1, two - one - 1);
            record.serial = plain(line.substr(two + 1), place);
            records.push_back(record);
            in.lines.push_back(place.line);
            continue;
        }
        if (records.empty()) refuse_at(place, "a value before the first record");
        line.remove_prefix(2);
        Record& record = records.back();
        const auto head = [&](std::string_view word, std::string& into) {
            if (line.substr(0, word.size()) != word) return false;
            into = plain(line.substr(word.size()), place);
            return true;
        };
        if (head("id: ", record.id) || head("program: ", record.version) ||
            head("setup: ", record.setup))
            continue;
        const std::size_t equals = line.find(" = ");
        if (equals == line.npos) refuse_at(place, "must read: key = value");
        record.fields.emplace_back(plain(line.substr(0, equals), place),
                                   plain(line.substr(equals + 3), place));
    }
    if (place.line == 0) refuse_at({name, 1}, "the file is empty");
    check(in, place);
    return in;
}

std::string to_csv(std::span<const Record> records) {
    std::string out = fmt::format("{}\n", csv_head);
    for (const Record& record : records) {
        std::string head;
        for (const std::string* part : {&record.id, &record.date, &record.kind, &record.serial,
                                        &record.setup, &record.version})
            head += cell(*part) + ',';
        if (record.fields.empty()) out += head + ",\n";
        for (const auto& [key, text] : record.fields)
            out += fmt::format("{}{},{}\n", head, cell(key), cell(text));
    }
    return out;
}

Incoming from_csv(std::string_view text, const std::string& name) {
    Incoming in;
    in.file = name;
    Records& records = in.records;
    Place place{name, 1};
    std::size_t at = 0;
    if (fmt::format("{}", fmt::join(row_of(text, at, place), ",")) != csv_head)
        refuse_at({name, 1}, fmt::format("must begin with {}", csv_head));
    while (at < text.size()) {
        const Place here = place;
        const std::vector<std::string> cells = row_of(text, at, place);
        if (cells.size() == 1 && cells[0].empty()) continue;
        if (cells.size() != 8)
            refuse_at(here, fmt::format("{} columns; 8 are needed", cells.size()));
        if (records.empty() || records.back().id != cells[0]) {
            check(in, here);
            records.push_back({cells[0], cells[1], cells[2], cells[3], cells[4], cells[5], {}});
            in.lines.push_back(here.line);
        }
        if (!cells[6].empty()) records.back().fields.emplace_back(cells[6], cells[7]);
    }
    check(in, place);
    return in;
}

}  // namespace caseload::book
