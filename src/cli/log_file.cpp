// SPDX-License-Identifier: MIT
#include "cli/log_file.hpp"

#include "caseload/error.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <filesystem>
#include <system_error>

namespace caseload {
namespace {

// long has 32 bits on Windows.
#ifdef _WIN32
std::int64_t place_of(std::FILE* file) {
    return _ftelli64(file);
}
bool go_to(std::FILE* file, std::int64_t offset) {
    return _fseeki64(file, offset, SEEK_SET) == 0;
}
#else
std::int64_t place_of(std::FILE* file) {
    return ftello(file);
}
bool go_to(std::FILE* file, std::int64_t offset) {
    return fseeko(file, static_cast<off_t>(offset), SEEK_SET) == 0;
}
#endif

}  // namespace

void LogFile::Close::operator()(std::FILE* file) const {
    if (file != stdin) std::fclose(file);
}

LogFile::LogFile(const std::string& path) : path_(path) {
    std::error_code failed;
    if (path != "-" && std::filesystem::is_directory(path_of(path), failed))
        refuse_file(fmt::format("{}: this is a folder; name a log in it", path));
#ifdef _WIN32
    file_.reset(path == "-" ? stdin : _wfopen(path_of(path).c_str(), L"rb"));
#else
    file_.reset(path == "-" ? stdin : std::fopen(path.c_str(), "rb"));
#endif
    if (!file_) refuse_file(fmt::format("{}: cannot be read", path));
    if (path != "-") note_read(path_of(path));
    // Blocks are our own.
    std::setvbuf(file_.get(), nullptr, _IONBF, 0);
    if (path != "-" && std::filesystem::is_regular_file(path_of(path), failed)) {
        opened_ = stamp();
        size_ = opened_.size;
    }
}

LogFile::Stamp LogFile::stamp() const {
    std::error_code failed;
    Stamp now;
    now.size = std::filesystem::file_size(path_of(path_), failed);
    now.changed = static_cast<std::int64_t>(
        std::filesystem::last_write_time(path_of(path_), failed).time_since_epoch().count());
    return now;
}

std::size_t LogFile::read(char* to, std::size_t at_most) {
    const std::size_t count = std::fread(to, 1, at_most, file_.get());
    if (std::ferror(file_.get()) != 0)
        refuse_file(fmt::format("{}: cannot be read to its end", path_));
    return count;
}

std::size_t LogFile::read_at(std::uint64_t offset, char* to, std::size_t at_most) {
    const std::int64_t here = place_of(file_.get());
    if (here < 0 || !go_to(file_.get(), static_cast<std::int64_t>(offset))) return 0;
    const std::size_t count = std::fread(to, 1, at_most, file_.get());
    if (!go_to(file_.get(), here)) refuse_file(fmt::format("{}: cannot be read", path_));
    return count;
}

void LogFile::check_unchanged() const {
    if (!size_) return;
    const Stamp now = stamp();
    if (now.size != opened_.size || now.changed != opened_.changed)
        refuse_file(
            fmt::format("{}: the file changed while it was read; nothing was written: wait "
                        "until the logger is done",
                        path_));
}

}  // namespace caseload
