// SPDX-License-Identifier: MIT
#include "cli/command_line.hpp"

#include "input/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <optional>
#include <string_view>

namespace caseload {
namespace {

using Names = std::vector<std::string>;

std::optional<Syntax> command_under(const Syntax& parent, const std::string& word) {
    for (const Syntax& one : parent.commands())
        if (one.name() == word) return one;
    return std::nullopt;
}

Names commands_under(const Syntax& parent) {
    Names names;
    for (const Syntax& one : parent.commands()) names.push_back(one.name());
    return names;
}

/// The command that the words reach, as they name it, and the first word after it.
struct ReachedCommand {
    Syntax command;
    std::string name;  ///< "book add"; empty: the program itself
    std::size_t next = 0;

    [[nodiscard]] std::string of_name() const { return name.empty() ? "" : " of " + name; }
    [[nodiscard]] std::string call() const { return "caseload" + (name.empty() ? "" : " " + name); }
};

ReachedCommand reached_by(const Syntax& program, const Names& words) {
    ReachedCommand reached{program, {}, 0};
    for (; reached.next < words.size(); ++reached.next) {
        const std::optional<Syntax> under = command_under(reached.command, words[reached.next]);
        if (!under) break;
        reached.command = *under;
        reached.name += (reached.name.empty() ? "" : " ") + words[reached.next];
    }
    return reached;
}

/// "--draws=63" gives "--draws", "-oFILE" "-o" where there is one; "" for what is no option.
std::string option_in(const Syntax& command, const std::string& word) {
    if (word.size() < 2 || word[0] != '-' || word == "--") return {};
    const auto second = static_cast<unsigned char>(word[1]);
    if (std::isdigit(second) != 0 || second == '.') return {};  // a number
    if (word[1] != '-' && command.has(word.substr(0, 2))) return word.substr(0, 2);
    return word.substr(0, word.find('='));
}

/// The long options without their dashes.
Names long_options_of(const Syntax& command) {
    Names names;
    for (const OptionText& one : command.options())
        names.insert(names.end(), one.long_names.begin(), one.long_names.end());
    return names;
}

std::string without_dashes(std::string_view option) {
    return std::string(option.substr(std::min(option.find_first_not_of('-'), option.size())));
}

/// Commands with this option, each as it is called, also under others.
void commands_with(const Syntax& parent, const std::string& before, const std::string& option,
                   Names& found) {
    for (const Syntax& one : parent.commands()) {
        const std::string name = before + one.name();
        if (one.has(option)) found.push_back(name);
        commands_with(one, name + " ", option, found);
    }
}

std::string hint_for_option(const Syntax& program, const ReachedCommand& reached,
                            const std::string& option) {
    const std::string bare = without_dashes(option);
    const Names own = long_options_of(reached.command);
    const auto same = std::find(own.begin(), own.end(), bare);
    if (same != own.end()) return fmt::format("write --{}", *same);  // one dash too few or many
    const std::string near = input::nearest_word(own, bare);
    if (!near.empty()) return fmt::format("did you mean --{}?", near);
    if (program.has(option)) return fmt::format("caseload {}", option);
    Names others;
    commands_with(program, "", option, others);
    if (!others.empty())
        return fmt::format("{} is an option of {}", option, fmt::join(others, ", "));
    return fmt::format("its options: {} --help", reached.call());
}

/// An option written in front of the command it belongs to.
Problem option_in_front(const Syntax& program, const Names& words, const std::string& option) {
    for (const std::string& word : words) {
        const std::optional<Syntax> command = command_under(program, word);
        if (!command) continue;
        const std::string text = fmt::format("the option {} is in front of the command", option);
        if (command->has(option))
            return {{}, text, fmt::format("write it behind: caseload {} ... {}", word, option)};
        return {{}, text, hint_for_option(program, {*command, word}, option)};
    }
    return {{},
            fmt::format("unknown option {}", option),
            hint_for_option(program, {program, {}}, option)};
}

bool ends_with(const std::string& word, std::string_view ending) {
    return word.size() > ending.size() &&
           std::string_view(word).substr(word.size() - ending.size()) == ending;
}

std::string hint_for_command(const Syntax& program, const ReachedCommand& reached,
                             const std::string& word) {
    const Names own = commands_under(reached.command);
    if (reached.name.empty()) {
        if (ends_with(word, ".toml")) return fmt::format("caseload assess {}", word);
        if (ends_with(word, ".csv")) return fmt::format("caseload duty {} -o event.toml", word);
    }
    if (word == "help") return reached.call() + " --help";
    for (const Syntax& one : program.commands())
        if (one.name() != reached.name && command_under(one, word))
            return fmt::format("did you mean {} {}?", one.name(), word);
    const std::string near = input::nearest_word(own, word);
    if (!near.empty()) return fmt::format("did you mean {}?", near);
    return fmt::format("commands{} are {}", reached.of_name(), fmt::join(own, ", "));
}

}  // namespace

std::string first_commands() {
    return "caseload: oil temperature, bearing life and service intervals of a transfer case.\n"
           "No command was given. The first four:\n\n"
           "  caseload new my-case.toml       write a setup with ten entries, to be changed in an "
           "editor\n"
           "  caseload assess my-case.toml    how hot the oil gets, what lives how long, what to "
           "do next\n"
           "  caseload complete my-case.toml  everything that was assumed, each value with its "
           "origin\n"
           "  caseload compare my-case.toml --with \"vehicle.mass=2600 kg\"\n"
           "                                  what a change does\n\n"
           "All commands: caseload --help\n";
}

Problem refused_words(const Syntax& program, const std::vector<std::string>& words,
                      const WordsRead& read) {
    const ReachedCommand reached = reached_by(program, words);
    for (std::size_t i = reached.next; i < words.size() && words[i] != "--"; ++i) {
        const std::string option = option_in(reached.command, words[i]);
        if (option.empty() || reached.command.has(option)) continue;
        if (reached.name.empty()) return option_in_front(program, words, option);
        return {{},
                fmt::format("unknown option {}{}", option, reached.of_name()),
                hint_for_option(program, reached, option)};
    }
    const Names under = commands_under(reached.command);
    if (!under.empty() && reached.next < words.size())
        return {{},
                fmt::format("unknown command \"{}\"{}", words[reached.next], reached.of_name()),
                hint_for_command(program, reached, words[reached.next])};
    if (!under.empty())
        return {{},
                fmt::format("{} needs a command of its own", reached.call()),
                fmt::format("commands{} are {}", reached.of_name(), fmt::join(under, ", "))};
    const Names& extra = read.extra;
    if (!extra.empty()) {
        const std::string near =
            input::nearest_word(long_options_of(reached.command), extra.front());
        return {{},
                fmt::format("{}: \"{}\" is one word too many", reached.name, extra.front()),
                near.empty() ? "a name or value with blanks is written in quotes"
                             : fmt::format("did you mean --{}?", near)};
    }
    return {{},
            fmt::format("{}: {}", reached.name, read.why),
            fmt::format("what it takes: {} --help", reached.call())};
}

}  // namespace caseload
