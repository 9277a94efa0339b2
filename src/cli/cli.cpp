// SPDX-License-Identifier: MIT
#include "cli/cli.hpp"

#include "caseload/error.hpp"
#include "caseload/show/problems.hpp"
#include "cli/command_line.hpp"
#include "cli/commands.hpp"
#include "cli/part_file.hpp"
#include "cli/run_files.hpp"
#include "cli/version.hpp"

#include <cstdio>
#include <new>
#include <vector>

namespace caseload {
namespace {

constexpr int no_memory_code = 71;  // sysexits.h: the operating system refuses

}  // namespace

int run_program(int argc, char** argv) {
    forget_files();
    Program program(
        "caseload",
        "caseload: oil temperature, bearing life and service intervals of a transfer case.\n"
        "An estimate for planning: it does not replace inspection, the rule book or a licensed "
        "inspector.",
        program_version);
    const Syntax app = program.syntax();
    std::vector<Command> commands;
    for (Declare* declare : every_command) commands.push_back(declare(app));
    try {
        if (argc <= 1) {
            std::fputs(first_commands().c_str(), stderr);
            return static_cast<int>(Error::Kind::input);
        }
        const WordsRead read = program.read(argc, argv);
        if (read.end == WordsRead::End::answered) return 0;
        if (read.end == WordsRead::End::refused)
            throw Error(Error::Kind::input, {refused_words(app, {argv + 1, argv + argc}, read)});
        for (const Command& command : commands)
            if (command.declared.given()) {
                command.run();
                if (command.code) return *command.code;
            }
        return 0;
    } catch (const NotWritten& error) {
        std::fputs(problem_report(error, "what was calculated is not written").c_str(), stderr);
        return static_cast<int>(error.kind());
    } catch (const Error& error) {
        std::fputs(problem_report(error).c_str(), stderr);
        return static_cast<int>(error.kind());
    } catch (const std::bad_alloc&) {
        std::fputs(
            "error: the system gives no more memory\n"
            "  hint: fewer --threads or --draws take less\n",
            stderr);
        return no_memory_code;
    } catch (const std::exception& error) {
        std::fprintf(stderr, "caseload: our bug, please report it with the setup file: %s\n",
                     error.what());
        return 70;
    }
}

}  // namespace caseload
