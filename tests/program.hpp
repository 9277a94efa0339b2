// SPDX-License-Identifier: MIT
// The program as a user runs it.
#pragma once

#include "files.hpp"

#include <doctest/doctest.h>

#include <sys/wait.h>
#include <array>
#include <cstdio>
#include <string>

struct Run {
    int code;
    std::string out;  ///< standard output and error together
};

inline Run run_command(const std::string& command) {
    FILE* pipe = popen((command + " 2>&1").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string out;
    std::array<char, 4096> buffer{};
    for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
        out.append(buffer.data(), n);
    const int status = pclose(pipe);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, out};
}

inline Run run_program_as_user(const std::string& arguments) {
    return run_command(std::string(CASELOAD_PROGRAM) + " " + arguments);
}

using test_files::file_text;
