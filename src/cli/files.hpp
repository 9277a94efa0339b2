// SPDX-License-Identifier: MIT
// The only place that touches files, standard output and threads.
#pragma once

#include "caseload/ask/band.hpp"
#include "caseload/input.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <thread>

namespace caseload {

/// Names of files are UTF-8 in the program; Windows itself holds them otherwise.
std::filesystem::path path_of(std::string_view name);
/// The last part of a name: "our-case.toml".
std::string file_name(std::string_view name);

std::optional<std::string> file_text(const std::filesystem::path& path);

/// A setup file with its bases beside it. Throws Error{file} when it cannot be read.
Document read_document(const std::string& path);

/// To standard output, nothing in it that a terminal obeys. Throws Error{file} when it cannot be
/// written.
void print(const std::string& text);

/// A whole file or none: written beside its place, then renamed. Throws Error{file}.
void write_file(const std::string& path, const std::string& text);

/// As many threads as asked for; 0: one a processor core.
unsigned threads_of(unsigned asked);

/// Work shared by threads (0: one a processor core), the calling one among them: results are kept
/// by number, so the count of threads changes nothing. More than there are cores (0: unknown) would
/// only take memory and are not started; those the system does not start are done without. A piece
/// whose memory ran out is done again when the others have ended. Throws what the first piece that
/// failed threw.
ForEach on_threads(unsigned threads, unsigned cores = std::thread::hardware_concurrency());

}  // namespace caseload
