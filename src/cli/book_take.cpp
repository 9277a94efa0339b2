// SPDX-License-Identifier: MIT
// The service book's file as a whole: import, merge, backup.
#include "caseload/error.hpp"
#include "cli/book_commands.hpp"
#include "cli/book_store.hpp"
#include "cli/files.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace caseload {
namespace {

using book::Record;
using book::Records;

/// `ordered`: a file written in the order of the days; two books go on side by side.
int take(const BookArguments& a, const book::Incoming& fresh, bool ordered) {
    for (const Record& record : fresh.records) refuse_future(record);
    BookStore store(a.file, BookStore::Open::create);
    std::vector<std::string> twice;
    const Records added = store.add_checked([&](const Records& all) {
        Records both = all;
        both.insert(both.end(), fresh.records.begin(), fresh.records.end());
        book::require_references(both);
        book::require_corrections(both);
        book::require_positions(all, fresh);
        if (ordered && !a.late) book::require_order(all, fresh);
        twice = book::begun_twice(all, fresh);
        return fresh.records;
    });
    std::string lines = fmt::format("{} of {} records added, {} were there already\n", added.size(),
                                    fresh.records.size(), fresh.records.size() - added.size());
    for (const std::string& serial : twice)
        lines +=
            fmt::format("case {}: begun in both; taken as one case\n", input::harmless(serial));
    return acknowledge(lines);
}

}  // namespace

void require_file(const std::string& path) {
    if (form_of(path) != BookForm::file)
        refuse_input(
            fmt::format("{}: a book in text form is only read", path),
            fmt::format("keep it in a book file: caseload book import {} --book shop.book", path));
}

Records stored_records(const std::string& path) {
    return BookStore(path, BookStore::Open::read).records();
}

int import_book(const BookArguments& a) {
    const bool csv = a.csv || form_of(a.path) == BookForm::csv;
    return take(a, read_form(a.path, csv ? BookForm::csv : BookForm::text), true);
}

int merge_book(const BookArguments& a) {
    if (form_of(a.path) != BookForm::file)
        refuse_input(fmt::format("{}: a book in text form is not merged", a.path),
                     fmt::format("caseload book import {}", a.path));
    return take(a, {stored_records(a.path), {}, a.path}, false);
}

int backup_book(const BookArguments& a) {
    note_read(path_of(a.file));
    require_output({"", a.path});
    BookStore(a.file, BookStore::Open::read).backup(a.path);
    return acknowledge(fmt::format("{}: written and checked\n", a.path));
}

}  // namespace caseload
