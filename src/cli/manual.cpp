// SPDX-License-Identifier: MIT
// What the package installs beside the program, from the declared commands: manual page,
// completion.
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/version.hpp"

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

std::string options_of(const Syntax& command) {
    std::string out;
    for (const OptionText& option : command.options())
        if (option.long_names != std::vector<std::string>{"help"})
            out += fmt::format(".TP\n.B {}\n{}\n", roff(option.name), roff(option.words));
    return out;
}

void manual_of(const Syntax& command, const std::string& name, std::string& out) {
    out += fmt::format(".SS {}\n{}.\n", roff(name), roff(command.words()));
    out += options_of(command);
    for (const Syntax& under : command.commands()) manual_of(under, name + " " + under.name(), out);
}

std::string manual_page(const Syntax& program) {
    std::string out = fmt::format(
        ".TH CASELOAD 1 \"\" \"{}\" \"User commands\"\n"
        ".SH NAME\ncaseload \\- oil temperature, bearing life and service intervals of a transfer "
        "case\n"
        ".SH SYNOPSIS\n.B caseload\n.I COMMAND\n[options]\n"
        ".SH DESCRIPTION\n{}\n",
        roff(std::string("caseload ") + program_version), roff(program.words()));
    out += ".SH COMMANDS\n";
    for (const Syntax& command : program.commands()) manual_of(command, command.name(), out);
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
void words_of(const Syntax& command, const std::string& name, std::string& out) {
    std::vector<std::string> words;
    for (const Syntax& under : command.commands()) words.push_back(under.name());
    for (const OptionText& option : command.options())
        for (const std::string& longer : option.long_names) words.push_back("--" + longer);
    out += fmt::format("        \"{}\") words=\"{}\" ;;\n", name, fmt::join(words, " "));
    for (const Syntax& under : command.commands())
        words_of(under, name.empty() ? under.name() : name + " " + under.name(), out);
}

/// Bash: words of the command so far, else files.
std::string bash_completion(const Syntax& program) {
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

Command manual_command(Syntax program) {
    Syntax command = program.command("manual", "the manual page: caseload manual > caseload.1");
    const auto completion = std::make_shared<bool>(false);
    command.flag("--completion", *completion, "completion for bash instead");
    return {command, [program, completion] {
                print(*completion ? bash_completion(program) : manual_page(program));
            }};
}

}  // namespace caseload
