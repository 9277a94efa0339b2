// SPDX-License-Identifier: MIT
// Only on Windows: what its shell does differently.
#ifdef _WIN32
#include "cli/windows.hpp"

#include "cli/cli.hpp"
#include "cli/files.hpp"

#include <windows.h>

#include <shellapi.h>

#include <cstdio>
#include <filesystem>
#include <string>
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

bool is_setup(const std::string& word) {
    std::error_code failed;
    return path_of(word).extension() == ".toml" &&
           std::filesystem::is_regular_file(path_of(word), failed);
}

int answer_dropped(const std::string& program, const std::string& setup) {
    const std::string page = setup.substr(0, setup.size() - std::string(".toml").size()) + ".html";
    const int code = run({program, "assess", setup, "--page", page});
    if (code == 0)
        ShellExecuteW(nullptr, L"open", path_of(page).c_str(), nullptr, nullptr, SW_SHOWNORMAL);
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
    const std::vector<std::string> words = arguments();
    const bool dropped = words.size() == 2 && is_setup(words[1]);
    const int code = dropped ? answer_dropped(words[0], words[1]) : run(words);
    if (own_console()) {
        std::fputs("\nPress Enter to close.\n", stdout);
        std::fflush(stdout);
        std::getchar();
    }
    return code;
}

}  // namespace caseload
#endif
