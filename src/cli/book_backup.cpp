// SPDX-License-Identifier: MIT
// A whole copy of the book's file.
#include "caseload/error.hpp"
#include "cli/book_store.hpp"
#include "cli/part_file.hpp"
#include "cli/run_files.hpp"

#include <sqlite3.h>

#include <fmt/format.h>

#include <memory>
#include <string>

namespace caseload {

void BookStore::backup(const std::string& to) {
    (void)file_of_book(to);
    require_free_name(to);
    const book::Records original = records();  // a damaged book must not replace a good copy
    PartFile part(to);
    const std::string name = part.path().string();
    {
        sqlite3* raw = nullptr;
        const int code = sqlite3_open_v2(name.c_str(), &raw, SQLITE_OPEN_READWRITE, nullptr);
        const std::unique_ptr<sqlite3, Close> copy_handle(raw);
        bool done = false;
        if (code == SQLITE_OK) {
            sqlite3_backup* copy = sqlite3_backup_init(raw, "main", handle_.get(), "main");
            if (copy != nullptr) {
                sqlite3_backup_step(copy, -1);
                done = sqlite3_backup_finish(copy) == SQLITE_OK;
            }
        }
        if (!done) refuse_file(fmt::format("{}: cannot be written: {}", to, sqlite3_errmsg(raw)));
    }
    if (BookStore(name, Open::read).records() != original)
        refuse_file(fmt::format("{}: the copy differs from the book; nothing was kept", to));
    part.keep(PartFile::Over::nothing);
}

}  // namespace caseload
