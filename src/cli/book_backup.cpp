// SPDX-License-Identifier: MIT
// A whole copy of the book's file.
#include "caseload/error.hpp"
#include "cli/book_store.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <fmt/format.h>

#include <filesystem>
#include <random>

namespace caseload {
namespace {

/// On the disk, a file or a folder. Throws Error{file}.
void synchronise(const std::string& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    const bool done = file >= 0 && ::fsync(file) == 0;
    if (file >= 0) ::close(file);
    if (!done)
        throw Error(Error::Kind::file, fmt::format("{}: cannot be synchronised to the disk", path));
}

/// A file beside the one that is meant, under a name that nothing had before; gone at the end
/// unless it got the name.
class CopyPart {
public:
    explicit CopyPart(const std::string& to) {
        std::random_device device;
        name_ = fmt::format("{}.{:08x}.part", to, device());
        const int file = ::open(name_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file < 0)
            throw Error(Error::Kind::file,
                        fmt::format("{}: cannot be written; is there such a folder, and may you "
                                    "write there?",
                                    to));
        ::close(file);
    }
    ~CopyPart() {
        std::error_code none;
        if (!name_.empty()) std::filesystem::remove(name_, none);
    }
    CopyPart(const CopyPart&) = delete;
    CopyPart& operator=(const CopyPart&) = delete;
    [[nodiscard]] const std::string& name() const { return name_; }
    /// False if that cannot be.
    bool rename(const std::string& to) {
        std::error_code failed;
        std::filesystem::rename(name_, to, failed);
        if (!failed) name_.clear();
        return !failed;
    }

private:
    std::string name_;
};

}  // namespace

void BookStore::backup(const std::string& to) {
    const std::string target = file_of_book(to);
    std::error_code failed;
    if (std::filesystem::exists(target, failed))
        throw Error(Error::Kind::file, fmt::format("{}: exists already; choose another name", to));
    const book::Records original = records();  // a damaged book must not replace a good copy
    CopyPart part(target);
    {
        sqlite3* raw = nullptr;
        const int code = sqlite3_open_v2(part.name().c_str(), &raw, SQLITE_OPEN_READWRITE, nullptr);
        const std::unique_ptr<sqlite3, Close> copy_handle(raw);
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
                        fmt::format("{}: cannot be written: {}", to, sqlite3_errmsg(raw)));
    }
    // What was read back from the disk is what counts, then its name in the folder.
    synchronise(part.name());
    if (BookStore(part.name(), Open::read).records() != original)
        throw Error(Error::Kind::file,
                    fmt::format("{}: the copy differs from the book; nothing was kept", to));
    if (!part.rename(target))
        throw Error(Error::Kind::file, fmt::format("{}: cannot get its name", to));
    synchronise(std::filesystem::path(target).parent_path().string());
}

}  // namespace caseload
