// SPDX-License-Identifier: MIT
// The book's file itself: a sound book with bytes changed, pages copied, cut, other layouts, views,
// triggers and tables put in, or any bytes at all. What reads it leaves every byte as it was, what
// adds to it adds to a sound book only, and then everything is there; a refusal changes nothing.
#include "caseload/error.hpp"
#include "caseload/show/problems.hpp"
#include "cli/book_store.hpp"
#include "require.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>

using namespace caseload;
using fuzz::require;

namespace {

constexpr std::size_t page = 4096;
constexpr int most_changes = 12;

/// A folder of its own, in memory where there is one, gone at the end.
class Folder {
public:
    Folder()
        : name_((std::filesystem::exists("/dev/shm")
                     ? std::string("/dev/shm")
                     : std::filesystem::temp_directory_path().string()) +
                "/caseload_fuzz_XXXXXX") {
        require(mkdtemp(name_.data()) != nullptr, "no folder", name_);
    }
    ~Folder() {
        std::error_code none;
        std::filesystem::remove_all(name_, none);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    [[nodiscard]] const std::string& name() const { return name_; }

private:
    std::string name_;
};

const std::string& path() {
    static const Folder folder;
    static const std::string file = folder.name() + "/now.book";
    return file;
}

std::string bytes_of_file() {
    std::ifstream file(path(), std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

void write(const std::string& bytes) {
    for (const char* beside : {"", "-journal", "-wal", "-shm"})
        std::filesystem::remove(path() + beside);
    std::ofstream(path(), std::ios::binary) << bytes;
}

book::Record entry(const std::string& id, const std::string& kind,
                   const std::vector<std::pair<std::string, std::string>>& fields = {}) {
    return {id, "2026-01-02", kind, kind == "setup" ? "" : "A", "", "0", fields};
}

void execute(const char* questions) {
    sqlite3* handle = nullptr;
    sqlite3_open_v2(path().c_str(), &handle, SQLITE_OPEN_READWRITE, nullptr);
    sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, 0);  // no other file
    sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, 1 << 20);
    int counts = 0;
    sqlite3_progress_handler(
        handle, 1000, [](void* n) { return ++*static_cast<int*>(n) > 100 ? 1 : 0; }, &counts);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 0, nullptr);
    sqlite3_exec(handle, "PRAGMA synchronous=OFF; PRAGMA writable_schema=ON", nullptr, nullptr,
                 nullptr);
    sqlite3_exec(handle, questions, nullptr, nullptr, nullptr);
    sqlite3_close(handle);
}

/// A book of several pages: long words, many records, an index of more than a leaf.
const std::string& sound() {
    static const std::string bytes = [] {
        write("");
        book::Records records{entry("a", "case"),
                              entry("w", "oil", {{"words", std::string(9000, 'w')}})};
        for (int k = 0; k < 120; ++k)
            records.push_back(entry("a-record-with-a-long-name-of-its-own-" + std::to_string(k),
                                    k % 3 == 0 ? "look" : "oil", {{"words", std::to_string(k)}}));
        BookStore(path(), BookStore::Open::create).add(records);
        return bytes_of_file();
    }();
    return bytes;
}

/// The same by a program of old, without check sums.
const std::string& of_old() {
    static const std::string bytes = [] {
        write(sound());
        execute(
            "DROP TRIGGER record_stays; ALTER TABLE record DROP COLUMN sum; CREATE TRIGGER "
            "record_stays BEFORE UPDATE ON record BEGIN SELECT RAISE(ABORT, 'records are only "
            "added'); END; PRAGMA user_version=1");
        return bytes_of_file();
    }();
    return bytes;
}

constexpr std::array<const char*, 16> forgeries{
    "CREATE TRIGGER t BEFORE INSERT ON record BEGIN SELECT RAISE(IGNORE); END",
    "CREATE TRIGGER t AFTER INSERT ON record BEGIN DELETE FROM record; END",
    "ALTER TABLE record RENAME TO other; CREATE VIEW record AS WITH RECURSIVE n(x) AS (SELECT 1 "
    "UNION ALL SELECT x FROM n) SELECT x number, x id, x body, x sum FROM n",
    "DROP TRIGGER record_kept; DELETE FROM record WHERE number > 50",
    "DROP TRIGGER record_stays; UPDATE record SET body = body || 'x' WHERE number = 7",
    "DROP TRIGGER record_stays; UPDATE record SET id = 'w' || number",
    "PRAGMA user_version=-1",
    "PRAGMA user_version=1",
    "PRAGMA journal_mode=WAL",
    "PRAGMA auto_vacuum=FULL; VACUUM",
    "PRAGMA encoding='UTF-16'; VACUUM",
    "CREATE INDEX i ON record(length(body))",
    "UPDATE sqlite_master SET sql = replace(sql, 'NOT NULL', '')",
    "UPDATE sqlite_master SET rootpage = 2 WHERE name = 'sqlite_sequence'",
    "UPDATE sqlite_sequence SET seq = 9223372036854775807",
    "INSERT INTO record (id, body, sum) VALUES ('x', 'x', 'x')"};

/// Reads what to change from the input.
class Choices {
public:
    explicit Choices(std::string_view bytes) : rest_(bytes) {}
    [[nodiscard]] bool none_left() const { return rest_.empty(); }
    std::size_t below(std::size_t end) {
        std::size_t x = 0;
        for (int k = 0; k < 3; ++k) x = x << 8U | next();
        return end == 0 ? 0 : x % end;
    }
    unsigned next() {
        if (rest_.empty()) return 0;
        const auto byte = static_cast<unsigned char>(rest_.front());
        rest_.remove_prefix(1);
        return byte;
    }
    std::string line() {
        const std::size_t end = std::min(rest_.find('\n'), rest_.size());
        std::string text(rest_.substr(0, end));
        rest_.remove_prefix(std::min(end + 1, rest_.size()));
        return text;
    }

private:
    std::string_view rest_;
};

void change(std::string& bytes, Choices& from) {
    const std::size_t pages = bytes.size() / page;
    const auto put = [&](std::size_t at, unsigned mask) {
        if (at < bytes.size())
            bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^ mask);
    };
    switch (from.next() % 10) {
        case 0:  // in the header
            put(from.below(100), from.next());
            break;
        case 1:  // anywhere
            put(from.below(bytes.size()), from.next());
            break;
        case 2:  // in the head of a page: kind, count of cells, places of cells
            put(from.below(pages) * page + from.below(64), from.next());
            break;
        case 3:
            bytes.resize(from.below(bytes.size() + 1));
            break;
        case 4:
            bytes.append(from.below(2 * page), static_cast<char>(from.next()));
            break;
        case 5:
        case 6: {  // a page, or a part of one, over another
            const std::size_t size = from.next() % 2 == 0 ? page : from.below(page);
            const std::size_t to = from.below(pages) * page;
            const std::string copied =
                bytes.substr(std::min(from.below(pages) * page, bytes.size()), size);
            if (to + copied.size() <= bytes.size()) bytes.replace(to, copied.size(), copied);
            break;
        }
        case 7: {
            const std::size_t at = from.below(pages) * page;
            if (at + page <= bytes.size()) bytes.replace(at, page, page, '\0');
            break;
        }
        case 8:
            write(bytes);
            execute(forgeries.at(from.next() % forgeries.size()));
            bytes = bytes_of_file();
            break;
        default:
            write(bytes);
            execute(from.line().c_str());
            bytes = bytes_of_file();
    }
}

void require_told(const Error& error) {
    require(error.kind() == Error::Kind::file, "not an error of a file", error.what());
    require(!problem_report(error).empty(), "no report", error.what());
}

std::optional<book::Records> read() {
    try {
        return BookStore(path(), BookStore::Open::read).records();
    } catch (const Error& error) {
        require_told(error);
        return std::nullopt;
    }
}

void require_same(const std::string& bytes, const char* after) {
    require(bytes_of_file() == bytes, "the file was changed", after);
    for (const char* beside : {"-journal", "-wal", "-shm"})
        require(!std::filesystem::exists(path() + beside), "a file was left beside it", after);
}

void try_file(const std::string& bytes) {
    write(bytes);
    const std::optional<book::Records> before = read();
    require_same(bytes, "reading");
    book::Record record = entry("", "opening");
    book::Records added;
    try {
        BookStore store(path(), BookStore::Open::write);
        added = store.add_from([&](BookStore& held) {
            static_cast<void>(held.about("A"));
            return book::Records{record};
        });
    } catch (const Error& error) {
        require_told(error);
        require_same(bytes, "a record that was refused");
        return;
    }
    require(before.has_value(), "a record was added to a book that cannot be read", "");
    require(added.size() == 1, "one record was given, others were added", "");
    const std::optional<book::Records> after = read();
    require(after.has_value(), "cannot be read after a record was added", "");
    book::Records wanted = *before;
    wanted.push_back(added.front());
    require(*after == wanted, "not what was there and what was added", "");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view input(reinterpret_cast<const char*>(data), size);
    if (input.substr(0, 6) == "SQLite") {
        try_file(std::string(input));
        return 0;
    }
    Choices choices(input);
    std::string bytes = choices.next() % 4 == 0 ? of_old() : sound();
    for (int k = 0; k < most_changes && !choices.none_left(); ++k) change(bytes, choices);
    try_file(bytes);
    return 0;
}
