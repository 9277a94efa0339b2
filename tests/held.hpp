// SPDX-License-Identifier: MIT
// How much memory the program takes.
#pragma once

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <string>
#include <vector>

struct Held {
    int code;
    long most_KiB;
};

/// Exit code and largest memory of the program; what it says is dropped.
inline Held run_held(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), CASELOAD_PROGRAM);
    std::vector<char*> words;
    for (std::string& word : arguments) words.push_back(word.data());
    words.push_back(nullptr);
    const pid_t child = fork();
    if (child == 0) {
        const int none = open("/dev/null", O_WRONLY);
        dup2(none, 1);
        dup2(none, 2);
        execv(words.front(), words.data());
        _exit(127);
    }
    int status = 0;
    rusage used{};
    wait4(child, &status, 0, &used);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, used.ru_maxrss};
}
