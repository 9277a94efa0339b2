// SPDX-License-Identifier: MIT
// What the words of a command line may be. The library that reads them is included in options.cpp
// alone, as its header takes seconds to compile.
#pragma once

#include <memory>
#include <string>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace caseload {

/// An option of a command, or a word that follows it. Lives as long as its program.
class Option {
public:
    explicit Option(CLI::Option& declared) : declared_(&declared) {}
    Option& required();
    Option& one_of(const std::vector<std::string>& words);
    template <class Number>  // int, std::size_t, double
    Option& within(Number low, Number high);

    Option& repeatable();       ///< one value each time
    Option& names_an_output();  ///< "" is refused: an unset variable of a shell, not a choice
    Option& excludes(const std::vector<std::string>& options);
    Option& needs(const Option& other);
    Option& describe(const std::string& words);
    [[nodiscard]] bool given() const;

private:
    CLI::Option* declared_;
};

/// An option as help prints it.
struct OptionText {
    std::string name;                     ///< with every spelling: "-o,--out"
    std::vector<std::string> long_names;  ///< without dashes
    std::string words;
};

/// A command and what may follow it; commands may have commands. Lives as long as its program.
class Syntax {
public:
    explicit Syntax(CLI::App& declared) : declared_(&declared) {}

    Syntax command(const std::string& name, const std::string& words);
    void needs_command();
    void footer(const std::string& words);
    /// `name` "--draws", "-o,--out", or "SETUP" for a word without a name. `to` takes the value and
    /// must outlive the program.
    template <class Value>  // std::string, a list of it, int, unsigned, std::size_t, double
    Option option(const std::string& name, Value& to, const std::string& words);
    Option flag(const std::string& name, bool& to, const std::string& words);

    [[nodiscard]] bool given() const;
    [[nodiscard]] std::string name() const;
    [[nodiscard]] std::string words() const;
    [[nodiscard]] std::vector<Syntax> commands() const;
    [[nodiscard]] std::vector<OptionText> options() const;
    [[nodiscard]] bool has(const std::string& option) const;  ///< "-o" or "--out"

private:
    CLI::App* declared_;
};

/// How the words of a command line were taken.
struct WordsRead {
    enum class End { read, answered, refused };
    End end = End::read;             ///< answered: help or version was printed
    std::string why;                 ///< refused
    std::vector<std::string> extra;  ///< refused: words that nothing takes
};

/// The program itself: its name, what it is for and its commands.
class Program {
public:
    Program(const std::string& name, const std::string& words, const std::string& version);
    ~Program();
    Program(const Program&) = delete;
    Program& operator=(const Program&) = delete;
    [[nodiscard]] Syntax syntax() const;
    [[nodiscard]] WordsRead read(int argc, char** argv);

private:
    std::unique_ptr<CLI::App> declared_;
};

}  // namespace caseload
