// SPDX-License-Identifier: MIT
#include "cli/dropped.hpp"

#include "cli/files.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <string_view>

namespace caseload {
namespace {

constexpr std::string_view live_page = "caseload.html";

/// ".toml", ".csv", in small letters; "" for a word that is no file.
std::string ending_of(const std::string& word, const FileIsThere& there) {
    return there(word) ? input::lower(name_of(path_of(word).extension().u8string()))
                       : std::string();
}

/// "C:/races/day 1.csv" without its ".csv".
std::string without_ending(const std::string& name) {
    return name.substr(0, name.rfind('.'));
}

std::optional<ShellTask> double_click(const ShellStart& start, const FileIsThere& there) {
    const std::string page = start.beside + std::string(live_page);
    if (!there(page)) return std::nullopt;
    ShellTask task;
    task.runs.push_back({{}, page});
    task.first = fmt::format(
        "{} is opened in the browser. Or drop a setup (.toml) or a logger's file (.csv) on this "
        "program.\n",
        live_page);
    return task;
}

/// The page of a setup's answer; never the live page itself.
std::string page_of(const std::string& setup, const ShellStart& start) {
    const std::string page = without_ending(setup) + ".html";
    return page == start.beside + std::string(live_page) ? without_ending(setup) + "-answer.html"
                                                         : page;
}

/// The event of a log: a file of before may be a setup, or an event that was corrected by hand.
std::string event_of(const std::string& log, const FileIsThere& there) {
    std::string event = without_ending(log) + "-event.toml";
    for (int number = 2; there(event); ++number)
        event = fmt::format("{}-event-{}.toml", without_ending(log), number);
    return event;
}

}  // namespace

std::optional<ShellTask> asked_by_shell(const ShellStart& start, const FileIsThere& there) {
    if (start.words.empty()) return start.own_window ? double_click(start, there) : std::nullopt;
    std::vector<std::string> setups;
    std::vector<std::string> logs;
    for (const std::string& word : start.words) {
        const std::string ending = ending_of(word, there);
        if (ending != ".toml" && ending != ".csv" && ending != ".gpx") return std::nullopt;
        (ending == ".toml" ? setups : logs).push_back(word);
    }
    ShellTask task;
    if (logs.empty()) {
        for (const std::string& setup : setups) {
            const std::string page = page_of(setup, start);
            task.runs.push_back({{"assess", setup, "--page", page}, page});
        }
        return task;
    }
    if (setups.size() > 1) {
        task.first = "Of which car are the logs? Drop them with one setup. Nothing was done.\n";
        return task;
    }
    for (const std::string& log : logs) {
        std::vector<std::string> words{"duty", log, "-o", event_of(log, there)};
        if (!setups.empty()) words.insert(words.end(), {"--setup", setups.front()});
        task.runs.push_back({std::move(words), {}});
    }
    if (setups.empty())
        task.if_refused =
            "A log without speed and torque of the case needs its car: drop it together with the "
            "car's setup.\n";
    return task;
}

}  // namespace caseload
