// SPDX-License-Identifier: MIT
#include "book/intake.hpp"

#include "caseload/error.hpp"

#include <fmt/format.h>

#include <utility>

namespace caseload::book {

Intake::Intake(std::string_view text, std::string name) {
    in_.file = std::move(name);
    if (text.size() > most::file_bytes)
        refuse(0, fmt::format("the file is larger than {} MiB", most::file_bytes >> 20U),
               "a book of many years has a few");
    const std::string_view mark = text.substr(0, 2);
    if (mark == "\xFF\xFE" || mark == "\xFE\xFF")
        refuse(0, "the file is UTF-16",
               "save it as UTF-8 (in the editor: Save as, encoding UTF-8)");
}

void Intake::refuse(int line, const std::string& text, const std::string& hint) const {
    Where where;
    where.file = in_.file;
    where.line = line;
    where.column = line == 0 ? 0 : 1;
    throw Error(Error::Kind::input,
                {Problem{where, text, hint + (hint.empty() ? "" : "; ") + "nothing was taken in"}});
}

void Intake::begin(Record record, int line) {
    check_last();
    if (in_.records.size() == most::records)
        refuse(line, fmt::format("more than {} records", most::records));
    in_.records.push_back(std::move(record));
    in_.lines.push_back(line);
}

Record* Intake::last() {
    return in_.records.empty() ? nullptr : &in_.records.back();
}

Incoming Intake::finish() {
    check_last();
    return std::move(in_);
}

void Intake::check_last() {
    if (in_.records.empty()) return;
    const Record& record = in_.records.back();
    try {
        require_complete(record);
    } catch (const Error& error) {
        refuse(in_.lines.back(), error.problems().front().text, error.problems().front().hint);
    }
    if (!ids_.insert(record.id).second)
        refuse(in_.lines.back(), fmt::format("record {} is there twice", record.id),
               "write each record once, all its lines together");
}

void require_readable(std::span<const Record> records, std::string_view form) {
    if (records.size() > most::records)
        refuse_input(
            fmt::format("{} records: the text form takes {}", records.size(), most::records),
            "caseload book backup copies a book of any size");
    if (form.size() > most::file_bytes)
        refuse_input(
            fmt::format("the text form would be larger than {} MiB", most::file_bytes >> 20U),
            "caseload book backup copies a book of any size");
}

}  // namespace caseload::book
