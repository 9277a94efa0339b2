// SPDX-License-Identifier: MIT
// The service book's file: SQLite, one a shop. A record that was acknowledged is on the disk.
#pragma once

#include "caseload/book/record.hpp"

#include <memory>
#include <string>

struct sqlite3;

namespace caseload {

class BookStore {
public:
    /// Layout of the file this program writes; older ones are brought up, newer ones refused.
    static constexpr int layout = 2;

    enum class Open { read, write, create };
    /// Throws Error{file}: no book there, a damaged one, one of a newer program.
    BookStore(std::string path, Open how);

    /// Adds in one transaction: all or nothing, and on the disk when it returns. A record whose id
    /// the book holds already must be equal to it and is skipped. Gives ids to records without.
    book::Records add(book::Records records);

    /// What a new record is checked against and added in the same transaction, so that two programs
    /// at once cannot both pass the check. `make` sees all records.
    template <class Make>
    book::Records add_checked(Make make) {
        begin();
        try {
            book::Records added = insert(make(read()));
            commit();
            return added;
        } catch (...) {
            roll_back();
            throw;
        }
    }

    [[nodiscard]] book::Records records();
    /// A whole copy, checked, under its final name only when it is complete.
    void backup(const std::string& to);

private:
    struct Close {
        void operator()(sqlite3* handle) const;
    };
    void begin();
    void commit();
    void roll_back();
    [[nodiscard]] book::Records read();
    book::Records insert(book::Records records);
    void prepare(Open how);
    void run(const std::string& sql);
    int integer(const std::string& sql);
    std::string word(const std::string& sql);
    [[noreturn]] void fail(const std::string& doing);

    std::string path_;
    std::unique_ptr<sqlite3, Close> handle_;
};

}  // namespace caseload
