// SPDX-License-Identifier: MIT
#include "cli/part_file.hpp"

#include "cli/files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <random>
#include <utility>

#ifdef _WIN32
#include <windows.h>
#else
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>
#endif

namespace caseload {
namespace {

namespace fs = std::filesystem;

#ifdef _WIN32

using Handle = HANDLE;
const Handle no_handle = INVALID_HANDLE_VALUE;

/// The last error of Windows as the errno that why_not_written() knows.
int last_code() {
    switch (GetLastError()) {
        case ERROR_DISK_FULL:
        case ERROR_HANDLE_DISK_FULL:
            return ENOSPC;
        case ERROR_FILE_EXISTS:
        case ERROR_ALREADY_EXISTS:
            return EEXIST;
        case ERROR_WRITE_PROTECT:
            return EROFS;
        case ERROR_CRC:
        case ERROR_IO_DEVICE:
            return EIO;
        case ERROR_SHARING_VIOLATION:
        case ERROR_LOCK_VIOLATION:
            return EBUSY;
        default:
            return EACCES;
    }
}

/// Only if there is no such file. The mode of the target is its folder's there.
Handle created(const fs::path& part, const fs::path&) {
    return CreateFileW(part.c_str(), GENERIC_WRITE, FILE_SHARE_READ | FILE_SHARE_WRITE, nullptr,
                       CREATE_NEW, FILE_ATTRIBUTE_NORMAL, nullptr);
}
/// Bytes written of these, 0 after an error.
std::size_t write_some(Handle file, std::string_view text) {
    constexpr std::size_t most = 1U << 30U;
    DWORD count = 0;
    const auto size = static_cast<DWORD>(std::min(text.size(), most));
    return WriteFile(file, text.data(), size, &count, nullptr) != 0 ? count : 0;
}
bool synced(Handle file) {
    return FlushFileBuffers(file) != 0;
}
bool closed(Handle file) {
    return CloseHandle(file) != 0;
}
bool renamed(const fs::path& from, const fs::path& to) {
    return MoveFileExW(from.c_str(), to.c_str(),
                       MOVEFILE_REPLACE_EXISTING | MOVEFILE_WRITE_THROUGH) != 0;
}
bool renamed_to_free(const fs::path& from, const fs::path& to) {
    return MoveFileExW(from.c_str(), to.c_str(), MOVEFILE_WRITE_THROUGH) != 0;
}
void sync_folder(const fs::path&) {}  // MOVEFILE_WRITE_THROUGH

#else

using Handle = int;
constexpr Handle no_handle = -1;

int last_code() {
    return errno;
}

/// Only if there is no such file; with the mode of the target, where that is there.
Handle created(const fs::path& part, const fs::path& target) {
    struct stat old = {};
    const bool replaces = ::stat(target.c_str(), &old) == 0;
    constexpr mode_t own = 0600;     // private until it has its mode
    constexpr mode_t usual = 0666;   // without what the user's umask takes
    constexpr mode_t access = 0777;  // no set-user-id
    const int file =
        ::open(part.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, replaces ? own : usual);
    if (file >= 0 && replaces && ::fchmod(file, old.st_mode & access) != 0) {
        const int code = errno;
        ::close(file);
        ::unlink(part.c_str());
        errno = code;
        return no_handle;
    }
    return file;
}
std::size_t write_some(Handle file, std::string_view text) {
    ssize_t count = 0;
    do count = ::write(file, text.data(), text.size());
    while (count < 0 && errno == EINTR);
    return count > 0 ? static_cast<std::size_t>(count) : 0;
}
bool synced(Handle file) {
    return ::fsync(file) == 0 || errno == EINVAL;  // a file system that knows no such thing
}
bool closed(Handle file) {
    return ::close(file) == 0;
}
bool renamed(const fs::path& from, const fs::path& to) {
    return ::rename(from.c_str(), to.c_str()) == 0;
}
bool renamed_to_free(const fs::path& from, const fs::path& to) {
    if (::link(from.c_str(), to.c_str()) == 0) {
        static_cast<void>(::unlink(from.c_str()));
        return true;
    }
    if (errno == EEXIST) return false;
    // A file system without links, as on a stick: whoever makes the name first has it.
    const int place = ::open(to.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (place < 0) return false;
    ::close(place);
    if (renamed(from, to)) return true;
    const int code = errno;
    ::unlink(to.c_str());
    errno = code;
    return false;
}
/// As far as the file system does that.
void sync_folder(const fs::path& folder) {
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle < 0) return;
    static_cast<void>(::fsync(handle));
    ::close(handle);
}

#endif

/// "a.html" as "a.html.4f09c1d2a7b3e856.part", in the same folder.
fs::path random_name_beside(const fs::path& target) {
    std::random_device device;
    const std::uint64_t number = (std::uint64_t{device()} << 32U) | device();
    constexpr std::size_t longest = 200;  // of the 255 a file system takes
    const std::u8string name = target.filename().u8string();
    const std::string ending = fmt::format(".{:016x}.part", number);
    fs::path part =
        target.parent_path() / (name.size() > longest ? fs::path(u8"caseload") : target.filename());
    part += ending;
    return part;
}

}  // namespace

std::string why_not_written(int code) {
    switch (code) {
        case ENOSPC:
            return "the disk is full";
#ifdef EDQUOT
        case EDQUOT:
            return "the disk is full: your share of it is used up";
#endif
        case EFBIG:
            return "a file may not be as large there";
        case EROFS:
            return "the disk is read-only";
        case EIO:
            return "the disk reports an error";
        case EEXIST:
            return "such a file is there by now";
        case EBUSY:
            return "another program holds the file there open";
        case ENAMETOOLONG:
            return "the name is too long";
        default:
            return "is there such a folder, and may you write there?";
    }
}

PlaceKind kind_of_place(const fs::path& place) {
#ifdef _WIN32
    // Of the files with a tag beside their name only links count, not the tags of a cloud.
    WIN32_FIND_DATAW found;
    const HANDLE search = FindFirstFileW(place.c_str(), &found);
    if (search != INVALID_HANDLE_VALUE) {
        FindClose(search);
        if ((found.dwFileAttributes & FILE_ATTRIBUTE_REPARSE_POINT) != 0 &&
            (found.dwReserved0 == IO_REPARSE_TAG_SYMLINK ||
             found.dwReserved0 == IO_REPARSE_TAG_MOUNT_POINT))
            return PlaceKind::link;
    }
#endif
    std::error_code none;
    switch (fs::symlink_status(place, none).type()) {
        case fs::file_type::none:
        case fs::file_type::not_found:
            return PlaceKind::nothing;
        case fs::file_type::regular:
            return PlaceKind::plain;
        case fs::file_type::symlink:
            return PlaceKind::link;
        case fs::file_type::directory:
            return PlaceKind::folder;
        default:
            return PlaceKind::other;
    }
}

struct PartFile::Open {
    fs::path part;
    Handle file = no_handle;
    bool kept = false;
};

PartFile::PartFile(std::string target)
    : target_(std::move(target)), open_(std::make_unique<Open>()) {
    const fs::path place = path_of(target_);
    constexpr int most_tries = 10;
    for (int i = 0; open_->file == no_handle; ++i) {
        open_->part = random_name_beside(place);
        open_->file = created(open_->part, place);
        if (open_->file != no_handle) break;
        const int code = last_code();
        if (code != EEXIST || i == most_tries) fail(code);
    }
}

PartFile::~PartFile() {
    if (open_->file != no_handle) static_cast<void>(closed(open_->file));
    std::error_code none;
    if (!open_->kept) fs::remove(open_->part, none);
}

const fs::path& PartFile::path() const {
    return open_->part;
}

void PartFile::write(std::string_view text) {
    while (!text.empty()) {
        const std::size_t count = write_some(open_->file, text);
        if (count == 0) fail(last_code());
        text.remove_prefix(count);
    }
}

void PartFile::keep(Over over) {
    if (!synced(open_->file)) fail(last_code());
    // Windows renames no open file.
    if (!closed(std::exchange(open_->file, no_handle))) fail(last_code());
    const fs::path place = path_of(target_);
    if (!(over == Over::any ? renamed : renamed_to_free)(open_->part, place)) fail(last_code());
    open_->kept = true;
    std::error_code none;
    sync_folder(fs::absolute(place, none).parent_path());
}

void PartFile::fail(int code) const {
    throw NotWritten(
        {{}, fmt::format("{}: cannot be written; {}", target_, why_not_written(code)), {}});
}

}  // namespace caseload
