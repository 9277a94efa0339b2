// SPDX-License-Identifier: MIT
#include "caseload/upgrade.hpp"

#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <memory>

namespace caseload {
namespace {

void run_upgrade(const std::string& path) {
    const std::optional<std::string> text = file_text(path_of(path));
    if (!text) throw Error(Error::Kind::file, fmt::format("{}: cannot be read", path));
    const Upgraded now = upgraded(*text, file_name(path));
    if (now.from == now.to) {
        print(fmt::format("{}: version {}, current; nothing to do\n", path, now.to));
        return;
    }
    write_file(path, now.text);
    std::string said = fmt::format("{}: version {} is now {}\n", path, now.from, now.to);
    for (const std::string& one : now.changes) said += "  " + one + "\n";
    print(said);
}

}  // namespace

Command upgrade_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("upgrade", "a setup file of an earlier version as today's");
    const auto path = std::make_shared<std::string>();
    command->add_option("FILE", *path, "setup file")->required();
    return {command, [path] { run_upgrade(*path); }};
}

}  // namespace caseload
