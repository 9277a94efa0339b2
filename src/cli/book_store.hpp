// SPDX-License-Identifier: MIT
// The service book's file: SQLite, one a shop. A record that was acknowledged is on the disk.
#pragma once

#include "caseload/book/record.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace caseload {

/// The whole name of a book's file, from the root: SQLite itself takes some names for a database in
/// memory or for an address. Throws Error{input} for those, Error{file} for what is no file.
std::string file_of_book(const std::string& name);

class BookStore {
public:
    /// Layout of the file this program writes; older ones are read as they are and brought up when
    /// something is written, newer ones refused.
    static constexpr int layout = 2;

    enum class Open { read, write, create };
    /// Opened to read, the file is checked at once, stays as it is and keeps that state until this
    /// ends. Throws Error{file}: no book there, a damaged one, one of a newer program; Error{input}
    /// for a name that is none of a file.
    BookStore(std::string path, Open how);
    ~BookStore() = default;
    BookStore(const BookStore&) = delete;
    BookStore& operator=(const BookStore&) = delete;

    /// Adds in one transaction: all or nothing, and on the disk when it returns. A record whose id
    /// is in the book already must be equal to it and is skipped. Gives ids to records without.
    book::Records add(const book::Records& records);

    /// What a new record is checked against and added in the same transaction, so that two programs
    /// at once cannot both pass the check. `make` sees the book by `about`, `find` and `ids`.
    /// Before that the whole file is checked. Throws Error{file} for a damaged book. The first
    /// records of a new book are made and added in memory before its file is begun, so that what is
    /// refused leaves none; `make` is called twice then.
    template <class Make>
    book::Records add_from(Make make) {
        if (new_) {
            begin();
            try {
                bring_up(0);
                (void)insert(make(*this));
            } catch (...) {
                roll_back();
                throw;
            }
            create_file();
        }
        begin();
        try {
            bring_up(checked_layout());
            book::Records added = insert(make(*this));
            commit();
            return added;
        } catch (...) {
            roll_back();
            throw;
        }
    }
    /// The same where `make` has to see all records.
    template <class Make>
    book::Records add_checked(Make make) {
        return add_from([&](BookStore& held) { return make(held.records()); });
    }

    /// What decides on a new record of a case, in the order it was written: every case and
    /// correction, what was ever written or corrected to be about this case, and the setup of its
    /// last event. Little of a large book is kept; the check sum of every record is looked at.
    [[nodiscard]] book::Records about(const std::string& serial);
    [[nodiscard]] std::optional<book::Record> find(const std::string& id);
    [[nodiscard]] std::vector<std::string> ids();

    [[nodiscard]] book::Records records();
    /// Of one opened to read: a whole copy, checked, under its final name only when it is complete.
    void backup(const std::string& to);

private:
    struct Close {
        void operator()(sqlite3* handle) const;
    };
    struct Finish {
        void operator()(sqlite3_stmt* statement) const;
    };
    using Statement = std::unique_ptr<sqlite3_stmt, Finish>;
    void open(const std::string& name, int flags);
    void open_to_write();
    /// Of a book that is in memory so far.
    void create_file();
    void refuse_other_beginning() const;
    void begin();
    void commit();
    void roll_back();
    bool was_moved();
    /// The layout, once its header is as in all books. 0: nothing in the file yet.
    int checked_header();
    /// The same, once its tables are as in all books and every page is sound.
    int checked_layout();
    void bring_up(int from);
    [[noreturn]] void refuse_no_book() const;
    [[noreturn]] void refuse_damaged(std::string_view what) const;
    /// Of a row of id, body and sum: throws unless they belong together.
    void require_sum(sqlite3_stmt* row) const;
    [[nodiscard]] book::Record record_of(sqlite3_stmt* row) const;
    book::Records insert(book::Records records);
    void run(const std::string& sql);
    [[nodiscard]] Statement prepared(const char* sql);
    /// Of records: id, body, sum, number.
    [[nodiscard]] Statement rows(const char* condition);
    static int counted(void* store);
    /// Steps to the next row; false at the end.
    bool next(const Statement& statement);
    int integer(const std::string& sql);
    std::string word(const std::string& sql);
    [[noreturn]] void fail(const std::string& doing);

    std::string path_;  ///< as it was given
    std::string file_;  ///< from the root
    Open how_;
    bool new_ = false;   ///< its file is not begun yet
    bool sums_ = false;  ///< its layout has check sums
    std::uintmax_t most_counts_ = 0;
    std::uintmax_t counts_ = 0;  ///< of SQLite's steps, since the question began
    std::unique_ptr<sqlite3, Close> handle_;
};

}  // namespace caseload
