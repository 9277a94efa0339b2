// SPDX-License-Identifier: MIT
// A file that is written whole or not at all.
#pragma once

#include "caseload/error.hpp"

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

namespace caseload {

/// A result could not be written: the report ends with other words.
class NotWritten : public Error {
public:
    explicit NotWritten(Problem problem) : Error(Kind::file, {std::move(problem)}) {}
};

/// Of the system's error (errno), as words: a full disk, quota or card is called so.
std::string why_not_written(int code);

/// What has this name, a link not followed.
enum class PlaceKind { nothing, plain, link, folder, other };
PlaceKind kind_of_place(const std::filesystem::path& place);

/// A file being written beside its final place, in the same folder, under a random name and made
/// for this object alone. It has the mode of the file it will replace, if there is one. Gone with
/// the object unless kept.
class PartFile {
public:
    /// Throws NotWritten.
    explicit PartFile(std::string target);
    ~PartFile();
    PartFile(const PartFile&) = delete;
    PartFile& operator=(const PartFile&) = delete;

    /// For what writes by name, as SQLite does.
    [[nodiscard]] const std::filesystem::path& path() const;
    /// Throws NotWritten.
    void write(std::string_view text);
    enum class Over { any, nothing };
    /// Puts it on the disk and gives it its name, then the name on the disk. Over nothing: only if
    /// that name is still free, also where two programs give it at once. Throws NotWritten.
    void keep(Over over = Over::any);

private:
    struct Open;
    [[noreturn]] void fail(int code) const;
    std::string target_;
    std::unique_ptr<Open> open_;
};

}  // namespace caseload
