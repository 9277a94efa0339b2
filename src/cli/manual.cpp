// SPDX-License-Identifier: MIT
// What the package installs beside the program, from the declared commands: manual page,
// completion.
#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {
namespace {

/// Text for roff: no line begins with a control character, hyphens stay hyphens.
std::string roff(std::string_view text) {
    std::string out;
    bool starts = true;
    for (const char c : text) {
        if (starts && (c == '.' || c == '\'')) out += "\\&";
        if (c == '-' || c == '\\') out += '\\';
        out += c == '\\' ? 'e' : c;
        starts = c == '\n';
    }
    return out;
}

std::string options_of(const CLI::App& command) {
    std::string out;
    for (const CLI::Option* option : command.get_options()) {
        if (option->check_lname("help")) continue;
        out +=
            fmt::format(".TP\n.B {}\n{}\n", roff(option->get_name(option->get_positional(), true)),
                        roff(option->get_description()));
    }
    return out;
}

void manual_of(const CLI::App& command, const std::string& name, std::string& out) {
    out += fmt::format(".SS {}\n{}.\n", roff(name), roff(command.get_description()));
    out += options_of(command);
    for (const CLI::App* under : command.get_subcommands({}))
        manual_of(*under, name + " " + under->get_name(), out);
}

std::string manual_page(const CLI::App& program) {
    std::string out = fmt::format(
        ".TH CASELOAD 1 \"\" \"{}\" \"User commands\"\n"
        ".SH NAME\ncaseload \\- oil temperature, bearing life and service intervals of a transfer "
        "case\n"
        ".SH SYNOPSIS\n.B caseload\n.I COMMAND\n[options]\n"
        ".SH DESCRIPTION\n{}\n",
        roff(program.version()), roff(program.get_description()));
    out += ".SH COMMANDS\n";
    for (const CLI::App* command : program.get_subcommands({}))
        manual_of(*command, command->get_name(), out);
    return out +
           ".SH EXIT STATUS\n0: answered.\n.br\n"
           "1: evidence found a figure that is not met, or book replay an event that "
           "differs.\n.br\n"
           "2: the setup, log, book or command line is at fault, or no command was given; the "
           "message says file, line, key and what is accepted.\n.br\n"
           "3: outside the range of a formula.\n.br\n4: no solution found.\n.br\n"
           "5: a file cannot be read or written.\n.br\n"
           "70: a bug in caseload.\n.br\n"
           "71: the system gives no more memory. Threads that it does not start are done without.\n"
           ".SH SEE ALSO\nEvery key of a setup file: \\fBcaseload keys\\fR\n";
}

/// Every command with the words that may follow it.
void words_of(const CLI::App& command, const std::string& name, std::string& out) {
    std::vector<std::string> words;
    for (const CLI::App* under : command.get_subcommands({})) words.push_back(under->get_name());
    for (const CLI::Option* option : command.get_options())
        for (const std::string& longer : option->get_lnames()) words.push_back("--" + longer);
    out += fmt::format("        \"{}\") words=\"{}\" ;;\n", name, fmt::join(words, " "));
    for (const CLI::App* under : command.get_subcommands({}))
        words_of(*under, name.empty() ? under->get_name() : name + " " + under->get_name(), out);
}

/// Bash: words of the command so far, else files.
std::string bash_completion(const CLI::App& program) {
    std::string cases;
    words_of(program, "", cases);
    return "_caseload() {\n"
           "    local at=${COMP_WORDS[COMP_CWORD]} command= words= word\n"
           "    for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
           "        [[ $word =~ ^[a-z]+$ ]] || break\n"
           "        command+=${command:+ }$word\n"
           "    done\n"
           "    case $command in\n" +
           cases +
           "    esac\n"
           "    COMPREPLY=($(compgen -W \"$words\" -- \"$at\"))\n"
           "    [[ -n $command && $at != -* ]] && COMPREPLY+=($(compgen -f -- \"$at\"))\n"
           "    return 0\n"
           "}\n"
           "complete -o filenames -F _caseload caseload\n";
}

}  // namespace

Command manual_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("manual", "the manual page: caseload manual > caseload.1");
    const auto completion = std::make_shared<bool>(false);
    command->add_flag("--completion", *completion, "completion for bash instead");
    return {command, [&program, completion] {
                print(*completion ? bash_completion(program) : manual_page(program));
            }};
}

}  // namespace caseload
