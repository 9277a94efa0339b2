// SPDX-License-Identifier: MIT
// The service book's file is SQLite, and this build has none (Windows): a book is read in its text
// form, and nothing is written into one.
#ifdef _WIN32
#include "caseload/error.hpp"
#include "cli/book_commands.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

[[noreturn]] void refuse_writing() {
    refuse_input("the program for Windows keeps no book file itself; it reads the text form",
                 "write into the book on the machine that keeps it, there: caseload book export "
                 "shop.txt; here: caseload book due --book shop.txt");
}

}  // namespace

book::Records stored_records(const std::string& path) {
    refuse_input(fmt::format("{}: the program for Windows reads a book in text form only, "
                             "--book FILE.txt or FILE.csv",
                             path),
                 "on the machine that keeps the book: caseload book export shop.txt");
}

void require_file(const std::string&) {
    refuse_writing();
}
int add_event(const BookArguments&) {
    refuse_writing();
}
int add(const BookArguments&, const std::string&) {
    refuse_writing();
}
int correct(const BookArguments&) {
    refuse_writing();
}
int import_book(const BookArguments&) {
    refuse_writing();
}
int merge_book(const BookArguments&) {
    refuse_writing();
}
int backup_book(const BookArguments&) {
    refuse_writing();
}

}  // namespace caseload
#endif
