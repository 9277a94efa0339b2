// SPDX-License-Identifier: MIT
// What a run reads and writes, compared as files: whatever it reads is not written over.
#pragma once

#include "caseload/error.hpp"

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <utility>

namespace caseload {

/// A file this run has read, or is about to: whatever opens one notes it. From any thread.
void note_read(const std::filesystem::path& file);

/// A file that was read and may be written over all the same: the event a log gives anew.
void forget_read(const std::filesystem::path& file);

/// Nothing is noted any more: the next run of the same process begins.
void forget_files();

/// Throws Error{file}.
[[noreturn]] inline void refuse_file(std::string text, std::string hint = {}) {
    throw Error(Error::Kind::file, {Problem{{}, std::move(text), std::move(hint)}});
}

/// A file to be written, and how it was asked for: "--page"; "" where it has no option.
struct Output {
    std::string asked_by;
    std::string path;
};

/// The rule of every command that writes, applied when all is read and before the work. Each output
/// is a new file or takes the place of a plain one. Throws Error{input} for one that this run has
/// read or written, whatever the name (links, case of letters) it has there; for two that are one
/// file, there or not yet; for a link, folder, pipe, socket or device; Error{file} where there is
/// no such folder. Empty paths are outputs not asked for.
void require_outputs(std::span<const Output> outputs);
inline void require_output(const Output& output) {
    require_outputs({&output, 1});
}
/// Throws Error{file} where a file of this name is there; `or_else` ends the words.
void require_free_name(const std::string& path, std::string_view or_else = {});

/// The same but for what was read: for a command whose job is to change a file.
void require_plain_output(const Output& output);

/// A whole file or none: under a random name beside its place, with the mode of a file that is
/// there, on the disk before it gets its name. Asks require_outputs() itself. Throws Error{file}.
void write_file(const std::string& path, const std::string& text);

/// The same, never over a file that is there: also one that came meanwhile.
void write_new_file(const std::string& path, const std::string& text);

/// The same over a file that this run has read.
void change_file(const std::string& path, const std::string& text);

}  // namespace caseload
