// SPDX-License-Identifier: MIT
#include "cli/options.hpp"

#include <CLI/CLI.hpp>

#include <functional>

namespace caseload {
namespace {

/// "" for digits with a sign, point and exponent, as people write numbers; nan, inf and 0x10 are
/// read by the library otherwise, and nan is within every range.
std::string plain_number(const std::string& text) {
    std::size_t at = text.find_first_not_of("+-") == 0 ? 0 : 1;
    const auto digits = [&] {
        const std::size_t from = at;
        while (at < text.size() && text[at] >= '0' && text[at] <= '9') ++at;
        return at - from;
    };
    std::size_t count = digits();
    if (at < text.size() && text[at] == '.') {
        ++at;
        count += digits();
    }
    bool whole = count > 0;
    if (whole && at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
        ++at;
        if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
        whole = digits() > 0;
    }
    return whole && at == text.size()
               ? std::string()
               : "\"" + text + "\" is not a number in digits, such as 0.3 or 255";
}

/// Every number of the command line is written in digits.
void require_plain_numbers(CLI::App& command) {
    for (CLI::Option* option : command.get_options()) {
        const std::string type = option->get_type_name();
        if (type.rfind("INT", 0) == 0 || type.rfind("UINT", 0) == 0 || type.rfind("FLOAT", 0) == 0)
            option->check(plain_number, "");
    }
    const std::function<bool(CLI::App*)> every;
    for (CLI::App* under : command.get_subcommands(every)) require_plain_numbers(*under);
}

}  // namespace

Option& Option::required() {
    declared_->required();
    return *this;
}

Option& Option::one_of(const std::vector<std::string>& words) {
    declared_->check(CLI::IsMember(words));
    return *this;
}

template <class Number>
Option& Option::within(Number low, Number high) {
    declared_->check(CLI::Range(low, high));
    return *this;
}
template Option& Option::within(int, int);
template Option& Option::within(std::size_t, std::size_t);
template Option& Option::within(double, double);

Option& Option::repeatable() {
    declared_->expected(1)->take_all();
    return *this;
}

Option& Option::names_an_output() {
    declared_->check(
        [](const std::string& name) {
            return std::string(name.empty() ? "the name of the file to write is empty" : "");
        },
        "");
    return *this;
}

Option& Option::excludes(const std::vector<std::string>& options) {
    for (const std::string& other : options) declared_->excludes(other);
    return *this;
}

Option& Option::needs(const Option& other) {
    declared_->needs(other.declared_);
    return *this;
}

Option& Option::describe(const std::string& words) {
    declared_->description(words);
    return *this;
}

bool Option::given() const {
    return declared_->count() > 0;
}

Syntax Syntax::command(const std::string& name, const std::string& words) {
    return Syntax(*declared_->add_subcommand(name, words));
}

void Syntax::needs_command() {
    declared_->require_subcommand(1);
}

void Syntax::footer(const std::string& words) {
    declared_->footer(words);
}

template <class Value>
Option Syntax::option(const std::string& name, Value& to, const std::string& words) {
    return Option(*declared_->add_option(name, to, words));
}
using Words = const std::string&;
template Option Syntax::option(Words, std::string&, Words);
template Option Syntax::option(Words, std::vector<std::string>&, Words);
template Option Syntax::option(Words, int&, Words);
template Option Syntax::option(Words, unsigned&, Words);
template Option Syntax::option(Words, std::size_t&, Words);
template Option Syntax::option(Words, double&, Words);

Option Syntax::flag(const std::string& name, bool& to, const std::string& words) {
    return Option(*declared_->add_flag(name, to, words));
}

bool Syntax::given() const {
    return declared_->parsed();
}

std::string Syntax::name() const {
    return declared_->get_name();
}

std::string Syntax::words() const {
    return declared_->get_description();
}

std::vector<Syntax> Syntax::commands() const {
    std::vector<Syntax> all;
    const std::function<bool(CLI::App*)> every;
    for (CLI::App* one : declared_->get_subcommands(every)) all.emplace_back(*one);
    return all;
}

std::vector<OptionText> Syntax::options() const {
    std::vector<OptionText> all;
    for (const CLI::Option* one : declared_->get_options())
        all.push_back({one->get_name(one->get_positional(), true), one->get_lnames(),
                       one->get_description()});
    return all;
}

bool Syntax::has(const std::string& option) const {
    return declared_->get_option_no_throw(option) != nullptr;
}

Program::Program(const std::string& name, const std::string& words, const std::string& version)
    : declared_(std::make_unique<CLI::App>(words)) {
    declared_->name(name);
    declared_->require_subcommand(1);
    declared_->set_version_flag("--version", name + " " + version);
}

Program::~Program() = default;

Syntax Program::syntax() const {
    return Syntax(*declared_);
}

WordsRead Program::read(int argc, char** argv) {
    require_plain_numbers(*declared_);
    try {
        declared_->parse(argc, argv);
        return {};
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) {  // help, version
            declared_->exit(error);
            return {WordsRead::End::answered, {}, {}};
        }
        const bool extra = dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr;
        return {WordsRead::End::refused, error.what(),
                extra ? declared_->remaining(true) : std::vector<std::string>()};
    }
}

}  // namespace caseload
