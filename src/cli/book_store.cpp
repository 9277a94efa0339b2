// SPDX-License-Identifier: MIT
#include "cli/book_store.hpp"

#include "caseload/error.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <fmt/format.h>

#include <array>
#include <filesystem>
#include <map>
#include <random>
#include <set>
#include <span>

namespace caseload {
namespace {

constexpr int application = 0x63736c64;  // "csld", in the file's header

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
static_assert(layouts.size() == BookStore::layout);

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

void sum_function(sqlite3_context* context, int, sqlite3_value** values) {
    const auto* text = reinterpret_cast<const char*>(sqlite3_value_text(values[0]));
    const auto size = static_cast<std::size_t>(sqlite3_value_bytes(values[0]));
    const std::string sum = book::hash(text == nullptr ? "" : std::string_view(text, size));
    sqlite3_result_text(context, sum.c_str(), static_cast<int>(sum.size()), SQLITE_TRANSIENT);
}

/// First part of the ids of one run: a copy of a book that goes on by itself, as in the trailer,
/// must not give ids that the other copy gives too.
std::string new_run_id() {
    std::random_device device;
    return fmt::format("{:08x}", device());
}

/// On the disk, a file or a folder. Throws Error{file}.
void synchronise(const std::string& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    const bool done = file >= 0 && ::fsync(file) == 0;
    if (file >= 0) ::close(file);
    if (!done)
        throw Error(Error::Kind::file, fmt::format("{}: cannot be synchronised to the disk", path));
}

}  // namespace

void BookStore::Close::operator()(sqlite3* handle) const {
    sqlite3_close(handle);
}
void BookStore::Finish::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

void BookStore::fail(const std::string& doing) {
    const int code = sqlite3_errcode(handle_.get());
    const std::string said = sqlite3_errmsg(handle_.get());
    std::string hint = "nothing was changed";
    if (code == SQLITE_BUSY) hint = "another program holds the book; try again";
    if (code == SQLITE_READONLY) hint = "the file or its folder may not be written";
    if (code == SQLITE_FULL) hint = "the disk is full; nothing was changed";
    if (code == SQLITE_CORRUPT || code == SQLITE_NOTADB)
        hint = "the file is damaged: keep it as it is and go on with the last good backup";
    Where nowhere;
    throw Error(Error::Kind::file,
                {Problem{nowhere, fmt::format("{}: {}: {}", path_, doing, said), hint}});
}

void BookStore::run(const std::string& sql) {
    if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK)
        fail("cannot be written");
}

BookStore::Statement BookStore::prepared(const char* sql) {
    sqlite3_stmt* raw = nullptr;
    if (sqlite3_prepare_v2(handle_.get(), sql, -1, &raw, nullptr) != SQLITE_OK)
        fail("cannot be read");
    return Statement(raw);
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

BookStore::BookStore(std::string path, Open how) : path_(std::move(path)) {
    std::error_code failed;
    const bool there = std::filesystem::exists(path_, failed);
    if (!there && how != Open::create)
        throw Error(Error::Kind::file,
                    {Problem{{},
                             fmt::format("{}: no such book", path_),
                             "name it by --book FILE; a new one: caseload book add case SERIAL"}});
    sqlite3* raw = nullptr;
    const int flags = how == Open::read    ? SQLITE_OPEN_READWRITE
                      : how == Open::write ? SQLITE_OPEN_READWRITE
                                           : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
    const int code = sqlite3_open_v2(path_.c_str(), &raw, flags, nullptr);
    handle_.reset(raw);
    if (code != SQLITE_OK) fail("cannot be opened");
    sqlite3_busy_timeout(raw, 20000);
    sqlite3_create_function(raw, "caseload_sum", 1, SQLITE_UTF8 | SQLITE_DETERMINISTIC, nullptr,
                            sum_function, nullptr, nullptr);
    prepare(how);
}

void BookStore::prepare(Open how) {
    // EXTRA also syncs the folder after the journal is gone: the end of a transaction.
    run("PRAGMA synchronous=EXTRA");
    int version = integer("PRAGMA user_version");
    const int tables = integer("SELECT count(*) FROM sqlite_master");
    if (tables > 0 && integer("PRAGMA application_id") != application)
        throw Error(Error::Kind::file, fmt::format("{}: not a service book", path_));
    if (version > layout)
        throw Error(Error::Kind::file,
                    {Problem{{},
                             fmt::format("{}: written by a newer caseload (layout {}, this one "
                                         "knows {})",
                                         path_, version, layout),
                             "use that program; nothing was changed"}});
    if (version == layout) return;
    if (tables == 0 && how != Open::create)
        throw Error(Error::Kind::file, fmt::format("{}: not a service book", path_));
    begin();
    try {
        version = integer("PRAGMA user_version");  // another program may have been first
        for (std::size_t k = static_cast<std::size_t>(version); k < layouts.size(); ++k)
            run(layouts.at(k));
        if (version == 0) run(fmt::format("PRAGMA application_id={}", application));
        run(fmt::format("PRAGMA user_version={}", layout));
        commit();
    } catch (...) {
        roll_back();
        throw;
    }
}

void BookStore::begin() {
    run("BEGIN IMMEDIATE");
}
void BookStore::commit() {
    run("COMMIT");
}
void BookStore::roll_back() {
    sqlite3_exec(handle_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void BookStore::refuse_damaged(std::string_view what) const {
    throw Error(Error::Kind::file,
                {Problem{{},
                         fmt::format("{}: {} is damaged", path_, what),
                         "keep the file as it is and go on with the last good backup"}});
}

void BookStore::require_sum(sqlite3_stmt* row) const {
    if (book::hash(column(row, 1)) != column(row, 2))
        refuse_damaged(fmt::format("record {}", column(row, 0)));
}

book::Record BookStore::record_of(sqlite3_stmt* row) const {
    require_sum(row);
    book::Records one = book::from_text(column(row, 1), path_).records;
    if (one.size() != 1 || one.front().id != column(row, 0))
        refuse_damaged(fmt::format("record {}", column(row, 0)));
    return std::move(one.front());
}

book::Records BookStore::read() {
    const Statement rows = prepared("SELECT id, body, sum FROM record ORDER BY number");
    book::Records all;
    all.reserve(static_cast<std::size_t>(integer("SELECT count(*) FROM record")));
    while (next(rows)) all.push_back(record_of(rows.get()));
    return all;
}

book::Records BookStore::about(const std::string& serial) {
    std::map<std::int64_t, book::Record> kept;   // by number
    std::map<std::string, std::int64_t> setups;  // the first of each hash
    std::set<std::string> moved_here;
    const auto number = [](const Statement& row) { return sqlite3_column_int64(row.get(), 3); };
    {
        const Statement rows = prepared("SELECT id, body, sum, number FROM record ORDER BY number");
        while (next(rows)) {
            const book::Heading heading = book::heading_of(column(rows.get(), 1));
            if (heading.kind == "setup") setups.emplace(heading.hash, number(rows));
            const bool wanted = heading.kind.empty() || heading.kind == "case" ||
                                heading.kind == "correct" ||
                                (heading.serial == serial && heading.kind != "setup");
            if (!wanted) {
                require_sum(rows.get());
                continue;
            }
            const book::Record& one =
                kept.emplace(number(rows), record_of(rows.get())).first->second;
            if (one.kind == "correct" && book::value(one, "case") == serial)
                moved_here.insert(book::value(one, "record"));
        }
    }
    const auto add_one = [&](const Statement& row) {
        if (next(row)) kept.emplace(number(row), record_of(row.get()));
    };
    for (const std::string& id : moved_here) {
        const Statement row = prepared("SELECT id, body, sum, number FROM record WHERE id = ?1");
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
        const Statement row =
            prepared("SELECT id, body, sum, number FROM record WHERE number = ?1");
        sqlite3_bind_int64(row.get(), 1, at->second);
        add_one(row);
    }
    return in_order();
}

std::optional<book::Record> BookStore::find(const std::string& id) {
    const Statement row = prepared("SELECT id, body, sum FROM record WHERE id = ?1");
    set_text(row.get(), 1, id);
    if (!next(row)) return std::nullopt;
    return record_of(row.get());
}

std::vector<std::string> BookStore::ids() {
    const Statement rows = prepared("SELECT id FROM record ORDER BY number");
    std::vector<std::string> all;
    while (next(rows)) all.emplace_back(column(rows.get(), 0));
    return all;
}

void BookStore::require_whole() {
    if (word("PRAGMA integrity_check(1)") != "ok") refuse_damaged("the file");
}

book::Records BookStore::records() {
    require_whole();
    return read();
}

book::Records BookStore::insert(book::Records records) {
    const std::string own = new_run_id();
    int number = integer("SELECT coalesce(max(number), 0) + 1 FROM record");
    const Statement known = prepared("SELECT id, body, sum FROM record WHERE id = ?1");
    const Statement into = prepared("INSERT INTO record (id, body, sum) VALUES (?1, ?2, ?3)");
    book::Records added;
    for (book::Record& record : records) {
        if (record.id.empty()) record.id = fmt::format("{}-{}", own, number);
        book::require_complete(record);
        set_text(known.get(), 1, record.id);
        const bool held = next(known);
        const book::Record same = held ? record_of(known.get()) : book::Record();
        sqlite3_reset(known.get());
        if (held) {
            if (same == record || (record.kind == "setup" &&
                                   book::value(same, "text") == book::value(record, "text")))
                continue;  // two books may have met a setup on different days
            throw Error(Error::Kind::input,
                        fmt::format("record {} is in the book with other content", record.id));
        }
        const std::string body = book::to_text(std::span(&record, 1));
        set_text(into.get(), 1, record.id);
        set_text(into.get(), 2, body);
        set_text(into.get(), 3, book::hash(body));
        if (sqlite3_step(into.get()) != SQLITE_DONE) fail("cannot be written");
        sqlite3_reset(into.get());
        ++number;
        added.push_back(std::move(record));
    }
    return added;
}

book::Records BookStore::add(book::Records records) {
    return add_from([&](const BookStore&) { return std::move(records); });
}

void BookStore::backup(const std::string& to) {
    if (std::filesystem::exists(to))
        throw Error(Error::Kind::file, fmt::format("{}: exists already; choose another name", to));
    (void)records();  // a damaged book must not replace a good copy
    const std::string part = to + ".part";
    std::filesystem::remove(part);
    {
        sqlite3* raw = nullptr;
        const int code = sqlite3_open_v2(part.c_str(), &raw,
                                         SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
        const std::unique_ptr<sqlite3, Close> target(raw);
        bool done = false;
        if (code == SQLITE_OK) {
            sqlite3_backup* copy = sqlite3_backup_init(raw, "main", handle_.get(), "main");
            if (copy != nullptr) {
                sqlite3_backup_step(copy, -1);
                done = sqlite3_backup_finish(copy) == SQLITE_OK;
            }
        }
        if (!done)
            throw Error(Error::Kind::file,
                        fmt::format("{}: cannot be written: {}", part, sqlite3_errmsg(raw)));
    }
    // What was read back from the disk is what counts, then its name in the folder.
    synchronise(part);
    const book::Records copied = BookStore(part, Open::read).records();
    if (copied != records()) {
        std::filesystem::remove(part);
        throw Error(Error::Kind::file,
                    fmt::format("{}: the copy differs from the book; nothing was kept", to));
    }
    std::filesystem::rename(part, to);
    const std::filesystem::path folder = std::filesystem::absolute(to).parent_path();
    synchronise(folder.string());
}

}  // namespace caseload
