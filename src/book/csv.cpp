// SPDX-License-Identifier: MIT
// The book as CSV (RFC 4180).
#include "book/intake.hpp"
#include "caseload/book/record.hpp"
#include "caseload/error.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>
#include <vector>

namespace caseload::book {
namespace {

constexpr std::string_view csv_head = "id,date,kind,case,setup,version,key,value";
constexpr std::size_t columns = 8;

std::string cell(std::string_view text) {
    if (text.find_first_of(",\"\n\r") == std::string_view::npos) return std::string(text);
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

/// Reads row after row.
class CsvReader {
public:
    CsvReader(std::string_view text, const std::string& name)
        : in_(text, name), text_(input::without_mark(text)) {
        if (fmt::format("{}", fmt::join(row(), ",")) != csv_head)
            in_.refuse(1, fmt::format("must begin with {}", csv_head));
        while (at_ < text_.size()) {
            const int line = line_;
            std::vector<std::string> cells = row();
            if (cells.size() == 1 && cells[0].empty()) continue;
            take(cells, line);
        }
    }
    Incoming finish() { return in_.finish(); }

private:
    void take(std::vector<std::string>& cells, int line) {
        if (cells.size() != columns)
            in_.refuse(line, fmt::format("{} columns; {} are needed", cells.size(), columns));
        Record row{cells[0], cells[1], cells[2], cells[3], cells[4], cells[5], {}};
        Record* const before = in_.last();
        if (before == nullptr || before->id != row.id) {
            in_.begin(std::move(row), line);
        } else if (std::tie(row.date, row.kind, row.serial, row.setup, row.version) !=
                   std::tie(before->date, before->kind, before->serial, before->setup,
                            before->version)) {
            in_.refuse(line, fmt::format("record {}: this row has another date, kind, case, setup "
                                         "or version than the one above",
                                         row.id));
        }
        if (!cells[6].empty() || !cells[7].empty())
            in_.last()->fields.emplace_back(std::move(cells[6]), std::move(cells[7]));
    }

    /// The next row; `at_` is behind it.
    std::vector<std::string> row() {
        std::vector<std::string> cells(1);
        const std::size_t begin = at_;
        const int line = line_;
        while (at_ < text_.size()) {
            if (text_[at_] == '"')
                quoted(cells.back(), begin, line);
            else
                plain(cells.back());
            if (at_ - begin > most::line_bytes) refuse_long(line);
            if (at_ == text_.size()) break;
            const char c = text_[at_++];
            if (c == '\n') {
                ++line_;
                break;
            }
            cells.emplace_back();
        }
        return cells;
    }

    /// Up to the comma or end of line, which stays.
    void plain(std::string& cell) {
        const std::size_t end = std::min(text_.find_first_of(",\n", at_), text_.size());
        std::string_view all = text_.substr(at_, end - at_);
        const bool ends_line = end == text_.size() || text_[end] == '\n';
        if (ends_line && !all.empty() && all.back() == '\r') all.remove_suffix(1);
        if (all.find_first_of("\"\r") != all.npos)
            in_.refuse(line_, "a quote or line end inside a cell that does not begin with a quote");
        cell = all;
        at_ = end;
    }

    void quoted(std::string& cell, std::size_t begin, int line) {
        for (++at_;; ++at_) {
            if (at_ == text_.size()) in_.refuse(line, "a quote is not closed");
            if (at_ - begin > most::line_bytes) refuse_long(line);
            const char c = text_[at_];
            if (c == '\n') ++line_;
            if (c == '"') {
                if (text_.substr(at_ + 1, 1) != "\"") break;
                ++at_;
            }
            cell += c;
        }
        ++at_;
        const std::string_view after = text_.substr(at_, 2);
        if (after == "\r\n" || after == "\r") ++at_;
        if (at_ < text_.size() && text_[at_] != ',' && text_[at_] != '\n')
            in_.refuse(line_, "after the quote that ends a cell: a comma or the end of the line");
    }

    [[noreturn]] void refuse_long(int line) const {
        in_.refuse(line, fmt::format("this row is longer than {} MiB", most::line_bytes >> 20U),
                   "is a quote not closed?");
    }

    Intake in_;
    std::string_view text_;
    std::size_t at_ = 0;
    int line_ = 1;
};

}  // namespace

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
    require_readable(records, out);
    return out;
}

Incoming from_csv(std::string_view text, const std::string& name) {
    return CsvReader(text, name).finish();
}

}  // namespace caseload::book
