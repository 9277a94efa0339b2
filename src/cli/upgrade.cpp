// SPDX-License-Identifier: MIT
#include "caseload/upgrade.hpp"

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "input/fields.hpp"
#include "input/harmless.hpp"
#include "input/value.hpp"
#include "live/edit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <set>

namespace caseload {
namespace {

/// Keys that a file of this name says by itself or by its bases. What cannot be completed, as a
/// file of legs alone, says what its own text says.
std::set<std::string> given_keys(const std::string& path, const std::string& text) {
    std::set<std::string> keys;
    for (const auto& [key, leaf] : input::parse_leaves(text, file_name(path))) keys.insert(key);
    try {
        for (const Entry& entry : read_document(path).complete().entries)
            if (entry.origin != Origin::standard) keys.insert(entry.key);
    } catch (const Error&) {
        return keys;
    }
    return keys;
}

/// Pump and fan ran in every stop that said nothing of them; today they run while the engine
/// idles. A core was fitted only where a word said so; today it is. What of this a file leaves out
/// gets the words that keep its answers.
void keep_answers(const std::string& path, Upgraded& now) {
    const std::set<std::string> given = given_keys(path, now.text);
    const auto leaves = input::parse_leaves(now.text, file_name(path));
    const bool own_core = std::any_of(leaves.begin(), leaves.end(),
                                      [](const auto& leaf) { return leaf.first == "cooler.core"; });
    if (own_core && given.count("cooler.fit") == 0) {
        now.text = live::with_value(now.text, "cooler.fit", "false");
        now.changes.push_back(
            "cooler.fit = false, as a core without the word was calculated before; a core that is "
            "entered is fitted today");
    }
    for (const auto& [key, leaf] : input::parse_leaves(now.text, file_name(path))) {
        if (!input::matches("leg.*.kind", key) || leaf.value.text != "stop") continue;
        const std::string leg = key.substr(0, key.rfind('.'));
        std::string written;
        for (const std::string_view part : {"pump", "fan"}) {
            const std::string added = fmt::format("{}.{}", leg, part);
            if (given.count(added) > 0) continue;
            now.text = live::with_value(now.text, added, "\"on\"");
            written += fmt::format("{}{} = \"on\"", written.empty() ? "" : ", ", part);
        }
        if (!written.empty())
            now.changes.push_back(
                fmt::format("{}: {}, as a stop without the words was calculated before; an engine "
                            "that is off leaves them off today",
                            leg, written));
    }
}

/// Words that were taken where a file left them out, and are "unknown" today: the answer moves, and
/// no word is written for what nobody has looked at.
std::string left_out(const std::string& path) {
    struct Before {
        std::string_view key;
        std::string_view word;
    };
    constexpr Before taken[] = {
        {"lubrication.drain", "good"}, {"housing.exhaust", "none"}, {"housing.neighbour", "none"}};
    std::string said;
    try {
        const ReadSetup read = read_document(path).complete();
        const auto any = [&](const auto& is) {
            return std::any_of(read.entries.begin(), read.entries.end(), is);
        };
        for (const auto& [key, word] : taken)
            if (any([&, key = key](const Entry& entry) { return entry.by == key; }) &&
                any([&, key = key](const Entry& entry) {
                    return entry.key == key && entry.origin == Origin::standard;
                }))
                said += fmt::format(
                    "  {0} is left out: unknown today, taken as \"{1}\" before. Look at the car "
                    "and\n"
                    "    write the word; {0} = \"{1}\" gives the earlier answer\n",
                    key, word);
    } catch (const Error&) {
        return {};  // as a file of legs alone
    }
    return said;
}

void run_upgrade(const std::string& path) {
    const std::string text = text_of(path);
    require_plain_output({"", path});
    Upgraded now = upgraded(text, shown_name(path));
    keep_answers(path, now);
    const std::string name = input::harmless(path);
    if (now.text == text) {
        print(fmt::format("{}: version {}, current; nothing to do\n", name, now.to) +
              left_out(path));
        return;
    }
    change_file(path, now.text);
    std::string said = now.from == now.to
                           ? fmt::format("{}: version {}, current\n", name, now.to)
                           : fmt::format("{}: version {} is now {}\n", name, now.from, now.to);
    for (const std::string& one : now.changes) said += "  " + one + "\n";
    print(said + left_out(path));
}

}  // namespace

Command upgrade_command(Syntax program) {
    Syntax command =
        program.command("upgrade", "convert an old setup file so that it keeps its answers");
    const auto path = std::make_shared<std::string>();
    command.option("FILE", *path, "setup file").required();
    return {command, [path] { run_upgrade(*path); }};
}

}  // namespace caseload
