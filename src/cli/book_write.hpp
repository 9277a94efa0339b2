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

/// Says what is on the disk already; where that cannot be printed, the error says that it is
/// stored, so that nobody enters it twice. Exit code.
int acknowledge(const std::string& text);

// Exit codes.
int add_event(const BookArguments& a);
int add(const BookArguments& a, const std::string& kind);
int correct(const BookArguments& a);
int import_book(const BookArguments& a);
int merge_book(const BookArguments& a);
int backup_book(const BookArguments& a);

}  // namespace caseload
