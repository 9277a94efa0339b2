// SPDX-License-Identifier: MIT
// Long: one handle, and all that is asked of it; what its file looks like is book_layout.
#include "cli/book_store.hpp"

#include "caseload/error.hpp"
#include "cli/book_layout.hpp"
#include "cli/run_files.hpp"

#include <sqlite3.h>

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <random>
#include <set>
#include <span>

namespace caseload {
namespace {

using book_layout::Beginning;

// A query of a book takes some dozens of SQLite's steps a record. One that takes more than a
// thousand counts and one every 2000 bytes loops, in a damaged or forged file. Judgement: ten times
// the longest one seen.
constexpr int steps_a_count = 10'000;
constexpr std::uintmax_t least_counts = 1000;
constexpr std::uintmax_t bytes_a_count = 2000;

/// Until the next step.
std::string_view column(sqlite3_stmt* statement, int k) {
    const void* bytes = sqlite3_column_blob(statement, k);
    const int size = sqlite3_column_bytes(statement, k);
    return bytes == nullptr
               ? std::string_view()
               : std::string_view(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

void set_text(sqlite3_stmt* statement, int k, const std::string& text) {
    sqlite3_bind_text(statement, k, text.c_str(), static_cast<int>(text.size()), SQLITE_TRANSIENT);
}

/// First part of the ids of one run: a copy of a book that goes on by itself, as in the trailer,
/// must not give ids that the other copy gives too.
std::string new_run_id() {
    std::random_device device;
    return fmt::format("{:08x}", device());
}

}  // namespace

std::string file_of_book(const std::string& name) {
    if (name.empty())
        refuse_input("the name of the book is empty",
                     "write a file's name: --book shop.book; is a variable of the shell not set?");
    if (name == ":memory:" || name.rfind("file:", 0) == 0)
        refuse_input(
            fmt::format("{}: a book is a file", name),
            fmt::format("write its name: --book shop.book; a file of just that name: ./{}", name));
    std::error_code failed;
    const std::filesystem::path whole = std::filesystem::absolute(name, failed);
    if (failed) refuse_file(fmt::format("{}: cannot be opened: {}", name, failed.message()));
    const auto kind = std::filesystem::status(whole, failed).type();
    if (kind == std::filesystem::file_type::none)  // what it is cannot be seen
        refuse_file(fmt::format("{}: cannot be opened: {}", name, failed.message()));
    if (kind != std::filesystem::file_type::not_found &&
        kind != std::filesystem::file_type::regular)
        refuse_file(fmt::format("{}: is no ordinary file", name));
    return whole.string();
}

void BookStore::Close::operator()(sqlite3* handle) const {
    sqlite3_close(handle);
}
void BookStore::Finish::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

void BookStore::fail(const std::string& doing) {
    const int code = sqlite3_errcode(handle_.get());
    const std::string said = code == SQLITE_INTERRUPT ? "its pages lead round in circles"
                                                      : std::string(sqlite3_errmsg(handle_.get()));
    if (code == SQLITE_NOTADB && book_layout::beginning_of(file_) == Beginning::no_database)
        refuse_no_book();
    std::string hint = how_ == Open::read ? "" : "nothing was changed";
    if (code == SQLITE_BUSY) hint = "another program is using the book; try again";
    if (code == SQLITE_READONLY) hint = "the file or its folder may not be written";
    if (code == SQLITE_FULL) hint = "the disk is full; nothing was changed";
    if (code == SQLITE_CORRUPT || code == SQLITE_NOTADB || code == SQLITE_INTERRUPT)
        hint = "the file is damaged: keep it as it is and go on with the last good backup";
    refuse_file(fmt::format("{}: {}: {}", path_, doing, said), hint);
}

void BookStore::refuse_no_book() const {
    refuse_file(fmt::format("{}: not a service book", path_),
                "a book is what caseload book wrote: its file, or .txt or .csv by export; if this "
                "was one, it is damaged: keep it as it is and go on with the last good backup");
}

void BookStore::refuse_damaged(std::string_view what) const {
    refuse_file(fmt::format("{}: {} is damaged", path_, what),
                "keep the file as it is and go on with the last good backup");
}

int BookStore::counted(void* store) {
    auto& one = *static_cast<BookStore*>(store);
    return ++one.counts_ > one.most_counts_ ? 1 : 0;
}

void BookStore::run(const std::string& sql) {
    counts_ = 0;
    if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK)
        fail(how_ == Open::read ? "cannot be read" : "cannot be written");
}

BookStore::Statement BookStore::prepared(const char* sql) {
    counts_ = 0;
    sqlite3_stmt* raw = nullptr;
    if (sqlite3_prepare_v2(handle_.get(), sql, -1, &raw, nullptr) != SQLITE_OK)
        fail("cannot be read");
    return Statement(raw);
}

BookStore::Statement BookStore::rows(const char* condition) {
    return prepared(
        fmt::format("SELECT id, body, {}, number FROM record {}", sums_ ? "sum" : "NULL", condition)
            .c_str());
}

bool BookStore::next(const Statement& statement) {
    const int code = sqlite3_step(statement.get());
    if (code != SQLITE_ROW && code != SQLITE_DONE) fail("cannot be read");
    return code == SQLITE_ROW;
}

std::string BookStore::word(const std::string& sql) {
    const Statement statement = prepared(sql.c_str());
    if (!next(statement)) fail("cannot be read");
    return std::string(column(statement.get(), 0));
}

int BookStore::integer(const std::string& sql) {
    return std::atoi(word(sql).c_str());
}

BookStore::BookStore(std::string path, Open how)
    : path_(std::move(path)), file_(file_of_book(path_)), how_(how) {
    std::error_code failed;
    new_ = !std::filesystem::exists(file_, failed);
    if (new_ && how != Open::create)
        refuse_file(fmt::format("{}: no such book", path_),
                    "name it by --book FILE; a new one: caseload book add case SERIAL");
    refuse_other_beginning();
    if (new_) {
        open(":memory:", SQLITE_OPEN_READWRITE);
        return;
    }
    if (how != Open::read) {
        open_to_write();
        return;
    }
    open(file_, SQLITE_OPEN_READONLY);
    run("BEGIN");
    if (sqlite3_exec(handle_.get(), "PRAGMA user_version", nullptr, nullptr, nullptr) !=
            SQLITE_OK &&
        sqlite3_extended_errcode(handle_.get()) == SQLITE_READONLY_ROLLBACK) {
        // A write was cut off, and half of it is in the file: SQLite takes it back.
        open(file_, SQLITE_OPEN_READWRITE);
        (void)integer("PRAGMA user_version");
        open(file_, SQLITE_OPEN_READONLY);
        run("BEGIN");
    }
    (void)checked_layout();
}

void BookStore::refuse_other_beginning() const {
    const Beginning beginning = book_layout::beginning_of(file_);
    if (beginning == Beginning::other_database) refuse_no_book();
    if (beginning == Beginning::half_journal) refuse_damaged("the file's header");
    if (beginning == Beginning::other_journal)
        refuse_file(
            fmt::format("{}: another program has given this book another kind of journal", path_),
            fmt::format("its records may be whole: copy the file and what is beside it (...-wal), "
                        "then bring it back: sqlite3 {} \"PRAGMA journal_mode=delete\"",
                        path_));
}

void BookStore::open_to_write() {
    open(file_, SQLITE_OPEN_READWRITE | (how_ == Open::create ? SQLITE_OPEN_CREATE : 0));
    run("BEGIN");
    (void)checked_header();
    run("COMMIT");
    // EXTRA also syncs the folder after the journal is gone: the end of a transaction.
    run("PRAGMA synchronous=EXTRA");
}

void BookStore::create_file() {
    new_ = false;
    refuse_other_beginning();  // it may be there by now
    open_to_write();
}

void BookStore::open(const std::string& name, int flags) {
    handle_.reset();
    sqlite3* raw = nullptr;
    const int code = sqlite3_open_v2(name.c_str(), &raw, flags, nullptr);
    handle_.reset(raw);
    if (code != SQLITE_OK) fail("cannot be opened");
    book_layout::distrust(raw);
    std::error_code failed;
    const std::uintmax_t bytes = std::filesystem::file_size(file_, failed);
    most_counts_ = least_counts + (failed ? 0 : bytes) / bytes_a_count;
    sqlite3_progress_handler(raw, steps_a_count, counted, this);
    sqlite3_busy_timeout(raw, 20000);
    run("PRAGMA cell_size_check=ON");
}

int BookStore::checked_header() {
    const int version = integer("PRAGMA user_version");
    std::error_code failed;
    if (std::filesystem::file_size(file_, failed) == 0 && !failed) {
        if (how_ != Open::create) refuse_no_book();
        return 0;
    }
    if (integer("PRAGMA application_id") != book_layout::application) refuse_no_book();
    if (version > layout)
        refuse_file(fmt::format("{}: written by a newer caseload (layout {}, this one knows {})",
                                path_, version, layout),
                    "use that program; nothing was changed");
    if (version < 1) refuse_damaged(fmt::format("the file's layout ({})", version));
    if (!book_layout::is_usual_header(handle_.get())) refuse_damaged("the file's header");
    return version;
}

int BookStore::checked_layout() {
    const int version = checked_header();
    sums_ = version > 1;
    if (version == 0) return 0;
    const std::string_view usual = book_layout::schema(version);
    std::string schema;
    const Statement entries = prepared(book_layout::schema_question);
    while (schema.size() <= usual.size() && next(entries))
        schema.append(column(entries.get(), 0)).append("\n");
    if (schema != usual) refuse_damaged("the file's layout");
    if (word("PRAGMA integrity_check(1)") != "ok") refuse_damaged("the file");
    return version;
}

void BookStore::bring_up(int from) {
    if (from == layout) return;
    if (from > 0) (void)records();  // no check sum is given to what is no record
    for (const char* const step : book_layout::steps().subspan(static_cast<std::size_t>(from)))
        run(step);
    if (from == 0) run(fmt::format("PRAGMA application_id={}", book_layout::application));
    run(fmt::format("PRAGMA user_version={}", layout));
    sums_ = true;
}

void BookStore::begin() {
    run("BEGIN IMMEDIATE");
}

bool BookStore::was_moved() {
    int moved = 0;
    return sqlite3_file_control(handle_.get(), "main", SQLITE_FCNTL_HAS_MOVED, &moved) ==
               SQLITE_OK &&
           moved != 0;
}

void BookStore::commit() {
    // Written now, the record would be lost with the file.
    if (was_moved())
        refuse_file(
            fmt::format("{}: was moved or replaced while it was open; nothing was written", path_));
    counts_ = 0;
    const int code = sqlite3_exec(handle_.get(), "COMMIT", nullptr, nullptr, nullptr);
    if (code == SQLITE_OK) return;
    if (code == SQLITE_BUSY) fail("cannot be written");  // others read it: nothing is in the file
    // The last step of a commit, the end of the journal, may have been done.
    refuse_file(
        fmt::format("{}: cannot be written to its end: {}", path_, sqlite3_errmsg(handle_.get())),
        fmt::format("it is not known whether this was added; before it is entered again: caseload "
                    "book show --records --book {}",
                    path_));
}

void BookStore::roll_back() {
    sqlite3_exec(handle_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void BookStore::require_sum(sqlite3_stmt* row) const {
    if (sums_ && book::hash(column(row, 1)) != column(row, 2))
        refuse_damaged(fmt::format("record {}", column(row, 0)));
}

book::Record BookStore::record_of(sqlite3_stmt* row) const {
    require_sum(row);
    book::Records one;
    try {
        one = book::from_text(column(row, 1), path_).records;
    } catch (const Error&) {
        // What is no record any more is damage, and no line of a file that somebody wrote.
    }
    if (one.size() != 1 || one.front().id != column(row, 0))
        refuse_damaged(fmt::format("record {}", column(row, 0)));
    book::Record first = std::move(one.front());
    return first;
}

book::Records BookStore::records() {
    const Statement row = rows("ORDER BY number");
    book::Records all;
    all.reserve(static_cast<std::size_t>(integer("SELECT count(*) FROM record")));
    while (next(row)) all.push_back(record_of(row.get()));
    return all;
}

book::Records BookStore::about(const std::string& serial) {
    std::map<std::int64_t, book::Record> kept;   // by number
    std::map<std::string, std::int64_t> setups;  // the first of each hash
    std::set<std::string> moved_here;
    const auto number = [](const Statement& row) { return sqlite3_column_int64(row.get(), 3); };
    {
        const Statement all = rows("ORDER BY number");
        while (next(all)) {
            const book::Heading heading = book::heading_of(column(all.get(), 1));
            if (heading.kind == "setup") setups.emplace(heading.hash, number(all));
            const bool wanted = heading.kind.empty() || heading.kind == "case" ||
                                heading.kind == "correct" ||
                                (heading.serial == serial && heading.kind != "setup");
            if (!wanted) {
                require_sum(all.get());
                continue;
            }
            const book::Record& one = kept.emplace(number(all), record_of(all.get())).first->second;
            if (one.kind == "correct" && book::value(one, "case") == serial)
                moved_here.insert(book::value(one, "record"));
        }
    }
    const auto add_one = [&](const Statement& row) {
        if (next(row)) kept.emplace(number(row), record_of(row.get()));
    };
    for (const std::string& id : moved_here) {
        const Statement row = rows("WHERE id = ?1");
        set_text(row.get(), 1, id);
        add_one(row);
    }
    const auto in_order = [&] {
        book::Records all;
        for (const auto& [at, one] : kept) all.push_back(one);
        return all;
    };
    std::string last_setup;
    for (const book::Record& one : book::corrected(in_order()))
        if (one.kind == "event" && one.serial == serial) last_setup = one.setup;
    if (const auto at = setups.find(last_setup); at != setups.end()) {
        const Statement row = rows("WHERE number = ?1");
        sqlite3_bind_int64(row.get(), 1, at->second);
        add_one(row);
    }
    return in_order();
}

std::optional<book::Record> BookStore::find(const std::string& id) {
    const Statement row = rows("WHERE id = ?1");
    set_text(row.get(), 1, id);
    if (!next(row)) return std::nullopt;
    return record_of(row.get());
}

std::vector<std::string> BookStore::ids() {
    const Statement row = rows("ORDER BY number");
    std::vector<std::string> all;
    while (next(row)) all.emplace_back(column(row.get(), 0));
    return all;
}

book::Records BookStore::insert(book::Records records) {
    const std::string own = new_run_id();
    int number = integer("SELECT coalesce(max(number), 0) + 1 FROM record");
    const Statement known = rows("WHERE id = ?1");
    const Statement into = prepared("INSERT INTO record (id, body, sum) VALUES (?1, ?2, ?3)");
    book::Records added;
    const auto held = [&](const std::string& id) -> std::optional<book::Record> {
        counts_ = 0;
        set_text(known.get(), 1, id);
        std::optional<book::Record> found;
        if (next(known)) found = record_of(known.get());
        sqlite3_reset(known.get());
        return found;
    };
    for (book::Record& record : records) {
        if (record.id.empty()) record.id = fmt::format("{}-{}", own, number);
        book::require_complete(record);
        if (const std::optional<book::Record> same = held(record.id)) {
            if (*same == record || (record.kind == "setup" &&
                                    book::value(*same, "text") == book::value(record, "text")))
                continue;  // two books may have met a setup on different days
            refuse_input(fmt::format("record {} is in the book with other content", record.id));
        }
        const std::string body = book::to_text(std::span(&record, 1));
        set_text(into.get(), 1, record.id);
        set_text(into.get(), 2, body);
        set_text(into.get(), 3, book::hash(body));
        if (sqlite3_step(into.get()) != SQLITE_DONE) fail("cannot be written");
        sqlite3_reset(into.get());
        if (sqlite3_changes(handle_.get()) != 1 || held(record.id) != record)
            refuse_file(
                fmt::format("{}: record {} does not read back as it was written; nothing was added",
                            path_, record.id));
        ++number;
        added.push_back(std::move(record));
    }
    return added;
}

book::Records BookStore::add(const book::Records& records) {
    return add_from([&](const BookStore&) { return records; });
}

}  // namespace caseload
