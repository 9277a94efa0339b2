// SPDX-License-Identifier: MIT
// What writes into the service book's file: SQLite, or a refusal where there is none (no_book.cpp).
#pragma once

#include "caseload/book/record.hpp"
#include "cli/book_arguments.hpp"

#include <string>

namespace caseload {

/// Throws Error{input} unless this program writes such a book: not its text form.
void require_file(const std::string& path);
/// A day more than this machine's is taken: the writer may be ahead by a time zone.
void refuse_future(const book::Record& record);

void add_event(const BookArguments& a);
void add(const BookArguments& a, const std::string& kind);
void correct(const BookArguments& a);
void import_book(const BookArguments& a);
void merge_book(const BookArguments& a);
void backup_book(const BookArguments& a);

}  // namespace caseload
