// SPDX-License-Identifier: MIT
// What reads the service book, whatever form it has.
#pragma once

#include "caseload/book/record.hpp"
#include "cli/book_arguments.hpp"

#include <string>

namespace caseload {

/// By the ending of its name: .txt, .csv, any other.
enum class BookForm { text, csv, file };
BookForm form_of(const std::string& path);

/// A book in text form or CSV, as it came. Throws Error.
book::Incoming read_form(const std::string& path, BookForm form);
/// All records of a book in any form, checked as import checks them. Throws Error.
book::Records held_records(const std::string& path);
/// Those of a book's file. Throws Error, also where no such file can be read (Windows).
book::Records stored_records(const std::string& path);

void show_book(const BookArguments& a);
void show_due(const BookArguments& a);
void show_fleet(const BookArguments& a);
/// Exit code.
int replay_book(const BookArguments& a);
void export_book(const BookArguments& a);

}  // namespace caseload
