// SPDX-License-Identifier: MIT
// Commands about the setup file itself: new, complete, keys.
#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <memory>
#include <string>

namespace caseload {
namespace {

void write_new(const std::string& path) {
    if (std::filesystem::exists(path))
        throw Error(Error::Kind::file,
                    fmt::format("{}: exists already; choose another name", path));
    std::ofstream file(path, std::ios::binary);
    file << new_setup_text();
    file.close();
    if (!file) throw Error(Error::Kind::file, fmt::format("{}: cannot be written", path));
    print(fmt::format("{}: change the ten entries, then: caseload assess {}\n", path, path));
}

}  // namespace

Command complete_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("complete", "the completed setup, each value with its origin");
    const auto path = std::make_shared<std::string>();
    command->add_option("SETUP", *path, "setup file")->required();
    return {command, [path] { print(completed_text(read_document(*path).complete())); }};
}

Command new_command(CLI::App& program) {
    auto* command = program.add_subcommand("new", "write a ten-entry setup");
    const auto path = std::make_shared<std::string>();
    command->add_option("FILE", *path, "file to write")->required();
    return {command, [path] { write_new(*path); }};
}

Command keys_command(CLI::App& program) {
    auto* command = program.add_subcommand("keys", "every key of a setup file");
    return {command, [] { print(key_reference()); }};
}

}  // namespace caseload
