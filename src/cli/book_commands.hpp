// SPDX-License-Identifier: MIT
// The commands of the service book. What writes into its file is SQLite, or a refusal where there
// is none (no_book.cpp).
#pragma once

#include "caseload/book/record.hpp"

#include <string>
#include <utility>
#include <vector>

namespace caseload {

/// The words of the book's command line.
struct BookArguments {
    std::string file = "shop.book";
    std::string date;
    std::string serial;
    std::string setup;
    std::string position;
    std::string word;
    std::string part;
    std::string set;
    std::string words;
    std::string id;
    std::string path;
    std::vector<std::string> changes;
    std::vector<std::pair<std::string, std::string>> reading;  ///< keys of [reading.NAME]
    int times = 1;
    double shape = 1.5;
    bool late = false;
    bool strike = false;
    bool csv = false;
    bool force = false;
    bool json = false;
};

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
