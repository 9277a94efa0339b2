// SPDX-License-Identifier: MIT
// The service book is a SQLite file, and this build has no SQLite (Windows).
#ifdef _WIN32
#include "caseload/error.hpp"
#include "cli/commands.hpp"

namespace caseload {

Command book_command(CLI::App& program) {
    auto* command = program.add_subcommand("book", "the service book: not in the Windows program")
                        ->allow_extras();
    return {command, [] {
                refuse_input("the Windows program keeps no service book",
                             "keep it on a machine with Linux; its export is plain text");
            }};
}

}  // namespace caseload
#endif
