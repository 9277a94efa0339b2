// SPDX-License-Identifier: MIT
// Commands about the setup file itself: new, complete, keys.
#include "caseload/show/schema.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

#include <memory>
#include <string>

namespace caseload {
namespace {

void write_new(const std::string& path) {
    require_output({"", path});
    require_free_name(path);
    write_file(path, new_setup_text());
    print(fmt::format("{0}: change the ten entries, then: caseload assess {0}\n",
                      input::harmless(path)));
}

}  // namespace

Command complete_command(Syntax program) {
    Syntax command = program.command("complete", "the completed setup, each value with its origin");
    const auto path = std::make_shared<std::string>();
    command.option("SETUP", *path, "setup file").required();
    return {command, [path] { print(completed_text(read_document(*path).complete())); }};
}

Command new_command(Syntax program) {
    Syntax command = program.command("new", "write a ten-entry setup");
    const auto path = std::make_shared<std::string>();
    command.option("FILE", *path, "file to write").required().names_an_output();
    return {command, [path] { write_new(*path); }};
}

Command keys_command(Syntax program) {
    Syntax command = program.command("keys", "every key of a setup file");
    const auto schema = std::make_shared<bool>(false);
    command.flag("--schema", *schema, "as a JSON Schema, for an editor");
    return {command, [schema] { print(*schema ? setup_schema() : key_reference()); }};
}

}  // namespace caseload
