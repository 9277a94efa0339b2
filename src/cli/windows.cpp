// SPDX-License-Identifier: MIT
// Only on Windows: what its shell does differently.
#ifdef _WIN32
#include "cli/windows.hpp"

#include "caseload/error.hpp"
#include "cli/cli.hpp"
#include "cli/dropped.hpp"
#include "cli/files.hpp"

#include <windows.h>

#include <shellapi.h>

#include <cstdio>
#include <filesystem>
#include <optional>
#include <utility>
#include <vector>

namespace caseload {
namespace {

std::string utf8(const wchar_t* wide) {
    const int size = WideCharToMultiByte(CP_UTF8, 0, wide, -1, nullptr, 0, nullptr, nullptr);
    std::string text(static_cast<std::size_t>(size), '\0');
    WideCharToMultiByte(CP_UTF8, 0, wide, -1, text.data(), size, nullptr, nullptr);
    text.resize(text.size() - 1);  // its own end
    return text;
}

std::vector<std::string> arguments() {
    int count = 0;
    wchar_t** wide = CommandLineToArgvW(GetCommandLineW(), &count);
    std::vector<std::string> all;
    for (int i = 0; i < count; ++i) all.push_back(utf8(wide[i]));
    LocalFree(static_cast<HLOCAL>(wide));
    return all;
}

int run(std::vector<std::string> words) {
    std::vector<char*> argv;
    argv.reserve(words.size());
    for (std::string& word : words) argv.push_back(word.data());
    return run_program(static_cast<int>(argv.size()), argv.data());
}

/// The console was made for this program alone, as when a file is dropped on it.
bool own_console() {
    DWORD processes[2];
    return GetConsoleProcessList(processes, 2) == 1;
}

bool is_file(const std::string& word) {
    std::error_code failed;
    return std::filesystem::is_regular_file(path_of(word), failed);
}

void print_now(const std::string& text) {
    std::fputs(text.c_str(), stdout);
    std::fflush(stdout);
}

/// Runs one after the other; the code of the last that ended badly.
int run_task(const std::string& program, const ShellTask& task) {
    int code = task.runs.empty() ? static_cast<int>(Error::Kind::input) : 0;
    print_now(task.first);
    for (const ShellRun& one : task.runs) {
        int own = 0;
        if (!one.words.empty()) {
            std::vector<std::string> words{program};
            words.insert(words.end(), one.words.begin(), one.words.end());
            own = run(std::move(words));
        }
        if (own != 0) code = own;
        if (own == 0 && !one.page.empty())
            ShellExecuteW(nullptr, L"open", path_of(one.page).c_str(), nullptr, nullptr,
                          SW_SHOWNORMAL);
    }
    if (code != 0) print_now(task.if_refused);
    return code;
}

}  // namespace

std::string program_path() {
    constexpr DWORD longest = 32768;
    std::wstring wide(longest, L'\0');
    wide.resize(GetModuleFileNameW(nullptr, wide.data(), longest));
    return utf8(wide.c_str());
}

int run_on_windows() {
    SetConsoleOutputCP(CP_UTF8);
    std::vector<std::string> words = arguments();
    if (words.empty()) words.emplace_back("caseload");
    const std::string program = program_path();
    const bool own_window = own_console();
    const ShellStart start{{words.begin() + 1, words.end()},
                           program.substr(0, program.find_last_of("\\/") + 1),
                           own_window};
    const std::optional<ShellTask> task = asked_by_shell(start, is_file);
    const int code = task ? run_task(words.front(), *task) : run(words);
    if (own_window) {
        std::fputs("\nPress Enter to close.\n", stdout);
        std::fflush(stdout);
        std::getchar();
    }
    return code;
}

}  // namespace caseload
#endif
