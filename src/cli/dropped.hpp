// SPDX-License-Identifier: MIT
// What to do when Windows' shell starts the program: at a double click, or with files dropped on
// it.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace caseload {

/// What the shell knows and the words alone do not say.
struct ShellStart {
    std::vector<std::string> words;  ///< after the program's own name
    std::string beside;       ///< folder of the program's file, "" or with its last separator
    bool own_window = false;  ///< its window was opened for it alone
};

/// One command line to run, and the page to open when it ends well; "": none.
struct ShellRun {
    std::vector<std::string> words;  ///< empty: nothing to run, only the page
    std::string page;
};

struct ShellTask {
    std::vector<ShellRun> runs;  ///< none: refused
    std::string first;           ///< printed before them
    std::string if_refused;      ///< printed when one of them ended badly
};

using FileIsThere = std::function<bool(const std::string& name)>;

/// What to do instead of reading the words as a command line; nothing: they are one. A double click
/// (no word, a window of its own) opens the live page beside the program. Setups (.toml) are
/// answered each with a page beside it, logs (.csv) become events for event.from; with one setup
/// among them the logs are of its car. No file is written over but the page of an answer before.
[[nodiscard]] std::optional<ShellTask> asked_by_shell(const ShellStart& start,
                                                      const FileIsThere& there);

}  // namespace caseload
