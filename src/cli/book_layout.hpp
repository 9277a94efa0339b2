// SPDX-License-Identifier: MIT
// The layouts of a service book's file, and what must be as this program writes it; else the file
// is damaged or of another program.
#pragma once

#include <span>
#include <string>
#include <string_view>

struct sqlite3;

namespace caseload::book_layout {

constexpr int application = 0x63736c64;  ///< "csld", in the file's header

/// SQL that makes each layout of the one before; the first of an empty file.
std::span<const char* const> steps();
/// Rows of sqlite_master for a layout, as `schema_question` reads them; "" for an unknown layout.
/// Without the tables of ANALYZE (SQLite, "The sqlite_stat tables"; from memory): they only say how
/// to search.
std::string_view schema(int layout);
extern const char* const schema_question;

/// The first bytes of a file before anything is opened, as opening some files already writes beside
/// them.
/// other_journal: write-ahead, which another program turned on. half_journal: as none writes it.
enum class Beginning { nothing, book, other_database, other_journal, half_journal, no_database };
Beginning beginning_of(const std::string& path);

/// True if every byte of the header that is the same in all books is so. Needs a lock on the file.
bool is_usual_header(sqlite3* handle);

/// For a file that may come from anybody: no question goes on for ever, nothing in its schema runs.
void distrust(sqlite3* handle);

}  // namespace caseload::book_layout
