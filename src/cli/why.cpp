// SPDX-License-Identifier: MIT
#include "caseload/show/why.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <memory>
#include <set>
#include <string>

namespace caseload {
namespace {

struct WhyArguments {
    std::string setup;
    std::string address;
    bool list = false;
    bool check = false;
};

constexpr int our_bug = 70;

/// The kind of a number, whatever its part and leg: "bearing.kappa".
std::string kind_of(const Number& number) {
    return number.part.substr(0, number.part.find('.')) + "." + number.member;
}

bool is_calculated(const std::string& how) {
    return how != "entered" && how != "words";
}

/// Every printed formula put in again; counts, and what does not agree or has none.
int check(const Reasons& reasons) {
    int calculated = 0;
    int told = 0;
    int wrong = 0;
    int steps = 0;
    std::set<std::string> rows_told;
    std::set<std::string> without;
    std::string out;
    for (const Number& number : reasons.all()) {
        if (!is_calculated(number.how) || !number.origin.empty()) continue;
        const auto again = put_in_again(why_screen(reasons.why(number.address)));
        if (number.by_table) {
            ++steps;
        } else {
            ++calculated;
            if (!again) without.insert(kind_of(number));
            if (again) ++told;
            if (again && !number.row.empty()) rows_told.insert(number.row);
        }
        if (!again || again->agrees) continue;
        ++wrong;
        out += fmt::format("{}: printed {:.12g}, put in again {:.12g}, digits explain {:.1g}\n",
                           number.address, again->printed, again->again, again->allowed);
    }
    int rows = 0;
    for (const Quantity& row : quantities())
        if (is_calculated(row.how)) ++rows;
    out += fmt::format(
        "{} calculated numbers have an address, {} of them a formula to put in again; {} do not "
        "agree\n{} steps between are calculated by the same formulas alone and count in neither\n"
        "{} of the {} calculated rows of tables/quantities.toml have a formula here\n",
        calculated, told, wrong, steps, rows_told.size(), rows);
    out += "no formula here yet:";
    std::size_t column = out.size();
    for (const std::string& name : without) {
        if (out.size() + name.size() + 1 > column + 80) {
            out += "\n ";
            column = out.size();
        }
        out += " " + name;
    }
    print(out + "\n");
    return wrong == 0 ? 0 : our_bug;
}

int run_why(const WhyArguments& arguments) {
    const ReadSetup read = read_document(arguments.setup).complete();
    const Assessment answer = assess(read.setup);
    const Reasons reasons(read, answer);
    if (arguments.check) return check(reasons);
    if (arguments.list) {
        std::string out;
        for (const Number& number : reasons.all())
            out += fmt::format("{:<44} {}\n", number.address, number.words);
        print(out);
        return 0;
    }
    if (!arguments.address.empty()) {
        print(why_screen(reasons.why(arguments.address)));
        return 0;
    }
    if (!answer.stopped_by.empty())
        print("Stopped by " + answer.stopped_by + "\nChecks have no address; of the heat:\n");
    if (reasons.deciding().empty())
        throw Error(Error::Kind::input, "nothing is driven: name an address, see --list");
    print(why_screen(reasons.why(reasons.deciding())));
    return 0;
}

}  // namespace

Command why_command(CLI::App& program) {
    auto* command = program.add_subcommand("why", "one number, its formula and what goes into it");
    const auto arguments = std::make_shared<WhyArguments>();
    const auto code = std::make_shared<int>(0);
    command->add_option("SETUP", arguments->setup, "setup file")->required();
    command->add_option("ADDRESS", arguments->address,
                        "the number, see --list; else the oil of the hottest leg");
    command->add_flag("--list", arguments->list, "every address");
    command->add_flag("--check", arguments->check,
                      "put every printed formula in again; 70: one does not agree, our bug");
    return {command, [arguments, code] { *code = run_why(*arguments); }, code};
}

}  // namespace caseload
