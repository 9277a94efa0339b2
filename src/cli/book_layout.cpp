// SPDX-License-Identifier: MIT
#include "cli/book_layout.hpp"

#include "caseload/book/record.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <fstream>

namespace caseload::book_layout {
namespace {

// Layout by layout: a new book takes them all, an older one those after its own.
constexpr std::array<const char*, 2> layouts{
    "CREATE TABLE record (number INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT NOT NULL UNIQUE,"
    " body TEXT NOT NULL);"
    "CREATE TRIGGER record_stays BEFORE UPDATE ON record BEGIN"
    " SELECT RAISE(ABORT, 'records are only added'); END;"
    "CREATE TRIGGER record_kept BEFORE DELETE ON record BEGIN"
    " SELECT RAISE(ABORT, 'records are only added'); END;",
    // A check sum beside every record: what SQLite's own check of its pages cannot see.
    "DROP TRIGGER record_stays;"
    "ALTER TABLE record ADD COLUMN sum TEXT NOT NULL DEFAULT '';"
    "UPDATE record SET sum = caseload_sum(body);"
    "CREATE TRIGGER record_stays BEFORE UPDATE ON record BEGIN"
    " SELECT RAISE(ABORT, 'records are only added'); END;",
};

// What SQLite keeps of the above, row by row.
constexpr std::array<std::string_view, 2> schemas{
    "table record record CREATE TABLE record (number INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT "
    "NOT NULL UNIQUE, body TEXT NOT NULL)\n"
    "trigger record_kept record CREATE TRIGGER record_kept BEFORE DELETE ON record BEGIN SELECT "
    "RAISE(ABORT, 'records are only added'); END\n"
    "trigger record_stays record CREATE TRIGGER record_stays BEFORE UPDATE ON record BEGIN SELECT "
    "RAISE(ABORT, 'records are only added'); END\n"
    "index sqlite_autoindex_record_1 record \n"
    "table sqlite_sequence sqlite_sequence CREATE TABLE sqlite_sequence(name,seq)\n",
    "table record record CREATE TABLE record (number INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT "
    "NOT NULL UNIQUE, body TEXT NOT NULL, sum TEXT NOT NULL DEFAULT '')\n"
    "trigger record_kept record CREATE TRIGGER record_kept BEFORE DELETE ON record BEGIN SELECT "
    "RAISE(ABORT, 'records are only added'); END\n"
    "trigger record_stays record CREATE TRIGGER record_stays BEFORE UPDATE ON record BEGIN SELECT "
    "RAISE(ABORT, 'records are only added'); END\n"
    "index sqlite_autoindex_record_1 record \n"
    "table sqlite_sequence sqlite_sequence CREATE TABLE sqlite_sequence(name,seq)\n"};

// Places in the first 100 bytes: SQLite's file format, 1.3 "The Database Header"
// (sqlite.org/fileformat2.html), from memory.
constexpr std::string_view magic("SQLite format 3\0", 16);
constexpr std::size_t write_format = 18;
constexpr std::size_t read_format = 19;
constexpr char write_ahead = 2;
constexpr std::size_t application_at = 68;
constexpr std::size_t header_size = 100;

void sum_function(sqlite3_context* context, int, sqlite3_value** values) {
    const auto* text = reinterpret_cast<const char*>(sqlite3_value_text(values[0]));
    const auto size = static_cast<std::size_t>(sqlite3_value_bytes(values[0]));
    const std::string sum = book::hash(text == nullptr ? "" : std::string_view(text, size));
    sqlite3_result_text(context, sum.c_str(), static_cast<int>(sum.size()), SQLITE_TRANSIENT);
}

}  // namespace

const char* const schema_question =
    "SELECT type || ' ' || name || ' ' || tbl_name || ' ' || coalesce(sql, '') FROM sqlite_master "
    "WHERE type <> 'table' OR name <> tbl_name OR coalesce(sql, '') NOT IN ("
    "'CREATE TABLE sqlite_stat1(tbl,idx,stat)',"
    "'CREATE TABLE sqlite_stat2(tbl,idx,sampleno,sample)',"
    "'CREATE TABLE sqlite_stat3(tbl,idx,neq,nlt,ndlt,sample)',"
    "'CREATE TABLE sqlite_stat4(tbl,idx,neq,nlt,ndlt,sample)') "
    "ORDER BY name";

std::span<const char* const> steps() {
    return layouts;
}

std::string_view schema(int layout) {
    const auto k = static_cast<std::size_t>(layout) - 1;
    return layout < 1 || k >= schemas.size() ? std::string_view() : schemas.at(k);
}

Beginning beginning_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::array<char, header_size> bytes{};
    file.read(bytes.data(), bytes.size());
    if (file.gcount() == 0) return Beginning::nothing;
    if (std::string_view(bytes.data(), magic.size()) != magic) return Beginning::no_database;
    if (std::string_view(bytes.data() + application_at, 4) != "csld")
        return Beginning::other_database;
    const bool write = bytes.at(write_format) == write_ahead;
    const bool read = bytes.at(read_format) == write_ahead;
    if (write != read) return Beginning::half_journal;
    return write ? Beginning::other_journal : Beginning::book;
}

bool is_usual_header(sqlite3* handle) {
    sqlite3_file* file = nullptr;
    if (sqlite3_file_control(handle, "main", SQLITE_FCNTL_FILE_POINTER, &file) != SQLITE_OK ||
        file == nullptr || file->pMethods == nullptr)
        return false;
    std::array<unsigned char, header_size> bytes{};
    if (file->pMethods->xRead(file, bytes.data(), static_cast<int>(bytes.size()), 0) != SQLITE_OK)
        return false;
    const auto word = [&](std::size_t at) {
        return std::size_t{bytes.at(at)} << 24U | std::size_t{bytes.at(at + 1)} << 16U |
               std::size_t{bytes.at(at + 2)} << 8U | std::size_t{bytes.at(at + 3)};
    };
    const bool formats = bytes.at(write_format) == 1 && bytes.at(read_format) == 1 &&
                         bytes.at(20) == 0;  // no bytes reserved on a page
    const bool schema_format = word(44) == 4;
    const bool settings = word(48) == 0 &&  // size of the cache
                          word(52) == 0 &&  // no automatic vacuum
                          word(56) == 1 &&  // UTF-8
                          word(64) == 0;
    const bool counted = word(24) == word(92);  // writes, and the write the page count is of
    return formats && schema_format && settings && counted &&
           std::all_of(bytes.begin() + 72, bytes.begin() + 92, [](auto byte) { return byte == 0; });
}

void distrust(sqlite3* handle) {
    for (const auto& [setting, value] :
         {std::pair{SQLITE_DBCONFIG_DEFENSIVE, 1}, std::pair{SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
          std::pair{SQLITE_DBCONFIG_ENABLE_VIEW, 0}, std::pair{SQLITE_DBCONFIG_ENABLE_TRIGGER, 0}})
        sqlite3_db_config(handle, setting, value, nullptr);
    // A record comes from a text form of at most this size.
    sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, static_cast<int>(book::most::file_bytes));
    sqlite3_create_function(handle, "caseload_sum", 1,
                            SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_DIRECTONLY, nullptr,
                            sum_function, nullptr, nullptr);
}

}  // namespace caseload::book_layout
