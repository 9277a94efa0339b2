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

struct Finish {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};
using Statement = std::unique_ptr<sqlite3_stmt, Finish>;

std::string column(sqlite3_stmt* statement, int k) {
    const void* bytes = sqlite3_column_blob(statement, k);
    const int size = sqlite3_column_bytes(statement, k);
    return bytes == nullptr
               ? std::string()
               : std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

void sum_function(sqlite3_context* context, int, sqlite3_value** values) {
    const auto* text = reinterpret_cast<const char*>(sqlite3_value_text(values[0]));
    const auto size = static_cast<std::size_t>(sqlite3_value_bytes(values[0]));
    const std::string sum = book::hash(text == nullptr ? "" : std::string(text, size));
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

std::string BookStore::word(const std::string& sql) {
    sqlite3_stmt* raw = nullptr;
    if (sqlite3_prepare_v2(handle_.get(), sql.c_str(), -1, &raw, nullptr) != SQLITE_OK)
        fail("cannot be read");
    const Statement statement(raw);
    if (sqlite3_step(raw) != SQLITE_ROW) fail("cannot be read");
    return column(raw, 0);
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

book::Records BookStore::read() {
    sqlite3_stmt* raw = nullptr;
    if (sqlite3_prepare_v2(handle_.get(), "SELECT id, body, sum FROM record ORDER BY number", -1,
                           &raw, nullptr) != SQLITE_OK)
        fail("cannot be read");
    const Statement statement(raw);
    book::Records all;
    int code = 0;
    while ((code = sqlite3_step(raw)) == SQLITE_ROW) {
        const std::string body = column(raw, 1);
        const auto damaged = [&]() {
            throw Error(Error::Kind::file,
                        {Problem{{},
                                 fmt::format("{}: record {} is damaged", path_, column(raw, 0)),
                                 "keep the file as it is and go on with the last good backup"}});
        };
        if (book::hash(body) != column(raw, 2)) damaged();
        book::Records one = book::from_text(body, path_).records;
        if (one.size() != 1 || one.front().id != column(raw, 0)) damaged();
        all.push_back(std::move(one.front()));
    }
    if (code != SQLITE_DONE) fail("cannot be read");
    return all;
}

book::Records BookStore::records() {
    if (word("PRAGMA integrity_check(1)") != "ok")
        throw Error(Error::Kind::file,
                    {Problem{{},
                             fmt::format("{}: the file is damaged", path_),
                             "keep the file as it is and go on with the last good backup"}});
    return read();
}

book::Records BookStore::insert(book::Records records) {
    const std::string own = new_run_id();
    int next = integer("SELECT coalesce(max(number), 0) + 1 FROM record");
    book::Records added;
    std::map<std::string, book::Record> known;
    for (book::Record& record : read()) known.emplace(record.id, record);
    for (book::Record& record : records) {
        if (record.id.empty()) record.id = fmt::format("{}-{}", own, next);
        book::require_complete(record);
        const auto same = known.find(record.id);
        if (same != known.end()) {
            if (same->second == record ||
                (record.kind == "setup" &&
                 book::value(same->second, "text") == book::value(record, "text")))
                continue;  // two books may have met a setup on different days
            throw Error(Error::Kind::input,
                        fmt::format("record {} is in the book with other content", record.id));
        }
        const std::string body = book::to_text(std::vector{record});
        const std::string sum = book::hash(body);
        sqlite3_stmt* raw = nullptr;
        if (sqlite3_prepare_v2(handle_.get(),
                               "INSERT INTO record (id, body, sum) VALUES (?1, ?2, ?3)", -1, &raw,
                               nullptr) != SQLITE_OK)
            fail("cannot be written");
        const Statement statement(raw);
        const auto bind = [&](int k, const std::string& text) {
            sqlite3_bind_text(raw, k, text.c_str(), static_cast<int>(text.size()),
                              SQLITE_TRANSIENT);
        };
        bind(1, record.id);
        bind(2, body);
        bind(3, sum);
        if (sqlite3_step(raw) != SQLITE_DONE) fail("cannot be written");
        ++next;
        known.emplace(record.id, record);
        added.push_back(record);
    }
    return added;
}

book::Records BookStore::add(book::Records records) {
    return add_checked([&](const book::Records&) { return records; });
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
