// SPDX-License-Identifier: MIT
#include "caseload/show/why.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <memory>
#include <set>

namespace caseload {
namespace {

struct WhyArguments {
    std::string setup;
    std::string address;
    bool list = false;
    bool check = false;
    bool json = false;
    std::string formulas;
};

constexpr int our_bug = 70;

/// The kind of a number, whatever its part and leg: "bearing.kappa".
std::string kind_of(const Number& number) {
    return number.part.substr(0, number.part.find('.')) + "." + number.member;
}

/// Names in lines of a screen; nothing for none.
std::string named(std::string out, const std::set<std::string>& names) {
    if (names.empty()) return {};
    std::size_t column = 0;
    for (const std::string& name : names) {
        if (out.size() + name.size() + 1 > column + 80) {
            out += "\n ";
            column = out.size();
        }
        out += " " + name;
    }
    return out + "\n";
}

/// Every printed formula recalculated; counts, and what does not agree or has none.
int check(const Reasons& reasons) {
    int calculated = 0;
    int with_formula = 0;
    int wrong = 0;
    int steps = 0;
    int bounded = 0;
    std::set<std::string> rows_with_formula;
    std::set<std::string> only_bounded;
    std::set<std::string> without;
    std::string out;
    for (const Number& number : reasons.all()) {
        if (!is_calculated(number.how) || !number.origin.empty()) continue;
        const auto again = recalculate(why_screen(reasons.why(number.address)));
        if (number.is_intermediate) {
            ++steps;
        } else {
            ++calculated;
            const bool value = again && !again->bounded;
            if (again && again->bounded) ++bounded;
            if (again && again->bounded) only_bounded.insert(kind_of(number));
            if (!again) without.insert(kind_of(number));
            if (value) ++with_formula;
            if (value && !number.row.empty()) rows_with_formula.insert(number.row);
        }
        if (!again || again->agrees) continue;
        ++wrong;
        out += fmt::format("{}: printed {:.12g}, recalculated {:.12g}, digits explain {:.1g}\n",
                           number.address, again->printed, again->again, again->allowed);
    }
    const AnswerRows rows = answer_rows();
    out += fmt::format(
        "{} calculated numbers have an address, {} of them a formula to recalculate, {} bounds; "
        "{} do not agree\n{} steps between are calculated by the same formulas alone and count in "
        "neither\n"
        "{} of the {} calculated rows of tables/quantities.toml that are numbers of an assessment "
        "have one\n({} calculated rows in all: {} are groups of such numbers, {} answer other "
        "questions)\n",
        calculated, with_formula, bounded, wrong, steps, rows_with_formula.size(),
        rows.numbers.size(), rows.calculated, rows.groups.size(),
        rows.calculated - static_cast<int>(rows.numbers.size() + rows.groups.size()));
    std::set<std::string> rows_without;
    std::set_difference(rows.numbers.begin(), rows.numbers.end(), rows_with_formula.begin(),
                        rows_with_formula.end(), std::inserter(rows_without, rows_without.end()));
    print(out + named("rows without one here:", rows_without) +
          named("followed in time, within bounds only:", only_bounded) +
          named("no formula and no bounds:", without));
    return wrong == 0 ? 0 : our_bug;
}

int run_why(const WhyArguments& arguments) {
    const ReadSetup read = read_document(arguments.setup).complete();
    const Assessment answer = assess(read.setup);
    const Reasons reasons =
        arguments.formulas.empty()
            ? Reasons(read, answer)
            : Reasons(read, answer, whole_text_of(arguments.formulas, setup_bytes - 1));
    if (arguments.check) return check(reasons);
    if (arguments.list) {
        print(arguments.json ? why_list_json(reasons, read.setup.name) : why_list(reasons));
        return 0;
    }
    const auto show = [&](const std::string& address, const std::string& before) {
        const Why why = reasons.why(address);
        print(arguments.json ? why_json(why) : why_answer(before, why));
    };
    if (!arguments.address.empty()) {
        show(arguments.address, "");
        return 0;
    }
    const Deciding& deciding = reasons.deciding();
    if (deciding.address.empty())
        refuse_input(
            (deciding.words.empty() ? "nothing is driven:" : deciding.words + " For more,") +
            " name an address, see --list");
    show(deciding.address, deciding.words + "\n");
    return 0;
}

}  // namespace

Command why_command(Syntax program) {
    Syntax command = program.command("why", "one number, its formula and what goes into it");
    const auto arguments = std::make_shared<WhyArguments>();
    const auto code = std::make_shared<int>(0);
    command.option("SETUP", arguments->setup, "setup file").required();
    command.option("ADDRESS", arguments->address,
                   "the number, see --list; else what decides the verdict");
    command.flag("--list", arguments->list, "every address");
    const Option check =
        command.flag("--check", arguments->check,
                     "recalculate every printed formula; 70: one does not agree, our bug");
    command
        .option("--formulas", arguments->formulas,
                "with --check: a changed copy of tables/why.toml, to try it")
        .needs(check);
    command.flag("--json", arguments->json, "one JSON document").excludes({"--check"});
    return {command, [arguments, code] { *code = run_why(*arguments); }, code};
}

}  // namespace caseload
