// SPDX-License-Identifier: MIT
// The only place that touches files, standard output and threads.
#pragma once

#include "caseload/ask/band.hpp"
#include "caseload/input.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace caseload {

/// Names of files are UTF-8 in the program; Windows itself holds them otherwise.
std::filesystem::path path_of(std::string_view name);
/// The last part of a name: "our-case.toml".
std::string file_name(std::string_view name);

std::optional<std::string> file_text(const std::filesystem::path& path);

/// A setup file with its bases beside it. Throws Error{file} when it cannot be read.
Document read_document(const std::string& path);

/// To standard output. Throws Error{file} when it cannot be written.
void print(const std::string& text);

/// A whole file or none: written beside its place, then renamed. Throws Error{file}.
void write_file(const std::string& path, const std::string& text);

/// Work shared by threads in strides: results stand by number, so their count changes nothing.
ForEach on_threads(unsigned threads);

}  // namespace caseload
