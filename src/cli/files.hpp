// SPDX-License-Identifier: MIT
// The only place that touches files, standard output and threads.
#pragma once

#include "caseload/ask/band.hpp"
#include "caseload/input.hpp"
#include "cli/run_files.hpp"

#include <cstddef>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <thread>

namespace caseload {

/// Names of files are UTF-8 in the program, not in Windows itself.
std::filesystem::path path_of(std::string_view name);
std::string name_of(const std::u8string& utf8);
/// The last part of a name: "our-case.toml".
std::string file_name(std::string_view name);

/// What is read of a setup, base, library or list of events: a byte more than they may have, so
/// that the reader of their text says that they are too large.
inline constexpr std::size_t setup_bytes = (std::size_t{1} << 20U) + 1;
/// Of a book's text, a byte more than its own limit.
inline constexpr std::size_t book_bytes = (std::size_t{256} << 20U) + 1;

/// The text of a file named on the command line, no more than so many bytes of it; also from a
/// pipe, as /dev/stdin and <(...) of a shell are. Notes that it is read (run_files.hpp). Throws
/// Error{file} that says whether it is missing, a folder, or cannot be read to its end.
std::string text_of(const std::string& name, std::size_t at_most = setup_bytes);

/// The same whole, or refused if it is larger.
std::string whole_text_of(const std::string& name, std::size_t most_bytes);

/// The same of a file named within a file, which must be a plain one: a pipe could keep the
/// program waiting for ever. Nothing where there is none of this name.
std::optional<std::string> text_beside(const std::filesystem::path& file,
                                       std::size_t at_most = setup_bytes);

/// Whether a name is of a pipe or device, which is read once and has no files beside it.
bool is_stream(const std::string& name);
/// Where the files that a setup names are looked for: beside it, for a stream in the current
/// folder.
std::filesystem::path folder_of(const std::string& setup);
/// The name of a setup or log as it is shown.
std::string shown_name(const std::string& path);

/// The file as named from the folder another file is written to. Throws Error{input} for a pipe.
std::string name_beside(const std::string& file, const std::string& written);

/// Gets each text that a setup is made of: its own, then those it names, by these names.
using TextSeen = std::function<void(const std::string& name, const std::string& text)>;

/// A setup file with its bases beside it. Throws Error{file} when one cannot be read.
Document read_document(const std::string& path, const TextSeen& seen = {});

/// To standard output, nothing in it that a terminal obeys. Throws NotWritten.
void print(const std::string& text);

/// The number of threads wanted; 0: one a processor core.
unsigned threads_of(unsigned asked);

/// Work shared by threads (0: one a processor core), the calling one among them: results are kept
/// by number, so the count of threads changes nothing. More than there are cores (0: unknown) would
/// only take memory and are not started; those the system does not start are done without. A piece
/// whose memory ran out is done again when the others have ended. Throws what the first piece that
/// failed threw.
ForEach on_threads(unsigned threads, unsigned cores = std::thread::hardware_concurrency());

}  // namespace caseload
